import type { BoatSpec, Crew } from "../boat/index.ts";
import type { Position } from "../earth/index.ts";
import type { Gate, Lane, StatedAnchorage, StatedDepth } from "../places/index.ts";
import type { StatedSwell } from "../sea/index.ts";
import type { EpochSeconds } from "../units/index.ts";
import type { StatedStream, StatedTide, StreamSketch } from "../water/index.ts";
import type { RangedPeriod, SeaPeriod, WindPeriod } from "../weather/index.ts";
import type { ChanceErrors, Limit } from "../window/index.ts";
import type { Anchorage } from "./anchorage.ts";
import type { LandSources } from "./land-sources.ts";
import type { StatedRefuges } from "./refuge.ts";
import type { StagingPoint } from "./staging-point.ts";

export interface NamedPlace {
  readonly name: string;
  readonly position: Position;
}

/** A fixed track at a speed over the ground, in or out of harbour. For `pilotageOut` the berth is first; for `pilotageIn` last. */
export interface PilotageLeg {
  readonly speedOverGroundMps: number;
  readonly points: readonly Position[];
}

/**
 * Files the passage names, relative to the passage file, that make one source together; in the last part of a name `*` stands for any
 * letters. Read by whoever opens the passage.
 */
export interface FilesSource {
  readonly kind: "files";
  readonly files: readonly string[];
}

/** A source of current by itself. */
export type LoneWaterSource =
  | FilesSource
  | { readonly kind: "sketch"; readonly sketch: StreamSketch }
  | { readonly kind: "uniform"; readonly setDegTrue: number; readonly rateMps: number }
  /** Those of the passage's streams, by name; null: all that have a radius. */
  | { readonly kind: "streams"; readonly names: readonly string[] | null };

export type WaterSource =
  | LoneWaterSource
  /** Added together, as an ocean stream without a tide and the tidal streams are. */
  | { readonly kind: "sum"; readonly parts: readonly LoneWaterSource[] };

export type WeatherSource =
  | FilesSource
  | {
      readonly kind: "letter";
      readonly file: string;
      /** The zone, issue time and struck-out lines that the passage file states for the letter, as typed; null where it states none. */
      readonly zone: string | null;
      readonly issued: string | null;
      readonly strikeOutLines: readonly number[];
    }
  | {
      readonly kind: "periods";
      readonly wind: readonly WindPeriod[];
      readonly sea: readonly SeaPeriod[];
      /** Metres; left out: none. */
      readonly visibility?: readonly RangedPeriod[];
      /** The chance of thunderstorms, 0 to 1; left out: none. */
      readonly thunderstorms?: readonly RangedPeriod[];
    };

/** What to do where no source says what the water does. */
export type WhereCurrentUnknown =
  | { readonly kind: "refuse" }
  | { readonly kind: "still" }
  | { readonly kind: "nearest"; readonly withinMetres: number };

/** A whole crossing as the skipper states it, SI and UTC; derived from the passage file, which stays as typed. */
export interface Passage {
  readonly name: string;
  readonly invented: boolean;
  /** IANA names or `UTC±h[:mm]`. */
  readonly shipZone: string;
  readonly arrivalZone: string;
  readonly boat: BoatSpec;
  readonly from: NamedPlace;
  readonly to: NamedPlace;
  readonly pilotageOut: PilotageLeg | null;
  readonly pilotageIn: PilotageLeg | null;
  /** The course of the way in where it is read by eye; left out or null: that of the leg into harbour. */
  readonly approachDegTrue?: number | null;
  readonly whereCurrentUnknown: WhereCurrentUnknown;
  readonly waterSources: readonly WaterSource[];
  /** Tides by name, for gates and streams; stations that ship are filled in by whoever opens the passage. Left out: none. */
  readonly tides?: readonly StatedTide[];
  /** Tidal streams by name; left out: none. */
  readonly streams?: readonly StatedStream[];
  readonly gustFactor: number;
  readonly weatherSources: readonly WeatherSource[];
  /** What swell runs where no source gives a sea: "none" comes in, or as stated; left out or null: not known. */
  readonly swell?: StatedSwell | "none" | null;
  readonly limits: readonly Limit[];
  /** Left out or null: not stated. */
  readonly crew?: Crew | null;
  /** Shallows on the way out of harbour and in; left out: none is stated. */
  readonly depths?: readonly StatedDepth[];
  readonly leaveFrom: EpochSeconds | null;
  readonly leaveUntil: EpochSeconds | null;
  /** Left out: no land is reckoned. */
  readonly land?: LandSources;
  /** Left out: where one leaves from and goes to, and no others. */
  readonly refuges?: StatedRefuges;
  /** Traffic separation lanes on the way; left out: none. */
  readonly lanes?: readonly Lane[];
  /** What opens and shuts on the way, out of harbour and in; left out: nothing. */
  readonly gates?: readonly Gate[];
  /** What the skipper states of how far things may turn out otherwise; the rest is `CHANCE_DEFAULTS`. */
  readonly chance?: Partial<ChanceErrors>;
  /** Where the boat lies after arrival; left out or null: not stated. */
  readonly anchorage?: Anchorage | null;
  /** Places to anchor for the nights before and after, to be compared; left out: none. */
  readonly anchorages?: readonly StatedAnchorage[];
  /** Other places to leave open water from; left out: only `from`. */
  readonly staging?: readonly StagingPoint[];
}

/** Every name of a file that its sources of water and weather name, as typed, `*` and all. */
export function sourceFilesOf({ waterSources, weatherSources }: Pick<Passage, "waterSources" | "weatherSources">): readonly string[] {
  const parts = waterSources.flatMap((source) => (source.kind === "sum" ? source.parts : [source]));
  return [...parts, ...weatherSources].flatMap((source) =>
    source.kind === "files" ? source.files : source.kind === "letter" ? [source.file] : [],
  );
}

/** All the places that a passage names, in no order of importance: its ends, the points of its harbour legs, the refuges, and where it may be staged. */
export function placesOf({ from, to, pilotageOut, pilotageIn, refuges, staging, anchorage, anchorages }: Passage): readonly Position[] {
  const listed = (refuges?.listed ?? []).map((refuge) => refuge.position);
  const staged = (staging ?? []).flatMap(({ position, reached }) => [position, ...(reached.kind === "along" ? reached.points : [])]);
  return [
    from.position,
    to.position,
    ...(pilotageOut?.points ?? []),
    ...(pilotageIn?.points ?? []),
    ...listed,
    ...staged,
    ...(anchorage == null ? [] : [anchorage.position]),
    ...(anchorages ?? []).map(({ position }) => position),
  ];
}

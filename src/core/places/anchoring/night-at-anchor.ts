import type { NoAnswer } from "../../answers/index.ts";
import type { LookAtAnchor } from "./look-at-anchor.ts";
import { type RodeForNight, rodeForNight } from "./rode-for-night.ts";
import { GREATEST_LEAD_DEG } from "./rode-pull.ts";
import type { BoatAtAnchor, StatedAnchorage } from "./stated-anchorage.ts";
import type { DepthThen } from "./water-at-anchor.ts";

/** Why she can't lie somewhere for a night, the worst of each kind. Metres, m/s, seconds. */
export type AnchorFault =
  | { readonly kind: "depth"; readonly at: number; readonly underKeelMetres: number; readonly leastMetres: number }
  | { readonly kind: "swing"; readonly swingMetres: number; readonly roomMetres: number }
  /**
   * The rode leads too steep from the anchor in the strongest gust, or doesn't reach the bottom (`leadDeg` null), and more of it does not
   * serve: there is no more, or no room for its circle.
   */
  | { readonly kind: "lift"; readonly leadDeg: number | null; readonly gustMps: number; readonly levelMetres: number | null }
  | { readonly kind: "wind" | "gust"; readonly at: number; readonly mps: number; readonly neverMps: number }
  | { readonly kind: "sea"; readonly at: number; readonly metres: number; readonly neverMetres: number };

/** What could not be judged, so that nobody may say that the place holds. */
export type NotJudged =
  | { readonly kind: "weather"; readonly why: NoAnswer }
  /** Neither the coastline nor the skipper says what lies up-wind; or it lies open and no forecast tells the sea outside. */
  | { readonly kind: "shelter" | "seaOutside"; readonly at: number }
  /** Not stated in the passage file, or a tide above a datum that charts are not drawn to. */
  | { readonly kind: "notStated"; readonly what: "depth" | "tide" | "draught" }
  | { readonly kind: "datum"; readonly tide: string; readonly datum: string };

/** What the passage file leaves out that would have told more; it stands in nobody's way. */
export type LeftOut = "length" | "bowHeight" | "groundTackle" | "room" | "loadTable";

/** The least water, and the worst of wind and sea, over a night. Null: not known at all. */
export interface WorstOfNight {
  readonly water: {
    readonly at: number;
    readonly depthMetres: number;
    readonly underKeelMetres: number;
    readonly wavesMetres: number | null;
  } | null;
  readonly sea: Extract<LookAtAnchor, { kind: "known" }> | null;
  readonly gust: Extract<LookAtAnchor, { kind: "known" }> | null;
  /** The highest sea outside that may come in as swell; null: none. */
  readonly outside: { readonly at: number; readonly metres: number } | null;
}

/** One anchorage for one night. */
export interface NightAtAnchor {
  readonly anchorage: StatedAnchorage;
  readonly looks: readonly LookAtAnchor[];
  readonly depths: { readonly least: DepthThen; readonly greatest: DepthThen } | null;
  readonly rode: RodeForNight | null;
  readonly worst: WorstOfNight;
  readonly verdict: "holds" | "notJudged" | "untenable";
  readonly faults: readonly AnchorFault[];
  readonly notJudged: readonly NotJudged[];
  readonly leftOut: readonly LeftOut[];
}

/** Judges a night by its looks, of which there is at least one. `wants`: why the depth could not be judged; empty where it was. */
export function nightAtAnchor(
  anchorage: StatedAnchorage,
  boat: BoatAtAnchor,
  looks: readonly LookAtAnchor[],
  depths: NightAtAnchor["depths"],
  wants: readonly NotJudged[],
): NightAtAnchor {
  if (looks.length === 0) throw new Error(`a night at ${anchorage.name} without a look`);
  const worst = worstOf(looks);
  const gustMps = worst.gust?.gustMps ?? null;
  const rode = depths === null ? null : rodeForNight(anchorage, boat, depths.least.depthMetres, depths.greatest.depthMetres, gustMps);
  const faults = [...waterFaults(anchorage, worst), ...weatherFaults(anchorage, looks), ...rodeFaults(anchorage, rode)];
  const notJudged = [...wants, ...notKnown(looks)];
  const verdict = faults.length > 0 ? "untenable" : notJudged.length > 0 ? "notJudged" : "holds";
  return { anchorage, looks, depths, rode, worst, verdict, faults, notJudged, leftOut: leftOutOf(anchorage, boat, rode) };
}

type KnownLook = Extract<LookAtAnchor, { kind: "known" }>;

const isKnown = (look: LookAtAnchor): look is KnownLook => look.kind === "known";

function worstOf(looks: readonly LookAtAnchor[]): WorstOfNight {
  const known = looks.filter(isKnown);
  const most = <T>(list: readonly T[], by: (one: T) => number): T | null =>
    list.reduce<T | null>((best, one) => (best === null || by(one) > by(best) ? one : best), null);
  const height = ({ sea }: KnownLook): number => (sea.kind === "unknown" ? Number.NEGATIVE_INFINITY : sea.heightMetres);
  const shallow = most(
    looks.filter(({ water }) => water !== null),
    ({ water }) => -(water?.underKeelMetres ?? Number.POSITIVE_INFINITY),
  );
  const swell = most(
    known.filter(({ outsideMetres }) => outsideMetres !== null),
    ({ outsideMetres }) => outsideMetres ?? 0,
  );
  return {
    water: shallow?.water == null ? null : { at: shallow.at, ...shallow.water },
    sea: most(
      known.filter(({ sea }) => sea.kind !== "unknown"),
      height,
    ),
    gust: most(known, ({ gustMps }) => gustMps),
    outside: swell?.outsideMetres == null ? null : { at: swell.at, metres: swell.outsideMetres },
  };
}

function waterFaults({ underKeelMetres: leastMetres }: StatedAnchorage, { water }: WorstOfNight): readonly AnchorFault[] {
  if (water === null || water.underKeelMetres >= leastMetres) return [];
  return [{ kind: "depth", at: water.at, underKeelMetres: water.underKeelMetres, leastMetres }];
}

function rodeFaults({ roomMetres }: StatedAnchorage, rode: RodeForNight | null): readonly AnchorFault[] {
  if (rode === null) return [];
  const faults: AnchorFault[] = [];
  const swing = rode.swingLowMetres;
  if (roomMetres !== null && swing !== null && swing > roomMetres) faults.push({ kind: "swing", swingMetres: swing, roomMetres });
  if (rode.pull !== null) {
    const { pull, gustMps, levelMetres } = rode.pull;
    const leadDeg = pull.kind === "short" ? null : pull.leadDeg;
    const steep = leadDeg === null || leadDeg > GREATEST_LEAD_DEG;
    // More rode is no fault of the place, as long as there is so much of it and room for the circle.
    const { neededMetres, neededSwingMetres } = rode;
    const cured = neededMetres !== null && (roomMetres === null || neededSwingMetres === null || neededSwingMetres <= roomMetres);
    if (steep && !cured) faults.push({ kind: "lift", leadDeg, gustMps, levelMetres });
  }
  return faults;
}

function weatherFaults(anchorage: StatedAnchorage, looks: readonly LookAtAnchor[]): readonly AnchorFault[] {
  const { neverWindMps, neverGustMps, neverSeaMetres } = anchorage;
  const worst = new Map<AnchorFault["kind"], { readonly fault: AnchorFault; readonly value: number }>();
  const note = (fault: AnchorFault, value: number): void => {
    if (value > (worst.get(fault.kind)?.value ?? Number.NEGATIVE_INFINITY)) worst.set(fault.kind, { fault, value });
  };
  for (const { at, wind, gustMps, sea } of looks.filter(isKnown)) {
    if (neverWindMps !== null && wind.windMps > neverWindMps)
      note({ kind: "wind", at, mps: wind.windMps, neverMps: neverWindMps }, wind.windMps);
    if (neverGustMps !== null && gustMps > neverGustMps) note({ kind: "gust", at, mps: gustMps, neverMps: neverGustMps }, gustMps);
    if (neverSeaMetres !== null && sea.kind !== "unknown" && sea.heightMetres > neverSeaMetres)
      note({ kind: "sea", at, metres: sea.heightMetres, neverMetres: neverSeaMetres }, sea.heightMetres);
  }
  return [...worst.values()].map(({ fault }) => fault);
}

/** The first of each kind that is not known. */
function notKnown(looks: readonly LookAtAnchor[]): readonly NotJudged[] {
  const found: NotJudged[] = [];
  const weather = looks.find((look) => look.kind === "unknown");
  if (weather !== undefined) found.push({ kind: "weather", why: weather.why });
  const shelter = looks.filter(isKnown).find(({ sea }) => sea.kind === "unknown");
  if (shelter !== undefined) found.push({ kind: "shelter", at: shelter.at });
  const open = looks.filter(isKnown).find(({ sea }) => sea.kind === "atLeast");
  if (open !== undefined) found.push({ kind: "seaOutside", at: open.at });
  return found;
}

function leftOutOf({ roomMetres }: StatedAnchorage, boat: BoatAtAnchor, rode: RodeForNight | null): readonly LeftOut[] {
  const left: LeftOut[] = [];
  if (boat.lengthOverallMetres === null) left.push("length");
  if (boat.bowHeightMetres === null) left.push("bowHeight");
  if (boat.groundTackle === null) left.push("groundTackle");
  if (roomMetres === null) left.push("room");
  const stated = boat.lengthOverallMetres !== null && boat.groundTackle !== null;
  if (stated && rode?.pull === null) left.push("loadTable");
  return left;
}

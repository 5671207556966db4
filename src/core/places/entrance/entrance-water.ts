import type { Position } from "../../earth/index.ts";
import type { Motion } from "../../units/index.ts";
import type { Tide } from "../../water/index.ts";
import type { SeaSampler, WindSampler } from "../../weather/index.ts";
import type { Entrance, EntranceLack } from "./entrance.ts";

/** What an entrance asks of a stream; a `TidalStream` is one. Rates along the cut in m/s, flood positive. */
export interface StreamInCut {
  readonly ebbTowardDegTrue: number;
  alongAt(at: number): number;
  /** The whole stream, true. */
  vectorAt(at: number): Motion;
  /** Slacks and greatest rates in [from, until), in order of time. */
  turns(from: number, until: number): readonly { readonly kind: string; readonly at: number }[];
}

/** The tides, streams and weather of a passage, as entrances ask for them. */
export interface EntranceSurroundings {
  /** Null where the passage has none of that name: a fault of whoever read it. */
  tideNamed(name: string): Tide | null;
  streamNamed(name: string): StreamInCut | null;
  /** Null: no source gives any. */
  readonly sea: SeaSampler | null;
  readonly wind: WindSampler | null;
  readonly seaCovers: CoveredTime | null;
  readonly windCovers: CoveredTime | null;
}

export interface CoveredTime {
  readonly from: number;
  readonly until: number;
}

/** Where an entrance lies, and where off it the forecast is read, metres on the passage's plane: the open water before it. */
export interface EntrancePlace {
  readonly where: Position;
  readonly offX: number;
  readonly offY: number;
}

/** The tide and the stream that an entrance names, found; throws where they can't be, since a passage is read with all its names. */
export function namedWater(
  entrance: Entrance,
  around: EntranceSurroundings,
): { readonly tide: Tide | null; readonly stream: StreamInCut | null } {
  const { depth, stream } = entrance;
  const tide = depth === null ? null : around.tideNamed(depth.tide);
  const found = stream === null ? null : around.streamNamed(stream.of);
  if (depth !== null && tide === null) throw new Error(`no tide called ${depth.tide}`);
  if (stream !== null && found === null) throw new Error(`no stream called ${stream.of}`);
  return { tide, stream: found };
}

/** What of an entrance depends on the forecast, and from when to when that is given; null where none of it does. */
export function forecastSpan(entrance: Entrance, around: EntranceSurroundings): CoveredTime | null {
  const spans = forecastNeeds(entrance).flatMap((lack) => (lack === "sea" ? around.seaCovers : around.windCovers) ?? []);
  if (spans.length === 0) return null;
  return { from: Math.max(...spans.map((one) => one.from)), until: Math.min(...spans.map((one) => one.until)) };
}

function forecastNeeds({ sea, windAgainstEbbNeverMps2 }: Entrance): readonly Extract<EntranceLack, "sea" | "wind">[] {
  const needsWind = windAgainstEbbNeverMps2 !== null || sea?.fetchMetres != null;
  return [...(sea !== null ? (["sea"] as const) : []), ...(needsWind ? (["wind"] as const) : [])];
}

import type { Position } from "../earth/index.ts";
import { COVERED } from "../fields/index.ts";
import type { Crossing, WayArrives } from "../passage/index.ts";
import { alongOf, placeAt } from "../passage/index.ts";
import { mpsFromKnots } from "../units/index.ts";
import { WIND_SLOTS, type WindSampler } from "../weather/index.ts";
import { OPEN_WATER, type PassageNodes } from "./passage-nodes.ts";
import { type Range, windAgainstRangeOf } from "./wind-felt.ts";

/** Wind against the set from which a sea is raised that takes time to lie down, m/s: ten knots (common practice). */
export const RAISES_A_SEA_MPS = mpsFromKnots(10);
/** How often one looks back at the wind, seconds: hourly, as forecasts give it at the finest. */
export const LOOK_BACK_EVERY_SECONDS = 3600;
/** How far one looks back at most, seconds: no sea stands for ten days (common practice). */
export const LONGEST_LOOK_BACK_SECONDS = 10 * 86400;

/** How long before the boat crosses the axis the wind last blew against the stream there. */
export type SinceAgainst =
  | { readonly kind: "blew"; readonly seconds: number }
  /** Not once as far back as the forecast reaches. */
  | { readonly kind: "notSince"; readonly seconds: number };

/** A look back: what was seen, from when and where, and from when on the wind is known. */
export interface LookedBack {
  /** Null where nothing is known there. */
  readonly since: SinceAgainst | null;
  readonly at: number;
  readonly where: Position;
  readonly coveredFrom: number;
}

/** Looks back hour by hour at the place and from the moment at which a way crosses the axis; null where nothing is known there. */
export function sinceWindAgainst(crossing: Crossing, way: WayArrives, wind: WindSampler, windFrom: number): SinceAgainst | null {
  return lookedBackOnWay(crossing, way, wind, windFrom).since;
}

/** The same with where and when it was looked from. */
export function lookedBackOnWay(crossing: Crossing, way: WayArrives, wind: WindSampler, windFrom: number): LookedBack {
  return lookBack(crossing, placeAt(way.track, way.axis.at), way.axis.at, wind, windFrom);
}

/**
 * The same for the passage as she went it otherwise than planned, from when she is abreast of the way's axis, at the place where the
 * planned look was taken: only the hours since then are looked at anew.
 */
export function lookedBackLater(
  crossing: Crossing,
  way: WayArrives,
  planned: LookedBack,
  nodes: PassageNodes,
  wind: WindSampler,
): LookedBack {
  const at = abreastAt(nodes, crossing, way.axis.alongMetres);
  const later = at - planned.at;
  if (later < 0) return lookedBackOnWay(crossing, way, wind, planned.coveredFrom);
  if (planned.since === null) return { ...planned, at };
  const { xMetres, yMetres } = placeAt(way.track, way.axis.at);
  const { since } = lookBack(crossing, { xMetres, yMetres }, at, wind, planned.at + 1);
  const blewSince = since?.kind === "blew" ? since : { kind: planned.since.kind, seconds: planned.since.seconds + later };
  return { ...planned, since: blewSince, at };
}

/** When a passage first comes so far along the line, by straight lines between its nodes; the end of its open water if never. */
function abreastAt({ part, count, atSeconds, xMetres, yMetres }: PassageNodes, { line }: Crossing, alongMetres: number): number {
  let before = -1;
  for (let i = 0; i < count; i++) {
    if (part[i] !== OPEN_WATER) continue;
    const at = atSeconds[i] as number;
    const along = alongOf(line, xMetres[i] as number, yMetres[i] as number);
    if (along >= alongMetres) {
      if (before < 0) return at;
      const from = alongOf(line, xMetres[before] as number, yMetres[before] as number);
      const earlier = atSeconds[before] as number;
      return earlier + ((alongMetres - from) / (along - from)) * (at - earlier);
    }
    before = i;
  }
  return atSeconds[before] as number;
}

function lookBack(
  crossing: Crossing,
  { xMetres, yMetres }: { readonly xMetres: number; readonly yMetres: number },
  from: number,
  wind: WindSampler,
  windFrom: number,
): LookedBack {
  const where = crossing.line.plane.toPosition(xMetres, yMetres);
  const convergenceDeg = crossing.line.plane.convergenceDegAt(xMetres, yMetres);
  const reading = new Float64Array(WIND_SLOTS);
  const current = new Float64Array(2);
  const range: Range = { low: 0, high: 0 };
  let known = -1;
  for (let seconds = 0; from - seconds >= windFrom && seconds <= LONGEST_LOOK_BACK_SECONDS; seconds += LOOK_BACK_EVERY_SECONDS) {
    const at = from - seconds;
    if (wind.readInto(reading, xMetres, yMetres, at) !== COVERED) break;
    if (crossing.around.current.sampleInto(current, xMetres, yMetres, at) !== COVERED) break;
    known = seconds;
    const rate = Math.hypot(current[0] as number, current[1] as number);
    windAgainstRangeOf(reading, current[0] as number, current[1] as number, convergenceDeg, range);
    if (rate > 0 && range.high / rate >= RAISES_A_SEA_MPS) return { since: { kind: "blew", seconds }, at: from, where, coveredFrom: at };
  }
  if (known < 0) return { since: null, at: from, where, coveredFrom: windFrom };
  const reached = from - known;
  // Within an hour of the forecast's beginning it is that which ends the look back.
  const coveredFrom = reached - windFrom < LOOK_BACK_EVERY_SECONDS ? windFrom : reached;
  return { since: { kind: "notSince", seconds: known }, at: from, where, coveredFrom };
}

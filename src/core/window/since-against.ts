import { COVERED } from "../fields/index.ts";
import type { Crossing, WayArrives } from "../passage/index.ts";
import { placeAt } from "../passage/index.ts";
import { mpsFromKnots } from "../units/index.ts";
import { WIND_SLOTS, type WindSampler } from "../weather/index.ts";
import { type Range, windAgainstRangeOf } from "./wind-felt.ts";

/** Wind against the set from which a sea is raised that takes time to lie down, m/s: ten knots (common practice). */
export const RAISES_A_SEA_MPS = mpsFromKnots(10);

/** How long before the boat crosses the axis the wind last blew against the stream there. */
export type SinceAgainst =
  | { readonly kind: "blew"; readonly seconds: number }
  /** Not once as far back as the forecast reaches. */
  | { readonly kind: "notSince"; readonly seconds: number };

/** Looks back hour by hour at the place and from the moment at which a way crosses the axis; null where nothing is known there. */
export function sinceWindAgainst(crossing: Crossing, way: WayArrives, wind: WindSampler, windFrom: number): SinceAgainst | null {
  const { plane } = crossing.line;
  const { xMetres, yMetres } = placeAt(way.track, way.axis.at);
  const convergenceDeg = plane.convergenceDegAt(xMetres, yMetres);
  const reading = new Float64Array(WIND_SLOTS);
  const current = new Float64Array(2);
  const range: Range = { low: 0, high: 0 };
  let known = -1;
  for (let seconds = 0; way.axis.at - seconds >= windFrom; seconds += 3600) {
    const at = way.axis.at - seconds;
    if (wind.readInto(reading, xMetres, yMetres, at) !== COVERED) break;
    if (crossing.around.current.sampleInto(current, xMetres, yMetres, at) !== COVERED) break;
    known = seconds;
    const rate = Math.hypot(current[0] as number, current[1] as number);
    windAgainstRangeOf(reading, current[0] as number, current[1] as number, convergenceDeg, range);
    if (rate > 0 && range.high / rate >= RAISES_A_SEA_MPS) return { kind: "blew", seconds };
  }
  return known < 0 ? null : { kind: "notSince", seconds: known };
}

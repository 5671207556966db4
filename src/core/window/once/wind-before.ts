import { COVERED } from "../../fields/index.ts";
import type { Line } from "../../passage/index.ts";
import { WIND_SLOTS, type WindSampler } from "../../weather/index.ts";
import { LOOK_BACK_EVERY_SECONDS } from "../since-against.ts";
import { type Range, speedRangeOf } from "../wind-felt.ts";
import type { KnownOnce, OnceValue, WindBefore } from "./once-value.ts";

/**
 * The wind hour by hour as far as it is covered, at the places that must be calm before leaving: where open water begins, and the middle
 * of the line across. The stronger of the two counts, and of a range its high end.
 */
export function windBeforeOn(line: Line, wind: WindSampler, covers: { readonly from: number; readonly until: number }): WindBefore {
  const many = Math.max(0, Math.floor((covers.until - covers.from) / LOOK_BACK_EVERY_SECONDS) + 1);
  const windMps = new Float64Array(many);
  const reading = new Float64Array(WIND_SLOTS);
  const range: Range = { low: 0, high: 0 };
  const places = [
    [line.fromX, line.fromY],
    [(line.fromX + line.toX) / 2, (line.fromY + line.toY) / 2],
  ] as const;
  for (let k = 0; k < many; k++) {
    let strongest = -1;
    for (const [x, y] of places) {
      if (wind.readInto(reading, x, y, covers.from + k * LOOK_BACK_EVERY_SECONDS) !== COVERED) {
        strongest = -1;
        break;
      }
      speedRangeOf(reading, range);
      strongest = Math.max(strongest, range.high);
    }
    windMps[k] = strongest;
  }
  return { from: covers.from, windMps };
}

/**
 * How long before leaving it has been calm, seconds: back to the last hour at which the wind was above `calmMps`. At least so long where
 * the forecast begins later. `leaving` is when and where the berth is left.
 */
export function calmBefore(before: WindBefore | null, calmMps: number, leaving: Omit<KnownOnce, "value">): OnceValue {
  const unknownAt = (at: number, coveredFrom: number | null) =>
    ({
      kind: "noAnswer",
      code: "not-covered-time",
      quantity: "calmBeforeSeconds",
      at,
      where: leaving.where,
      coveredFrom,
      coveredUntil: null,
    }) as const;
  const last = before === null ? -1 : Math.floor((leaving.at - before.from) / LOOK_BACK_EVERY_SECONDS);
  if (before === null || last < 0 || last >= before.windMps.length) {
    return { kind: "unknown", why: unknownAt(leaving.at, before?.from ?? null), knownPart: null };
  }
  for (let k = last; k >= 0; k--) {
    const wind = before.windMps[k] as number;
    const at = before.from + k * LOOK_BACK_EVERY_SECONDS;
    if (wind > calmMps) return { kind: "known", value: leaving.at - at, ...leaving };
    if (wind < 0) {
      const coveredFrom = at + LOOK_BACK_EVERY_SECONDS;
      const why = unknownAt(at, coveredFrom);
      return k === last ? { kind: "unknown", why, knownPart: null } : { kind: "atLeast", value: leaving.at - coveredFrom, why, ...leaving };
    }
  }
  return {
    kind: "atLeast",
    value: leaving.at - before.from,
    why: unknownAt(before.from - LOOK_BACK_EVERY_SECONDS, before.from),
    ...leaving,
  };
}

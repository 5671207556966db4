import { degFromRad, radFromDeg, wrap360Deg } from "../units/index.ts";
import { WIND_ARC_DEG, WIND_END_STRIDE, WIND_ENDS, WIND_FROM_DEG, WIND_SPEED_HIGH_MPS, WIND_SPEED_LOW_MPS } from "./wind.ts";

export interface Range {
  low: number;
  high: number;
}

/** The least and the greatest speed of a reading over both its ends, m/s. */
export function speedRangeOf(reading: Float64Array, range: Range): void {
  range.low = reading[WIND_SPEED_LOW_MPS] as number;
  range.high = reading[WIND_SPEED_HIGH_MPS] as number;
  if (reading[WIND_ENDS] === 2) {
    range.low = Math.min(range.low, reading[WIND_END_STRIDE + WIND_SPEED_LOW_MPS] as number);
    range.high = Math.max(range.high, reading[WIND_END_STRIDE + WIND_SPEED_HIGH_MPS] as number);
  }
}

/**
 * Wind against current: the component of the wind that blows against the local set, times the local rate, m²/s²; nothing where the wind
 * blows with the set or across it. There is no cut-off angle. `range` gets the least and the greatest over all that the reading allows.
 * The current is in the plane's frame, the wind's direction true: `convergenceDeg` joins them.
 */
export function windAgainstRangeOf(
  reading: Float64Array,
  currentEastMps: number,
  currentNorthMps: number,
  convergenceDeg: number,
  range: Range,
): void {
  const rate = Math.sqrt(currentEastMps * currentEastMps + currentNorthMps * currentNorthMps);
  range.low = 0;
  range.high = 0;
  if (rate === 0) return;
  const setDegTrue = degFromRad(Math.atan2(currentEastMps, currentNorthMps)) + convergenceDeg;
  range.low = Number.POSITIVE_INFINITY;
  const ends = reading[WIND_ENDS] as number;
  for (let end = 0; end < ends; end++) {
    const offset = end * WIND_END_STRIDE;
    const arcDeg = reading[offset + WIND_ARC_DEG] as number;
    // From dead against (0°) to dead with (180°): the wind is against the current when it comes from where the current goes.
    const startDeg = wrap360Deg((reading[offset + WIND_FROM_DEG] as number) - setDegTrue);
    const finishDeg = startDeg + arcDeg;
    const atStart = Math.cos(radFromDeg(startDeg));
    const atFinish = Math.cos(radFromDeg(finishDeg));
    const most = finishDeg >= 360 || startDeg === 0 ? 1 : Math.max(atStart, atFinish);
    const least = (startDeg <= 180 && finishDeg >= 180) || finishDeg >= 540 ? -1 : Math.min(atStart, atFinish);
    const high = Math.max(0, most) * (reading[offset + WIND_SPEED_HIGH_MPS] as number) * rate;
    const low = Math.max(0, least) * (reading[offset + WIND_SPEED_LOW_MPS] as number) * rate;
    if (high > range.high) range.high = high;
    if (low < range.low) range.low = low;
  }
}

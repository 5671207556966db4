import { groupSpeedMps, waveNumber } from "./dispersion.ts";

/**
 * How much higher waves stand in shallow water than in deep, refraction by the bottom left out: √(group speed in the one / in the other).
 * `fromDepthMetres` null is deep water. It falls to 0.913 at a depth of about 0.16 of the deep-water length, then rises without bound.
 *
 * Source: conservation of energy flux; Shore Protection Manual (1984), eq. 2-44 and table C-1 (the column H/H0').
 *
 * @example
 * shoalingFactor(10, 0.05 * 156.0777, null) // => 1.0229
 */
export function shoalingFactor(periodSeconds: number, depthMetres: number | null, fromDepthMetres: number | null): number {
  const frequency = (2 * Math.PI) / periodSeconds;
  const before = groupSpeedMps(waveNumber(frequency, fromDepthMetres), fromDepthMetres);
  const after = groupSpeedMps(waveNumber(frequency, depthMetres), depthMetres);
  return Math.sqrt(before / after);
}

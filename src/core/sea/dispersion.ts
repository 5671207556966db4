import { GRAVITY_MPS2 } from "../boat/index.ts";
import { mustBeDepth, mustReach } from "./wave-system.ts";

/** Newton ends when a step changes the wave number by less than this share of it. */
const SETTLED = 1e-13;
const MOST_STEPS = 60;

/**
 * The wave number k of waves of angular frequency σ (relative to the water), radians a metre: σ² = g k tanh(k d), by Newton on
 * x tanh x = σ² d / g with x = k d, settled to better than 1e-12. Depth null is deep water. Throws on a frequency not above 0.
 *
 * Source: linear (Airy) theory; US Army Corps of Engineers, Coastal Engineering Manual (EM 1110-2-1100), part II-1, eq. II-1-8.
 *
 * @example
 * const k = waveNumber((2 * Math.PI) / 8, 10);
 * (2 * Math.PI) / k // => 70.88341
 */
export function waveNumber(radiansPerSecond: number, depthMetres: number | null): number {
  mustReach("angular frequency", radiansPerSecond, 0, "above");
  mustBeDepth("depth", depthMetres);
  const deep = (radiansPerSecond * radiansPerSecond) / GRAVITY_MPS2;
  if (depthMetres === null) return deep;
  const alpha = deep * depthMetres;
  // Eckart's approximation, within 5 %; where the water is deep it is exact.
  let x = alpha / Math.sqrt(Math.tanh(alpha));
  for (let i = 0; i < MOST_STEPS; i++) {
    const th = Math.tanh(x);
    const step = (x * th - alpha) / (th + x * (1 - th * th));
    x -= step;
    if (Math.abs(step) <= SETTLED * x) break;
  }
  return x / depthMetres;
}

/** Angular frequency relative to the water of waves of number k, radians a second: √(g k tanh(k d)). */
export function relativeFrequency(waveNumberPerMetre: number, depthMetres: number | null): number {
  const deep = GRAVITY_MPS2 * waveNumberPerMetre;
  return Math.sqrt(depthMetres === null ? deep : deep * Math.tanh(waveNumberPerMetre * depthMetres));
}

/** Group speed over phase speed, n = ½ (1 + 2kd / sinh 2kd): ½ in deep water, 1 in the shallowest. */
export function groupShare(waveNumberPerMetre: number, depthMetres: number | null): number {
  if (depthMetres === null) return 0.5;
  const twice = 2 * waveNumberPerMetre * depthMetres;
  return twice < 1e-6 ? 1 : 0.5 * (1 + twice / Math.sinh(twice));
}

/** Group speed relative to the water, m/s: the speed at which the waves' energy travels. */
export function groupSpeedMps(waveNumberPerMetre: number, depthMetres: number | null): number {
  return (groupShare(waveNumberPerMetre, depthMetres) * relativeFrequency(waveNumberPerMetre, depthMetres)) / waveNumberPerMetre;
}

/** Waves of one period in still water. */
export interface StillWaterWave {
  readonly lengthMetres: number;
  readonly speedMps: number;
  readonly groupSpeedMps: number;
}

/**
 * Length, speed and group speed of waves of a period in still water.
 *
 * @example
 * stillWaterWave(6, null).lengthMetres // => 56.187966
 * stillWaterWave(6, 10).speedMps // => 8.065717
 */
export function stillWaterWave(periodSeconds: number, depthMetres: number | null): StillWaterWave {
  mustReach("period", periodSeconds, 0, "above");
  const k = waveNumber((2 * Math.PI) / periodSeconds, depthMetres);
  const lengthMetres = (2 * Math.PI) / k;
  const speedMps = lengthMetres / periodSeconds;
  return { lengthMetres, speedMps, groupSpeedMps: groupShare(k, depthMetres) * speedMps };
}

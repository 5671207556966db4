import { GRAVITY_MPS2 } from "../boat/index.ts";
import { groupSpeedMps, relativeFrequency } from "./dispersion.ts";
import { mustBeDepth, mustReach } from "./wave-system.ts";

/** Where waves can run no further against a current: their group speed through the water is the current's own. */
export interface Blocking {
  /** Length of the shortest waves that still get there, metres: a quarter of that in still water where it is deep. */
  readonly lengthMetres: number;
  /** Their period at a fixed place, seconds: shorter ones are blocked. */
  readonly periodSeconds: number;
}

/** Halvings of a bracket: enough to settle a double. */
const HALVINGS = 200;

/**
 * What is blocked by a current of `opposingMps` against the waves, in this depth (null: deep): where group speed + current = 0 (never
 * the phase speed, as some glossaries have it). Null where the current outruns waves of every length, √(g d) and more.
 *
 * Source: US Army Corps of Engineers, ERDC/CHL TR-02-22, eqs 19–26.
 *
 * @example
 * blockingBy(3 * MPS_PER_KNOT, null)?.periodSeconds // => 3.9553
 */
export function blockingBy(opposingMps: number, depthMetres: number | null): Blocking | null {
  mustReach("opposing current", opposingMps, 0, "above");
  mustBeDepth("depth", depthMetres);
  // In deep water the group speed is ½ √(g/k); in any depth it is at least half the phase speed, so the deep k is no upper bound by itself.
  const deep = GRAVITY_MPS2 / (4 * opposingMps * opposingMps);
  const number = depthMetres === null ? deep : numberOfGroupSpeed(opposingMps, deep, depthMetres);
  if (number === null) return null;
  const frequency = relativeFrequency(number, depthMetres) - number * opposingMps;
  return { lengthMetres: (2 * Math.PI) / number, periodSeconds: (2 * Math.PI) / frequency };
}

/** The wave number whose group speed is the given one; the group speed falls steadily from √(g d) as waves shorten. */
function numberOfGroupSpeed(speedMps: number, near: number, depthMetres: number): number | null {
  if (speedMps * speedMps >= GRAVITY_MPS2 * depthMetres) return null;
  let high = near;
  while (groupSpeedMps(high, depthMetres) > speedMps) high *= 2;
  let low = near;
  // Close to √(g d) only the longest waves are as fast; beyond this they are as good as infinite.
  while (groupSpeedMps(low, depthMetres) < speedMps) {
    low /= 2;
    if (low * depthMetres < 1e-6) return null;
  }
  for (let i = 0; i < HALVINGS && high - low > Number.EPSILON * high; i++) {
    const middle = (low + high) / 2;
    if (groupSpeedMps(middle, depthMetres) > speedMps) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

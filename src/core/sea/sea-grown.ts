import { GRAVITY_MPS2 } from "../boat/index.ts";
import { BREAKING_STEEPNESS } from "./breaking.ts";
import { fetchThroughWater } from "./growing-sea.ts";
import { type GrowthLaw, SHORE_MANUAL_GROWTH } from "./growth-law.ts";
import { AGAINST_HEIGHT_METRES, AGAINST_LENGTH_METRES, AGAINST_STEEPNESS, STEEPEST_COUNTED } from "./sea-against.ts";
import { LEAST_WIND_MPS } from "./wind-sea.ts";

/** A wind over water that moves, m/s. */
export interface WindOnStream {
  /** Over the ground, at 10 m. */
  windMps: number;
  /** Relative to the water. */
  relativeMps: number;
  /** The current along the waves, positive with them. */
  alongMps: number;
}

/**
 * Writes what a wind sea known in still water would be had it grown on the stream itself under the relative wind: the second physics
 * (`growingSea`), for what is asked a million times. The fetch is the one that its height tells of under `windMps`, without
 * bound where the sea is full, and is run through the water; height and period change as the growth law's do, so that no stream leaves them as
 * they are. What stands beyond a full sea is not this wind's and does not grow: energies are parted by squares. Steepness
 * and height (no more than it carries) into the slots of `seaAgainstInto`. A wind that raises nothing changes nothing.
 *
 * @example
 * const out = new Float64Array(AGAINST_SLOTS);
 * seaGrownInto(out, 1, 5, { windMps: 10, relativeMps: 11.5, alongMps: -1.5 });
 * out[AGAINST_HEIGHT_METRES] // => 1.6299
 */
export function seaGrownInto(
  out: Float64Array,
  heightMetres: number,
  periodSeconds: number,
  { windMps, relativeMps, alongMps }: WindOnStream,
  law: GrowthLaw = SHORE_MANUAL_GROWTH,
): void {
  let height = heightMetres;
  let period = periodSeconds;
  if (windMps >= LEAST_WIND_MPS && heightMetres > 0) {
    const still = law.windScaleMps(windMps);
    const relative = relativeMps < LEAST_WIND_MPS ? 0 : law.windScaleMps(relativeMps);
    const full = (law.greatestHeight / law.height) ** 2;
    const grown = ((GRAVITY_MPS2 * heightMetres) / (law.height * still * still)) ** 2;
    const isFull = grown >= full;
    const fetch = (Math.min(grown, full) * still * still) / GRAVITY_MPS2;
    const through = isFull ? Number.POSITIVE_INFINITY : fetchThroughWater(fetch, alongMps, relativeMps, law);
    const onStream = relative === 0 ? 0 : Math.min((GRAVITY_MPS2 * through) / (relative * relative), full);
    const share = relative / still;
    const inStill = Math.min(grown, full);
    const higher = Math.sqrt(onStream / inStill) * share * share;
    const longer =
      (Math.min(law.period * Math.cbrt(onStream), law.greatestPeriod) / Math.min(law.period * Math.cbrt(inStill), law.greatestPeriod)) *
      share;
    const ofThisWind = inStill / grown;
    height *= Math.sqrt(1 + ofThisWind * (higher * higher - 1));
    period *= 1 + ofThisWind * (longer - 1);
  }
  const length = (GRAVITY_MPS2 * period * period) / (2 * Math.PI);
  out[AGAINST_STEEPNESS] = height > 0 ? Math.min(height / length, STEEPEST_COUNTED) : 0;
  out[AGAINST_HEIGHT_METRES] = Math.min(height, BREAKING_STEEPNESS * length);
  out[AGAINST_LENGTH_METRES] = length;
}

import { combinedHeightMetres } from "./combined-sea.ts";

/**
 * The time in which a sea left by a wind that has dropped loses half its height, seconds. Common practice, no source: skippers reckon a day
 * or two until a stream lies quiet after a blow against it; by this a 2 m sea is down to half a metre after a day.
 */
export const SEA_HALVES_IN_SECONDS = 12 * 3600;

/** What is left of a sea, metres, so long after its wind has dropped: half for every `SEA_HALVES_IN_SECONDS`. */
export function seaLeftMetres(heightMetres: number, sinceSeconds: number): number {
  if (!(sinceSeconds >= 0)) throw new Error(`${sinceSeconds} s after the blow: expected 0 or more`);
  return heightMetres * 2 ** (-sinceSeconds / SEA_HALVES_IN_SECONDS);
}

/** The sea of now on top of what an earlier blow left: by squares, which is on the safe side where both run the same way. */
export function seaAfterBlowMetres(nowMetres: number, blewMetres: number, sinceSeconds: number): number {
  return combinedHeightMetres(nowMetres, seaLeftMetres(blewMetres, sinceSeconds));
}

/**
 * How a place and time stand to a field. On the hot path this number is all there is: no NaN, nothing allocated. The first that fails
 * is told: variable before time before place.
 */
export const COVERED = 0;
export const NO_PLACE = 1;
export const NO_TIME = 2;
export const NO_VARIABLE = 3;
export type Coverage = typeof COVERED | typeof NO_PLACE | typeof NO_TIME | typeof NO_VARIABLE;

/** Reads quantities off the local plane. */
export interface Sampler {
  /** The names of what `out` holds, in order, units in the names: `currentEastMps`, `currentNorthMps`. */
  readonly quantities: readonly string[];
  /**
   * Writes one value a quantity into `out` at (x, y) metres on the plane and `at` seconds of the UTC epoch. Vectors are in the plane's
   * frame. Where the answer is not `COVERED`, `out` is left untouched.
   */
  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage;
}

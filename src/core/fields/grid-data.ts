/** What a field's value at `t` means: the state at that instant, or the greatest or mean since the step before. */
export type Nature = "instant" | "maximumSincePrevious" | "meanSincePrevious";

/** The quantities that grids carry, units and senses in the names. East and north components are motions (toward), true. */
export type GridQuantity =
  | "currentEastMps"
  | "currentNorthMps"
  | "windEastMps"
  | "windNorthMps"
  | "gustMps"
  | "seaHeightMetres"
  | "seaPeriodSeconds";

/**
 * A field on a regular latitude and longitude grid, as a format's reader hands it over.
 *
 * - `latitudesDeg` (ny) and `longitudesDeg` (nx): strictly ascending, evenly spaced or not; longitudes unwrapped (they may pass 180).
 * - `times` (nt): seconds of the UTC epoch, strictly ascending.
 * - `values`: `[time][latitude][longitude][quantity]`, SI.
 * - `missing`: `[time][latitude][longitude]`, 1 where any quantity of the point is missing (its values are then 0).
 */
export interface GridData {
  readonly quantities: readonly GridQuantity[];
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
  readonly times: Float64Array;
  readonly values: Float32Array;
  readonly missing: Uint8Array;
  readonly nature: Nature;
  /** Where it came from, for people: a file's name and what the file says of its centre and model. */
  readonly source: string;
  /** The run's reference time, seconds of the UTC epoch; null where the file doesn't say. */
  readonly issuedAt: number | null;
  /** Ensemble member, 0 the control or only one. */
  readonly member: number;
}

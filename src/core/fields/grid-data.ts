import type { Mesh } from "./mesh.ts";

/** What a field's value at `t` means: the state at that instant, or the greatest or mean since the step before. */
export type Nature = "instant" | "maximumSincePrevious" | "meanSincePrevious";

/**
 * The quantities that grids carry, units and senses in the names. East and north components are motions (toward), true. A sea's direction
 * is a vector of length 1 along which it runs, so that it can be joined over the circle's end. `windSea`: waves that the wind still
 * drives; `swell`: those that have run out from under it, all together or the first of several; `secondSwell`, `thirdSwell`: the others.
 */
export type GridQuantity =
  | "currentEastMps"
  | "currentNorthMps"
  | "windEastMps"
  | "windNorthMps"
  | "gustMps"
  | `${SeaSystem}HeightMetres`
  | `${SeaSystem}PeriodSeconds`
  | `${SeaSystem}TowardEast`
  | `${SeaSystem}TowardNorth`;

/** The sea as a whole, and its parts. */
export type SeaSystem = "sea" | "windSea" | "swell" | "secondSwell" | "thirdSwell";

/**
 * A field on the nodes of a mesh, as a format's reader hands it over.
 *
 * - `times` (nt): seconds of the UTC epoch, strictly ascending.
 * - `values`: `[time][node][quantity]`, SI; vectors east and north, true, whatever the mesh.
 * - `missing`: `[time][node]`, 1 where any quantity of the node is missing (its values are then 0).
 */
export interface GridData {
  readonly quantities: readonly GridQuantity[];
  readonly mesh: Mesh;
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

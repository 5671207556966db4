import type { GribSurface } from "../grib-field.ts";

/** A line of a parameter table: edition 2's discipline, category and number, and what else the parameter's name says. */
export interface ParameterLine {
  readonly is: readonly [discipline: number, category: number, number: number];
  /** The level in the name. */
  readonly at?: GribSurface;
  /** WMO code table 4.10's process, where section 1 gives an interval without saying how the values stand to it. */
  readonly inRange?: 2 | 3;
  /** The greatest of the last so many seconds; null where the name doesn't say how many. */
  readonly greatestOf?: number | null;
  readonly leastOf?: number | null;
}

import { MAX_GRIB_POINTS } from "../grib/index.ts";

/** GRIB fields are unpacked whole before they are cropped: eight days, 3-hourly, of a global ocean of a twelfth of a degree, and some more. */
const MOST_UNPACKED_POINTS = 2_000_000_000;
/**
 * A field of one value throughout takes no room for its points, whatever their number, and a few bytes can call up hours of work. So many
 * points for each byte of a file are unpacked: a bitmap has 8 for a byte, the smoothest fields met with have some tens (common practice).
 */
const POINTS_PER_BYTE = 1000;

/** The most values that the grids of one file may hold together after cropping: 200 MB of them (common practice for a computer of 4 GB). */
export const MOST_VALUES = 50_000_000;

/** What a file may have of each; those met with have some hundred variables and a hundred members at most (common practice). */
export const MOST_VARIABLES = 2000;
export const MOST_MEMBERS = 1000;
/** Grids are told apart one by one. */
export const MOST_GRIDS = 5000;

/** What may be unpacked of a file, and kept of it, in all: so that no file, however small or large, fells the computer. */
export class Allowance {
  private points: number;
  private values = MOST_VALUES;

  constructor(sizeBytes: number) {
    // Two components of the largest grid, and its places.
    this.points = Math.min(MOST_UNPACKED_POINTS, 3 * MAX_GRIB_POINTS + POINTS_PER_BYTE * sizeBytes);
  }

  /** Takes points to be unpacked, or to be found places for; false where there are not so many left. */
  takePoints(points: number): boolean {
    if (points > this.points) return false;
    this.points -= points;
    return true;
  }

  /** Takes room for values that are kept; false where there is not so much left. */
  takeValues(values: number): boolean {
    if (values > this.values) return false;
    this.values -= values;
    return true;
  }
}

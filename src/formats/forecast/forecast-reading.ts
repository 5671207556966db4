import type { Code } from "../../core/answers/index.ts";
import type { GridData, GridQuantity } from "../../core/fields/index.ts";

/**
 * The part of the earth and of time that a passage needs. Degrees, latitude −90 to 90; `westDeg` to `eastDeg` runs eastward, so
 * 170 to −170 spans the date line. `from` and `until` are seconds of the UTC epoch.
 */
export interface Crop {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
  readonly from: number;
  readonly until: number;
}

/** A latitude and longitude box, degrees; `westDeg` ≤ `eastDeg`, which may pass 180. */
export interface Area {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
}

/** One field as the file holds it, whole and before any crop, used or not. */
export interface FieldSummary {
  /** The file's own name of it (NetCDF), or the standard's name of the parameter (GRIB). */
  readonly name: string;
  /** What it is, in words. */
  readonly description: string;
  /** What it serves as here; null where it isn't used, and then `whyNotUsed` says why. */
  readonly quantity: GridQuantity | null;
  readonly whyNotUsed: string | null;
  /** As written in the file; for GRIB, as its tables define it. Empty where the file gives none. */
  readonly units: string;
  /** Height or depth in words, empty where there is none. */
  readonly level: string;
  readonly area: Area | null;
  readonly columns: number;
  readonly rows: number;
  /** First and last time, seconds of the UTC epoch; null where the field has no time. */
  readonly from: number | null;
  readonly until: number | null;
  readonly steps: number;
  /** The longest step between times, seconds; null with fewer than two. */
  readonly longestStepSeconds: number | null;
  /** Ensemble members; a single forecast is one member, number 0. */
  readonly members: readonly number[];
  /** The run's reference time, seconds of the UTC epoch, null where the file doesn't say. */
  readonly issuedAt: number | null;
}

/** One component of a vector without the other, which may stand in another file. */
export interface LoneGrid {
  /** `quantities` holds the one. */
  readonly grid: GridData;
  /** Where the component runs along the grid: the true bearing of the grid's own north at every node, degrees; else null. */
  readonly northDegTrue: Float64Array | null;
}

/** Something about the file that a skipper should know, though it can be read. */
export interface Oddity {
  readonly code: Code;
  readonly message: string;
}

/**
 * What a forecast or current file gave. `grids` holds one `GridData` for each group (current, wind, gust, and the height, period and
 * direction of the sea and its parts), run, grid and member, cropped; several of one group are told in `oddities`. `contents` is all the
 * file holds.
 */
export interface ForecastReading {
  readonly kind: "grib1" | "grib2" | "netcdf-classic" | "netcdf4";
  readonly name: string;
  readonly sizeBytes: number;
  readonly grids: readonly GridData[];
  /** Components that wait for their other half. */
  readonly lone: readonly LoneGrid[];
  readonly contents: readonly FieldSummary[];
  readonly oddities: readonly Oddity[];
}

import type { Crop } from "../../src/formats/forecast/index.ts";

/** Which structure a fixture has, and so which mutations fit it. */
export type Structure = "grib2" | "grib1" | "netcdf" | "hdf5";

/** A small sound file of one kind, and a crop that takes part of it. */
export interface Fixture {
  readonly name: string;
  readonly structure: Structure;
  readonly bytes: Uint8Array;
  readonly crop: Crop;
}

import type { LatLonGrid } from "../grib-field.ts";

/** The latitudes of the rows and the longitudes of the columns, degrees, ascending; longitudes may pass 180. */
export interface GridAxes {
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
}

export function axesOf(grid: LatLonGrid): GridAxes {
  return {
    latitudesDeg: Float64Array.from({ length: grid.rows }, (_, row) => grid.southDeg + row * grid.latitudeStepDeg),
    longitudesDeg: Float64Array.from({ length: grid.columns }, (_, column) => grid.westDeg + column * grid.longitudeStepDeg),
  };
}

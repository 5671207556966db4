import type { MapProjection } from "./map-projection.ts";

/** Between places and a map's x and y, both as `MapProjection` has them. Latitude north and longitude east, degrees. */
export interface Projector {
  readonly projection: MapProjection;
  /** How far one turn about the earth goes in x, for a Mercator map and a turned pole; null where x doesn't come round again. */
  readonly turnX: number | null;
  /** Puts x and y into `out`; false, and `out` as it was, where the map has no such place. With `turnX`, x is within half a turn of the map's origin. */
  toMapInto(out: Float64Array, latitudeDeg: number, longitudeDeg: number): boolean;
  /** Puts latitude and longitude, in [-180, 180), into `out`; false, and `out` as it was, where no place on the earth has this x and y. */
  toPlaceInto(out: Float64Array, x: number, y: number): boolean;
  /**
   * The true bearing of the map's own +y there, degrees in [-180, 180): what a direction reckoned from the map's y must be turned
   * clockwise by. 0 at a pole of the turned grid, where it has none.
   */
  gridNorthDegTrue(latitudeDeg: number, longitudeDeg: number): number;
}

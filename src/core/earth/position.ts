import { wrap180Deg } from "../units/index.ts";

/** A place on the WGS84 ellipsoid, degrees; latitude north positive in [-90, 90], longitude east positive in [-180, 180). */
export interface Position {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** A position from a latitude in [-90, 90] and any longitude, degrees; the longitude is brought to [-180, 180). Throws on anything else. */
export function positionOf(latitudeDeg: number, longitudeDeg: number): Position {
  if (!(latitudeDeg >= -90 && latitudeDeg <= 90) || !Number.isFinite(longitudeDeg)) {
    throw new Error(`not a position: latitude ${latitudeDeg}, longitude ${longitudeDeg}`);
  }
  return { latitudeDeg, longitudeDeg: wrap180Deg(longitudeDeg) };
}

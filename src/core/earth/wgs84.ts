/** An ellipsoid of revolution: its equatorial radius in metres, and its flattening. */
export interface Ellipsoid {
  readonly equatorialRadiusMetres: number;
  readonly flattening: number;
}

/** The World Geodetic System 1984 (NIMA TR8350.2, 3rd ed., table 3.1). */
export const WGS84: Ellipsoid = { equatorialRadiusMetres: 6378137, flattening: 1 / 298.257223563 };

/** e² = f(2 − f). */
export function eccentricitySquared(ellipsoid: Ellipsoid): number {
  return ellipsoid.flattening * (2 - ellipsoid.flattening);
}

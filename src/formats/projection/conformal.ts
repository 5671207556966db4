import { radFromDeg } from "../../core/units/index.ts";
import type { EarthFigure, MapProjection } from "./map-projection.ts";

/** Formulas that the conformal maps share (J. P. Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395, 1987). */

export function eccentricityOf(earth: EarthFigure): number {
  const ratio = earth.semiMinorMetres / earth.semiMajorMetres;
  return Math.sqrt(1 - ratio * ratio);
}

/** The radius of a parallel over the semi-major axis, m (eq. 14-15). */
export function parallelRadius(latitudeDeg: number, eccentricity: number): number {
  const sine = Math.sin(radFromDeg(latitudeDeg));
  return Math.cos(radFromDeg(latitudeDeg)) / Math.sqrt(1 - (eccentricity * sine) ** 2);
}

/** t (eq. 15-9): 1 on the equator, 0 at the north pole. */
export function poleDistance(latitudeDeg: number, eccentricity: number): number {
  const part = eccentricity * Math.sin(radFromDeg(latitudeDeg));
  return Math.tan(radFromDeg(45 - latitudeDeg / 2)) / ((1 - part) / (1 + part)) ** (eccentricity / 2);
}

/** The cone's constant, n (eqs. 15-3 and 15-8): negative for a cone that opens northward. */
export function coneConstant(projection: Extract<MapProjection, { kind: "lambertConformal" }>): number {
  const { standardLatitude1Deg: first, standardLatitude2Deg: second } = projection;
  // So close together the quotient of differences knows less than the sine of either.
  if (Math.abs(first - second) < 1e-6) return Math.sin(radFromDeg((first + second) / 2));
  const e = eccentricityOf(projection.earth);
  const radii = Math.log(parallelRadius(first, e) / parallelRadius(second, e));
  return radii / Math.log(poleDistance(first, e) / poleDistance(second, e));
}

/** The latitude, north or south, where a Mercator map is true that has this scale on the equator; null where there is none. */
export function mercatorTrueScaleDeg(equatorScale: number, earth: EarthFigure): number | null {
  return latitudeWhere((latitudeDeg) => parallelRadius(latitudeDeg, eccentricityOf(earth)), equatorScale, true);
}

/** The latitude, on the pole's own side, where a polar stereographic map is true that has this scale at its pole; null where there is none. */
export function polarTrueScaleDeg(poleScale: number, earth: EarthFigure): number | null {
  const e = eccentricityOf(earth);
  // Eqs. 21-33 and 21-34 set equal: k0 = m √((1 + e)^(1 + e) (1 − e)^(1 − e)) / (2 t).
  const whole = Math.sqrt((1 + e) ** (1 + e) * (1 - e) ** (1 - e));
  const scaleFor = (latitudeDeg: number): number =>
    latitudeDeg === 90 ? 1 : (parallelRadius(latitudeDeg, e) * whole) / (2 * poleDistance(latitudeDeg, e));
  return latitudeWhere(scaleFor, poleScale, false);
}

/** The latitude from 0 to 90 where a steady function has a value, by halving; null where it has it nowhere. */
function latitudeWhere(valueAt: (latitudeDeg: number) => number, value: number, falling: boolean): number | null {
  let [low, high] = [0, 90];
  const [most, least] = falling ? [valueAt(low), valueAt(high)] : [valueAt(high), valueAt(low)];
  if (!(value <= most && value >= least)) return null;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (valueAt(middle) > value === falling) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

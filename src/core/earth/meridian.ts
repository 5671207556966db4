import { degFromRad, radFromDeg } from "../units/index.ts";
import { type Ellipsoid, eccentricitySquared, WGS84 } from "./wgs84.ts";

/** Below this change of latitude the ratio of meridian arc to isometric latitude is integrated, not differenced: no digits are lost. */
const NEARLY_PARALLEL_RAD = 0.01;
/** Five-point Gauss–Legendre nodes and weights on [-1, 1] (Abramowitz & Stegun, table 25.4). */
const GAUSS_NODES = [-0.906179845938664, -0.5384693101056831, 0, 0.5384693101056831, 0.906179845938664] as const;
const GAUSS_WEIGHTS = [0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891] as const;

const isometricOfRad = (latRad: number, e2: number): number => {
  const e = Math.sqrt(e2);
  return Math.asinh(Math.tan(latRad)) - e * Math.atanh(e * Math.sin(latRad));
};

/** Isometric latitude ψ, radians, of a latitude in degrees strictly between the poles (Snyder, USGS PP 1395, 1987, eq. 3-7, as asinh). */
export function isometricRad(latitudeDeg: number, ellipsoid: Ellipsoid = WGS84): number {
  if (!(Math.abs(latitudeDeg) < 90)) throw new Error(`no isometric latitude at ${latitudeDeg}`);
  return isometricOfRad(radFromDeg(latitudeDeg), eccentricitySquared(ellipsoid));
}

/** Meridional parts: isometric latitude in minutes of the equator, as nautical tables print it. */
export function meridionalParts(latitudeDeg: number, ellipsoid: Ellipsoid = WGS84): number {
  return degFromRad(isometricRad(latitudeDeg, ellipsoid)) * 60;
}

/** a/(1+n)·(1 + n²/4 + n⁴/64 + n⁶/256): metres of meridian in a radian of rectifying latitude. */
const rectifyingRadiusMetres = (ellipsoid: Ellipsoid, n: number): number =>
  (ellipsoid.equatorialRadiusMetres / (1 + n)) * (1 + n ** 2 / 4 + n ** 4 / 64 + n ** 6 / 256);

const thirdFlattening = (ellipsoid: Ellipsoid): number => ellipsoid.flattening / (2 - ellipsoid.flattening);

/**
 * Metres along the meridian from the equator, north positive: the rectifying latitude as a series in the third flattening
 * n = f/(2 − f), Bessel's and Helmert's (turned round it is Snyder's eq. 3-26, USGS PP 1395, 1987, whose e₁ is n), carried to n⁵:
 * within a nanometre or so on WGS84, which the tests hold against geodesics.
 */
export function meridianArcMetres(latitudeDeg: number, ellipsoid: Ellipsoid = WGS84): number {
  const n = thirdFlattening(ellipsoid);
  const latRad = radFromDeg(latitudeDeg);
  const rectifyingRad =
    latRad +
    (-(3 / 2) * n + (9 / 16) * n ** 3 - (3 / 32) * n ** 5) * Math.sin(2 * latRad) +
    ((15 / 16) * n ** 2 - (15 / 32) * n ** 4) * Math.sin(4 * latRad) +
    (-(35 / 48) * n ** 3 + (105 / 256) * n ** 5) * Math.sin(6 * latRad) +
    (315 / 512) * n ** 4 * Math.sin(8 * latRad) -
    (693 / 1280) * n ** 5 * Math.sin(10 * latRad);
  return rectifyingRadiusMetres(ellipsoid, n) * rectifyingRad;
}

/** The latitude, degrees, at which the meridian arc from the equator has a length in metres: the same series turned round. */
export function latitudeOfMeridianArcDeg(arcMetres: number, ellipsoid: Ellipsoid = WGS84): number {
  const n = thirdFlattening(ellipsoid);
  const rectifyingRad = arcMetres / rectifyingRadiusMetres(ellipsoid, n);
  const latRad =
    rectifyingRad +
    ((3 / 2) * n - (27 / 32) * n ** 3 + (269 / 512) * n ** 5) * Math.sin(2 * rectifyingRad) +
    ((21 / 16) * n ** 2 - (55 / 32) * n ** 4) * Math.sin(4 * rectifyingRad) +
    ((151 / 96) * n ** 3 - (417 / 128) * n ** 5) * Math.sin(6 * rectifyingRad) +
    (1097 / 512) * n ** 4 * Math.sin(8 * rectifyingRad) +
    (8011 / 2560) * n ** 5 * Math.sin(10 * rectifyingRad);
  return degFromRad(latRad);
}

/**
 * ΔM/Δψ between two latitudes, metres: how long a radian of isometric latitude is on the average between them. On one parallel it is
 * that parallel's radius ν·cos φ, so that parallel sailing is the limit of Mercator sailing and needs no case of its own.
 */
export function metresPerIsometricRad(fromDeg: number, toDeg: number, ellipsoid: Ellipsoid = WGS84): number {
  const e2 = eccentricitySquared(ellipsoid);
  const a = radFromDeg(fromDeg);
  const b = radFromDeg(toDeg);
  if (Math.abs(b - a) > NEARLY_PARALLEL_RAD) {
    return (meridianArcMetres(toDeg, ellipsoid) - meridianArcMetres(fromDeg, ellipsoid)) / (isometricOfRad(b, e2) - isometricOfRad(a, e2));
  }
  let arc = 0;
  let isometric = 0;
  GAUSS_NODES.forEach((node, i) => {
    const latRad = (a + b) / 2 + (node * (b - a)) / 2;
    const w2 = 1 - e2 * Math.sin(latRad) ** 2;
    const weight = GAUSS_WEIGHTS[i]!;
    // dM/dφ = a(1 − e²)/w³ (Snyder eq. 4-18); dψ/dφ = (1 − e²)/(w² cos φ).
    arc += (weight * ellipsoid.equatorialRadiusMetres) / w2 ** 1.5;
    isometric += weight / (w2 * Math.cos(latRad));
  });
  return arc / isometric;
}

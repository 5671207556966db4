import { degFromRad, radFromDeg, wrap180Deg, wrap360Deg } from "../units/index.ts";
import { isometricRad, latitudeOfMeridianArcDeg, meridianArcMetres, metresPerIsometricRad } from "./meridian.ts";
import { type Position, positionOf } from "./position.ts";
import { type Ellipsoid, WGS84 } from "./wgs84.ts";

/** A line of constant bearing. */
export interface RhumbLeg {
  readonly distanceMetres: number;
  /** True, [0, 360); 0 between two equal places, by convention. */
  readonly bearingDegTrue: number;
}

/** Rhumb lines wind about a pole for ever: nearer than this to one (a centimetre) none is reckoned. */
const POLE_LATITUDE_DEG = 90 - 1e-7;

function seaLatitude(position: Position): Position {
  const at = positionOf(position.latitudeDeg, position.longitudeDeg);
  if (Math.abs(at.latitudeDeg) > POLE_LATITUDE_DEG) throw new Error(`no rhumb line to or from a pole: latitude ${at.latitudeDeg}`);
  return at;
}

/**
 * Bearing and length of the rhumb line between two places, the shorter way round in longitude (exactly opposite meridians: westward).
 * Along a parallel it is the parallel itself. Mercator sailing on the ellipsoid: tan C = Δλ/Δψ, s = √(Δλ² + Δψ²)·ΔM/Δψ, with ψ
 * the isometric latitude and M the meridian arc (Snyder, USGS PP 1395, 1987, eq. 7-7, 7-8 and p. 46; GeographicLib's `Rhumb` is the
 * reference for the check). Throws at a pole. The ellipsoid is WGS84 unless given.
 */
export function rhumbBetween(from: Position, to: Position, ellipsoid: Ellipsoid = WGS84): RhumbLeg {
  const a = seaLatitude(from);
  const b = seaLatitude(to);
  const changeLonRad = radFromDeg(wrap180Deg(b.longitudeDeg - a.longitudeDeg));
  const changeIsoRad = isometricRad(b.latitudeDeg, ellipsoid) - isometricRad(a.latitudeDeg, ellipsoid);
  return {
    distanceMetres: Math.hypot(changeLonRad, changeIsoRad) * metresPerIsometricRad(a.latitudeDeg, b.latitudeDeg, ellipsoid),
    bearingDegTrue: wrap360Deg(degFromRad(Math.atan2(changeLonRad, changeIsoRad))),
  };
}

/**
 * Where a rhumb line from a place on a true bearing is after a distance in metres. Same sources. Throws at a pole, and when the line
 * would run into one within the distance.
 */
export function rhumbFrom(from: Position, bearingDegTrue: number, distanceMetres: number, ellipsoid: Ellipsoid = WGS84): Position {
  const a = seaLatitude(from);
  if (!Number.isFinite(bearingDegTrue) || !Number.isFinite(distanceMetres)) {
    throw new Error(`not a rhumb line: bearing ${bearingDegTrue}, distance ${distanceMetres}`);
  }
  const { northward, eastward } = shares(bearingDegTrue);
  const arcMetres = meridianArcMetres(a.latitudeDeg, ellipsoid) + distanceMetres * northward;
  if (Math.abs(arcMetres) > meridianArcMetres(POLE_LATITUDE_DEG, ellipsoid)) {
    throw new Error(`the rhumb line from latitude ${a.latitudeDeg} on ${bearingDegTrue} runs into a pole within ${distanceMetres} m`);
  }
  const latitudeDeg = northward === 0 ? a.latitudeDeg : latitudeOfMeridianArcDeg(arcMetres, ellipsoid);
  const changeLonRad = (distanceMetres * eastward) / metresPerIsometricRad(a.latitudeDeg, latitudeDeg, ellipsoid);
  return positionOf(latitudeDeg, a.longitudeDeg + degFromRad(changeLonRad));
}

/** Cosine and sine of a bearing, exact on the four cardinal ones, so that east and west keep the parallel. */
function shares(bearingDegTrue: number): { northward: number; eastward: number } {
  const bearing = wrap360Deg(bearingDegTrue);
  if (bearing === 0) return { northward: 1, eastward: 0 };
  if (bearing === 90) return { northward: 0, eastward: 1 };
  if (bearing === 180) return { northward: -1, eastward: 0 };
  if (bearing === 270) return { northward: 0, eastward: -1 };
  return { northward: Math.cos(radFromDeg(bearing)), eastward: Math.sin(radFromDeg(bearing)) };
}

import { degFromRad, radFromDeg, wrap180Deg } from "../units/index.ts";
import type { Position } from "./position.ts";
import { eccentricitySquared, WGS84 } from "./wgs84.ts";

const E2 = eccentricitySquared(WGS84);

/** The straight axes at a place on the ellipsoid: metres east, north and up of it, no projection. */
export interface TangentFrame {
  readonly centre: Position;
  readonly sinLat: number;
  readonly cosLat: number;
  /** Of the centre: from the earth's axis, and along it from the equator's plane. */
  readonly axisMetres: number;
  readonly polarMetres: number;
}

export function tangentFrame(centre: Position): TangentFrame {
  const latRad = radFromDeg(centre.latitudeDeg);
  const sinLat = Math.sin(latRad);
  const cosLat = Math.cos(latRad);
  const normalMetres = WGS84.equatorialRadiusMetres / Math.sqrt(1 - E2 * sinLat * sinLat);
  return { centre, sinLat, cosLat, axisMetres: normalMetres * cosLat, polarMetres: normalMetres * (1 - E2) * sinLat };
}

/** Writes a place on the ellipsoid into `out` as metres east, north, up (up is negative: the sea falls away). */
export function tangentInto(out: Float64Array, frame: TangentFrame, latitudeDeg: number, longitudeDeg: number): void {
  const latRad = radFromDeg(latitudeDeg);
  const lonRad = radFromDeg(longitudeDeg - frame.centre.longitudeDeg);
  const sinLat = Math.sin(latRad);
  const normalMetres = WGS84.equatorialRadiusMetres / Math.sqrt(1 - E2 * sinLat * sinLat);
  const parallelMetres = normalMetres * Math.cos(latRad);
  const outward = parallelMetres * Math.cos(lonRad) - frame.axisMetres;
  const polar = normalMetres * (1 - E2) * sinLat - frame.polarMetres;
  out[0] = parallelMetres * Math.sin(lonRad);
  out[1] = frame.cosLat * polar - frame.sinLat * outward;
  out[2] = frame.cosLat * outward + frame.sinLat * polar;
}

const outwardOf = (frame: TangentFrame, at: Float64Array): number => frame.cosLat * at[2]! - frame.sinLat * at[1]!;
const polarOf = (frame: TangentFrame, at: Float64Array): number => frame.cosLat * at[1]! + frame.sinLat * at[2]!;

/** The position of a point on the ellipsoid given as metres east, north, up. There tan φ = Z / ((1 − e²)·√(X² + Y²)) exactly. */
export function positionOfTangent(frame: TangentFrame, at: Float64Array): Position {
  const east = at[0]!;
  const outward = frame.axisMetres + outwardOf(frame, at);
  const polar = frame.polarMetres + polarOf(frame, at);
  return {
    latitudeDeg: degFromRad(Math.atan2(polar, (1 - E2) * Math.sqrt(outward * outward + east * east))),
    longitudeDeg: wrap180Deg(frame.centre.longitudeDeg + degFromRad(Math.atan2(east, outward))),
  };
}

/**
 * By how much the axes of a sheet are turned clockwise from true east and north at a place, degrees. `byX` and `byY` are the slopes of
 * east, north and up along the sheet's x and y there. The turn is that of the slope's polar decomposition, so a sheet that stretches
 * along and square to one line only (as the equidistant one does along its radius: Gauss's lemma) is turned exactly as that line is.
 */
export function turnOfSlopesDeg(frame: TangentFrame, at: Float64Array, byX: Float64Array, byY: Float64Array): number {
  const east = at[0]!;
  const outward = frame.axisMetres + outwardOf(frame, at);
  const polar = frame.polarMetres + polarOf(frame, at);
  const parallel = Math.sqrt(outward * outward + east * east);
  const cosLon = outward / parallel;
  const sinLon = east / parallel;
  const slant = Math.sqrt(polar * polar + (1 - E2) * (1 - E2) * parallel * parallel);
  const sinLat = polar / slant;
  const cosLat = ((1 - E2) * parallel) / slant;
  const outwardByX = outwardOf(frame, byX);
  const outwardByY = outwardOf(frame, byY);
  const trueEastByX = cosLon * byX[0]! - sinLon * outwardByX;
  const trueEastByY = cosLon * byY[0]! - sinLon * outwardByY;
  const trueNorthByX = cosLat * polarOf(frame, byX) - sinLat * (cosLon * outwardByX + sinLon * byX[0]!);
  const trueNorthByY = cosLat * polarOf(frame, byY) - sinLat * (cosLon * outwardByY + sinLon * byY[0]!);
  return degFromRad(Math.atan2(trueEastByY - trueNorthByX, trueEastByX + trueNorthByY));
}

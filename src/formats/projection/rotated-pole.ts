import { degFromRad, radFromDeg, wrap180Deg } from "../../core/units/index.ts";
import type { MapProjection } from "./map-projection.ts";
import type { Projector } from "./projector.ts";

/** Files round the ends of their axes, the poles among them, to a millionth of a degree. */
const ROUNDING_DEG = 1e-6;

/**
 * A turned pole: the sphere is turned by the southern pole's longitude about its axis, then by 90° plus that pole's latitude along the
 * turned meridian of Greenwich, then by `rotationDeg` about the new axis (Manual on Codes I.2, FM 92 GRIB, template 3.1, note 1). The
 * earth's figure doesn't enter: latitudes are turned as they are.
 */
export function rotatedPoleProjector(projection: Extract<MapProjection, { kind: "rotatedPole" }>): Projector {
  const { southPoleLatitudeDeg, southPoleLongitudeDeg, rotationDeg } = projection;
  const tiltRad = radFromDeg(90 + southPoleLatitudeDeg);
  const [sinTilt, cosTilt] = [Math.sin(tiltRad), Math.cos(tiltRad)];
  return {
    projection,
    turnX: 360,
    toMapInto(out, latitudeDeg, longitudeDeg) {
      if (!(Math.abs(latitudeDeg) <= 90) || !Number.isFinite(longitudeDeg)) return false;
      turnInto(out, latitudeDeg, longitudeDeg - southPoleLongitudeDeg, -sinTilt, cosTilt);
      const y = out[0]!;
      out[0] = wrap180Deg(out[1]! - rotationDeg);
      out[1] = y;
      return true;
    },
    toPlaceInto(out, x, y) {
      if (!(Math.abs(y) <= 90 + ROUNDING_DEG) || !Number.isFinite(x)) return false;
      turnInto(out, y, x + rotationDeg, sinTilt, cosTilt);
      out[1] = wrap180Deg(out[1]! + southPoleLongitudeDeg);
      return true;
    },
    // The bearing of the turned northern pole along a great circle.
    gridNorthDegTrue(latitudeDeg, longitudeDeg) {
      const latitudeRad = radFromDeg(latitudeDeg);
      const eastRad = radFromDeg(southPoleLongitudeDeg + 180 - longitudeDeg);
      // The northern pole lies at 90° less the tilt.
      const north = Math.cos(latitudeRad) * cosTilt - Math.sin(latitudeRad) * sinTilt * Math.cos(eastRad);
      return wrap180Deg(degFromRad(Math.atan2(sinTilt * Math.sin(eastRad), north)));
    },
  };
}

/** Puts latitude and longitude, turned by the tilt about the axis that pierces the equator at 90° east, into `out`. */
function turnInto(out: Float64Array, latitudeDeg: number, longitudeDeg: number, sinTilt: number, cosTilt: number): void {
  const latitudeRad = radFromDeg(latitudeDeg);
  const longitudeRad = radFromDeg(longitudeDeg);
  const level = Math.cos(latitudeRad);
  const east = level * Math.sin(longitudeRad);
  const away = level * Math.cos(longitudeRad);
  const up = Math.sin(latitudeRad);
  const x = cosTilt * away - sinTilt * up;
  const z = sinTilt * away + cosTilt * up;
  // By tangent, not by sine, which near the poles knows a latitude only to 0.1 m.
  out[0] = degFromRad(Math.atan2(z, Math.hypot(x, east)));
  out[1] = degFromRad(Math.atan2(east, x));
}

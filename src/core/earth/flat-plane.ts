import { METRES_PER_NM, radFromDeg, wrap180Deg } from "../units/index.ts";
import type { Plane } from "./plane.ts";
import { type Position, positionOf } from "./position.ts";

/** Metres in a degree of a sphere on which a minute of arc is one nautical mile. */
const METRES_PER_DEGREE = 60 * METRES_PER_NM;

/**
 * A plane without convergence, for analytic checks only, never for a real passage: x is east and y north everywhere, and positions
 * are got by plain scaling (a minute of latitude is a nautical mile, longitude shortened by the cosine of the centre's latitude).
 * Throws when the radius is not positive or the centre is at a pole.
 */
export function flatPlane(centre: Position, radiusMetres: number): Plane {
  const at = positionOf(centre.latitudeDeg, centre.longitudeDeg);
  if (!(radiusMetres > 0 && Number.isFinite(radiusMetres))) throw new Error(`a plane's radius must be above 0: ${radiusMetres}`);
  const metresPerLongitudeDegree = METRES_PER_DEGREE * Math.cos(radFromDeg(at.latitudeDeg));
  if (Math.abs(at.latitudeDeg) >= 89) {
    throw new Error(`a flat plane can't be laid at latitude ${at.latitudeDeg}`);
  }
  const toPlane: Plane["toPlane"] = ({ latitudeDeg, longitudeDeg }) => ({
    xMetres: wrap180Deg(longitudeDeg - at.longitudeDeg) * metresPerLongitudeDegree,
    yMetres: (latitudeDeg - at.latitudeDeg) * METRES_PER_DEGREE,
  });
  return {
    centre: at,
    radiusMetres,
    toPlane,
    toPlaneIfOn: toPlane,
    toPosition: (xMetres, yMetres) => ({
      latitudeDeg: at.latitudeDeg + yMetres / METRES_PER_DEGREE,
      longitudeDeg: wrap180Deg(at.longitudeDeg + xMetres / metresPerLongitudeDegree),
    }),
    convergenceDegAt: () => 0,
  };
}

import { geodesicBetween, type Plane, type Position, positionOf } from "../earth/index.ts";
import { radFromDeg, wrap180Deg } from "../units/index.ts";

/** Where a position lies on a plane's sheet, metres, and the convergence there, degrees. */
export interface SheetPlace {
  readonly xMetres: number;
  readonly yMetres: number;
  readonly convergenceDeg: number;
}

/**
 * The place on the sheet of any position on earth, also of one beyond the plane's edge (a grid's node outside it, a stream's axis), got
 * there by the geodesic from the centre: on the azimuthal equidistant sheet x = s·sin α and y = s·cos α, and the sheet is turned by what
 * the geodesic's bearing has changed on the way (Snyder, "Map Projections: A Working Manual", USGS PP 1395, 1987, ch. 25).
 */
export function sheetPlaceOf(plane: Plane, position: Position): SheetPlace {
  const on = plane.toPlaneIfOn(position);
  if (on !== null) return { ...on, convergenceDeg: plane.convergenceDegAt(on.xMetres, on.yMetres) };
  const leg = geodesicBetween(plane.centre, positionOf(position.latitudeDeg, position.longitudeDeg));
  const bearingRad = radFromDeg(leg.initialBearingDegTrue);
  return {
    xMetres: leg.distanceMetres * Math.sin(bearingRad),
    yMetres: leg.distanceMetres * Math.cos(bearingRad),
    convergenceDeg: wrap180Deg(leg.finalBearingDegTrue - leg.initialBearingDegTrue),
  };
}

import { METRES_PER_NM, radFromDeg, wrap180Deg } from "../units/index.ts";
import { fitMirror, type MirrorPolynomial, mirrorSlopesInto, mirrorValue, type Samples } from "./disc-fit.ts";
import { geodesicFrom } from "./geodesic.ts";
import type { Plane } from "./plane.ts";
import { type Position, positionOf } from "./position.ts";
import { quickened } from "./quick-plane.ts";
import { positionOfTangent, type TangentFrame, tangentFrame, tangentInto, turnOfSlopesDeg } from "./tangent-frame.ts";

/** The widest plane: at this distance from the centre lengths across the radius are 1.4 parts in 10 000 too long on the sheet. */
export const PLANE_RADIUS_LIMIT_METRES = 100 * METRES_PER_NM;
/** Nearer to a pole than this no plane is laid: true bearings change too fast there to steer by. */
export const PLANE_POLE_GAP_DEG = 2;
/** The fit's degree is raised until its greatest measured error is below this. */
const WANTED_ERROR_METRES = 0.01;
const LEAST_DEGREE = 3;
const GREATEST_DEGREE = 9;
/** The fit serves the square around the disc too, so that a square grid may be laid on it: its corners lie at √2 radii. */
const REACH = Math.SQRT2;

/** A plane fitted to exact geodesics, with the greatest errors measured on points that the fit has not seen. */
export interface FittedPlane extends Plane {
  /** Greatest distance between fit and exact geodesic, either way, metres, within the square around the disc. */
  readonly fitErrorMetres: number;
  /** Greatest error of the convergence, degrees, within the square around the disc. */
  readonly fitErrorDeg: number;
}

interface Pin {
  readonly x: number;
  readonly y: number;
  readonly position: Position;
  readonly convergenceDeg: number;
}

/** Points on rings around the centre, each reached by an exact geodesic. */
function ringsOfPins(centre: Position, reachMetres: number, shares: readonly number[], spokes: number, firstDeg: number): Pin[] {
  const pins: Pin[] = [];
  for (const share of shares) {
    for (let spoke = 0; spoke < spokes; spoke++) {
      const bearingDeg = firstDeg + (360 * spoke) / spokes;
      const end = geodesicFrom(centre, bearingDeg, share * reachMetres);
      const bearingRad = radFromDeg(bearingDeg);
      pins.push({
        x: share * reachMetres * Math.sin(bearingRad),
        y: share * reachMetres * Math.cos(bearingRad),
        position: end.position,
        convergenceDeg: wrap180Deg(end.finalBearingDegTrue - bearingDeg),
      });
    }
  }
  return pins;
}

/** Sheet to tangent frame (east, north, up) and back (x, y), each as what is to be added to the plain coordinate. Metres. */
interface Fit {
  readonly east: MirrorPolynomial;
  readonly north: MirrorPolynomial;
  readonly up: MirrorPolynomial;
  readonly x: MirrorPolynomial;
  readonly y: MirrorPolynomial;
}

function fitPins(frame: TangentFrame, pins: readonly Pin[], reachMetres: number, degree: number): Fit {
  const n = pins.length;
  const column = (): Float64Array => new Float64Array(n);
  const sheet = { x: column(), y: column() };
  const tangent = { x: column(), y: column() };
  const more = { east: column(), north: column(), up: column(), x: column(), y: column() };
  const at = new Float64Array(3);
  pins.forEach((pin, i) => {
    tangentInto(at, frame, pin.position.latitudeDeg, pin.position.longitudeDeg);
    sheet.x[i] = pin.x / reachMetres;
    sheet.y[i] = pin.y / reachMetres;
    tangent.x[i] = at[0]! / reachMetres;
    tangent.y[i] = at[1]! / reachMetres;
    more.east[i] = at[0]! - pin.x;
    more.north[i] = at[1]! - pin.y;
    more.up[i] = at[2]!;
    more.x[i] = pin.x - at[0]!;
    more.y[i] = pin.y - at[1]!;
  });
  const on = (where: Omit<Samples, "values">, values: Float64Array, xPower: 0 | 1): MirrorPolynomial =>
    fitMirror({ ...where, values }, xPower, 2, degree);
  return {
    east: on(sheet, more.east, 1),
    north: on(sheet, more.north, 0),
    up: on(sheet, more.up, 0),
    x: on(tangent, more.x, 1),
    y: on(tangent, more.y, 0),
  };
}

function planeOf(frame: TangentFrame, fit: Fit, radiusMetres: number): Plane {
  const reachMetres = radiusMetres * REACH;
  const sideMetres = radiusMetres * (1 + 1e-6);
  const at = new Float64Array(3);
  const byX = new Float64Array(3);
  const byY = new Float64Array(3);
  const slopes = new Float64Array(2);

  const outside = (what: string): Error => {
    const { latitudeDeg, longitudeDeg } = frame.centre;
    return new Error(
      `outside the plane: ${what} lies beyond ${radiusMetres} m east, west, north or south of ${latitudeDeg}, ${longitudeDeg}`,
    );
  };
  const reaches = (xMetres: number, yMetres: number): boolean => Math.abs(xMetres) <= sideMetres && Math.abs(yMetres) <= sideMetres;
  const tangentOfSheet = (xMetres: number, yMetres: number): void => {
    if (!reaches(xMetres, yMetres)) throw outside(`${xMetres}, ${yMetres} m`);
    const u = xMetres / reachMetres;
    const v = yMetres / reachMetres;
    at[0] = xMetres + mirrorValue(fit.east, u, v);
    at[1] = yMetres + mirrorValue(fit.north, u, v);
    at[2] = mirrorValue(fit.up, u, v);
  };

  const sheetOf = ({ latitudeDeg, longitudeDeg }: Position): { xMetres: number; yMetres: number } | null => {
    tangentInto(at, frame, latitudeDeg, longitudeDeg);
    const east = at[0]!;
    const north = at[1]!;
    // The far side of the earth has a small east and north too, but lies deep below the tangent plane.
    if (!(at[2]! > -reachMetres && Math.abs(east) < reachMetres && Math.abs(north) < reachMetres)) return null;
    const u = east / reachMetres;
    const v = north / reachMetres;
    const xMetres = east + mirrorValue(fit.x, u, v);
    const yMetres = north + mirrorValue(fit.y, u, v);
    return reaches(xMetres, yMetres) ? { xMetres, yMetres } : null;
  };

  return {
    centre: frame.centre,
    radiusMetres,
    toPlane(position) {
      const place = sheetOf(position);
      if (place === null) throw outside(`${position.latitudeDeg}, ${position.longitudeDeg}`);
      return place;
    },
    toPlaneIfOn: sheetOf,
    toPosition(xMetres, yMetres) {
      tangentOfSheet(xMetres, yMetres);
      return positionOfTangent(frame, at);
    },
    convergenceDegAt(xMetres, yMetres) {
      tangentOfSheet(xMetres, yMetres);
      const u = xMetres / reachMetres;
      const v = yMetres / reachMetres;
      mirrorSlopesInto(slopes, fit.east, u, v);
      byX[0] = 1 + slopes[0]! / reachMetres;
      byY[0] = slopes[1]! / reachMetres;
      mirrorSlopesInto(slopes, fit.north, u, v);
      byX[1] = slopes[0]! / reachMetres;
      byY[1] = 1 + slopes[1]! / reachMetres;
      mirrorSlopesInto(slopes, fit.up, u, v);
      byX[2] = slopes[0]! / reachMetres;
      byY[2] = slopes[1]! / reachMetres;
      return turnOfSlopesDeg(frame, at, byX, byY);
    },
  };
}

function greatestErrors(plane: Plane, pins: readonly Pin[], frame: TangentFrame): { metres: number; deg: number } {
  const exact = new Float64Array(3);
  const fitted = new Float64Array(3);
  let metres = 0;
  let deg = 0;
  for (const pin of pins) {
    const sheet = plane.toPlane(pin.position);
    const place = plane.toPosition(pin.x, pin.y);
    tangentInto(exact, frame, pin.position.latitudeDeg, pin.position.longitudeDeg);
    tangentInto(fitted, frame, place.latitudeDeg, place.longitudeDeg);
    metres = Math.max(
      metres,
      Math.hypot(sheet.xMetres - pin.x, sheet.yMetres - pin.y),
      Math.hypot(exact[0]! - fitted[0]!, exact[1]! - fitted[1]!, exact[2]! - fitted[2]!),
    );
    deg = Math.max(deg, Math.abs(wrap180Deg(plane.convergenceDegAt(pin.x, pin.y) - pin.convergenceDeg)));
  }
  return { metres, deg };
}

/**
 * The azimuthal equidistant plane of WGS84 around a centre: distance and true bearing from the centre are exact, x = s·sin α and
 * y = s·cos α of the geodesic (Snyder, "Map Projections: A Working Manual", USGS PP 1395, 1987, ch. 25). Works across 180° and may be
 * asked within the square that stands around the disc, |x| and |y| up to the radius; beyond, its functions throw.
 *
 * It is fast because geodesics are run only once: tangent-plane coordinates are smooth in x and y, polynomials of low degree are
 * fitted between the two, and what is left is exact trigonometry. The greatest errors, measured on other geodesics than the fitted
 * ones, are kept with it. Takes some milliseconds to build.
 *
 * Throws when the radius is not in (0, `PLANE_RADIUS_LIMIT_METRES`] or the centre is within `PLANE_POLE_GAP_DEG` of a pole;
 * `planeOver` says the same as an issue.
 */
export function planeAround(centre: Position, radiusMetres: number): FittedPlane {
  const at = positionOf(centre.latitudeDeg, centre.longitudeDeg);
  if (!(radiusMetres > 0 && radiusMetres <= PLANE_RADIUS_LIMIT_METRES)) {
    throw new Error(`a plane's radius must be above 0 and at most ${PLANE_RADIUS_LIMIT_METRES} m: ${radiusMetres}`);
  }
  if (Math.abs(at.latitudeDeg) > 90 - PLANE_POLE_GAP_DEG) {
    throw new Error(`no plane is laid within ${PLANE_POLE_GAP_DEG}° of a pole: latitude ${at.latitudeDeg}`);
  }
  const reachMetres = radiusMetres * REACH;
  const frame = tangentFrame(at);
  const fitted = ringsOfPins(at, reachMetres, [0.2, 0.45, 0.65, 0.82, 0.94, 1], 24, 3.75);
  const others = ringsOfPins(at, reachMetres, [0.1, 0.33, 0.55, 1 / REACH, 0.88, 0.97, 1], 16, 0).filter(
    (pin) => Math.max(Math.abs(pin.x), Math.abs(pin.y)) <= radiusMetres * (1 + 1e-9),
  );
  for (let degree = LEAST_DEGREE; degree <= GREATEST_DEGREE; degree++) {
    const plane = planeOf(frame, fitPins(frame, fitted, reachMetres, degree), radiusMetres);
    const { metres, deg } = greatestErrors(plane, others, frame);
    if (metres >= WANTED_ERROR_METRES) continue;
    const quick = quickened(plane);
    return { ...quick.plane, fitErrorMetres: metres + quick.errorMetres, fitErrorDeg: deg + quick.errorDeg };
  }
  throw new Error(`the plane around ${at.latitudeDeg}, ${at.longitudeDeg} of radius ${radiusMetres} m could not be fitted`);
}

import { degFromRad, radFromDeg, wrap180Deg } from "../../core/units/index.ts";
import { coneConstant, eccentricityOf, parallelRadius, poleDistance } from "./conformal.ts";
import type { MapProjection } from "./map-projection.ts";
import type { Projector } from "./projector.ts";

type FlatMap = Exclude<MapProjection, { kind: "rotatedPole" }>;
type LambertMap = Extract<MapProjection, { kind: "lambertConformal" }>;

/** Nearer to a pole, which is a tenth of a millimetre, a place is the pole itself. */
const POLE_DEG = 1e-9;
/** So near to a Lambert map's pole x and y say no direction, and mean the pole. */
const APEX_METRES = 1e-3;
/** How far a place may lie beyond a Lambert map's cut, for rounding. */
const CUT_SLACK = 1e-12;

/** What the library puts in and gives back: x and y, or longitude and latitude in radians. */
interface Point {
  x: number;
  y: number;
}

/**
 * The three maps by the proj4 library, on the figure of the earth that the grid was laid out on: no datum enters, places come out as the
 * grid's maker means them. The library is loaded here and not before.
 */
export async function mapProjector(projection: FlatMap): Promise<Projector> {
  const { default: proj4 } = await import("proj4");
  // Its bare formulas, radians in and out: what turns between datums, and what it costs, stays out.
  const library = new proj4.Proj(definitionOf(projection));
  const cone =
    projection.kind === "lambertConformal"
      ? coneOf(projection, library.forward({ x: radFromDeg(projection.originLongitudeDeg), y: 0 }).y)
      : null;
  const { originLongitudeDeg, falseEastingMetres } = projection;
  const turnX = projection.kind === "mercator" ? 2 * Math.PI * projection.earth.semiMajorMetres * equatorScale(projection) : null;
  const sense = gridNorthFactor(projection);
  const point: Point = { x: 0, y: 0 };

  return {
    projection,
    turnX,
    toMapInto(out, latitudeDeg, longitudeDeg) {
      if (!(Math.abs(latitudeDeg) <= 90) || !Number.isFinite(longitudeDeg)) return false;
      if (90 - Math.abs(latitudeDeg) < POLE_DEG) return poleInto(out, latitudeDeg > 0);
      point.x = radFromDeg(originLongitudeDeg + wrap180Deg(longitudeDeg - originLongitudeDeg));
      point.y = radFromDeg(latitudeDeg);
      return taken(out, library.forward(point), false);
    },
    toPlaceInto(out, x, y) {
      if (!Number.isFinite(x) || !Number.isFinite(y)) return false;
      if (cone !== null && Math.hypot(x - falseEastingMetres, y - cone.apexY) < APEX_METRES) return apexInto(out, cone.constant > 0);
      if (cone !== null && isBeyondTheCut(cone, x - falseEastingMetres, y)) return false;
      point.x = turnX === null ? x : falseEastingMetres + withinHalf(x - falseEastingMetres, turnX);
      point.y = y;
      return taken(out, library.inverse(point), true);
    },
    gridNorthDegTrue(_latitudeDeg, longitudeDeg) {
      return sense === 0 ? 0 : wrap180Deg(sense * wrap180Deg(longitudeDeg - originLongitudeDeg));
    },
  };

  function apexInto(out: Float64Array, north: boolean): boolean {
    out[0] = north ? 90 : -90;
    out[1] = wrap180Deg(originLongitudeDeg);
    return true;
  }

  function poleInto(out: Float64Array, north: boolean): boolean {
    if (projection.kind === "mercator") return false;
    if (cone !== null && cone.constant > 0 !== north) return false;
    if (projection.kind === "polarStereographic" && (projection.pole === "north") !== north) return false;
    out[0] = falseEastingMetres;
    out[1] = cone === null ? projection.falseNorthingMetres : cone.apexY;
    return true;
  }
}

/** The library's answer, moved into `out`; it is null, or not finite, where there is none. */
function taken(out: Float64Array, point: Point | null, isPlace: boolean): boolean {
  if (point === null || !Number.isFinite(point.x) || !Number.isFinite(point.y)) return false;
  if (!isPlace) {
    out[0] = point.x;
    out[1] = point.y;
    return true;
  }
  const latitudeDeg = degFromRad(point.y);
  // Half a turn on the map comes out of its formulas a rounding beyond the pole.
  if (Math.abs(latitudeDeg) > 90 + POLE_DEG) return false;
  out[0] = Math.max(-90, Math.min(90, latitudeDeg));
  out[1] = wrap180Deg(degFromRad(point.x));
  return true;
}

/** In PROJ's terms (its parameters are an open convention); spelled so that no default of the library enters. */
function definitionOf(projection: FlatMap): string {
  const { semiMajorMetres, semiMinorMetres } = projection.earth;
  const common =
    `+lon_0=${projection.originLongitudeDeg} +x_0=${projection.falseEastingMetres} +y_0=${projection.falseNorthingMetres}` +
    ` +a=${semiMajorMetres} +b=${semiMinorMetres} +units=m +no_defs`;
  if (projection.kind === "mercator") return `+proj=merc +lat_ts=${projection.trueScaleLatitudeDeg} ${common}`;
  if (projection.kind === "polarStereographic") {
    return `+proj=stere +lat_0=${projection.pole === "north" ? 90 : -90} +lat_ts=${projection.trueScaleLatitudeDeg} ${common}`;
  }
  const [first, second] = parallelsOf(projection);
  return `+proj=lcc +lat_1=${first} +lat_2=${second} +lat_0=${projection.originLatitudeDeg} ${common}`;
}

/** The library takes a parallel of nought for one left out, and divides by the difference of two that are all but one. */
function parallelsOf({ standardLatitude1Deg: first, standardLatitude2Deg: second }: LambertMap): readonly [number, number] {
  const apart = Math.abs(first - second) >= 1e-6;
  const middle = (first + second) / 2;
  return apart ? [first || 1e-12, second || 1e-12] : [middle, middle];
}

/** A Lambert map's cone: its constant, and where its apex, the pole, lies on the map's y. */
interface Cone {
  readonly constant: number;
  readonly apexY: number;
}

function coneOf(projection: LambertMap, equatorY: number): Cone {
  const constant = coneConstant(projection);
  const e = eccentricityOf(projection.earth);
  const [first] = parallelsOf(projection);
  // Snyder eqs. 15-10 and 15-7, where t = 1.
  const equatorRadius = (projection.earth.semiMajorMetres * parallelRadius(first, e)) / (constant * poleDistance(first, e) ** constant);
  return { constant, apexY: equatorY + equatorRadius };
}

/** Whether x (from the origin) and y lie in the wedge that the unrolled cone leaves open, where there is no earth. */
function isBeyondTheCut({ constant, apexY }: Cone, x: number, y: number): boolean {
  const side = Math.sign(constant);
  return Math.abs(Math.atan2(side * x, side * (apexY - y))) > Math.abs(constant) * Math.PI * (1 + CUT_SLACK);
}

function equatorScale(projection: Extract<MapProjection, { kind: "mercator" }>): number {
  return parallelRadius(projection.trueScaleLatitudeDeg, eccentricityOf(projection.earth));
}

/** By how much the map's y turns clockwise for a degree east of the origin's meridian. */
function gridNorthFactor(projection: FlatMap): number {
  if (projection.kind === "mercator") return 0;
  if (projection.kind === "polarStereographic") return projection.pole === "north" ? 1 : -1;
  return coneConstant(projection);
}

function withinHalf(value: number, turn: number): number {
  return value - turn * Math.floor(value / turn + 0.5);
}

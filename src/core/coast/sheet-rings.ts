import { geodesicBetween, type Plane, type Position } from "../earth/index.ts";
import { radFromDeg, wrap180Deg } from "../units/index.ts";
import { type Box, boundsOf, clipRing, twiceArea } from "./clip-ring.ts";
import { boxAround } from "./geo-box.ts";
import type { LandArea, Ring } from "./land-area.ts";

/** An edge straight in longitude and latitude is laid as so many straight ones that none is off by more than this, metres. */
const LAID_WITHIN_METRES = 0.5;
/** Shorter edges bend less than that anywhere but close to a pole, metres. */
const STRAIGHT_BELOW_METRES = 500;
const MOST_HALVINGS = 14;

/** A ring on the sheet, in metres, x and y in turn, not closed; land lies to the left of each edge. */
export interface SheetRing {
  readonly corners: Float64Array;
  readonly area: number;
}

/** The square that a plane serves. */
export function squareOf({ radiusMetres }: Plane): Box {
  return { west: -radiusMetres, south: -radiusMetres, east: radiusMetres, north: radiusMetres };
}

/** Lays areas on a plane, each ring cut to the plane's square and closed along its sides. Throws on a ring that holds no plain numbers. */
export function sheetRings(plane: Plane, areas: readonly LandArea[]): readonly SheetRing[] {
  const box = boxAround(plane);
  const centreDeg = plane.centre.longitudeDeg;
  const wide = (deg: number): number => wrap180Deg(deg - centreDeg);
  const around: Box = { west: wide(box.westDeg), south: box.southDeg, east: wide(box.eastDeg), north: box.northDeg };
  const square = squareOf(plane);
  const out: SheetRing[] = [];
  areas.forEach((area, i) => {
    area.rings.forEach((ring, k) => {
      const run = runningOn(ring, centreDeg);
      // The outer ring turns left and holes turn right, whichever way they came.
      if (twiceArea(run) > 0 === k > 0) reverse(run);
      const { west, east } = boundsOf(run);
      for (let turn = Math.ceil((around.west - east) / 360); west + turn * 360 <= around.east; turn++) {
        const corners = clipRing(laid(clipRing(turned(run, turn), around), plane, centreDeg), square);
        if (corners.length >= 6) out.push({ corners, area: i });
      }
    });
  });
  return out;
}

/** Longitudes from the centre's, running on over the ring without a jump; the repeated last corner left out. A ring around a pole is led there and back. */
function runningOn(ring: Ring, centreDeg: number): Float64Array {
  const n = ring.length;
  const closed = n >= 4 && ring[0] === ring[n - 2] && ring[1] === ring[n - 1];
  const out = new Float64Array(closed ? n - 2 : n);
  let longitude = Number.NaN;
  for (let i = 0; i < out.length; i += 2) {
    const [longitudeDeg, latitudeDeg] = [ring[i] as number, ring[i + 1] as number];
    if (!Number.isFinite(longitudeDeg) || !(Math.abs(latitudeDeg) <= 90)) throw new Error(`no place: ${longitudeDeg}, ${latitudeDeg}`);
    longitude = i === 0 ? wrap180Deg(longitudeDeg - centreDeg) : longitude + shorter(longitudeDeg - centreDeg - longitude);
    out[i] = longitude;
    out[i + 1] = latitudeDeg;
  }
  if (out.length < 6) return out;
  const first = out[0] as number;
  const end = longitude + shorter(first - longitude);
  if (Math.abs(end - first) < 180) return out;
  const pole = (out[1] as number) > 0 ? 90 : -90;
  return Float64Array.of(...out, end, out[1] as number, end, pole, first, pole);
}

/** The shorter way round, the half turn as it stands. */
function shorter(deg: number): number {
  return Math.abs(deg) <= 180 ? deg : wrap180Deg(deg);
}

function reverse(ring: Float64Array): void {
  for (let i = 0, k = ring.length - 2; i < k; i += 2, k -= 2) {
    const [x, y] = [ring[i] as number, ring[i + 1] as number];
    ring[i] = ring[k] as number;
    ring[i + 1] = ring[k + 1] as number;
    ring[k] = x;
    ring[k + 1] = y;
  }
}

function turned(ring: Float64Array, turns: number): Float64Array {
  return turns === 0 ? ring : ring.map((value, i) => (i % 2 === 0 ? value + 360 * turns : value));
}

/** A ring in degrees (longitudes from the centre's) as one in metres, bending edges as several straight ones. */
function laid(ring: Float64Array, plane: Plane, centreDeg: number): Float64Array {
  const n = ring.length;
  const out: number[] = [];
  const place = (lon: number, lat: number): { readonly xMetres: number; readonly yMetres: number } =>
    placeOnOrOff(plane, { latitudeDeg: lat, longitudeDeg: wrap180Deg(centreDeg + lon) });
  const between = (
    lon0: number,
    lat0: number,
    x0: number,
    y0: number,
    lon1: number,
    lat1: number,
    x1: number,
    y1: number,
    left: number,
  ): void => {
    const lengthMetres = Math.abs(x1 - x0) + Math.abs(y1 - y0);
    // An edge of many degrees may come back to where it began, as along a parallel close to the pole.
    if (left === 0 || (lengthMetres < STRAIGHT_BELOW_METRES && Math.abs(lon1 - lon0) < 1)) return;
    const lon = (lon0 + lon1) / 2;
    const lat = (lat0 + lat1) / 2;
    const { xMetres: x, yMetres: y } = place(lon, lat);
    if (Math.hypot(x - (x0 + x1) / 2, y - (y0 + y1) / 2) < LAID_WITHIN_METRES) return;
    between(lon0, lat0, x0, y0, lon, lat, x, y, left - 1);
    out.push(x, y);
    between(lon, lat, x, y, lon1, lat1, x1, y1, left - 1);
  };
  if (n === 0) return ring;
  let lon = ring[n - 2] as number;
  let lat = ring[n - 1] as number;
  let { xMetres: x, yMetres: y } = place(lon, lat);
  for (let i = 0; i < n; i += 2) {
    const nextLon = ring[i] as number;
    const nextLat = ring[i + 1] as number;
    const { xMetres: nextX, yMetres: nextY } = place(nextLon, nextLat);
    between(lon, lat, x, y, nextLon, nextLat, nextX, nextY, MOST_HALVINGS);
    out.push(nextX, nextY);
    lon = nextLon;
    lat = nextLat;
    x = nextX;
    y = nextY;
  }
  return Float64Array.from(out);
}

/** A place on the sheet, or beyond it by its own geodesic from the centre, as the sheet is drawn (azimuthal equidistant). */
function placeOnOrOff(plane: Plane, position: Position): { readonly xMetres: number; readonly yMetres: number } {
  const on = plane.toPlaneIfOn(position);
  if (on !== null) return on;
  const { distanceMetres, initialBearingDegTrue } = geodesicBetween(plane.centre, position);
  const bearingRad = radFromDeg(initialBearingDegTrue);
  return { xMetres: distanceMetres * Math.sin(bearingRad), yMetres: distanceMetres * Math.cos(bearingRad) };
}

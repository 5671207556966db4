import { radFromDeg } from "../../core/units/index.ts";
import type { Projector } from "./projector.ts";

/** A box of places, degrees. West to east runs eastward: over 180 the east is the lesser, or is told past 180. */
export interface PlaceBox {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
}

/** A run of neighbouring rows or columns. */
export interface NodeRange {
  readonly start: number;
  readonly count: number;
}

export interface GridWindow {
  readonly rows: NodeRange;
  readonly columns: NodeRange;
}

/** The box is looked at in so many patches each way; a patch is then at most 5.6 degrees wide. */
const PATCHES = 64;
/**
 * By how much of a patch's length its edges may bulge on the map: a parallel's arc of 5.6 degrees bulges by an eighth of that (in
 * radians), 0.012 of its length, and as near to a turned pole as is let through another 0.031.
 */
const BULGE = 0.05;
/** A patch nearer to a turned pole than so many of its own lengths may hold any turned longitude. */
const POLE_LENGTHS = 4;
/** How far rounding may put a node off the box's edge: a centimetre on a map, or a millimetre in degrees. */
const ROUNDING = { metres: 1e-2, degrees: 1e-8 };
/** Patches end so near to the meridian where a map is cut, on either side. */
const CUT_SIDE_DEG = 1e-9;

/**
 * The rows and columns of a projected grid that hold every node in the box, and one more each way where there is one; null where the
 * box and the grid don't meet. May hold more than needed, never less. `xs` and `ys` ascend, evenly or not.
 */
export function chooseWindow(projector: Projector, xs: Float64Array, ys: Float64Array, box: PlaceBox): GridWindow | null {
  const { southDeg, northDeg, westDeg } = box;
  if (!(southDeg <= northDeg && southDeg >= -90 && northDeg <= 90)) throw new Error(`a box from latitude ${southDeg} to ${northDeg}`);
  const widthDeg = box.eastDeg < westDeg ? box.eastDeg + 360 - westDeg : box.eastDeg - westDeg;
  if (!(widthDeg >= 0 && widthDeg <= 360)) throw new Error(`a box from longitude ${westDeg} to ${box.eastDeg}`);
  const seen: Seen = { firstRow: ys.length, lastRow: -1, firstColumn: xs.length, lastColumn: -1 };
  const heightDeg = (northDeg - southDeg) / PATCHES;
  const strips = stripsOf(projector, westDeg, widthDeg);
  for (let i = 0; i < PATCHES; i++) {
    const south = southDeg + i * heightDeg;
    const north = i === PATCHES - 1 ? northDeg : south + heightDeg;
    for (const [west, east] of strips) takeIn(seen, projector.turnX, xs, ys, extentOf(projector, south, north, west, east));
  }
  if (seen.lastRow < 0) return null;
  return {
    rows: { start: seen.firstRow, count: seen.lastRow - seen.firstRow + 1 },
    columns: { start: seen.firstColumn, count: seen.lastColumn - seen.firstColumn + 1 },
  };
}

/** Meridians, two by two, that part the box from west to east; where a Lambert map is cut they stand on either side of the cut. */
function stripsOf(projector: Projector, westDeg: number, widthDeg: number): readonly (readonly [number, number])[] {
  const { projection } = projector;
  const strips: (readonly [number, number])[] = [];
  for (let i = 0; i < PATCHES; i++) {
    const west = westDeg + (i * widthDeg) / PATCHES;
    const east = westDeg + ((i + 1) * widthDeg) / PATCHES;
    if (projection.kind === "lambertConformal") {
      const opposite = projection.originLongitudeDeg + 180;
      const cut = opposite + 360 * Math.ceil((west - CUT_SIDE_DEG - opposite) / 360);
      if (cut <= east + CUT_SIDE_DEG) {
        strips.push([Math.min(west, cut - CUT_SIDE_DEG), cut - CUT_SIDE_DEG], [cut + CUT_SIDE_DEG, Math.max(east, cut + CUT_SIDE_DEG)]);
        continue;
      }
    }
    strips.push([west, east]);
  }
  return strips;
}

/** What a patch takes up on the map, and room for its bulging edges. */
interface Extent {
  readonly leastX: number;
  readonly mostX: number;
  readonly leastY: number;
  readonly mostY: number;
}

const EVERYTHING: Extent = { leastX: -Infinity, mostX: Infinity, leastY: -Infinity, mostY: Infinity };
const corner = new Float64Array(2);

function extentOf(projector: Projector, south: number, north: number, west: number, east: number): Extent {
  const { turnX, projection } = projector;
  let [leastX, mostX, leastY, mostY] = [Infinity, -Infinity, Infinity, -Infinity];
  let nearX: number | null = null;
  for (const latitudeDeg of [south, north]) {
    for (const longitudeDeg of [west, east]) {
      // Beside a place that the map can't show, a pole, it has no bounds.
      if (!projector.toMapInto(corner, latitudeDeg, longitudeDeg)) return EVERYTHING;
      let x = corner[0]!;
      if (turnX !== null && nearX !== null) x -= turnX * Math.round((x - nearX) / turnX);
      nearX ??= x;
      leastX = Math.min(leastX, x);
      mostX = Math.max(mostX, x);
      leastY = Math.min(leastY, corner[1]!);
      mostY = Math.max(mostY, corner[1]!);
    }
  }
  const longest = Math.max(mostX - leastX, mostY - leastY);
  const bulge = BULGE * longest + (projection.kind === "rotatedPole" ? ROUNDING.degrees : ROUNDING.metres);
  if (projection.kind !== "rotatedPole") return widened(leastX, mostX, leastY, mostY, bulge, bulge);

  const levelDeg = south <= 0 && north >= 0 ? 0 : Math.min(Math.abs(south), Math.abs(north));
  const lengthDeg = Math.hypot(north - south, (east - west) * Math.cos(radFromDeg(levelDeg)));
  const farthestDeg = Math.max(Math.abs(leastY), Math.abs(mostY));
  if (90 - farthestDeg < (POLE_LENGTHS + 1) * lengthDeg) {
    const room = lengthDeg + ROUNDING.degrees;
    return { leastX: -Infinity, mostX: Infinity, leastY: leastY - room, mostY: mostY + room };
  }
  // A degree of turned longitude is the shorter the nearer its pole.
  return widened(leastX, mostX, leastY, mostY, bulge / Math.cos(radFromDeg(farthestDeg)), bulge);
}

function widened(leastX: number, mostX: number, leastY: number, mostY: number, byX: number, byY: number): Extent {
  return { leastX: leastX - byX, mostX: mostX + byX, leastY: leastY - byY, mostY: mostY + byY };
}

interface Seen {
  firstRow: number;
  lastRow: number;
  firstColumn: number;
  lastColumn: number;
}

/** Takes in the nodes within an extent and one more on every side, wherever the extent comes to lie when moved by whole turns. */
function takeIn(seen: Seen, turnX: number | null, xs: Float64Array, ys: Float64Array, extent: Extent): void {
  const rows = rangeOf(ys, extent.leastY, extent.mostY);
  if (rows === null) return;
  const isBounded = Number.isFinite(extent.leastX);
  const turn = turnX ?? 1;
  const from = turnX === null || !isBounded ? 0 : Math.floor((xs[0]! - extent.mostX) / turn);
  const until = turnX === null || !isBounded ? 0 : Math.ceil((xs[xs.length - 1]! - extent.leastX) / turn);
  for (let turns = from; turns <= until; turns++) {
    const columns = rangeOf(xs, extent.leastX + turns * turn, extent.mostX + turns * turn);
    if (columns === null) continue;
    seen.firstRow = Math.min(seen.firstRow, rows[0]);
    seen.lastRow = Math.max(seen.lastRow, rows[1]);
    seen.firstColumn = Math.min(seen.firstColumn, columns[0]);
    seen.lastColumn = Math.max(seen.lastColumn, columns[1]);
  }
}

/** The first and last index within [low, high], one more on either side where there is one; null where the axis doesn't touch it. */
function rangeOf(ascending: Float64Array, low: number, high: number): readonly [number, number] | null {
  const last = ascending.length - 1;
  if (last < 0) return null;
  if (ascending[last]! < low || ascending[0]! > high) return null;
  return [Math.max(0, countBelow(ascending, low) - 1), Math.min(last, countBelow(ascending, high))];
}

/** How many values lie below a limit. */
function countBelow(ascending: Float64Array, limit: number): number {
  let [low, high] = [0, ascending.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (ascending[middle]! < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

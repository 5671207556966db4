import { good, type Parsed } from "../../core/answers/index.ts";
import type { Area, Crop } from "./forecast-reading.ts";
import type { IndexBox } from "./netcdf-mesh-place.ts";
import type { BlockOfPlaces, NodePlaces } from "./netcdf-node-places.ts";

/** So many nodes' places are held at once while a grid is looked over. */
const NODES_AT_ONCE = 500_000;
const RAD_PER_DEG = Math.PI / 180;
/** A crop's edge is met by what comes this near to it. */
const SLACK_DEG = 1e-6;

/** A grid of nodes looked over whole. */
export interface GridScan {
  /** Null where no node has a place. */
  readonly area: Area | null;
  readonly greatestTurnDeg: number;
  /** More than one node stands at 0° N 0° E: that is a blank, not a place. */
  readonly noughtIsBlank: boolean;
}

/** Goes through the rows in blocks, each of which begins with the last row of the one before. */
async function eachBlock(places: NodePlaces, see: (block: BlockOfPlaces, box: IndexBox) => void): Promise<Parsed<null>> {
  const rowsAtOnce = Math.max(2, Math.floor(NODES_AT_ONCE / Math.max(1, places.columns)));
  for (let rowStart = 0; rowStart === 0 || rowStart < places.rows - 1; rowStart += rowsAtOnce - 1) {
    const rowCount = Math.min(rowsAtOnce, places.rows - rowStart);
    const box = { rowStart, rowCount, columnStart: 0, columnCount: places.columns };
    const block = await places.read(box);
    if (!block.ok) return block;
    see(block.value, box);
  }
  return good(null);
}

/** Looks over a grid: the area of its nodes, and how far its rows lean from east at most. */
export async function scanGrid(places: NodePlaces): Promise<Parsed<GridScan>> {
  const extent = new Extent();
  let noughts = 0;
  let greatestTurnDeg = 0;
  const seen = await eachBlock(places, (block, { rowStart }) => {
    const { latitudesDeg, longitudesDeg } = block;
    for (let node = rowStart === 0 ? 0 : places.columns; node < latitudesDeg.length; node++) {
      if (latitudesDeg[node] === 0 && longitudesDeg[node] === 0) noughts++;
    }
    blankNoughts(block);
    for (let node = 0; node < latitudesDeg.length; node++) {
      const latitude = latitudesDeg[node]!;
      if (Number.isNaN(latitude)) continue;
      extent.add(latitude, longitudesDeg[node]!);
      if ((node + 1) % places.columns === 0 || Number.isNaN(latitudesDeg[node + 1]!)) continue;
      const north = latitudesDeg[node + 1]! - latitude;
      const east = withinHalfTurn(longitudesDeg[node + 1]! - longitudesDeg[node]!) * Math.cos(latitude * RAD_PER_DEG);
      if (north !== 0 || east !== 0) greatestTurnDeg = Math.max(greatestTurnDeg, Math.abs(Math.atan2(north, east)) / RAD_PER_DEG);
    }
  });
  if (!seen.ok) return seen;
  if (noughts === 1) extent.add(0, 0);
  return good({ area: extent.area(), greatestTurnDeg, noughtIsBlank: noughts > 1 });
}

/** The box around places, longitudes kept as the least and the greatest in each degree. */
class Extent {
  private southDeg = Number.POSITIVE_INFINITY;
  private northDeg = Number.NEGATIVE_INFINITY;
  private readonly lowest = new Float64Array(360).fill(Number.POSITIVE_INFINITY);
  private readonly highest = new Float64Array(360).fill(Number.NEGATIVE_INFINITY);

  add(latitudeDeg: number, longitudeDeg: number): void {
    this.southDeg = Math.min(this.southDeg, latitudeDeg);
    this.northDeg = Math.max(this.northDeg, latitudeDeg);
    const turned = longitudeDeg - 360 * Math.floor(longitudeDeg / 360);
    const degree = Math.min(359, Math.floor(turned));
    this.lowest[degree] = Math.min(this.lowest[degree]!, turned);
    this.highest[degree] = Math.max(this.highest[degree]!, turned);
  }

  area(): Area | null {
    const { southDeg, northDeg } = this;
    return southDeg <= northDeg ? { southDeg, northDeg, ...arcOf(this.lowest, this.highest) } : null;
  }
}

/** The narrowest arc that holds longitudes told by the least and the greatest in each degree; west in [−180, 180). */
function arcOf(lowest: Float64Array, highest: Float64Array): { westDeg: number; eastDeg: number } {
  const held = [...lowest.keys()].filter((degree) => Number.isFinite(lowest[degree]!));
  let best = { gap: -1, west: 0, east: 0 };
  held.forEach((degree, index) => {
    const next = held[(index + 1) % held.length]!;
    const gap = lowest[next]! - highest[degree]! + (index + 1 === held.length ? 360 : 0);
    if (gap > best.gap) best = { gap, west: lowest[next]!, east: highest[degree]! };
  });
  const westDeg = best.west >= 180 ? best.west - 360 : best.west;
  return { westDeg, eastDeg: westDeg + (best.east - best.west < 0 ? best.east - best.west + 360 : best.east - best.west) };
}

/** The rows and columns whose cells touch the crop, and one cell more on either side; null where none does. */
export async function boxOf(places: NodePlaces, crop: Crop, noughtIsBlank: boolean): Promise<Parsed<IndexBox | null>> {
  let [firstRow, lastRow, firstColumn, lastColumn] = [Number.POSITIVE_INFINITY, -1, Number.POSITIVE_INFINITY, -1];
  const width = places.columns;
  const seen = await eachBlock(places, (block, { rowStart, rowCount }) => {
    if (noughtIsBlank) blankNoughts(block);
    for (let row = 0; row + 1 < rowCount; row++) {
      for (let column = 0; column + 1 < width; column++) {
        if (!touches(block, row * width + column, width, crop)) continue;
        firstRow = Math.min(firstRow, rowStart + row);
        lastRow = Math.max(lastRow, rowStart + row + 1);
        firstColumn = Math.min(firstColumn, column);
        lastColumn = Math.max(lastColumn, column + 1);
      }
    }
  });
  if (!seen.ok) return seen;
  if (lastRow < 0) return good(null);
  const rowStart = Math.max(0, firstRow - 1);
  const columnStart = Math.max(0, firstColumn - 1);
  return good({
    rowStart,
    rowCount: Math.min(places.rows - 1, lastRow + 1) - rowStart + 1,
    columnStart,
    columnCount: Math.min(width - 1, lastColumn + 1) - columnStart + 1,
  });
}

/** Whether the box around a cell meets the crop. A cell that goes half round the earth holds a pole: it may lie at any longitude. */
function touches({ latitudesDeg, longitudesDeg }: BlockOfPlaces, corner: number, width: number, crop: Crop): boolean {
  const first = longitudesDeg[corner]!;
  let [south, north, west, east] = [90, -90, first, first];
  for (let at = 0; at < 4; at++) {
    const node = corner + (at & 1) + (at >> 1) * width;
    const latitude = latitudesDeg[node]!;
    if (Number.isNaN(latitude)) return false;
    if (latitude < south) south = latitude;
    if (latitude > north) north = latitude;
    const longitude = first + withinHalfTurn(longitudesDeg[node]! - first);
    if (longitude < west) west = longitude;
    if (longitude > east) east = longitude;
  }
  if (south > crop.northDeg + SLACK_DEG || north < crop.southDeg - SLACK_DEG) return false;
  if (east - west > 180) return true;
  const cropEast = crop.eastDeg < crop.westDeg ? crop.eastDeg + 360 : crop.eastDeg;
  // The first turn at which the cell's east side is not west of the crop.
  const turn = 360 * Math.ceil((crop.westDeg - SLACK_DEG - east) / 360);
  return west + turn <= cropEast + SLACK_DEG;
}

/** Takes the place from nodes at 0° N 0° E. */
export function blankNoughts({ latitudesDeg, longitudesDeg }: BlockOfPlaces): void {
  for (let node = 0; node < latitudesDeg.length; node++) {
    if (latitudesDeg[node] === 0 && longitudesDeg[node] === 0) latitudesDeg[node] = longitudesDeg[node] = Number.NaN;
  }
}

const withinHalfTurn = (deg: number): number => deg - 360 * Math.round(deg / 360);

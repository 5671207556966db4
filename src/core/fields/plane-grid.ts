import type { Plane } from "../earth/index.ts";
import { radFromDeg } from "../units/index.ts";
import { Axis, type AxisPlace } from "./axis.ts";
import type { GridData } from "./grid-data.ts";
import { sheetPlaceOf } from "./sheet-place.ts";

/** The least share of a cell's weight that must be covered for its value to count; below it the place is not covered. */
export const LEAST_COVERED_WEIGHT = 0.5;

/** Of which north a laid grid's vectors are: the sheet's own y, or true north. */
export type VectorFrame = "sheet" | "trueNorth";

/**
 * A grid laid on a plane. Vectors are turned into the sheet's frame once, node by node, or left true where their user wants bearings.
 * Places are read on the grid's own latitudes and longitudes, so nothing is resampled and no smoothing is added; the only error is the
 * plane's own fit, metres. Longitudes may run 0 to 360 or -180 to 180; a grid whose columns go round the earth is closed at its seam.
 */
export class PlaneGrid {
  readonly data: GridData;
  readonly components: number;
  private readonly values: Float32Array;
  private readonly latitudes: Axis;
  private readonly longitudes: Axis;
  private readonly plane: Plane;
  private readonly rows: number;
  private readonly columns: number;
  private readonly row: AxisPlace = { index: 0, fraction: 0 };
  private readonly column: AxisPlace = { index: 0, fraction: 0 };
  private readonly firstLongitudeDeg: number;
  private nodePlaces: NodePlaces | null = null;

  /** Throws when an axis does not ascend, the values do not fill the grid, or one of them is no number. */
  constructor(data: GridData, plane: Plane, frame: VectorFrame) {
    this.data = data;
    this.plane = plane;
    this.components = data.quantities.length;
    this.rows = data.latitudesDeg.length;
    this.columns = data.longitudesDeg.length;
    this.latitudes = new Axis(data.latitudesDeg);
    this.longitudes = new Axis(withSeam(data.longitudesDeg));
    this.firstLongitudeDeg = data.longitudesDeg[0] as number;
    const points = data.times.length * this.rows * this.columns;
    if (data.missing.length !== points || data.values.length !== points * this.components) {
      throw new Error(`a grid of ${points} points holds ${data.missing.length} marks and ${data.values.length} values`);
    }
    for (let i = 0; i < data.values.length; i++) {
      if (!Number.isFinite(data.values[i] as number)) throw new Error(`value ${i} of the grid is ${data.values[i]}`);
    }
    this.values = frame === "sheet" ? turnedToSheet(data, plane) : data.values;
  }

  /** Finds the cell under (x, y) metres for the `readLevelInto` calls that follow; false when it is off the grid or the plane. */
  moveTo(xMetres: number, yMetres: number): boolean {
    const { radiusMetres } = this.plane;
    if (!(Math.abs(xMetres) <= radiusMetres && Math.abs(yMetres) <= radiusMetres)) return false;
    const position = this.plane.toPosition(xMetres, yMetres);
    let longitudeDeg = position.longitudeDeg;
    while (longitudeDeg < this.firstLongitudeDeg) longitudeDeg += 360;
    while (longitudeDeg - 360 >= this.firstLongitudeDeg) longitudeDeg -= 360;
    return this.latitudes.locate(this.row, position.latitudeDeg) && this.longitudes.locate(this.column, longitudeDeg);
  }

  /**
   * Stands on the node nearest to (x, y) within `withinMetres` that is covered at both time levels, for the `readLevelInto` calls that
   * follow; false when there is none.
   */
  moveToNearest(xMetres: number, yMetres: number, level: number, otherLevel: number, withinMetres: number): boolean {
    this.nodePlaces ??= placesOfNodes(this.data, this.plane);
    const { x, y } = this.nodePlaces;
    const { missing } = this.data;
    let best = -1;
    let bestSquare = withinMetres * withinMetres;
    for (let node = 0; node < x.length; node++) {
      const dx = (x[node] as number) - xMetres;
      const dy = (y[node] as number) - yMetres;
      const square = dx * dx + dy * dy;
      if (!(best < 0 ? square <= bestSquare : square < bestSquare)) continue;
      if (missing[level * x.length + node] !== 0 || missing[otherLevel * x.length + node] !== 0) continue;
      bestSquare = square;
      best = node;
    }
    if (best < 0) return false;
    this.row.index = Math.floor(best / this.columns);
    this.column.index = best % this.columns;
    this.row.fraction = 0;
    this.column.fraction = 0;
    return true;
  }

  /**
   * Bilinear over the covered corners of the cell last moved to, at time level `level`, weights renormalised; false where less than
   * `LEAST_COVERED_WEIGHT` of the cell is covered. Writes `components` numbers from `offset`.
   */
  readLevelInto(out: Float64Array, offset: number, level: number): boolean {
    const nx = this.columns;
    const ny = this.rows;
    const j = this.row.index;
    const i = this.column.index;
    const jUp = j + 1 < ny ? j + 1 : j;
    // Beyond the last column stands the first again: the seam of a grid round the earth (elsewhere its weight is 0).
    const iUp = i + 1 < nx ? i + 1 : 0;
    const fy = this.row.fraction;
    const fx = this.column.fraction;
    const base = level * ny * nx;
    const a = base + j * nx + i;
    const b = base + j * nx + iUp;
    const c = base + jUp * nx + i;
    const d = base + jUp * nx + iUp;
    const missing = this.data.missing;
    let wa = (1 - fx) * (1 - fy);
    let wb = fx * (1 - fy);
    let wc = (1 - fx) * fy;
    let wd = fx * fy;
    if (missing[a] !== 0) wa = 0;
    if (missing[b] !== 0) wb = 0;
    if (missing[c] !== 0) wc = 0;
    if (missing[d] !== 0) wd = 0;
    const covered = wa + wb + wc + wd;
    if (covered < LEAST_COVERED_WEIGHT) return false;
    const values = this.values;
    const n = this.components;
    for (let k = 0; k < n; k++) {
      out[offset + k] =
        (wa * (values[a * n + k] as number) +
          wb * (values[b * n + k] as number) +
          wc * (values[c * n + k] as number) +
          wd * (values[d * n + k] as number)) /
        covered;
    }
    return true;
  }
}

interface NodePlaces {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

function placesOfNodes(data: GridData, plane: Plane): NodePlaces {
  const nx = data.longitudesDeg.length;
  const ny = data.latitudesDeg.length;
  const places = { x: new Float64Array(nx * ny), y: new Float64Array(nx * ny) };
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const place = sheetPlaceOf(plane, { latitudeDeg: data.latitudesDeg[j] as number, longitudeDeg: data.longitudesDeg[i] as number });
      places.x[j * nx + i] = place.xMetres;
      places.y[j * nx + i] = place.yMetres;
    }
  }
  return places;
}

/** The longitudes with the first repeated a turn on, where the columns go round the earth and only the closing one is wanting. */
function withSeam(longitudesDeg: Float64Array): Float64Array {
  const count = longitudesDeg.length;
  if (count < 3) return longitudesDeg;
  const first = longitudesDeg[0] as number;
  const last = longitudesDeg[count - 1] as number;
  const stepDeg = (last - first) / (count - 1);
  if (Math.abs(last - first + stepDeg - 360) > 0.01 * stepDeg) return longitudesDeg;
  return Float64Array.from([...longitudesDeg, first + 360]);
}

/** East and north components turned from true north to the sheet's, node by node; scalars are left as they are. */
function turnedToSheet(data: GridData, plane: Plane): Float32Array {
  const east = data.quantities.findIndex((quantity) => quantity === "currentEastMps" || quantity === "windEastMps");
  if (east < 0) return data.values;
  const n = data.quantities.length;
  const nx = data.longitudesDeg.length;
  const ny = data.latitudesDeg.length;
  const nt = data.times.length;
  const turned = new Float32Array(data.values);
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const node = { latitudeDeg: data.latitudesDeg[j] as number, longitudeDeg: data.longitudesDeg[i] as number };
      const turnRad = radFromDeg(sheetPlaceOf(plane, node).convergenceDeg);
      const cos = Math.cos(turnRad);
      const sin = Math.sin(turnRad);
      for (let t = 0; t < nt; t++) {
        const at = ((t * ny + j) * nx + i) * n + east;
        const eastMps = data.values[at] as number;
        const northMps = data.values[at + 1] as number;
        // A bearing on the sheet is the true bearing less the convergence: the vector turns counter-clockwise by it.
        turned[at] = eastMps * cos - northMps * sin;
        turned[at + 1] = eastMps * sin + northMps * cos;
      }
    }
  }
  return turned;
}

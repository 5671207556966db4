import type { Plane } from "../earth/index.ts";
import { Axis, type AxisPlace } from "./axis.ts";
import type { LatLonMesh } from "./mesh.ts";
import type { MeshLocator } from "./mesh-locator.ts";

/**
 * Bilinear in latitude and longitude over the cell of a regular grid. Places are read on the grid's own axes, so the only error is the
 * plane's own fit. Longitudes may run 0 to 360 or -180 to 180; a grid whose columns go round the earth is closed at its seam.
 */
export class LatLonLocator implements MeshLocator {
  readonly nodes = new Int32Array(4);
  readonly weights = new Float64Array(4);
  readonly whereMissing = "renormalise";
  private readonly plane: Plane;
  private readonly latitudes: Axis;
  private readonly longitudes: Axis;
  private readonly rows: number;
  private readonly columns: number;
  private readonly firstLongitudeDeg: number;
  private readonly row: AxisPlace = { index: 0, fraction: 0 };
  private readonly column: AxisPlace = { index: 0, fraction: 0 };

  /** Throws when an axis does not ascend. */
  constructor(mesh: LatLonMesh, plane: Plane) {
    this.plane = plane;
    this.rows = mesh.latitudesDeg.length;
    this.columns = mesh.longitudesDeg.length;
    this.latitudes = new Axis(mesh.latitudesDeg);
    this.longitudes = new Axis(withSeam(mesh.longitudesDeg));
    this.firstLongitudeDeg = mesh.longitudesDeg[0] as number;
  }

  moveTo(xMetres: number, yMetres: number): boolean {
    const position = this.plane.toPosition(xMetres, yMetres);
    let longitudeDeg = position.longitudeDeg;
    while (longitudeDeg < this.firstLongitudeDeg) longitudeDeg += 360;
    while (longitudeDeg - 360 >= this.firstLongitudeDeg) longitudeDeg -= 360;
    if (!this.latitudes.locate(this.row, position.latitudeDeg) || !this.longitudes.locate(this.column, longitudeDeg)) return false;
    const { nodes, weights, columns } = this;
    const { index: j, fraction: fy } = this.row;
    const { index: i, fraction: fx } = this.column;
    const lower = j * columns;
    const upper = j + 1 < this.rows ? lower + columns : lower;
    // Beyond the last column stands the first again: the seam of a grid round the earth (elsewhere its weight is 0).
    const east = i + 1 < columns ? i + 1 : 0;
    nodes[0] = lower + i;
    nodes[1] = lower + east;
    nodes[2] = upper + i;
    nodes[3] = upper + east;
    weights[0] = (1 - fx) * (1 - fy);
    weights[1] = fx * (1 - fy);
    weights[2] = (1 - fx) * fy;
    weights[3] = fx * fy;
    return true;
  }
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

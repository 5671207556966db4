import { type Cells, EDGE_ROOM, FLATTEST_CELL } from "./cell-finder.ts";
import type { LaidNodes } from "./laid-nodes.ts";

/** The triangles of a mesh whose corners are laid on a sheet. One with an unlaid corner or without area covers nothing. */
export class TriangleCells implements Cells {
  readonly count: number;
  readonly triangles: Int32Array;
  readonly neighbours: Int32Array;
  private readonly corners: LaidNodes;
  /** 1 where the corners run counter-clockwise, -1 clockwise, 0 where the triangle covers nothing. */
  private readonly senses: Int8Array;
  /** Twice the areas that the point last looked at makes with the edges of the triangle, from edge 0; positive inside. */
  readonly areas = new Float64Array(3);

  constructor(triangles: Int32Array, neighbours: Int32Array, corners: LaidNodes) {
    this.triangles = triangles;
    this.neighbours = neighbours;
    this.corners = corners;
    this.count = triangles.length / 3;
    this.senses = new Int8Array(this.count);
    for (let cell = 0; cell < this.count; cell++) this.senses[cell] = this.senseOf(cell);
  }

  boxInto(box: Float64Array, cell: number): boolean {
    if (this.senses[cell] === 0) return false;
    const { x, y } = this.corners;
    const a = this.triangles[3 * cell] as number;
    const b = this.triangles[3 * cell + 1] as number;
    const c = this.triangles[3 * cell + 2] as number;
    box[0] = Math.min(x[a] as number, x[b] as number, x[c] as number);
    box[1] = Math.min(y[a] as number, y[b] as number, y[c] as number);
    box[2] = Math.max(x[a] as number, x[b] as number, x[c] as number);
    box[3] = Math.max(y[a] as number, y[b] as number, y[c] as number);
    return true;
  }

  edgeBeyond(cell: number, xMetres: number, yMetres: number): number {
    const { x, y } = this.corners;
    const { triangles, areas } = this;
    const a = triangles[3 * cell] as number;
    const b = triangles[3 * cell + 1] as number;
    const c = triangles[3 * cell + 2] as number;
    const sense = this.senses[cell] as number;
    const ax = (x[a] as number) - xMetres;
    const ay = (y[a] as number) - yMetres;
    const bx = (x[b] as number) - xMetres;
    const by = (y[b] as number) - yMetres;
    const cx = (x[c] as number) - xMetres;
    const cy = (y[c] as number) - yMetres;
    const ab = sense * (ax * by - ay * bx);
    const bc = sense * (bx * cy - by * cx);
    const ca = sense * (cx * ay - cy * ax);
    areas[0] = ab;
    areas[1] = bc;
    areas[2] = ca;
    let worst = -EDGE_ROOM * (ab + bc + ca);
    let edge = -1;
    if (ab < worst) {
      worst = ab;
      edge = 0;
    }
    if (bc < worst) {
      worst = bc;
      edge = 1;
    }
    if (ca < worst) edge = 2;
    return edge;
  }

  across(cell: number, edge: number): number {
    const next = this.neighbours[3 * cell + edge] as number;
    return next >= 0 && this.senses[next] !== 0 ? next : -1;
  }

  private senseOf(cell: number): -1 | 0 | 1 {
    const { x, y } = this.corners;
    const a = this.triangles[3 * cell] as number;
    const b = this.triangles[3 * cell + 1] as number;
    const c = this.triangles[3 * cell + 2] as number;
    const ex = (x[b] as number) - (x[a] as number);
    const ey = (y[b] as number) - (y[a] as number);
    const fx = (x[c] as number) - (x[a] as number);
    const fy = (y[c] as number) - (y[a] as number);
    const twice = ex * fy - ey * fx;
    const longestSquare = Math.max(ex * ex + ey * ey, fx * fx + fy * fy, (fx - ex) ** 2 + (fy - ey) ** 2);
    // An unlaid corner makes NaN of this, and no comparison with it holds.
    if (!(Math.abs(twice) > FLATTEST_CELL * longestSquare)) return 0;
    return twice > 0 ? 1 : -1;
  }
}

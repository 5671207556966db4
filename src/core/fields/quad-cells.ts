import { type Cells, EDGE_ROOM, FLATTEST_CELL } from "./cell-finder.ts";
import type { LaidNodes } from "./laid-nodes.ts";

/** A row goes round where its ends lie no farther apart than this many of its steps there, and the step between them bends no more. */
const MOST_STEPS_BETWEEN_ENDS = 1.5;
const LEAST_COSINE_AT_SEAM = 0.5;
/** Rows of fewer nodes go round nothing. */
const FEWEST_COLUMNS_ROUND = 8;

/**
 * The cells between the nodes of a curvilinear mesh laid on a sheet, four corners each, A, B, C, D around: cell `row × across + column`.
 * A cell that has an unlaid corner, is flat or is not convex (its sides cross or one corner points inward) covers nothing. Rows that go
 * round the earth, or round an island, are closed at their seam.
 */
export class QuadCells implements Cells {
  readonly count: number;
  /** 1 where A, B, C, D run counter-clockwise, -1 clockwise, 0 where the cell covers nothing. */
  readonly senses: Int8Array;
  private readonly laid: LaidNodes;
  private readonly columns: number;
  private readonly cellColumns: number;
  private readonly isClosed: boolean;
  private readonly at = new Int32Array(4);

  constructor(rows: number, columns: number, laid: LaidNodes) {
    this.laid = laid;
    this.columns = columns;
    this.isClosed = rowsAreClosed(rows, columns, laid);
    this.cellColumns = this.isClosed ? columns : Math.max(0, columns - 1);
    this.count = Math.max(0, rows - 1) * this.cellColumns;
    this.senses = new Int8Array(this.count);
    const corners = new Int32Array(4);
    for (let cell = 0; cell < this.count; cell++) {
      this.cornersInto(corners, cell);
      this.senses[cell] = senseOf(laid, corners);
    }
  }

  /** The nodes A, B, C, D around a cell; B is next to A in its row. */
  cornersInto(corners: Int32Array, cell: number): void {
    const row = Math.floor(cell / this.cellColumns);
    const column = cell - row * this.cellColumns;
    const a = row * this.columns + column;
    const b = column + 1 < this.columns ? a + 1 : row * this.columns;
    corners[0] = a;
    corners[1] = b;
    corners[2] = b + this.columns;
    corners[3] = a + this.columns;
  }

  boxInto(box: Float64Array, cell: number): boolean {
    if (this.senses[cell] === 0) return false;
    const { x, y } = this.laid;
    this.cornersInto(this.at, cell);
    const [a, b, c, d] = [this.at[0] as number, this.at[1] as number, this.at[2] as number, this.at[3] as number];
    const [xa, xb, xc, xd] = [x[a] as number, x[b] as number, x[c] as number, x[d] as number];
    const [ya, yb, yc, yd] = [y[a] as number, y[b] as number, y[c] as number, y[d] as number];
    box[0] = Math.min(xa, xb, xc, xd);
    box[1] = Math.min(ya, yb, yc, yd);
    box[2] = Math.max(xa, xb, xc, xd);
    box[3] = Math.max(ya, yb, yc, yd);
    return true;
  }

  edgeBeyond(cell: number, xMetres: number, yMetres: number): number {
    const { x, y } = this.laid;
    const { at } = this;
    this.cornersInto(at, cell);
    const sense = this.senses[cell] as number;
    const ax = (x[at[0] as number] as number) - xMetres;
    const ay = (y[at[0] as number] as number) - yMetres;
    const bx = (x[at[1] as number] as number) - xMetres;
    const by = (y[at[1] as number] as number) - yMetres;
    const cx = (x[at[2] as number] as number) - xMetres;
    const cy = (y[at[2] as number] as number) - yMetres;
    const dx = (x[at[3] as number] as number) - xMetres;
    const dy = (y[at[3] as number] as number) - yMetres;
    // Twice the areas of the triangles that the point makes with the edges: all of the cell's own sense where it lies inside.
    const ab = sense * (ax * by - ay * bx);
    const bc = sense * (bx * cy - by * cx);
    const cd = sense * (cx * dy - cy * dx);
    const da = sense * (dx * ay - dy * ax);
    let worst = -EDGE_ROOM * (ab + bc + cd + da);
    let edge = -1;
    if (ab < worst) {
      worst = ab;
      edge = 0;
    }
    if (bc < worst) {
      worst = bc;
      edge = 1;
    }
    if (cd < worst) {
      worst = cd;
      edge = 2;
    }
    if (da < worst) edge = 3;
    return edge;
  }

  across(cell: number, edge: number): number {
    const { cellColumns } = this;
    let next = -1;
    if (edge === 0) next = cell - cellColumns;
    else if (edge === 2) next = cell + cellColumns;
    else {
      const column = cell % cellColumns;
      const over = edge === 1 ? column + 1 : column - 1;
      if (over >= 0 && over < cellColumns) next = cell - column + over;
      else if (this.isClosed) next = cell - column + (over < 0 ? cellColumns - 1 : 0);
    }
    return next >= 0 && next < this.count && this.senses[next] !== 0 ? next : -1;
  }
}

function senseOf({ x, y }: LaidNodes, corners: Int32Array): -1 | 0 | 1 {
  const cross = (from: number, to: number, end: number): number => {
    const [p, q, r] = [corners[from] as number, corners[to] as number, corners[end] as number];
    const [px, py, qx, qy] = [x[p] as number, y[p] as number, x[q] as number, y[q] as number];
    return (qx - px) * ((y[r] as number) - qy) - (qy - py) * ((x[r] as number) - qx);
  };
  let longestSquare = 0;
  for (let k = 0; k < 4; k++) {
    const [p, q] = [corners[k] as number, corners[(k + 1) % 4] as number];
    longestSquare = Math.max(longestSquare, ((x[p] as number) - (x[q] as number)) ** 2 + ((y[p] as number) - (y[q] as number)) ** 2);
  }
  const twice = cross(0, 1, 2) + cross(2, 3, 0);
  // An unlaid corner makes NaN of all this, and no comparison with it holds.
  if (!(Math.abs(twice) > FLATTEST_CELL * longestSquare)) return 0;
  const sense = twice > 0 ? 1 : -1;
  const least = -EDGE_ROOM * Math.abs(twice);
  const isConvex =
    cross(0, 1, 2) * sense >= least &&
    cross(1, 2, 3) * sense >= least &&
    cross(2, 3, 0) * sense >= least &&
    cross(3, 0, 1) * sense >= least;
  return isConvex ? sense : 0;
}

/** Whether in every row that is laid at its ends the first node follows the last, about a step on and in about the same direction. */
function rowsAreClosed(rows: number, columns: number, { x, y }: LaidNodes): boolean {
  if (columns < FEWEST_COLUMNS_ROUND) return false;
  const step = (from: number, to: number): { readonly dx: number; readonly dy: number; readonly metres: number } => {
    const [dx, dy] = [(x[to] as number) - (x[from] as number), (y[to] as number) - (y[from] as number)];
    return { dx, dy, metres: Math.hypot(dx, dy) };
  };
  let looked = 0;
  for (let row = 0; row < rows; row++) {
    const first = row * columns;
    const last = first + columns - 1;
    const closing = step(last, first);
    const ends = [step(last - 1, last), step(first, first + 1)];
    if (Number.isNaN(closing.metres) || ends.some((end) => Number.isNaN(end.metres))) continue;
    for (const end of ends) {
      const along = closing.dx * end.dx + closing.dy * end.dy;
      if (!(along > LEAST_COSINE_AT_SEAM * closing.metres * end.metres)) return false;
      if (closing.metres > MOST_STEPS_BETWEEN_ENDS * end.metres) return false;
    }
    looked++;
  }
  return looked > 1;
}

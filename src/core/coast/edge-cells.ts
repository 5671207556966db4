import type { SheetRing } from "./sheet-rings.ts";

/** Cells are about this wide, metres, but no more than `MOST_CELLS` stand side by side. */
const CELL_METRES = 250;
const MOST_CELLS = 1024;
const LEAST_CELLS = 16;
/** An edge is entered in every cell that it comes this close to, metres: more than any rounding. */
const REACH_METRES = 1e-3;

/** What is in a cell. */
export const WATER = 0;
export const LAND = 1;
export const MIXED = 2;

/**
 * The sheet's square in cells, row by row from the south-west: the edges in each, what each holds, and how much water lies around it. The
 * search asks the cells; only where edges are in reach are they looked at.
 */
export class EdgeCells {
  readonly perSide: number;
  readonly cellMetres: number;
  readonly halfMetres: number;
  /** Four to an edge: from x, y to x, y; land lies to the left. Those along the sheet's sides only close the rings and come last. */
  readonly edges: Float64Array;
  readonly areaOfEdge: Int32Array;
  /** How many edges are real ones. */
  readonly realCount: number;
  /** Where a cell's edges begin in `edgesInCells`, real ones first; one more than there are cells. */
  readonly begins: Int32Array;
  readonly edgesInCells: Int32Array;
  /** `WATER`, `LAND` or `MIXED`: real edges come through. */
  readonly holds: Uint8Array;
  /** How often land winds round a cell's middle; the same all over a cell without edges. */
  readonly winding: Int16Array;
  /** Cells to the nearest that is not water, the greater of east–west and north–south; at most 255. */
  readonly clear: Uint8Array;

  constructor(rings: readonly SheetRing[], halfMetres: number) {
    this.halfMetres = halfMetres;
    this.perSide = Math.max(LEAST_CELLS, Math.min(MOST_CELLS, Math.ceil((2 * halfMetres) / CELL_METRES)));
    this.cellMetres = (2 * halfMetres) / this.perSide;
    const cells = this.perSide * this.perSide;
    ({ edges: this.edges, areaOfEdge: this.areaOfEdge, realCount: this.realCount } = edgesOf(rings, halfMetres));
    this.begins = new Int32Array(cells + 1);
    this.holds = new Uint8Array(cells);
    this.winding = new Int16Array(cells);
    this.edgesInCells = this.enter();
    this.wind();
    this.clear = this.clearance();
  }

  /** The column or row that a coordinate lies in; the outermost beyond the sheet. */
  indexOf(metres: number): number {
    const index = Math.floor((metres + this.halfMetres) / this.cellMetres);
    return index < 0 ? 0 : index >= this.perSide ? this.perSide - 1 : index;
  }

  /** Where a column or row begins. */
  edgeAt(index: number): number {
    return index * this.cellMetres - this.halfMetres;
  }

  /**
   * Runs through the cells that a segment comes through or within `REACH_METRES` of, row by row; ends when `seen` answers true, and then
   * answers true. Cells beyond the sheet are none.
   */
  along(ax: number, ay: number, bx: number, by: number, seen: (cell: number) => boolean): boolean {
    const { perSide, halfMetres } = this;
    const south = Math.min(ay, by) - REACH_METRES;
    const north = Math.max(ay, by) + REACH_METRES;
    if (!(north >= -halfMetres && south <= halfMetres)) return false;
    const last = this.indexOf(north);
    const slope = ay === by ? 0 : (bx - ax) / (by - ay);
    const lowX = Math.min(ax, bx);
    const highX = Math.max(ax, bx);
    for (let row = this.indexOf(south); row <= last; row++) {
      let west = lowX;
      let east = highX;
      if (ay !== by) {
        const x0 = ax + (this.edgeAt(row) - REACH_METRES - ay) * slope;
        const x1 = ax + (this.edgeAt(row + 1) + REACH_METRES - ay) * slope;
        west = Math.max(lowX, Math.min(x0, x1));
        east = Math.min(highX, Math.max(x0, x1));
      }
      if (east + REACH_METRES < -halfMetres || west - REACH_METRES > halfMetres) continue;
      const until = this.indexOf(east + REACH_METRES);
      for (let column = this.indexOf(west - REACH_METRES); column <= until; column++) if (seen(row * perSide + column)) return true;
    }
    return false;
  }

  /** Enters every edge in its cells: counted first, then set down. */
  private enter(): Int32Array {
    const { begins, edges, holds } = this;
    const count = edges.length / 4;
    const through = (e: number, seen: (cell: number) => boolean): void => {
      this.along(edges[4 * e] as number, edges[4 * e + 1] as number, edges[4 * e + 2] as number, edges[4 * e + 3] as number, seen);
    };
    for (let e = 0; e < count; e++) {
      const real = e < this.realCount;
      through(e, (cell) => {
        begins[cell + 1] = (begins[cell + 1] as number) + 1;
        if (real) holds[cell] = MIXED;
        return false;
      });
    }
    for (let cell = 0; cell + 1 < begins.length; cell++) begins[cell + 1] = (begins[cell + 1] as number) + (begins[cell] as number);
    const list = new Int32Array(begins[begins.length - 1] as number);
    const filled = begins.slice();
    for (let e = 0; e < count; e++) {
      through(e, (cell) => {
        const place = filled[cell] as number;
        list[place] = e;
        filled[cell] = place + 1;
        return false;
      });
    }
    return list;
  }

  /** Winding at the middle of every cell: each edge counts for all middles of its rows that lie east of it. */
  private wind(): void {
    const { edges, perSide, winding, holds, cellMetres, halfMetres } = this;
    const shift = (row: number, x: number, by: number): void => {
      const column = Math.max(0, Math.floor((x + halfMetres) / cellMetres - 0.5) + 1);
      if (column < perSide) winding[row * perSide + column] = (winding[row * perSide + column] as number) + by;
    };
    for (let i = 0; i < edges.length; i += 4) {
      const [ax, ay, bx, by] = [edges[i] as number, edges[i + 1] as number, edges[i + 2] as number, edges[i + 3] as number];
      const last = this.indexOf(Math.max(ay, by));
      for (let row = this.indexOf(Math.min(ay, by)); row <= last; row++) {
        const y = this.edgeAt(row) + cellMetres / 2;
        if (ay <= y !== by <= y) shift(row, crossingX(ax, ay, bx, by, y), by < ay ? 1 : -1);
      }
    }
    for (let cell = 0; cell < winding.length; cell++) {
      if (cell % perSide > 0) winding[cell] = (winding[cell] as number) + (winding[cell - 1] as number);
      if (holds[cell] === WATER && winding[cell] !== 0) holds[cell] = LAND;
    }
  }

  /** Two passes over the cells: the distance by king's moves to the nearest that is not water. */
  private clearance(): Uint8Array {
    const { perSide: n, holds } = this;
    // A border of far cells all round, so that no cell's neighbours are wanting.
    const wide = n + 2;
    const far = new Uint8Array(wide * wide).fill(255);
    for (let row = 0; row < n; row++) {
      for (let column = 0; column < n; column++) if (holds[row * n + column] !== WATER) far[(row + 1) * wide + column + 1] = 0;
    }
    const sweep = (step: 1 | -1): void => {
      const [before, diagonal, above, across] = [-step, -step * (wide + 1), -step * wide, -step * (wide - 1)];
      for (let k = 0; k < n; k++) {
        let cell = (step === 1 ? k + 1 : n - k) * wide + (step === 1 ? 1 : n);
        for (let i = 0; i < n; i++, cell += step) {
          let near = far[cell] as number;
          if (near === 0) continue;
          near = Math.min(near, (far[cell + before] as number) + 1, (far[cell + diagonal] as number) + 1);
          far[cell] = Math.min(near, (far[cell + above] as number) + 1, (far[cell + across] as number) + 1);
        }
      }
    };
    sweep(1);
    sweep(-1);
    const out = new Uint8Array(n * n);
    for (let row = 0; row < n; row++) out.set(far.subarray((row + 1) * wide + 1, (row + 1) * wide + 1 + n), row * n);
    return out;
  }
}

/** Where an edge comes through a parallel of the sheet that lies between its ends. */
export function crossingX(ax: number, ay: number, bx: number, by: number, y: number): number {
  return ax + ((y - ay) / (by - ay)) * (bx - ax);
}

/** The rings' edges, those along the sheet's sides last. Edges without length are left out. */
function edgesOf(
  rings: readonly SheetRing[],
  halfMetres: number,
): { readonly edges: Float64Array; readonly areaOfEdge: Int32Array; readonly realCount: number } {
  const most = rings.reduce((sum, { corners }) => sum + corners.length / 2, 0);
  const edges = new Float64Array(4 * most);
  const areaOfEdge = new Int32Array(most);
  let count = 0;
  const gather = (alongSides: boolean): void => {
    for (const { corners, area } of rings) {
      let ax = corners[corners.length - 2] as number;
      let ay = corners[corners.length - 1] as number;
      for (let i = 0; i < corners.length; i += 2) {
        const bx = corners[i] as number;
        const by = corners[i + 1] as number;
        if ((ax !== bx || ay !== by) && alongSides === isAlongSide(ax, ay, bx, by, halfMetres)) {
          edges.set([ax, ay, bx, by], 4 * count);
          areaOfEdge[count++] = area;
        }
        ax = bx;
        ay = by;
      }
    }
  };
  gather(false);
  const realCount = count;
  gather(true);
  return { edges: edges.slice(0, 4 * count), areaOfEdge: areaOfEdge.slice(0, count), realCount };
}

/** Whether an edge lies along a side of the sheet, where rings were cut. */
export function isAlongSide(ax: number, ay: number, bx: number, by: number, halfMetres: number): boolean {
  return (ax === bx && Math.abs(ax) === halfMetres) || (ay === by && Math.abs(ay) === halfMetres);
}

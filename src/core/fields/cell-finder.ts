import { CellBuckets } from "./cell-buckets.ts";

/** A point lies in a cell when it is no farther outside an edge than this share of the cell's width: room for rounding only. */
export const EDGE_ROOM = 1e-10;
/** A cell flatter than this, its width to its longest side, is none. */
export const FLATTEST_CELL = 1e-6;
/** From the middle cell of a bucket a walk this long goes round any ordinary one. */
const MOST_STEPS = 40;
/** Boxes are made wider by this share of themselves, more than `EDGE_ROOM`. */
const BOX_ROOM = 1e-9;

/** The cells of a mesh laid on a sheet, as what finds a point in them must know them. */
export interface Cells {
  readonly count: number;
  /** Writes west, south, east, north of a cell, metres; false for one that covers nothing. */
  boxInto(box: Float64Array, cell: number): boolean;
  /** The edge of the cell beyond which (x, y) lies farthest, -1 where it lies in the cell. */
  edgeBeyond(cell: number, xMetres: number, yMetres: number): number;
  /** The cell at the other side of an edge, or -1. */
  across(cell: number, edge: number): number;
}

/**
 * Finds the cell under a point: from the middle cell of the point's bucket it walks toward the point, over the edge that the point lies
 * farthest beyond ("visibility walk": Devillers, Pion, Teillaud, "Walking in a triangulation", Int. J. Found. Comput. Sci. 13, 2002). Where
 * the walk runs into a hole, an edge of the mesh or its limit, all cells of the bucket are looked at. It begins at the bucket's cell and not
 * at the one found last, so that a point on an edge, or under two cells of a mesh that folds, gets the same cell whatever was asked before.
 */
export class CellFinder {
  private readonly cells: Cells;
  private readonly buckets: CellBuckets;

  constructor(cells: Cells, reachMetres: number) {
    this.cells = cells;
    const kept: number[] = [];
    const boxes: number[] = [];
    const box = new Float64Array(4);
    for (let cell = 0; cell < cells.count; cell++) {
      if (!cells.boxInto(box, cell)) continue;
      const west = box[0] as number;
      const south = box[1] as number;
      const east = box[2] as number;
      const north = box[3] as number;
      const room = BOX_ROOM * (east - west + (north - south));
      if (!(west - room <= reachMetres && east + room >= -reachMetres && south - room <= reachMetres && north + room >= -reachMetres))
        continue;
      kept.push(cell);
      boxes.push(west - room, south - room, east + room, north + room);
    }
    this.buckets = new CellBuckets(kept, boxes, reachMetres);
  }

  /** The cell that holds (x, y) metres, or -1. */
  cellAt(xMetres: number, yMetres: number): number {
    const bucket = this.buckets.bucketAt(xMetres, yMetres);
    if (bucket < 0) return -1;
    const { starts, cells: list } = this.buckets;
    const start = starts[bucket] as number;
    const end = starts[bucket + 1] as number;
    if (start === end) return -1;
    const { cells } = this;
    let cell = list[(start + end) >> 1] as number;
    for (let step = 0; step < MOST_STEPS && cell >= 0; step++) {
      const edge = cells.edgeBeyond(cell, xMetres, yMetres);
      if (edge < 0) return cell;
      cell = cells.across(cell, edge);
    }
    for (let k = start; k < end; k++) {
      if (cells.edgeBeyond(list[k] as number, xMetres, yMetres) < 0) return list[k] as number;
    }
    return -1;
  }
}

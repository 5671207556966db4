/** No more buckets than this, whatever the mesh. */
const MOST_BUCKETS = 1 << 18;
/** Cells may stand in this many buckets each, on the average; beyond it the buckets are made wider. */
const MOST_ENTRIES_PER_CELL = 8;

/**
 * Cells sorted into the squares of a coarse even grid, so that the few that may hold a point are found at once. `cells[starts[b]]` up to
 * `cells[starts[b + 1]]` are those whose box touches bucket b, in ascending order. Metres on the sheet.
 */
export class CellBuckets {
  readonly starts: Int32Array;
  readonly cells: Int32Array;
  private readonly west: number;
  private readonly south: number;
  private readonly east: number;
  private readonly north: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly perX: number;
  private readonly perY: number;

  /** `boxes`: west, south, east, north of each of `cells`. What lies outside the square of |x|, |y| ≤ `reachMetres` is left out. */
  constructor(cells: readonly number[], boxes: readonly number[], reachMetres: number) {
    let [west, south, east, north] = [reachMetres, reachMetres, -reachMetres, -reachMetres];
    for (let k = 0; k < boxes.length; k += 4) {
      west = Math.min(west, boxes[k] as number);
      south = Math.min(south, boxes[k + 1] as number);
      east = Math.max(east, boxes[k + 2] as number);
      north = Math.max(north, boxes[k + 3] as number);
    }
    this.west = Math.max(west, -reachMetres);
    this.south = Math.max(south, -reachMetres);
    this.east = Math.min(east, reachMetres);
    this.north = Math.min(north, reachMetres);
    const width = Math.max(this.east - this.west, 1);
    const height = Math.max(this.north - this.south, 1);
    const wanted = Math.min(cells.length, MOST_BUCKETS);
    let columns = Math.max(1, Math.min(wanted, Math.round(Math.sqrt((wanted * width) / height))));
    let rows = Math.max(1, Math.floor(wanted / columns));
    const most = MOST_ENTRIES_PER_CELL * cells.length;
    while (columns * rows > 1 && entriesIn(boxes, (k) => this.span(boxes, k, columns / width, rows / height, columns, rows)) > most) {
      columns = Math.ceil(columns / 2);
      rows = Math.ceil(rows / 2);
    }
    this.columns = columns;
    this.rows = rows;
    this.perX = columns / width;
    this.perY = rows / height;
    const ends = new Int32Array(columns * rows + 1);
    const each = (k: number, visit: (bucket: number) => void): void => {
      const { fromColumn, toColumn, fromRow, toRow } = this.span(boxes, k, this.perX, this.perY, columns, rows);
      for (let row = fromRow; row <= toRow; row++) {
        for (let column = fromColumn; column <= toColumn; column++) visit(row * columns + column);
      }
    };
    const count = (bucket: number): void => {
      ends[bucket + 1] = (ends[bucket + 1] as number) + 1;
    };
    for (let k = 0; k < cells.length; k++) each(k, count);
    for (let bucket = 0; bucket < columns * rows; bucket++) ends[bucket + 1] = (ends[bucket + 1] as number) + (ends[bucket] as number);
    this.starts = ends;
    this.cells = new Int32Array(ends[columns * rows] as number);
    const next = ends.slice();
    for (let k = 0; k < cells.length; k++) {
      each(k, (bucket) => {
        const at = next[bucket] as number;
        this.cells[at] = cells[k] as number;
        next[bucket] = at + 1;
      });
    }
  }

  /** The bucket that holds (x, y), or -1 where there is none. */
  bucketAt(xMetres: number, yMetres: number): number {
    if (!(xMetres >= this.west && xMetres <= this.east && yMetres >= this.south && yMetres <= this.north)) return -1;
    const column = Math.min(this.columns - 1, Math.floor((xMetres - this.west) * this.perX));
    const row = Math.min(this.rows - 1, Math.floor((yMetres - this.south) * this.perY));
    return row * this.columns + column;
  }

  /** The buckets that box `k` touches, reckoned by the same steps as a point's. */
  private span(boxes: readonly number[], k: number, perX: number, perY: number, columns: number, rows: number): Span {
    const index = (value: number, from: number, until: number, per: number, count: number): number =>
      Math.min(count - 1, Math.floor((Math.min(Math.max(value, from), until) - from) * per));
    return {
      fromColumn: index(boxes[4 * k] as number, this.west, this.east, perX, columns),
      fromRow: index(boxes[4 * k + 1] as number, this.south, this.north, perY, rows),
      toColumn: index(boxes[4 * k + 2] as number, this.west, this.east, perX, columns),
      toRow: index(boxes[4 * k + 3] as number, this.south, this.north, perY, rows),
    };
  }
}

interface Span {
  readonly fromColumn: number;
  readonly fromRow: number;
  readonly toColumn: number;
  readonly toRow: number;
}

function entriesIn(boxes: readonly number[], spanOf: (k: number) => Span): number {
  let entries = 0;
  for (let k = 0; 4 * k < boxes.length; k++) {
    const span = spanOf(k);
    entries += (span.toColumn - span.fromColumn + 1) * (span.toRow - span.fromRow + 1);
  }
  return entries;
}

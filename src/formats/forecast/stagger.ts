import type { CurvilinearMesh, LatLonMesh, Mesh } from "../../core/fields/index.ts";

/**
 * Components that stand half a cell apart (an ocean model's C grid: Arakawa & Lamb 1977, Methods in Computational Physics 17): the one
 * along the rows between two centres of a row, the other between two of a column. At each centre stands the mean of the two neighbours
 * on either side.
 */
export interface Staggering {
  readonly rows: number;
  readonly columns: number;
  /** The centres' places, row after row. */
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
  /** 0 at centres beside a node that has no place; null where all nodes have one. */
  readonly placed: Uint8Array | null;
  /** Of each centre: the node of the component along the rows before it (the other is the next one), and of the one along the columns. */
  readonly alongRow: Int32Array;
  readonly alongColumn: Int32Array;
  /** From the latter to the node on the centre's other side. */
  readonly columnStride: number;
}

/** How far from one another, in cells, the two ways to reckon a centre's place may be (common practice: single-precision places). */
const MOST_OFF_CELLS = 0.1;

interface Nodes {
  readonly rows: number;
  readonly columns: number;
  latitude(row: number, column: number): number;
  longitude(row: number, column: number): number;
  /** Null where every node has a place. */
  readonly placed: Uint8Array | null;
}

/** How two meshes are staggered, or null where they are not half a cell apart in the way of a C grid. */
export function staggeringOf(alongRows: Mesh, alongColumns: Mesh): Staggering | null {
  if (alongRows.kind === "triangles" || alongColumns.kind === "triangles") return null;
  const u = nodesOf(alongRows);
  const v = nodesOf(alongColumns);
  if (u.columns < 2 || v.rows < 2) return null;
  const shift = shiftBetween(u, v);
  if (shift === null) return null;
  // Centre (j, i): between u (j, i) and u (j, i + 1), and between v (j + shift.row, i + shift.column) and the row after it.
  const firstRow = Math.max(0, -shift.row);
  const lastRow = Math.min(u.rows - 1, v.rows - 2 - shift.row);
  const firstColumn = Math.max(0, -shift.column);
  const lastColumn = Math.min(u.columns - 2, v.columns - 1 - shift.column);
  const rows = lastRow - firstRow + 1;
  const columns = lastColumn - firstColumn + 1;
  if (rows < 1 || columns < 1) return null;
  const count = rows * columns;
  const made = {
    rows,
    columns,
    latitudesDeg: new Float64Array(count),
    longitudesDeg: new Float64Array(count),
    alongRow: new Int32Array(count),
    alongColumn: new Int32Array(count),
    columnStride: v.columns,
    placed: u.placed === null && v.placed === null ? null : new Uint8Array(count),
  };
  for (let j = 0, k = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++, k++) {
      const [row, column] = [firstRow + j, firstColumn + i];
      made.latitudesDeg[k] = (u.latitude(row, column) + u.latitude(row, column + 1)) / 2;
      made.longitudesDeg[k] = (u.longitude(row, column) + u.longitude(row, column + 1)) / 2;
      made.alongRow[k] = row * u.columns + column;
      made.alongColumn[k] = (row + shift.row) * v.columns + column + shift.column;
      if (made.placed !== null) {
        const [j2, i2] = [row + shift.row, column + shift.column];
        const isBetween = isPlaced(u, row, column) && isPlaced(u, row, column + 1) && isPlaced(v, j2, i2) && isPlaced(v, j2 + 1, i2);
        made.placed[k] = isBetween ? 1 : 0;
      }
    }
  }
  return made.placed?.includes(1) === false ? null : made;
}

function nodesOf(mesh: LatLonMesh | CurvilinearMesh): Nodes {
  const { latitudesDeg, longitudesDeg } = mesh;
  if (mesh.kind === "latLon") {
    return {
      rows: latitudesDeg.length,
      columns: longitudesDeg.length,
      latitude: (row) => latitudesDeg[row]!,
      longitude: (_, column) => longitudesDeg[column]!,
      placed: null,
    };
  }
  const { rows, columns } = mesh;
  return {
    rows,
    columns,
    latitude: (row, column) => latitudesDeg[row * columns + column]!,
    longitude: (row, column) => longitudesDeg[row * columns + column]!,
    placed: mesh.placed,
  };
}

const isPlaced = ({ placed, columns }: Nodes, row: number, column: number): boolean =>
  placed === null || placed[row * columns + column] === 1;

/** Which row and column of v stand with those of u: looked for near the middle, and held against the corners that both have. */
function shiftBetween(u: Nodes, v: Nodes): { row: number; column: number } | null {
  const pairs = u.columns - 1;
  let at = (u.rows >> 1) * pairs + (pairs >> 1);
  const isWhole = (): boolean => isPlaced(u, Math.floor(at / pairs), at % pairs) && isPlaced(u, Math.floor(at / pairs), (at % pairs) + 1);
  for (let tried = 0; tried < u.rows * pairs && !isWhole(); tried++) at = (at + 1) % (u.rows * pairs);
  const [row, column] = [Math.floor(at / pairs), at % pairs];
  const centre = {
    latitude: (u.latitude(row, column) + u.latitude(row, column + 1)) / 2,
    longitude: (u.longitude(row, column) + u.longitude(row, column + 1)) / 2,
  };
  let best = { off: Number.POSITIVE_INFINITY, row: 0, column: 0 };
  for (let j = 0; j + 1 < v.rows; j++) {
    for (let i = 0; i < v.columns; i++) {
      if (!isPlaced(v, j, i) || !isPlaced(v, j + 1, i)) continue;
      const off = offCells(u, row, column, centre, v, j, i);
      if (off < best.off) best = { off, row: j - row, column: i - column };
    }
  }
  return best.off <= MOST_OFF_CELLS ? { row: best.row, column: best.column } : null;
}

/** How far the middle of v (j, i) and (j + 1, i) is from the centre, in widths of u's cell. */
function offCells(
  u: Nodes,
  row: number,
  column: number,
  centre: { readonly latitude: number; readonly longitude: number },
  v: Nodes,
  j: number,
  i: number,
): number {
  const shrink = Math.cos((centre.latitude * Math.PI) / 180);
  const cell = Math.hypot(
    u.latitude(row, column + 1) - u.latitude(row, column),
    (u.longitude(row, column + 1) - u.longitude(row, column)) * shrink,
  );
  const north = (v.latitude(j, i) + v.latitude(j + 1, i)) / 2 - centre.latitude;
  const east = (v.longitude(j, i) + v.longitude(j + 1, i)) / 2 - centre.longitude;
  return Math.hypot(north, (east - 360 * Math.round(east / 360)) * shrink) / cell;
}

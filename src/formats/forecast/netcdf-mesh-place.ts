import { bad, issue, type Parsed } from "../../core/answers/index.ts";
import type { Mesh } from "../../core/fields/index.ts";
import type { Area, Crop } from "./forecast-reading.ts";

/** The most nodes of a grid that are looked over, or taken at once (common practice: three times the finest ocean of the whole earth in use). */
export const MOST_NODES = 40_000_000;

/** `file-too-large` for a grid that is beyond `MOST_NODES`. */
export function tooManyNodes(key: string, nodes: number): Parsed<never> {
  return bad(issue(key, "file-too-large", `The grid "${key}" has ${nodes} nodes, more than are read at once.`));
}

/** A block along a field's dimensions of place, in the order of `MeshPlace.dimensions`, and the node that each of its values stands at; −1 for none. */
export interface Slab {
  readonly start: readonly number[];
  readonly count: readonly number[];
  readonly nodes: Int32Array;
}

/** The rows and columns of a grid's nodes that are taken. */
export interface IndexBox {
  readonly rowStart: number;
  readonly rowCount: number;
  readonly columnStart: number;
  readonly columnCount: number;
}

/** What a passage needs of a mesh: its nodes, and the blocks of a field that hold their values. */
export interface MeshWindow {
  readonly mesh: Mesh;
  readonly slabs: readonly Slab[];
  /** Null for a mesh without rows and columns, and for a latitude and longitude grid. */
  readonly box: IndexBox | null;
}

/** Where the values of fields lie, the whole of it as the file has it. */
export interface MeshPlace {
  /** The same for fields that lie alike. */
  readonly key: string;
  /** Names of the dimensions along which the places lie: row and column, or one alone. */
  readonly dimensions: readonly string[];
  readonly rows: number;
  readonly columns: number;
  readonly area: Area;
  /** How far at most the grid's own x leans from true east, degrees; null for a mesh that has no x but east. */
  readonly greatestTurnDeg: number | null;
  /** What the crop needs of it, all without a crop; null where it doesn't reach the crop. */
  window(crop: Crop | null): Promise<Parsed<MeshWindow | null>>;
  /**
   * The true bearing of the grid's own north (its y, a quarter turn to the left of its x) at each node of a window, degrees; NaN where it
   * can't be told. Null where that is true north everywhere.
   */
  northDegTrue(window: MeshWindow): Promise<Parsed<Float64Array | null>>;
}

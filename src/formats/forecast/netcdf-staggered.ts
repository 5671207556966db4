import { good, type Parsed } from "../../core/answers/index.ts";
import { type NetcdfFile, type NetcdfVariable, packingOf, unpack } from "../netcdf/index.ts";
import type { Area, Crop } from "./forecast-reading.ts";
import type { CurvilinearPlace } from "./netcdf-curvilinear.ts";
import type { IndexBox, MeshPlace, MeshWindow, Slab } from "./netcdf-mesh-place.ts";

/** The sides of a cell on which a component stands: `u` on those that its row passes, `v` on those that its column passes. */
export type Face = "u" | "v";

/** How the faces of one kind lie: their rows and columns, and before which of their cell's middles face 0 stands: −1 after the first. */
export interface FaceGrid {
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  /** Face k stands between the middles k + shift and k + shift + 1. */
  readonly shift: 0 | -1;
  /** Which faces are water, where the file says. */
  readonly mask: NetcdfVariable | null;
}

/**
 * A C grid as ROMS writes it: the components along the grid on the faces of the cells, all else in their middles ("rho points"). Fields
 * come out in the middles of those cells that have faces on all sides.
 */
export class StaggeredPlace implements MeshPlace {
  readonly key: string;
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  readonly area: Area;
  readonly greatestTurnDeg: number;
  private readonly file: NetcdfFile;
  private readonly middles: CurvilinearPlace;
  private readonly faces: Readonly<Record<Face, FaceGrid>>;
  private readonly water: NetcdfVariable | null;

  constructor(file: NetcdfFile, middles: CurvilinearPlace, faces: Readonly<Record<Face, FaceGrid>>, water: NetcdfVariable | null) {
    this.key = `${middles.key} faces`;
    this.dimensions = middles.dimensions;
    this.rows = middles.rows;
    this.columns = middles.columns;
    this.area = middles.area;
    this.greatestTurnDeg = middles.greatestTurnDeg;
    this.file = file;
    this.middles = middles;
    this.faces = faces;
    this.water = water;
  }

  async window(crop: Crop | null): Promise<Parsed<MeshWindow | null>> {
    const box = await this.middles.boxOf(crop);
    if (!box.ok) return box;
    const inner = box.value && this.withFaces(box.value);
    const window = inner ? await this.middles.windowOf(inner) : good(null);
    // Only the outermost middles may have had places, and they have not faces on every side.
    const mesh = window.ok ? window.value?.mesh : undefined;
    return mesh?.kind === "curvilinear" && mesh.placed?.includes(1) === false ? good(null) : window;
  }

  northDegTrue(window: MeshWindow): Promise<Parsed<Float64Array>> {
    return this.middles.northDegTrue(window);
  }

  /** The block of faces around the middles of a box: one more along the row (u) or the column (v). */
  slabOf(face: Face, box: IndexBox): Slab {
    const back = 1 + this.faces[face].shift;
    const start = face === "u" ? [box.rowStart, box.columnStart - back] : [box.rowStart - back, box.columnStart];
    const count = face === "u" ? [box.rowCount, box.columnCount + 1] : [box.rowCount + 1, box.columnCount];
    return { start, count, nodes: Int32Array.from({ length: count[0]! * count[1]! }, (_, node) => node) };
  }

  /** Which of a block's faces, or of a box's middles, are land: 1 where the file's mask says so; null where it has none. */
  async landOf(face: Face | null, box: IndexBox): Promise<Parsed<Uint8Array | null>> {
    const mask = face === null ? this.water : this.faces[face].mask;
    if (!mask) return good(null);
    const { start, count } =
      face === null ? { start: [box.rowStart, box.columnStart], count: [box.rowCount, box.columnCount] } : this.slabOf(face, box);
    const stored = await this.file.read(mask.name, { start, count });
    if (!stored.ok) return stored;
    const { values, missing } = unpack(stored.value, packingOf(mask));
    return good(Uint8Array.from(values, (value, index) => (missing[index] === 0 && value > 0.5 ? 0 : 1)));
  }

  /** The part of a box whose middles have a face on every side. */
  private withFaces(box: IndexBox): IndexBox | null {
    const { u, v } = this.faces;
    const rowStart = Math.max(box.rowStart, 1 + v.shift);
    const columnStart = Math.max(box.columnStart, 1 + u.shift);
    const rowLast = Math.min(box.rowStart + box.rowCount, this.rows, v.rows + v.shift, u.rows) - 1;
    const columnLast = Math.min(box.columnStart + box.columnCount, this.columns, u.columns + u.shift, v.columns) - 1;
    const [rowCount, columnCount] = [rowLast - rowStart + 1, columnLast - columnStart + 1];
    return rowCount < 2 || columnCount < 2 ? null : { rowStart, rowCount, columnStart, columnCount };
  }
}

/** A component of several steps, one after the other: its values and marks of missing. */
export interface SteppedValues {
  readonly values: Float64Array;
  readonly missing: Uint8Array;
}

/**
 * A component at the middles of a box's cells: half the sum of those on a cell's two faces. A face on land has none: no water passes a
 * coast, which is what the model reckons with and how ROMS makes its own eastward and northward currents (uv_rotate.F, masked faces being
 * 0). Where no mask is given a missing value is land. Missing where a face in the water has no value. `isDry`: both faces are land.
 */
export function middlesOf(
  face: Face,
  faces: SteppedValues,
  land: Uint8Array | null,
  box: IndexBox,
): SteppedValues & { readonly isDry: Uint8Array } {
  const nodes = box.rowCount * box.columnCount;
  const stride = face === "u" ? 1 : box.columnCount;
  const faceColumns = box.columnCount + (face === "u" ? 1 : 0);
  const perStep = face === "u" ? box.rowCount * faceColumns : (box.rowCount + 1) * faceColumns;
  const steps = faces.values.length / perStep;
  const made = { values: new Float64Array(steps * nodes), missing: new Uint8Array(steps * nodes), isDry: new Uint8Array(steps * nodes) };
  for (let point = 0; point < steps * nodes; point++) {
    const step = Math.floor(point / nodes);
    const node = point % nodes;
    const first = Math.floor(node / box.columnCount) * faceColumns + (node % box.columnCount);
    let landFaces = 0;
    for (const at of [first, first + stride]) {
      const isMissing = faces.missing[step * perStep + at] === 1;
      if (land === null ? isMissing : land[at] === 1) landFaces++;
      else if (isMissing) made.missing[point] = 1;
      else made.values[point]! += faces.values[step * perStep + at]! / 2;
    }
    if (landFaces === 2) made.isDry[point] = 1;
  }
  return made;
}

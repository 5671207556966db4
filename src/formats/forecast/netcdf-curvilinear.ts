import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { CurvilinearMesh } from "../../core/fields/index.ts";
import type { Area, Crop } from "./forecast-reading.ts";
import { type IndexBox, type MeshPlace, type MeshWindow, MOST_NODES, tooManyNodes } from "./netcdf-mesh-place.ts";
import type { NodePlaces } from "./netcdf-node-places.ts";
import type { GridNorth } from "./netcdf-north.ts";
import { blankNoughts, boxOf, type GridScan, scanGrid } from "./netcdf-scan.ts";

/** Rows and columns of nodes anywhere on the earth. */
export class CurvilinearPlace implements MeshPlace {
  readonly key: string;
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  readonly area: Area;
  readonly greatestTurnDeg: number;
  private readonly places: NodePlaces;
  private readonly noughtIsBlank: boolean;
  private readonly north: GridNorth;

  private constructor(key: string, places: NodePlaces, scan: GridScan & { readonly area: Area }, north: GridNorth) {
    this.key = key;
    this.places = places;
    this.north = north;
    this.dimensions = places.dimensions;
    this.rows = places.rows;
    this.columns = places.columns;
    this.area = scan.area;
    this.greatestTurnDeg = scan.greatestTurnDeg;
    this.noughtIsBlank = scan.noughtIsBlank;
  }

  /** Looks over the nodes; `grid-not-read` where they make no grid. `key` tells this grid from the file's others. */
  static async of(key: string, places: NodePlaces, north: GridNorth): Promise<Parsed<CurvilinearPlace>> {
    if (places.rows < 2 || places.columns < 2) {
      return bad(
        issue(key, "grid-not-read", `The grid "${key}" has ${places.rows} rows and ${places.columns} columns, which makes no cell.`),
      );
    }
    if (places.rows * places.columns > MOST_NODES) return tooManyNodes(key, places.rows * places.columns);
    const scan = await scanGrid(places);
    if (!scan.ok) return scan;
    const { area } = scan.value;
    if (area === null) return bad(issue(key, "grid-not-read", `The nodes of the grid "${key}" have no places.`));
    return good(new CurvilinearPlace(key, places, { ...scan.value, area }, north));
  }

  async window(crop: Crop | null): Promise<Parsed<MeshWindow | null>> {
    const box = await this.boxOf(crop);
    return box.ok && box.value ? this.windowOf(box.value) : (box as Parsed<null>);
  }

  /** The rows and columns that the crop needs; all without one. */
  async boxOf(crop: Crop | null): Promise<Parsed<IndexBox | null>> {
    if (crop) return boxOf(this.places, crop, this.noughtIsBlank);
    return good({ rowStart: 0, rowCount: this.rows, columnStart: 0, columnCount: this.columns });
  }

  async windowOf(box: IndexBox): Promise<Parsed<MeshWindow>> {
    const block = await this.places.read(box);
    if (!block.ok) return block;
    if (this.noughtIsBlank) blankNoughts(block.value);
    const { latitudesDeg, longitudesDeg } = block.value;
    const [rows, columns] = [box.rowCount, box.columnCount];
    const placed = unwrap(latitudesDeg, longitudesDeg, columns);
    const mesh: CurvilinearMesh = { kind: "curvilinear", rows, columns, latitudesDeg, longitudesDeg, placed };
    const nodes = Int32Array.from({ length: rows * columns }, (_, node) => node);
    return good({ mesh, slabs: [{ start: [box.rowStart, box.columnStart], count: [rows, columns], nodes }], box });
  }

  async northDegTrue({ box }: MeshWindow): Promise<Parsed<Float64Array>> {
    if (!box) throw new Error("a window of a curved grid without its box");
    return this.north(this.places, box);
  }
}

/**
 * Moves longitudes by whole turns so that neighbours stay together, the first in [−180, 180), and marks the nodes that have a place: null
 * where all have. Those without are put at 0, 0.
 */
function unwrap(latitudesDeg: Float64Array, longitudesDeg: Float64Array, columns: number): Uint8Array | null {
  let placed: Uint8Array | null = null;
  let lastDeg: number | null = null;
  for (let node = 0; node < latitudesDeg.length; node++) {
    if (Number.isNaN(latitudesDeg[node]!)) {
      placed ??= new Uint8Array(latitudesDeg.length).fill(1);
      placed[node] = latitudesDeg[node] = longitudesDeg[node] = 0;
      continue;
    }
    const isPlaced = (other: number): boolean => placed === null || placed[other] === 1;
    const left = node % columns > 0 && isPlaced(node - 1) ? longitudesDeg[node - 1]! : null;
    const above = node >= columns && isPlaced(node - columns) ? longitudesDeg[node - columns]! : null;
    const nearDeg: number = left ?? above ?? lastDeg ?? 0;
    longitudesDeg[node]! -= 360 * Math.round((longitudesDeg[node]! - nearDeg) / 360);
    lastDeg = longitudesDeg[node]!;
  }
  return placed;
}

import { good, type Parsed } from "../../core/answers/index.ts";
import type { AscendingAxis } from "../netcdf/index.ts";
import { areaOf, chooseColumns, chooseRows } from "./crop.ts";
import type { Area, Crop } from "./forecast-reading.ts";
import { type MeshPlace, type MeshWindow, MOST_NODES, type Slab, tooManyNodes } from "./netcdf-mesh-place.ts";

/** A regular grid: an axis of latitudes and one of longitudes, either of them rising or falling in the file. */
export class LatLonPlace implements MeshPlace {
  readonly key: string;
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  readonly area: Area;
  readonly greatestTurnDeg = null;
  private readonly latitudes: AscendingAxis;
  private readonly longitudes: AscendingAxis;

  constructor(dimensions: readonly [row: string, column: string], latitudes: AscendingAxis, longitudes: AscendingAxis) {
    this.dimensions = dimensions;
    this.key = `axes ${dimensions.join(" ")}`;
    this.latitudes = latitudes;
    this.longitudes = longitudes;
    this.rows = latitudes.values.length;
    this.columns = longitudes.values.length;
    this.area = areaOf(latitudes.values, longitudes.values);
  }

  async window(crop: Crop | null): Promise<Parsed<MeshWindow | null>> {
    const rows = chooseRows(this.latitudes.values, crop);
    const columns = chooseColumns(this.longitudes.values, crop);
    if (!rows || !columns) return good(null);
    const width = columns.longitudesDeg.length;
    if (rows.count * width > MOST_NODES) return tooManyNodes(this.key, rows.count * width);
    const rowStart = this.latitudes.isReversed ? this.rows - rows.start - rows.count : rows.start;
    const slabs: Slab[] = [];
    let done = 0;
    for (const range of columns.ranges) {
      const columnStart = this.longitudes.isReversed ? this.columns - range.start - range.count : range.start;
      const nodes = new Int32Array(rows.count * range.count);
      let at = 0;
      for (let y = 0; y < rows.count; y++) {
        const row = this.latitudes.isReversed ? rows.count - 1 - y : y;
        for (let x = 0; x < range.count; x++) {
          nodes[at++] = row * width + done + (this.longitudes.isReversed ? range.count - 1 - x : x);
        }
      }
      slabs.push({ start: [rowStart, columnStart], count: [rows.count, range.count], nodes });
      done += range.count;
    }
    const mesh = {
      kind: "latLon" as const,
      latitudesDeg: this.latitudes.values.slice(rows.start, rows.start + rows.count),
      longitudesDeg: Float64Array.from(columns.longitudesDeg),
    };
    return good({ mesh, slabs, box: null });
  }

  async northDegTrue(): Promise<Parsed<null>> {
    return good(null);
  }
}

import { good, type Parsed } from "../../core/answers/index.ts";
import { type NetcdfFile, type NetcdfVariable, packingOf, unpack } from "../netcdf/index.ts";
import type { Projector } from "../projection/index.ts";
import type { IndexBox } from "./netcdf-mesh-place.ts";

/** Places of a block of nodes, row after row, degrees; NaN twice where a node has none. Longitudes as they come. */
export interface BlockOfPlaces {
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
}

/** Rows and columns of nodes with a place each. */
export interface NodePlaces {
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  read(box: IndexBox): Promise<Parsed<BlockOfPlaces>>;
}

/**
 * Places written out: a latitude and a longitude for every node, along the same two dimensions, which may come behind others that they
 * don't change along (a time that some models write them over). Latitudes beyond the poles and longitudes beyond two turns are no place.
 */
export class WrittenPlaces implements NodePlaces {
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  private readonly file: NetcdfFile;
  private readonly latitude: NetcdfVariable;
  private readonly longitude: NetcdfVariable;

  constructor(file: NetcdfFile, latitude: NetcdfVariable, longitude: NetcdfVariable) {
    const [row, column] = latitude.dimensions.slice(-2);
    const [rows, columns] = latitude.shape.slice(-2);
    this.dimensions = [row!, column!];
    this.rows = rows!;
    this.columns = columns!;
    this.file = file;
    this.latitude = latitude;
    this.longitude = longitude;
  }

  async read(box: IndexBox): Promise<Parsed<BlockOfPlaces>> {
    const latitudes = await this.readOne(this.latitude, box);
    if (!latitudes.ok) return latitudes;
    const longitudes = await this.readOne(this.longitude, box);
    if (!longitudes.ok) return longitudes;
    const [latitudesDeg, longitudesDeg] = [latitudes.value, longitudes.value];
    for (let node = 0; node < latitudesDeg.length; node++) {
      const isPlace = Math.abs(latitudesDeg[node]!) <= 90.001 && Math.abs(longitudesDeg[node]!) <= 720;
      if (!isPlace) latitudesDeg[node] = longitudesDeg[node] = Number.NaN;
    }
    return good({ latitudesDeg, longitudesDeg });
  }

  private async readOne(variable: NetcdfVariable, box: IndexBox): Promise<Parsed<Float64Array>> {
    const before = variable.shape.slice(0, -2);
    const stored = await this.file.read(variable.name, {
      start: [...before.map(() => 0), box.rowStart, box.columnStart],
      count: [...before.map(() => 1), box.rowCount, box.columnCount],
    });
    if (!stored.ok) return stored;
    const { values, missing } = unpack(stored.value, packingOf(variable));
    for (let node = 0; node < values.length; node++) if (missing[node] === 1) values[node] = Number.NaN;
    return good(values);
  }
}

/** Places worked out from a map's axes and its projection. `ys` along the rows, `xs` along the columns, as the projection counts them. */
export class ProjectedPlaces implements NodePlaces {
  readonly dimensions: readonly [row: string, column: string];
  readonly rows: number;
  readonly columns: number;
  private readonly projector: Projector;
  private readonly ys: Float64Array;
  private readonly xs: Float64Array;

  constructor(dimensions: readonly [row: string, column: string], projector: Projector, ys: Float64Array, xs: Float64Array) {
    this.dimensions = dimensions;
    this.projector = projector;
    this.rows = ys.length;
    this.columns = xs.length;
    this.ys = ys;
    this.xs = xs;
  }

  async read(box: IndexBox): Promise<Parsed<BlockOfPlaces>> {
    const latitudesDeg = new Float64Array(box.rowCount * box.columnCount).fill(Number.NaN);
    const longitudesDeg = latitudesDeg.slice();
    const place = new Float64Array(2);
    for (let y = 0, node = 0; y < box.rowCount; y++) {
      for (let x = 0; x < box.columnCount; x++, node++) {
        if (!this.projector.toPlaceInto(place, this.xs[box.columnStart + x]!, this.ys[box.rowStart + y]!)) continue;
        latitudesDeg[node] = place[0]!;
        longitudesDeg[node] = place[1]!;
      }
    }
    return good({ latitudesDeg, longitudesDeg });
  }
}

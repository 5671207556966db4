import type { Mesh } from "../../core/fields/index.ts";
import { axesOf, type GribGrid, type ProjectedGrid } from "../grib/index.ts";
import { chooseWindow, placesOfNodes, projectorOf } from "../projection/index.ts";
import { areaOf, chooseColumns, chooseRows, type IndexRange } from "./crop.ts";
import type { Area, Crop } from "./forecast-reading.ts";

/** The part of a grid that is kept: which rows and columns of it, in their order, and where on the earth its nodes stand. */
export interface GridWindow {
  readonly mesh: Mesh;
  readonly rows: IndexRange;
  /** One run of columns, or two across the seam of a grid that goes round the earth. */
  readonly columns: readonly IndexRange[];
  /** The true bearing of the grid's own north at every node kept, degrees; null where it is true north itself. */
  readonly northDegTrue: Float64Array | null;
}

/** The window of a grid that the crop needs, with a node more on every side; null where the grid doesn't reach there. */
export async function windowOf(grid: GribGrid, crop: Crop | null): Promise<GridWindow | null> {
  if (grid.kind === "projected") return await projectedWindow(grid, crop);
  const axes = axesOf(grid);
  const rows = chooseRows(axes.latitudesDeg, crop);
  const columns = chooseColumns(axes.longitudesDeg, crop);
  if (!rows || !columns) return null;
  return {
    mesh: {
      kind: "latLon",
      latitudesDeg: axes.latitudesDeg.slice(rows.start, rows.start + rows.count),
      longitudesDeg: Float64Array.from(columns.longitudesDeg),
    },
    rows,
    columns: columns.ranges,
    northDegTrue: null,
  };
}

async function projectedWindow(grid: ProjectedGrid, crop: Crop | null): Promise<GridWindow | null> {
  const projector = await projectorOf(grid.projection);
  const xs = evenAxis(grid.leastX, grid.stepX, grid.columns);
  const ys = evenAxis(grid.leastY, grid.stepY, grid.rows);
  const whole = { rows: { start: 0, count: grid.rows }, columns: { start: 0, count: grid.columns } };
  const window = crop === null ? whole : chooseWindow(projector, xs, ys, crop);
  if (window === null) return null;
  const { rows, columns } = window;
  const places = placesOfNodes(
    projector,
    xs.subarray(columns.start, columns.start + columns.count),
    ys.subarray(rows.start, rows.start + rows.count),
  );
  return {
    mesh: {
      kind: "curvilinear",
      rows: rows.count,
      columns: columns.count,
      latitudesDeg: places.latitudesDeg,
      longitudesDeg: places.longitudesDeg,
      placed: places.withoutPlace === null ? null : places.withoutPlace.map((without) => 1 - without),
    },
    rows,
    columns: [columns],
    northDegTrue: grid.componentsAlongGrid ? places.gridNorthDegTrue : null,
  };
}

/** The box that holds the whole grid, for people: of a projected one, its edge is looked at. */
export async function areaOfGrid(grid: GribGrid): Promise<Area> {
  if (grid.kind === "latLon") {
    const axes = axesOf(grid);
    return areaOf(axes.latitudesDeg, axes.longitudesDeg);
  }
  const window = await projectedWindow(coarse(grid), null);
  const { mesh } = window!;
  const placed = mesh.kind === "curvilinear" ? mesh.placed : null;
  const [southDeg, northDeg] = leastAndGreatest(mesh.latitudesDeg, placed);
  const [westDeg, eastDeg] = leastAndGreatest(mesh.longitudesDeg, placed);
  return { southDeg, northDeg, westDeg, eastDeg };
}

/** The same grid with few nodes, its outermost ones among them. */
function coarse(grid: ProjectedGrid): ProjectedGrid {
  const MOST = 64;
  const columns = Math.min(grid.columns, MOST);
  const rows = Math.min(grid.rows, MOST);
  return {
    ...grid,
    columns,
    rows,
    stepX: columns > 1 ? (grid.stepX * (grid.columns - 1)) / (columns - 1) : 0,
    stepY: rows > 1 ? (grid.stepY * (grid.rows - 1)) / (rows - 1) : 0,
  };
}

function leastAndGreatest(values: Float64Array, placed: Uint8Array | null): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const [node, value] of values.entries()) {
    if (placed !== null && placed[node] === 0) continue;
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return [least, greatest];
}

const evenAxis = (start: number, step: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, index) => start + index * step);

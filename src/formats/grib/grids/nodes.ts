import { type NodePlaces, placesOfNodes, projectorOf } from "../../projection/index.ts";
import type { ProjectedGrid } from "../grib-field.ts";

/** The x of a projected grid's columns and the y of its rows, ascending, as its projection has them. */
export interface MapAxes {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
}

export function mapAxesOf(grid: ProjectedGrid): MapAxes {
  return {
    xs: Float64Array.from({ length: grid.columns }, (_, column) => grid.leastX + column * grid.stepX),
    ys: Float64Array.from({ length: grid.rows }, (_, row) => grid.leastY + row * grid.stepY),
  };
}

/** Where all of a projected grid's nodes lie, row after row from the least y. */
export async function nodesOf(grid: ProjectedGrid): Promise<NodePlaces> {
  const { xs, ys } = mapAxesOf(grid);
  return placesOfNodes(await projectorOf(grid.projection), xs, ys);
}

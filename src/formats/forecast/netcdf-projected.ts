import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { kindOfCoordinate, type NetcdfAxis, type NetcdfFile, type NetcdfVariable, readCoordinate, textOf } from "../netcdf/index.ts";
import { type Projector, projectorOf, readGridMapping } from "../projection/index.ts";
import { type NodePlaces, ProjectedPlaces } from "./netcdf-node-places.ts";
import { type GridNorth, northOfMap } from "./netcdf-north.ts";
import { factorToSi } from "./units-in-file.ts";

/** A grid by its map: where its nodes lie, and the map itself. */
export interface MapPlaces {
  readonly places: ProjectedPlaces;
  readonly projector: Projector;
}

/** A map's north and that of the nodes are this near; else the map isn't theirs (common practice). */
const SAME_NORTH_DEG = 1;

/**
 * The map of a variable with two projected axes: by the grid mapping that it names, or the only one in the file (CF 1.11, 5.6). Axes in
 * metres, kilometres or, for a turned pole, degrees.
 */
export async function mapPlacesOf(file: NetcdfFile, variable: NetcdfVariable, axes: readonly NetcdfAxis[]): Promise<Parsed<MapPlaces>> {
  const refused = (why: string): Parsed<never> => bad(issue(variable.name, "grid-not-read", `"${variable.name}" ${why}.`));
  const { variables } = file.header;
  const mapping = gridMappingOf(file, variable);
  const isOfMap = (one: NetcdfAxis): boolean =>
    one.kind === "projected" || (isTurned(mapping) && (one.kind === "latitude" || one.kind === "longitude"));
  const projected = axes.filter((one) => isOfMap(one) && one.coordinate !== null);
  const along = projected.map((one) => ({ axis: one, variable: variables.get(one.coordinate!)! }));
  const y = along.find((one) => letterOf(one.variable) === "y");
  const x = along.find((one) => letterOf(one.variable) === "x");
  if (!x || !y) return refused("stands on a map whose axes aren't told apart");
  if (!mapping) return refused("stands on a map that the file doesn't describe");
  const factors = [y, x].map((one) => {
    const units = textOf(one.variable.attributes, "units");
    return /^deg/i.test(units) ? 1 : factorToSi(units, "length");
  });
  const [toY, toX] = factors;
  if (toY === null || toY === undefined || toX === null || toX === undefined)
    return refused("stands on a map whose axes have no unit of length");
  const read = readGridMapping(mapping.attributes, toX);
  if (read.kind !== "projected")
    return refused(
      read.kind === "plain" ? "stands on axes that are no map" : `stands on a map that is not read: ${read.reason.replace(/\.$/, "")}`,
    );
  const [ys, xs] = [await readCoordinate(file, y.variable), await readCoordinate(file, x.variable)];
  if (!ys.ok) return ys;
  if (!xs.ok) return xs;
  const [onY, onX] = [ys.value.map((value) => value * toY), xs.value.map((value) => value * toX)];
  const projector = await projectorOf(read.projection);
  return good({ places: new ProjectedPlaces([y.axis.dimension, x.axis.dimension], projector, onY, onX), projector });
}

/**
 * Whether the map is that of places written in the file: near the corners and in the middle its north is the one that the nodes
 * themselves show.
 */
export async function fitsMap(projector: Projector, written: NodePlaces, byNodes: GridNorth): Promise<boolean> {
  const byMap = northOfMap(projector);
  for (const row of [0, written.rows >> 1, written.rows - 1]) {
    for (const column of [1, written.columns >> 1, written.columns - 2]) {
      const box = { rowStart: row, rowCount: 1, columnStart: Math.max(0, column), columnCount: 1 };
      const [nodes, map] = [await byNodes(written, box), await byMap(written, box)];
      if (!nodes.ok || !map.ok) return false;
      const apart = map.value[0]! - nodes.value[0]!;
      if (Math.abs(apart - 360 * Math.round(apart / 360)) > SAME_NORTH_DEG) return false;
    }
  }
  return true;
}

/** Whether a grid's columns run against its x: its axis of x falls. */
export async function runsAgainstX(file: NetcdfFile, axes: readonly NetcdfAxis[], column: string): Promise<boolean> {
  const axis = axes.find((one) => one.dimension === column && one.kind === "projected" && one.coordinate !== null);
  const read = axis ? await readCoordinate(file, file.header.variables.get(axis.coordinate!)!) : null;
  return read?.ok === true && read.value.length > 1 && read.value[1]! < read.value[0]!;
}

function letterOf(variable: NetcdfVariable): "x" | "y" | null {
  const standard = textOf(variable.attributes, "standard_name");
  if (/^projection_x_coordinate$|^grid_longitude$/.test(standard)) return "x";
  if (/^projection_y_coordinate$|^grid_latitude$/.test(standard)) return "y";
  const letter =
    textOf(variable.attributes, "axis").toLowerCase() ||
    /^geo(x|y)$/i.exec(textOf(variable.attributes, "_CoordinateAxisType"))?.[1]?.toLowerCase();
  if (letter === "x" || letter === "y") return letter;
  const kind = kindOfCoordinate(variable);
  return kind === "longitude" ? "x" : kind === "latitude" ? "y" : null;
}

/** Whether a grid mapping turns the pole: axes beside it are those of the turned grid, though some files give them the units of true ones. */
export const isTurned = (mapping: NetcdfVariable | null): boolean =>
  /^rotated/i.test(textOf(mapping?.attributes ?? new Map(), "grid_mapping_name"));

/** The grid mapping that a variable names, or the only one in the file. */
export function gridMappingOf(file: NetcdfFile, variable: NetcdfVariable): NetcdfVariable | null {
  const { variables } = file.header;
  const name = textOf(variable.attributes, "grid_mapping").split(/[:\s]/)[0]!;
  const named = variables.get(name);
  if (named) return named;
  const all = [...variables.values()].filter((one) => textOf(one.attributes, "grid_mapping_name") !== "");
  return all.length === 1 ? all[0]! : null;
}

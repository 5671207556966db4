import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import {
  kindOfCoordinate,
  type NetcdfFile,
  type NetcdfHeader,
  type NetcdfVariable,
  numbersOf,
  packingOf,
  textOf,
  unpack,
} from "../netcdf/index.ts";

/** Corners, longitudes near one another, and triangles of three corner numbers each, counted from 0. */
export interface TriangleNet {
  readonly latitudesDeg: Float64Array;
  readonly longitudesDeg: Float64Array;
  readonly triangles: Int32Array;
  /** Some cells had four corners and are parted in two: values on cells can't be told on the triangles then. */
  readonly isParted: boolean;
}

/** Which variables of a file make its triangles, and the dimensions along which corners and cells are counted. */
export interface NetNames {
  readonly connectivity: NetcdfVariable;
  readonly latitude: NetcdfVariable;
  readonly longitude: NetcdfVariable;
  readonly cornerDimension: string;
  readonly cellDimension: string;
}

/** Customary names of the table of corners: FVCOM and SELFE, ADCIRC, SCHISM (common practice). */
const CUSTOMARY = ["nv", "element", "elements", "ele", "tri", "triangles", "schism_hgrid_face_nodes", "face_nodes"];

/** Finds the triangles of a file, by the UGRID conventions 1.0 (`mesh_topology`) or by a customary name; null where it has none. */
export function findNet(header: NetcdfHeader): NetNames | null {
  const topology = [...header.variables.values()].find((one) => textOf(one.attributes, "cf_role") === "mesh_topology");
  const named = topology && header.variables.get(textOf(topology.attributes, "face_node_connectivity"));
  const connectivity = named ?? [...header.variables.values()].find((one) => CUSTOMARY.includes(one.name.toLowerCase()));
  if (connectivity?.shape.length !== 2 || connectivity.type === "char") return null;
  const isSide = (axis: number): boolean => connectivity.shape[axis] === 3 || connectivity.shape[axis] === 4;
  if (!isSide(0) && !isSide(1)) return null;
  const cellDimension = connectivity.dimensions[isSide(1) && !isSide(0) ? 0 : 1]!;
  const coordinates = textOf(topology?.attributes ?? new Map(), "node_coordinates").split(/\s+/);
  const candidates =
    coordinates[0] === "" ? [...header.variables.values()] : coordinates.flatMap((name) => header.variables.get(name) ?? []);
  for (const latitude of candidates) {
    if (latitude.shape.length !== 1 || latitude.dimensions[0] === cellDimension || kindOfCoordinate(latitude) !== "latitude") continue;
    const cornerDimension = latitude.dimensions[0]!;
    const longitude = candidates.find((one) => one.dimensions.join() === cornerDimension && kindOfCoordinate(one) === "longitude");
    if (longitude) return { connectivity, latitude, longitude, cornerDimension, cellDimension };
  }
  return null;
}

/** Reads the triangles; `file-lies` where a corner has no place or a triangle names one that isn't there. */
export async function readNet(file: NetcdfFile, names: NetNames): Promise<Parsed<TriangleNet>> {
  const { connectivity } = names;
  const latitudes = await placesOf(file, names.latitude, 90.001);
  if (!latitudes.ok) return latitudes;
  const longitudes = await placesOf(file, names.longitude, 720);
  if (!longitudes.ok) return longitudes;
  const stored = await file.read(connectivity.name);
  if (!stored.ok) return stored;
  const { values, missing } = unpack(stored.value, packingOf(connectivity));
  const cells = file.header.dimensions.find((one) => one.name === names.cellDimension)!.length;
  const cellsFirst = connectivity.dimensions[0] === names.cellDimension;
  const sides = cells === 0 ? 0 : values.length / cells;
  const corners = latitudes.value.length;
  const firstNumber = firstNumberOf(connectivity, values, missing, corners);
  const triangles = new Int32Array(cells * (sides === 4 ? 6 : 3));
  let filled = 0;
  const add = (...three: number[]): void => {
    triangles.set(three, filled);
    filled += 3;
  };
  let isParted = false;
  for (let cell = 0; cell < cells; cell++) {
    const around: number[] = [];
    for (let side = 0; side < sides; side++) {
      const at = cellsFirst ? cell * sides + side : side * cells + cell;
      const corner = values[at]! - firstNumber;
      // The fourth corner of a triangle among quadrangles is blank, or one of the three again.
      if (side === 3 && (missing[at] === 1 || corner < 0 || around.includes(corner))) continue;
      if (missing[at] === 1 || !Number.isInteger(corner) || corner < 0 || corner >= corners) {
        return bad(
          issue(connectivity.name, "file-lies", `Cell ${cell + 1} in "${connectivity.name}" has a corner ${values[at]} that isn't there.`),
        );
      }
      around.push(corner);
    }
    add(around[0]!, around[1]!, around[2]!);
    if (around.length === 4) {
      add(around[0]!, around[2]!, around[3]!);
      isParted = true;
    }
  }
  return good({
    latitudesDeg: latitudes.value,
    longitudesDeg: together(longitudes.value),
    triangles: triangles.slice(0, filled),
    isParted,
  });
}

/** The number of the first corner: what `start_index` says, unless the numbers themselves rule it out; FVCOM's say nothing and begin at 1. */
function firstNumberOf(connectivity: NetcdfVariable, values: Float64Array, missing: Uint8Array, corners: number): number {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  values.forEach((value, at) => {
    if (missing[at] === 1 || value < 0) return;
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
  });
  if (least === 0) return 0;
  if (greatest === corners) return 1;
  const said = numbersOf(connectivity.attributes, "start_index")?.[0];
  if (said !== undefined) return said;
  return textOf(connectivity.attributes, "cf_role") === "face_node_connectivity" ? 0 : 1;
}

async function placesOf(file: NetcdfFile, variable: NetcdfVariable, most: number): Promise<Parsed<Float64Array>> {
  const stored = await file.read(variable.name);
  if (!stored.ok) return stored;
  const { values, missing } = unpack(stored.value, packingOf(variable));
  const off = values.findIndex((value, at) => missing[at] === 1 || Math.abs(value) > most);
  if (off < 0 && values.length > 0) return good(values);
  return bad(issue(variable.name, "file-lies", `"${variable.name}" gives corner ${off + 1} of ${values.length} no place.`));
}

/** Longitudes moved by whole turns to stand within half a turn of the first, which is brought into [−180, 180). */
function together(longitudesDeg: Float64Array): Float64Array {
  const first = longitudesDeg[0]! - 360 * Math.floor((longitudesDeg[0]! + 180) / 360);
  return longitudesDeg.map((longitude) => longitude - 360 * Math.round((longitude - first) / 360));
}

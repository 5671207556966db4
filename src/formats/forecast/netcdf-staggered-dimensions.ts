import { good, type Parsed } from "../../core/answers/index.ts";
import type { NetcdfFile, NetcdfHeader, NetcdfVariable } from "../netcdf/index.ts";
import type { CurvilinearPlace } from "./netcdf-curvilinear.ts";
import { WrittenPlaces } from "./netcdf-node-places.ts";
import { pairAmong } from "./netcdf-pairs.ts";
import { type Face, type FaceGrid, StaggeredPlace } from "./netcdf-staggered.ts";

const MIDDLES = ["eta_rho", "xi_rho"] as const;

/** The dimensions of faces, ROMS's: `eta_u`, `xi_u`, `eta_v`, `xi_v`; older files name only that which differs from the middles'. */
function dimensionsOf(header: NetcdfHeader, face: Face): readonly [row: string, column: string] {
  const has = (name: string): boolean => header.dimensions.some((one) => one.name === name);
  return [has(`eta_${face}`) ? `eta_${face}` : MIDDLES[0], has(`xi_${face}`) ? `xi_${face}` : MIDDLES[1]];
}

/** On which faces of a staggered grid a variable stands, with the places of the cells' middles; null for any other. */
export function faceOf(
  header: NetcdfHeader,
  variable: NetcdfVariable,
): { face: Face; dimensions: readonly [string, string]; latitude: NetcdfVariable; longitude: NetcdfVariable } | null {
  if (!variable.dimensions.some((one) => /^(eta|xi)_[uv]$/.test(one))) return null;
  const middles = pairAmong([...header.variables.values()], MIDDLES);
  if (!middles) return null;
  for (const face of ["u", "v"] as const) {
    const dimensions = dimensionsOf(header, face);
    if (dimensions.join() !== MIDDLES.join() && dimensions.every((one) => variable.dimensions.includes(one))) {
      return { face, dimensions, ...middles };
    }
  }
  return null;
}

/** The staggered grid around the middles. */
export async function staggeredOf(file: NetcdfFile, middles: CurvilinearPlace): Promise<Parsed<StaggeredPlace>> {
  const u = await faceGridOf(file, "u");
  if (!u.ok) return u;
  const v = await faceGridOf(file, "v");
  if (!v.ok) return v;
  return good(new StaggeredPlace(file, middles, { u: u.value, v: v.value }, maskAlong(file.header, MIDDLES)));
}

async function faceGridOf(file: NetcdfFile, face: Face): Promise<Parsed<FaceGrid>> {
  const dimensions = dimensionsOf(file.header, face);
  const lengthOf = (name: string): number => file.header.dimensions.find((one) => one.name === name)?.length ?? 0;
  const [rows, columns] = [lengthOf(dimensions[0]), lengthOf(dimensions[1])];
  const shift = await shiftOf(file, face, dimensions, rows, columns);
  if (!shift.ok) return shift;
  return good({ dimensions, rows, columns, shift: shift.value, mask: maskAlong(file.header, dimensions) });
}

const maskAlong = (header: NetcdfHeader, dimensions: readonly string[]): NetcdfVariable | null =>
  [...header.variables.values()].find(
    (one) => /^(?:mask|wetdry_mask|land_?mask)/i.test(one.name) && one.dimensions.join() === dimensions.join(),
  ) ?? null;

/**
 * Face 0 stands after middle 0, in a whole file and in one whose parts were cut out alike; where the file gives the faces' places, and they
 * say that it stands before it, that counts. Blank places say nothing.
 */
async function shiftOf(
  file: NetcdfFile,
  face: Face,
  dimensions: readonly [string, string],
  rows: number,
  columns: number,
): Promise<Parsed<0 | -1>> {
  const variables = [...file.header.variables.values()];
  const written = pairAmong(variables, dimensions);
  const middles = pairAmong(variables, MIDDLES);
  if (!written || !middles || dimensions.join() === MIDDLES.join()) return good(0);
  const row = Math.max(1, rows >> 1);
  const column = Math.max(1, columns >> 1);
  const places = new WrittenPlaces(file, middles.latitude, middles.longitude);
  const [last, lastColumn] = [Math.min(places.rows - 1, row + 1), Math.min(places.columns - 1, column + 1)];
  const around = await places.read({
    rowStart: row - 1,
    rowCount: last - row + 2,
    columnStart: column - 1,
    columnCount: lastColumn - column + 2,
  });
  if (!around.ok) return around;
  const one = await new WrittenPlaces(file, written.latitude, written.longitude).read({
    rowStart: Math.min(row, rows - 1),
    rowCount: 1,
    columnStart: Math.min(column, columns - 1),
    columnCount: 1,
  });
  if (!one.ok) return one;
  const width = lastColumn - column + 2;
  const step = face === "u" ? 1 : width;
  const here = width + 1;
  const offFrom = (first: number): number => {
    const { latitudesDeg, longitudesDeg } = around.value;
    const shrink = Math.cos((one.value.latitudesDeg[0]! * Math.PI) / 180);
    const off = (axis: Float64Array, at: Float64Array): number => (axis[first]! + axis[first + step]!) / 2 - at[0]!;
    return Math.hypot(off(latitudesDeg, one.value.latitudesDeg), off(longitudesDeg, one.value.longitudesDeg) * shrink);
  };
  const cell = Math.hypot(
    around.value.latitudesDeg[here]! - around.value.latitudesDeg[here - step]!,
    around.value.longitudesDeg[here]! - around.value.longitudesDeg[here - step]!,
  );
  const [before, after] = [offFrom(here - step), offFrom(here)];
  // Only what lies within a quarter of a cell of the one and not of the other is a sound answer.
  return good(before < cell / 4 && !(after < before) ? -1 : 0);
}

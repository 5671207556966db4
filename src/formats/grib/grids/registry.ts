import { bad, issue, type Parsed } from "../../../core/answers/index.ts";
import type { GribGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import type { GridReader } from "./grid-reader.ts";
import { lambertConformalReader } from "./lambert-conformal.ts";
import { latLonReader } from "./lat-lon.ts";
import { mercatorReader } from "./mercator.ts";
import { polarStereographicReader } from "./polar-stereographic.ts";
import { rotatedLatLonReader } from "./rotated-lat-lon.ts";

/** Every grid of edition 2 that is read; a line for each. */
const grids: readonly GridReader[] = [latLonReader, rotatedLatLonReader, mercatorReader, polarStereographicReader, lambertConformalReader];
const readers: ReadonlyMap<number, GridReader> = new Map(grids.map((reader) => [reader.template, reader]));

/** Section 3: the grid, or why it isn't read. */
export async function readGrid(octets: Octets, path: string): Promise<Parsed<GribGrid>> {
  if (octets.length < 14) return bad(issue(path, "file-lies", `Section 3 is only ${octets.length} octets long.`));
  const source = octets.u8(6);
  if (source !== 0) return bad(issue(path, "grid-not-read", `The grid isn't described in the file (source of grid definition ${source}).`));
  const template = octets.u16(13);
  const reader = readers.get(template);
  if (reader === undefined) return bad(issue(path, "grid-not-read", `Grid template 3.${template} is not read.`));
  if (octets.u8(11) !== 0) {
    return bad(issue(path, "grid-not-read", "The grid's rows have different numbers of points (a reduced or thinned grid)."));
  }
  const grid = await reader.read(octets, path);
  if (!grid.ok) return grid;
  const { ni, nj } = grid.value.scan;
  const said = octets.u32(7);
  if (said !== ni * nj) return bad(issue(path, "file-lies", `The grid has ${ni} by ${nj} points, but section 3 says ${said}.`));
  return grid;
}

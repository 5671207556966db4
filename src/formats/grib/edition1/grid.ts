import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { GribGrid, GribScan, LatLonGrid } from "../grib-field.ts";
import { latitudeAxis, longitudeAxis } from "../grids/degree-axes.ts";
import { scanFromFlags } from "../grids/scan.ts";
import type { Octets } from "../octets.ts";
import { cornersIn, LEAST_OCTETS, MILLIDEGREES } from "./grid-head.ts";
import { u24 } from "./numbers.ts";
import { lambertGrid, mercatorGrid, polarStereographicGrid, rotatedGrid } from "./projected-grids.ts";

/** The most octets of section 2 that are looked at; lists behind them aren't. */
export const GRID_OCTETS = 64;

type Reader = (octets: Octets, scan: GribScan, path: string) => Parsed<GribGrid> | Promise<Parsed<GribGrid>>;

/** Data representation types (code table 6) that are read. */
const READERS: Readonly<Record<number, Reader>> = {
  0: latLonGrid,
  1: mercatorGrid,
  3: lambertGrid,
  5: polarStereographicGrid,
  10: rotatedGrid,
};

/** Those that aren't. */
const NAMES: Readonly<Record<number, string>> = {
  2: "gnomonic",
  4: "Gaussian",
  6: "universal transverse Mercator",
  7: "simple polyconic",
  8: "Albers equal-area",
  9: "Miller's cylindrical",
  13: "oblique Lambert",
  14: "rotated Gaussian",
  20: "stretched latitude and longitude",
  24: "stretched Gaussian",
  30: "stretched and rotated latitude and longitude",
  34: "stretched and rotated Gaussian",
  50: "spherical harmonics",
  60: "rotated spherical harmonics",
  70: "stretched spherical harmonics",
  80: "stretched and rotated spherical harmonics",
  90: "as seen from space",
};

const POINTS_NOT_GIVEN = 0xffff;
const NO_LIST = 255;

/** Section 2 (Manual on Codes I.2, FM 92 GRIB edition 1): the grid, or why it isn't read. */
export async function readEdition1Grid(octets: Octets, path: string): Promise<Parsed<GribGrid>> {
  const notRead = (message: string): Parsed<never> => bad(issue(path, "grid-not-read", message));
  const type = octets.u8(6);
  const reader = READERS[type];
  if (reader === undefined) {
    const name = NAMES[type];
    return notRead(`The grid is ${name === undefined ? "of a kind that isn't read" : name} (data representation type ${type}).`);
  }
  const least = LEAST_OCTETS[type] ?? 32;
  if (octets.length < least) return bad(issue(path, "file-lies", `Section 2 is only ${octets.length} octets long.`));
  const [ni, nj] = [octets.u16(7), octets.u16(9)];
  if (ni === POINTS_NOT_GIVEN || nj === POINTS_NOT_GIVEN || hasRowLengths(octets, nj)) {
    return notRead("The grid's rows have different numbers of points (a reduced or thinned grid).");
  }
  if (ni === 0 || nj === 0) return bad(issue(path, "file-lies", `The grid has ${ni} by ${nj} points.`));
  const flags = octets.u8(28);
  const scan = (flags & 0x1f) === 0 ? scanFromFlags(flags, ni, nj) : null;
  if (scan === null) return notRead(`Scanning mode ${flags} isn't known.`);
  return await reader(octets, scan, path);
}

/** Octet 5 says where the vertical coordinates' list begins (octet 4 of them, four octets each), and behind it the rows' lengths, if any. */
function hasRowLengths(octets: Octets, rows: number): boolean {
  const list = octets.u8(5);
  return list !== NO_LIST && list > 0 && u24(octets, 1) >= list - 1 + 4 * octets.u8(4) + 2 * rows;
}

/** Type 0, latitude and longitude. */
function latLonGrid(octets: Octets, scan: GribScan, path: string): Parsed<LatLonGrid> {
  const corners = cornersIn(octets, scan);
  const latitudes = latitudeAxis(corners.firstLatitudeDeg, corners.lastLatitudeDeg, scan.nj, corners.latitudeStepDeg, scan.jPositive);
  if (typeof latitudes === "string") return bad(issue(path, "file-lies", latitudes));
  const longitudes = longitudeAxis(corners.west, corners.east, MILLIDEGREES, scan.ni, corners.longitudeStepDeg);
  if (typeof longitudes === "string") return bad(issue(path, "file-lies", longitudes));
  return good({
    kind: "latLon",
    template: 0,
    rows: scan.nj,
    columns: scan.ni,
    southDeg: latitudes.start,
    westDeg: longitudes.start,
    latitudeStepDeg: latitudes.step,
    longitudeStepDeg: longitudes.step,
    roundTheEarth: scan.ni > 1 && Math.abs(scan.ni * longitudes.step - 360) < longitudes.step / 2,
    componentsAlongGrid: corners.componentsAlongGrid,
    scan,
  });
}

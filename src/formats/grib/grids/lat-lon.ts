import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { LatLonGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import type { GridReader } from "./grid-reader.ts";
import { scanFromFlags } from "./scan.ts";

const TEMPLATE_OCTETS = 72;

/** Grid template 3.0, latitude and longitude (Manual on Codes I.2, FM 92 GRIB, template 3.0). */
export const latLonReader: GridReader = { template: 0, read: readLatLon };

function readLatLon(octets: Octets, path: string): Parsed<LatLonGrid> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 3 is only ${octets.length} octets long.`));
  const ni = octets.u32OrMissing(31);
  const nj = octets.u32OrMissing(35);
  if (ni === null || nj === null) return bad(issue(path, "grid-not-read", "The grid doesn't say how many points a row has."));
  if (ni === 0 || nj === 0) return bad(issue(path, "file-lies", `The grid has ${ni} by ${nj} points.`));
  const flags = octets.u8(72);
  const scan = scanFromFlags(flags, ni, nj);
  if (scan === null) return bad(issue(path, "grid-not-read", `The grid's rows are shifted by half a step (scanning mode ${flags}).`));

  const angle = angleIn(octets);
  const resolution = octets.u8(55);
  const stepDeg = (octet: number, givenFlag: number): number | null => {
    const step = octets.u32OrMissing(octet);
    return step === null || step === 0 || (resolution & givenFlag) === 0 ? null : angle.deg(step);
  };
  const latitudes = latitudeAxis(angle.deg(octets.s32(47)), angle.deg(octets.s32(56)), nj, stepDeg(68, 0x10), scan.jPositive);
  if (typeof latitudes === "string") return bad(issue(path, "file-lies", latitudes));
  const first = octets.s32(51);
  const last = octets.s32(60);
  const [west, east] = scan.iNegative ? [last, first] : [first, last];
  const longitudes = longitudeAxis(west, east, angle, ni, stepDeg(64, 0x20));
  if (typeof longitudes === "string") return bad(issue(path, "file-lies", longitudes));

  return good({
    kind: "latLon",
    template: 0,
    rows: nj,
    columns: ni,
    southDeg: latitudes.start,
    westDeg: longitudes.start,
    latitudeStepDeg: latitudes.step,
    longitudeStepDeg: longitudes.step,
    roundTheEarth: ni > 1 && Math.abs(ni * longitudes.step - 360) < longitudes.step / 2,
    componentsAlongGrid: (resolution & 0x08) !== 0,
    scan,
  });
}

/** How the grid counts angles. */
interface Angle {
  readonly deg: (units: number) => number;
  /** 360 degrees in units. */
  readonly turn: number;
}

/** The unit is the basic angle over its subdivisions, or a millionth of a degree where they are left out (template 3.0, note 1). */
function angleIn(octets: Octets): Angle {
  const basic = octets.u32OrMissing(39) || 1;
  const subdivisions = octets.u32OrMissing(43) || 1_000_000;
  return { deg: (units) => (units * basic) / subdivisions, turn: (360 * subdivisions) / basic };
}

interface Axis {
  readonly start: number;
  readonly step: number;
}

/** One unit of the usual angle: what rounding may leave over. */
const ROUNDING_DEG = 1e-6;

/** The axis from its ends; the step given is held against them to half a step. A string says what can't be true. */
function latitudeAxis(firstDeg: number, lastDeg: number, count: number, stepDeg: number | null, northward: boolean): Axis | string {
  const reach = Math.max(Math.abs(firstDeg), Math.abs(lastDeg));
  if (reach > 90 + ROUNDING_DEG) return `The grid reaches latitude ${reach}.`;
  const [south, north] = northward ? [firstDeg, lastDeg] : [lastDeg, firstDeg];
  if (count === 1) return { start: firstDeg, step: 0 };
  if (!(north > south)) return `The grid runs from latitude ${firstDeg} to ${lastDeg}, against its own scanning mode.`;
  const span = north - south;
  if (stepDeg !== null && Math.abs((count - 1) * stepDeg - span) > stepDeg / 2) {
    return `${count} rows ${stepDeg} degrees apart don't reach from latitude ${south} to ${north}.`;
  }
  return { start: south, step: span / (count - 1) };
}

/** As for latitudes; ends are in the grid's own units, so that turning them by 360 degrees is exact. */
function longitudeAxis(west: number, east: number, angle: Angle, count: number, stepDeg: number | null): Axis | string {
  const reachDeg = angle.deg(Math.max(Math.abs(west), Math.abs(east)));
  if (reachDeg > 360 + ROUNDING_DEG) return `The grid reaches longitude ${reachDeg}.`;
  const start = angle.deg(positiveRemainder(west + angle.turn / 2, angle.turn) - angle.turn / 2);
  if (count === 1) return { start, step: 0 };
  const apart = angle.deg(positiveRemainder(east - west, angle.turn));
  // A whole turn, the first column repeated at the end, leaves nothing over.
  const spanDeg = apart < ROUNDING_DEG ? 360 : apart;
  if (stepDeg !== null && Math.abs((count - 1) * stepDeg - spanDeg) > stepDeg / 2) {
    return `${count} columns ${stepDeg} degrees apart don't reach from longitude ${angle.deg(west)} to ${angle.deg(east)}.`;
  }
  return { start, step: spanDeg / (count - 1) };
}

function positiveRemainder(value: number, divisor: number): number {
  const rest = value % divisor;
  return rest < 0 ? rest + divisor : rest;
}

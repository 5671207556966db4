import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { EarthFigure } from "../../projection/index.ts";
import type { GribScan } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import { earthFigureIn } from "./earth-shape.ts";
import { scanFromFlags } from "./scan.ts";

/** What every map's template holds at the same octets, the scanning mode aside. Angles are millionths of a degree, lengths millimetres. */
export interface MapHead {
  readonly earth: EarthFigure;
  readonly firstLatitudeDeg: number;
  readonly firstLongitudeDeg: number;
  readonly componentsAlongGrid: boolean;
  readonly scan: GribScan;
}

/** Octets 15 to 47, held against the template's whole length first. */
export function mapHeadIn(octets: Octets, templateOctets: number, scanOctet: number, path: string): Parsed<MapHead> {
  if (octets.length < templateOctets) return bad(issue(path, "file-lies", `Section 3 is only ${octets.length} octets long.`));
  const earth = earthFigureIn(octets, path);
  if (!earth.ok) return earth;
  const scan = scanIn(octets, scanOctet, path);
  if (!scan.ok) return scan;
  return good({
    earth: earth.value,
    firstLatitudeDeg: degreesAt(octets, 39),
    firstLongitudeDeg: degreesAt(octets, 43),
    componentsAlongGrid: alongGridIn(octets, 47),
    scan: scan.value,
  });
}

/** The numbers of points, at octets 31 and 35, and their order. */
export function scanIn(octets: Octets, scanOctet: number, path: string): Parsed<GribScan> {
  const ni = octets.u32OrMissing(31);
  const nj = octets.u32OrMissing(35);
  if (ni === null || nj === null) return bad(issue(path, "grid-not-read", "The grid doesn't say how many points a row has."));
  if (ni === 0 || nj === 0) return bad(issue(path, "file-lies", `The grid has ${ni} by ${nj} points.`));
  const flags = octets.u8(scanOctet);
  const scan = scanFromFlags(flags, ni, nj);
  if (scan === null) return bad(issue(path, "grid-not-read", `The grid's rows are shifted by half a step (scanning mode ${flags}).`));
  return good(scan);
}

/** Whether u and v run along the grid (WMO flag table 3.3). */
export function alongGridIn(octets: Octets, octet: number): boolean {
  return (octets.u8(octet) & 0x08) !== 0;
}

export function degreesAt(octets: Octets, octet: number): number {
  return octets.s32(octet) / 1e6;
}

/** A step in metres; null where it is left out. Files leave the flag that says it is given unset all the same, so the step itself is asked. */
export function stepMetresAt(octets: Octets, octet: number): number | null {
  const millimetres = octets.u32OrMissing(octet);
  return millimetres === null || millimetres === 0 ? null : millimetres / 1000;
}

/** The pole in the projection's centre (WMO flag table 3.5); null for a map with both. */
export function poleIn(octets: Octets, octet: number): "north" | "south" | null {
  const flags = octets.u8(octet);
  return (flags & 0x40) !== 0 ? null : (flags & 0x80) !== 0 ? "south" : "north";
}

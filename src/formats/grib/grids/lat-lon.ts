import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { LatLonGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import { angleIn } from "./angle-unit.ts";
import { latitudeAxis, longitudeAxis } from "./degree-axes.ts";
import type { GridReader } from "./grid-reader.ts";
import { alongGridIn, scanIn } from "./map-head.ts";

const TEMPLATE_OCTETS = 72;

/** Grid template 3.0, latitude and longitude (Manual on Codes I.2, FM 92 GRIB, template 3.0). */
export const latLonReader: GridReader = { template: 0, read: readLatLon };

function readLatLon(octets: Octets, path: string): Parsed<LatLonGrid> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 3 is only ${octets.length} octets long.`));
  const order = scanIn(octets, 72, path);
  if (!order.ok) return order;
  const scan = order.value;
  const { ni, nj } = scan;

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
    componentsAlongGrid: alongGridIn(octets, 55),
    scan,
  });
}

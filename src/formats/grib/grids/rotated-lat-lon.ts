import { bad, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ProjectedGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import { angleIn } from "./angle-unit.ts";
import type { GridReader } from "./grid-reader.ts";
import { alongGridIn, scanIn } from "./map-head.ts";
import { projectedGridFrom } from "./projected-grid.ts";

const TEMPLATE_OCTETS = 84;

/** Grid template 3.1, latitude and longitude about a turned pole (Manual on Codes I.2, FM 92 GRIB, template 3.1). */
export const rotatedLatLonReader: GridReader = { template: 1, read: readRotated };

async function readRotated(octets: Octets, path: string): Promise<Parsed<ProjectedGrid>> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 3 is only ${octets.length} octets long.`));
  const scan = scanIn(octets, 72, path);
  if (!scan.ok) return scan;
  const angle = angleIn(octets);
  const degreesAt = (octet: number): number => angle.deg(octets.s32(octet));
  const resolution = octets.u8(55);
  const stepDeg = (octet: number, givenFlag: number): number | null => {
    const step = octets.u32OrMissing(octet);
    return step === null || step === 0 || (resolution & givenFlag) === 0 ? null : angle.deg(step);
  };
  return projectedGridFrom(
    {
      template: 1,
      projection: {
        kind: "rotatedPole",
        southPoleLatitudeDeg: degreesAt(73),
        southPoleLongitudeDeg: degreesAt(77),
        rotationDeg: octets.f32(81),
      },
      firstLatitudeDeg: degreesAt(47),
      firstLongitudeDeg: degreesAt(51),
      last: { latitudeDeg: degreesAt(56), longitudeDeg: degreesAt(60) },
      stepX: stepDeg(64, 0x20),
      stepY: stepDeg(68, 0x10),
      componentsAlongGrid: alongGridIn(octets, 55),
      scan: scan.value,
    },
    path,
  );
}

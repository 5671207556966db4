import { bad, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ProjectedGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import type { GridReader } from "./grid-reader.ts";
import { degreesAt, mapHeadIn, poleIn, stepMetresAt } from "./map-head.ts";
import { projectedGridFrom } from "./projected-grid.ts";

/** Grid template 3.30, Lambert conformal (Manual on Codes I.2, FM 92 GRIB, template 3.30). */
export const lambertConformalReader: GridReader = { template: 30, read: readLambert };

async function readLambert(octets: Octets, path: string): Promise<Parsed<ProjectedGrid>> {
  const head = mapHeadIn(octets, 81, 65, path);
  if (!head.ok) return head;
  if (poleIn(octets, 64) === null) return bad(issue(path, "grid-not-read", "The map is made about both poles."));
  if (isOblique(octets)) return bad(issue(path, "grid-not-read", "The Lambert map's cone stands on a turned pole."));
  const { earth, ...points } = head.value;
  return projectedGridFrom(
    {
      ...points,
      template: 30,
      projection: {
        kind: "lambertConformal",
        standardLatitude1Deg: degreesAt(octets, 66),
        standardLatitude2Deg: degreesAt(octets, 70),
        // Steps hold at LaD, which is one of the parallels or lies between them; they are taken for metres on the map (common practice).
        originLatitudeDeg: degreesAt(octets, 48),
        originLongitudeDeg: degreesAt(octets, 52),
        earth,
        falseEastingMetres: 0,
        falseNorthingMetres: 0,
      },
      last: null,
      stepX: stepMetresAt(octets, 56),
      stepY: stepMetresAt(octets, 60),
    },
    path,
  );
}

/** The southern pole of projection stands at a pole, at nought, or nowhere, for an upright cone (common practice). */
function isOblique(octets: Octets): boolean {
  const latitude = octets.u32OrMissing(74);
  if (latitude === null || latitude === 0) return false;
  return Math.abs(degreesAt(octets, 74)) !== 90;
}

import { bad, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ProjectedGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import type { GridReader } from "./grid-reader.ts";
import { degreesAt, mapHeadIn, poleIn, stepMetresAt } from "./map-head.ts";
import { projectedGridFrom } from "./projected-grid.ts";

/** Grid template 3.20, polar stereographic (Manual on Codes I.2, FM 92 GRIB, template 3.20). */
export const polarStereographicReader: GridReader = { template: 20, read: readPolarStereographic };

async function readPolarStereographic(octets: Octets, path: string): Promise<Parsed<ProjectedGrid>> {
  const head = mapHeadIn(octets, 65, 65, path);
  if (!head.ok) return head;
  const pole = poleIn(octets, 64);
  if (pole === null) return bad(issue(path, "grid-not-read", "The map is made about both poles."));
  const { earth, ...points } = head.value;
  // Files of the southern pole give its parallel with and without the sign (common practice).
  const parallelDeg = Math.abs(degreesAt(octets, 48));
  return projectedGridFrom(
    {
      ...points,
      template: 20,
      projection: {
        kind: "polarStereographic",
        pole,
        trueScaleLatitudeDeg: pole === "north" ? parallelDeg : -parallelDeg,
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

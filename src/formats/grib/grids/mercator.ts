import { bad, issue, type Parsed } from "../../../core/answers/index.ts";
import type { ProjectedGrid } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import type { GridReader } from "./grid-reader.ts";
import { degreesAt, mapHeadIn, stepMetresAt } from "./map-head.ts";
import { projectedGridFrom } from "./projected-grid.ts";

/** Grid template 3.10, Mercator (Manual on Codes I.2, FM 92 GRIB, template 3.10). */
export const mercatorReader: GridReader = { template: 10, read: readMercator };

async function readMercator(octets: Octets, path: string): Promise<Parsed<ProjectedGrid>> {
  const head = mapHeadIn(octets, 72, 60, path);
  if (!head.ok) return head;
  const orientationDeg = degreesAt(octets, 61);
  if (orientationDeg !== 0) return bad(issue(path, "grid-not-read", `The Mercator map is turned by ${orientationDeg} degrees.`));
  const { earth, ...points } = head.value;
  return projectedGridFrom(
    {
      ...points,
      template: 10,
      projection: {
        kind: "mercator",
        trueScaleLatitudeDeg: degreesAt(octets, 48),
        originLongitudeDeg: 0,
        earth,
        falseEastingMetres: 0,
        falseNorthingMetres: 0,
      },
      last: { latitudeDeg: degreesAt(octets, 52), longitudeDeg: degreesAt(octets, 56) },
      stepX: stepMetresAt(octets, 65),
      stepY: stepMetresAt(octets, 69),
    },
    path,
  );
}

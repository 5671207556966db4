import { bad, issue, type Parsed } from "../../../core/answers/index.ts";
import type { MapProjection } from "../../projection/index.ts";
import type { GribScan, ProjectedGrid } from "../grib-field.ts";
import { projectedGridFrom } from "../grids/projected-grid.ts";
import type { Octets } from "../octets.ts";
import { alongGrid, cornersIn, degreesAt, earthIn } from "./grid-head.ts";
import { ibmFloat, u24 } from "./numbers.ts";

type Grid = Promise<Parsed<ProjectedGrid>>;

const SOUTH_POLE = 0x80;
const BOTH_POLES = 0x40;
/** Where lengths on edition 1's polar stereographic maps are true. */
const POLAR_TRUE_SCALE_DEG = 60;

/** Type 10, latitude and longitude about a turned pole. */
export function rotatedGrid(octets: Octets, scan: GribScan, path: string): Grid {
  const corners = cornersIn(octets, scan);
  return projectedGridFrom(
    {
      template: 1,
      projection: {
        kind: "rotatedPole",
        southPoleLatitudeDeg: degreesAt(octets, 33),
        southPoleLongitudeDeg: degreesAt(octets, 36),
        rotationDeg: ibmFloat(octets, 39),
      },
      firstLatitudeDeg: corners.firstLatitudeDeg,
      firstLongitudeDeg: degreesAt(octets, 14),
      last: { latitudeDeg: corners.lastLatitudeDeg, longitudeDeg: degreesAt(octets, 21) },
      stepX: corners.longitudeStepDeg,
      stepY: corners.latitudeStepDeg,
      componentsAlongGrid: corners.componentsAlongGrid,
      scan,
    },
    path,
  );
}

/** Type 1, Mercator. */
export function mercatorGrid(octets: Octets, scan: GribScan, path: string): Grid {
  const projection: MapProjection = {
    kind: "mercator",
    trueScaleLatitudeDeg: degreesAt(octets, 24),
    originLongitudeDeg: 0,
    earth: earthIn(octets),
    falseEastingMetres: 0,
    falseNorthingMetres: 0,
  };
  const last = { latitudeDeg: degreesAt(octets, 18), longitudeDeg: degreesAt(octets, 21) };
  return mapGrid(octets, 10, projection, last, [29, 32], scan, path);
}

/** Type 3, Lambert conformal. */
export function lambertGrid(octets: Octets, scan: GribScan, path: string): Grid {
  if ((octets.u8(27) & BOTH_POLES) !== 0) return Promise.resolve(aboutBothPoles(path));
  const standardLatitude1Deg = degreesAt(octets, 29);
  const projection: MapProjection = {
    kind: "lambertConformal",
    standardLatitude1Deg,
    standardLatitude2Deg: degreesAt(octets, 32),
    // Edition 1 gives no origin; where y begins doesn't matter, for it is counted from the first point.
    originLatitudeDeg: standardLatitude1Deg,
    originLongitudeDeg: degreesAt(octets, 18),
    earth: earthIn(octets),
    falseEastingMetres: 0,
    falseNorthingMetres: 0,
  };
  return mapGrid(octets, 30, projection, null, [21, 24], scan, path);
}

/** Type 5, polar stereographic. */
export function polarStereographicGrid(octets: Octets, scan: GribScan, path: string): Grid {
  if ((octets.u8(27) & BOTH_POLES) !== 0) return Promise.resolve(aboutBothPoles(path));
  const isSouth = (octets.u8(27) & SOUTH_POLE) !== 0;
  const projection: MapProjection = {
    kind: "polarStereographic",
    pole: isSouth ? "south" : "north",
    trueScaleLatitudeDeg: isSouth ? -POLAR_TRUE_SCALE_DEG : POLAR_TRUE_SCALE_DEG,
    originLongitudeDeg: degreesAt(octets, 18),
    earth: earthIn(octets),
    falseEastingMetres: 0,
    falseNorthingMetres: 0,
  };
  return mapGrid(octets, 20, projection, null, [21, 24], scan, path);
}

function aboutBothPoles(path: string): Parsed<never> {
  return bad(issue(path, "grid-not-read", "The map is made about both poles."));
}

/** A grid in metres on a map. Its steps are given whether or not the flag says so (common practice). */
function mapGrid(
  octets: Octets,
  template: number,
  projection: MapProjection,
  last: { readonly latitudeDeg: number; readonly longitudeDeg: number } | null,
  [stepXOctet, stepYOctet]: readonly [number, number],
  scan: GribScan,
  path: string,
): Grid {
  return projectedGridFrom(
    {
      template,
      projection,
      firstLatitudeDeg: degreesAt(octets, 11),
      firstLongitudeDeg: degreesAt(octets, 14),
      last,
      stepX: u24(octets, stepXOctet) || null,
      stepY: u24(octets, stepYOctet) || null,
      componentsAlongGrid: alongGrid(octets),
      scan,
    },
    path,
  );
}

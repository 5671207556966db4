import { coneConstant } from "./conformal.ts";
import type { EarthFigure, MapProjection } from "./map-projection.ts";

/** A radius beyond these is no earth of any table (common practice; they lie between 6,356 and 6,379 km). */
const EARTH_METRES = { least: 6.3e6, most: 6.4e6 };
/** Nearer to its pole a parallel is a point, and a map can't be true along it (common practice). */
const MOST_PARALLEL_DEG = 89.9;
/** A flatter cone is a cylinder to the last millimetre, and its formulas break (common practice). */
const LEAST_CONE_CONSTANT = 1e-4;

/** What can't be true of a projection, in words for a reader of files; null for one that maps the earth. */
export function faultOfProjection(projection: MapProjection): string | null {
  if (projection.kind === "rotatedPole") {
    return (
      beyond("turned pole's latitude", projection.southPoleLatitudeDeg, 90) ??
      beyond("turned pole's longitude", projection.southPoleLongitudeDeg, 360) ??
      beyond("turn about the pole", projection.rotationDeg, 360)
    );
  }
  const common =
    faultOfEarth(projection.earth) ??
    beyond("map's origin longitude", projection.originLongitudeDeg, 360) ??
    beyond("map's false easting", projection.falseEastingMetres, 1e9) ??
    beyond("map's false northing", projection.falseNorthingMetres, 1e9);
  if (common !== null) return common;
  if (projection.kind === "mercator") return beyond("latitude of true scale", projection.trueScaleLatitudeDeg, MOST_PARALLEL_DEG);
  if (projection.kind === "polarStereographic") return faultOfPolar(projection);
  return faultOfLambert(projection);
}

/** The projection itself; throws, quoting it, where it can't be. */
export function checkedProjection(projection: MapProjection): MapProjection {
  const fault = faultOfProjection(projection);
  if (fault !== null) throw new Error(`${fault} ${JSON.stringify(projection)}`);
  return projection;
}

function faultOfPolar({ pole, trueScaleLatitudeDeg }: Extract<MapProjection, { kind: "polarStereographic" }>): string | null {
  const ownSideDeg = pole === "north" ? trueScaleLatitudeDeg : -trueScaleLatitudeDeg;
  if (ownSideDeg >= 0 && ownSideDeg <= 90) return null;
  return `A map of the ${pole} pole can't be true at latitude ${trueScaleLatitudeDeg}.`;
}

function faultOfLambert(projection: Extract<MapProjection, { kind: "lambertConformal" }>): string | null {
  const { standardLatitude1Deg, standardLatitude2Deg, originLatitudeDeg } = projection;
  const range =
    beyond("standard parallel", standardLatitude1Deg, MOST_PARALLEL_DEG) ??
    beyond("standard parallel", standardLatitude2Deg, MOST_PARALLEL_DEG) ??
    beyond("map's origin latitude", originLatitudeDeg, 90);
  if (range !== null) return range;
  const cone = coneConstant(projection);
  if (!(Math.abs(cone) >= LEAST_CONE_CONSTANT)) {
    return `The standard parallels ${standardLatitude1Deg} and ${standardLatitude2Deg} make no cone.`;
  }
  if (originLatitudeDeg * Math.sign(cone) === -90) return "The map's origin lies at the pole that a Lambert map can't show.";
  return null;
}

function faultOfEarth({ semiMajorMetres, semiMinorMetres }: EarthFigure): string | null {
  for (const metres of [semiMajorMetres, semiMinorMetres]) {
    if (!(metres >= EARTH_METRES.least && metres <= EARTH_METRES.most)) return `The earth's radius is given as ${metres} metres.`;
  }
  return semiMinorMetres > semiMajorMetres ? `The earth is longer (${semiMinorMetres} metres) than wide (${semiMajorMetres}).` : null;
}

function beyond(name: string, value: number, most: number): string | null {
  if (Math.abs(value) <= most) return null;
  return Number.isNaN(value) ? `The ${name} is given as what is no number.` : `The ${name} is given as ${value}.`;
}

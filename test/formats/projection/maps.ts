import type { EarthFigure, MapProjection } from "../../../src/formats/projection/index.ts";

export const SPHERE: EarthFigure = { semiMajorMetres: 6_371_229, semiMinorMetres: 6_371_229 };
export const WGS84: EarthFigure = { semiMajorMetres: 6_378_137, semiMinorMetres: 6_378_137 * (1 - 1 / 298.257223563) };

const NOWHERE = { falseEastingMetres: 0, falseNorthingMetres: 0 };

export const lambert = (
  parallelsDeg: readonly [number, number],
  originLongitudeDeg: number,
  earth: EarthFigure = SPHERE,
  offset = NOWHERE,
): MapProjection => ({
  kind: "lambertConformal",
  standardLatitude1Deg: parallelsDeg[0],
  standardLatitude2Deg: parallelsDeg[1],
  originLatitudeDeg: (parallelsDeg[0] + parallelsDeg[1]) / 2,
  originLongitudeDeg,
  earth,
  ...offset,
});

export const polar = (
  pole: "north" | "south",
  originLongitudeDeg: number,
  trueScaleLatitudeDeg: number,
  earth: EarthFigure = SPHERE,
  offset = NOWHERE,
): MapProjection => ({ kind: "polarStereographic", pole, trueScaleLatitudeDeg, originLongitudeDeg, earth, ...offset });

export const mercator = (
  originLongitudeDeg: number,
  trueScaleLatitudeDeg: number,
  earth: EarthFigure = SPHERE,
  offset = NOWHERE,
): MapProjection => ({ kind: "mercator", trueScaleLatitudeDeg, originLongitudeDeg, earth, ...offset });

export const turned = (southPoleLatitudeDeg: number, southPoleLongitudeDeg: number, rotationDeg = 0): MapProjection => ({
  kind: "rotatedPole",
  southPoleLatitudeDeg,
  southPoleLongitudeDeg,
  rotationDeg,
});

/** One of every sort and both hemispheres, on spheres and ellipsoids, with origins near 180 too. */
export const MAPS: readonly (readonly [string, MapProjection])[] = [
  ["Lambert, two parallels", lambert([33, 45], -96)],
  ["Lambert, one parallel, ellipsoid", lambert([63, 63], 15, WGS84, { falseEastingMetres: 1.5e6, falseNorthingMetres: -4e5 })],
  ["Lambert, southern", lambert([-30, -50], 178)],
  ["Lambert, southern, ellipsoid", lambert([-41, -41], 174, WGS84)],
  ["Lambert, a flat cone over the equator", lambert([0, 12], -60)],
  ["polar, north", polar("north", 20, 60)],
  ["polar, north, ellipsoid", polar("north", -45, 70, WGS84, { falseEastingMetres: 2e6, falseNorthingMetres: 1e6 })],
  ["polar, south", polar("south", 100, -60)],
  ["polar, south, ellipsoid, true at the pole", polar("south", 0, -90, WGS84)],
  ["Mercator", mercator(0, 20)],
  ["Mercator, ellipsoid, near 180", mercator(170, -35, WGS84, { falseEastingMetres: 3e5, falseNorthingMetres: 7e5 })],
  ["turned pole", turned(-39.25, 18)],
  ["turned pole, on the southern side", turned(25, -170)],
  ["turned pole, with a turn about it", turned(-60, 30, 40)],
];

import { expect, test } from "vitest";
import { faultOfProjection, type MapProjection, projectorOf } from "../../../src/formats/projection/index.ts";
import { lambert, MAPS, mercator, polar, turned } from "./maps.ts";

const sphere = (metres: number) => ({ semiMajorMetres: metres, semiMinorMetres: metres });

const FAULTY: readonly (readonly [string, MapProjection, RegExp])[] = [
  ["no radius", lambert([40, 40], 0, sphere(0)), /radius is given as 0/],
  ["a radius that is no number", polar("north", 0, 60, sphere(Number.NaN)), /radius is given as NaN/],
  ["a radius in kilometres", mercator(0, 0, sphere(6371)), /radius is given as 6371/],
  ["longer than wide", mercator(0, 0, { semiMajorMetres: 6_356_752, semiMinorMetres: 6_378_137 }), /longer/],
  ["parallels opposite", lambert([30, -30], 0), /make no cone/],
  ["both parallels on the equator", lambert([0, 0], 0), /make no cone/],
  ["a parallel at the pole", lambert([90, 90], 0), /standard parallel is given as 90/],
  ["a parallel beyond it", lambert([40, 91], 0), /standard parallel is given as 91/],
  ["a parallel that is no number", lambert([Number.NaN, 40], 0), /standard parallel is given as what is no number/],
  ["an origin at the other pole", { ...lambert([40, 50], 0), originLatitudeDeg: -90 } as MapProjection, /can't show/],
  ["an origin beyond all longitudes", lambert([40, 50], 361), /origin longitude is given as 361/],
  ["true in the other hemisphere", polar("north", 0, -60), /north pole can't be true at latitude -60/],
  ["true beyond the pole", polar("south", 0, -91), /south pole can't be true at latitude -91/],
  ["a Mercator map true at the pole", mercator(0, 90), /true scale is given as 90/],
  ["a turned pole beyond the pole", turned(-95, 0), /latitude is given as -95/],
  ["a turn that is no number", turned(-40, 0, Number.NaN), /turn about the pole is given as what is no number/],
  [
    "a false easting without end",
    mercator(0, 0, sphere(6_371_000), { falseEastingMetres: Number.POSITIVE_INFINITY, falseNorthingMetres: 0 }),
    /easting/,
  ],
];

test.each(FAULTY)("%s is a fault in words, and no projector is made of it", async (_, projection, words) => {
  expect(faultOfProjection(projection)).toMatch(words);
  await expect(projectorOf(projection)).rejects.toThrow(words);
});

test("what maps the earth has no fault", () => {
  for (const [name, projection] of MAPS) expect([name, faultOfProjection(projection)]).toEqual([name, null]);
});

import { describe, expect, test } from "vitest";
import type { Grib2Grid } from "../../../src/formats/grib/index.ts";
import { axesOf } from "../../../src/formats/grib/index.ts";
import { codesOf, latLonGridOf, oneField, patched, signed4, written } from "./sample-message.ts";

const strip = (westDeg: number, columns: number, longitudeStepDeg: number): Grib2Grid => ({
  rows: 2,
  columns,
  southDeg: 40,
  westDeg,
  latitudeStepDeg: 1,
  longitudeStepDeg,
});

async function longitudesOf(grid: Grib2Grid, iNegative = false): Promise<readonly number[]> {
  return [...axesOf(latLonGridOf(await oneField(written({ grid, scan: { iNegative } })))).longitudesDeg];
}

describe("the latitude and longitude grid", () => {
  for (const iNegative of [false, true]) {
    test(`longitudes ascend and pass Greenwich and 180 unwrapped${iNegative ? ", scanned from the east" : ""}`, async () => {
      expect(await longitudesOf(strip(-2, 5, 1), iNegative)).toEqual([-2, -1, 0, 1, 2]);
      expect(await longitudesOf(strip(358, 5, 1), iNegative)).toEqual([-2, -1, 0, 1, 2]);
      expect(await longitudesOf(strip(178, 5, 1), iNegative)).toEqual([178, 179, 180, 181, 182]);
      expect(await longitudesOf(strip(180, 3, 1), iNegative)).toEqual([-180, -179, -178]);
    });
  }

  test("a grid round the Earth says so, from 0 or from -180; one with its first column repeated does not", async () => {
    for (const [westDeg, columns, round] of [
      [0, 36, true],
      [-180, 36, true],
      [0, 37, false],
      [0, 35, false],
    ] as const) {
      const grid = latLonGridOf(await oneField(written({ grid: strip(westDeg, columns, 10) })));
      expect(grid.roundTheEarth).toBe(round);
      expect(grid.longitudeStepDeg).toBe(10);
      expect(axesOf(grid).longitudesDeg.at(-1)).toBe(westDeg + (columns - 1) * 10);
    }
  });

  test("longitudes as -180 to 180 in sign and magnitude are the same as 0 to 360", async () => {
    const message = written({ grid: strip(358, 5, 1) });
    const west = patched(message, 3, 51, ...signed4(-2_000_000));
    expect((await oneField(west)).grid).toEqual((await oneField(message)).grid);
  });

  test("steps that are left out come from the corners", async () => {
    const message = written();
    const { grid } = await oneField(message);
    const unsaid = patched(patched(message, 3, 64, 255, 255, 255, 255, 255, 255, 255, 255), 3, 55, 0);
    expect((await oneField(unsaid)).grid).toEqual(grid);
    // Left out by their value alone, by their flag alone.
    expect((await oneField(patched(message, 3, 64, 255, 255, 255, 255))).grid).toEqual(grid);
    expect((await oneField(patched(patched(message, 3, 64, 0, 0, 0, 99), 3, 55, 0x10))).grid).toEqual(grid);
  });

  test("angles in thirds of a degree: basic angle 1, subdivisions 3 (template 3.0, note 1)", async () => {
    const message = written({ grid: strip(10, 4, 1) });
    const thirds = [
      39,
      ...signed4(1),
      ...signed4(3),
      ...signed4(120),
      ...signed4(30),
      0x30,
      ...signed4(121),
      ...signed4(33),
      ...signed4(1),
      ...signed4(1),
    ];
    const [octet, ...octets] = thirds;
    const northward = patched(patched(message, 3, octet!, ...octets), 3, 72, 0x40);
    const axes = axesOf(latLonGridOf(await oneField(northward)));
    expect([...axes.latitudesDeg]).toEqual([40, 40 + 1 / 3]);
    expect([...axes.longitudesDeg].map((deg) => deg.toFixed(9))).toEqual([10, 10 + 1 / 3, 10 + 2 / 3, 11].map((deg) => deg.toFixed(9)));
  });

  test("one row and one column are a grid", async () => {
    const { grid } = await oneField(
      written({ grid: { rows: 1, columns: 1, southDeg: 5, westDeg: -71.25, latitudeStepDeg: 1, longitudeStepDeg: 1 } }),
    );
    expect(grid).toMatchObject({ southDeg: 5, westDeg: -71.25, latitudeStepDeg: 0, longitudeStepDeg: 0, roundTheEarth: false });
  });

  test("components along the grid are told", async () => {
    expect((await oneField(written())).grid.componentsAlongGrid).toBe(false);
    expect((await oneField(patched(written(), 3, 55, 0x38))).grid.componentsAlongGrid).toBe(true);
  });

  test("a grid that contradicts itself is refused", async () => {
    const lies: readonly (readonly [string, number, readonly number[]])[] = [
      ["latitude beyond the pole", 47, signed4(91_000_000)],
      ["last latitude on the wrong side for its scan", 56, signed4(-20_000_000)],
      ["longitude beyond a turn", 51, signed4(361_000_000)],
      ["step along a parallel that doesn't reach", 64, signed4(300_000)],
      ["step along a meridian that doesn't reach", 68, signed4(700_000)],
      ["number of points", 7, signed4(21)],
      ["no columns", 31, signed4(0)],
      ["more rows than values", 35, signed4(5)],
    ];
    for (const [what, octet, octets] of lies)
      expect([what, ...(await codesOf(patched(written(), 3, octet, ...octets)))]).toEqual([what, "file-lies"]);
  });

  test("grids that aren't read are told as such", async () => {
    const unread: readonly (readonly [string, number, readonly number[]])[] = [
      ["Gaussian", 13, [0, 40]],
      ["rows of different lengths, by a list", 11, [2, 1]],
      ["rows of different lengths, by a missing count", 31, [255, 255, 255, 255]],
      ["rows shifted by half a step", 72, [0x08]],
      ["grid not in the file", 6, [1]],
    ];
    for (const [what, octet, octets] of unread) {
      expect([what, ...(await codesOf(patched(written(), 3, octet, ...octets)))]).toEqual([what, "grid-not-read"]);
    }
  });
});

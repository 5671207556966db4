import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { projectedGridFrom } from "../../../src/formats/grib/grids/projected-grid.ts";
import { nodesOf, type ProjectedGrid } from "../../../src/formats/grib/index.ts";
import {
  earthOfAxes,
  earthOfRadius,
  earthOfShape,
  type LambertSection,
  lambertSection,
  type MercatorSection,
  mercatorSection,
  messageOn,
  type PolarSection,
  polarSection,
  type RotatedSection,
  rotatedSection,
} from "./grid-sections.ts";
import { codesOf, itemsOf, oneField, patched, signed4 } from "./sample-message.ts";

const earth = earthOfShape(6);
const common = { ni: 5, nj: 4, scanOctet: 0x40, earth, stepXMetres: 50_000, stepYMetres: 40_000 };

const lambert = (changes: Partial<LambertSection> = {}): Uint8Array =>
  messageOn(
    lambertSection({
      ...common,
      firstLatitudeDeg: 40,
      firstLongitudeDeg: 352,
      originLongitudeDeg: 5,
      originLatitudeDeg: 45,
      parallelsDeg: [40, 55],
      ...changes,
    }),
  );
const polar = (changes: Partial<PolarSection> = {}): Uint8Array =>
  messageOn(
    polarSection({
      ...common,
      firstLatitudeDeg: 60,
      firstLongitudeDeg: 352,
      originLongitudeDeg: 20,
      trueScaleLatitudeDeg: 60,
      centreOctet: 0,
      ...changes,
    }),
  );
// Four steps of 100 km along the equator of this sphere are 3.5972 degrees.
const mercator = (changes: Partial<MercatorSection> = {}): Uint8Array =>
  messageOn(
    mercatorSection({
      ...common,
      stepXMetres: 100_000,
      stepYMetres: 100_000,
      firstLatitudeDeg: 0,
      firstLongitudeDeg: 358,
      lastLatitudeDeg: 2.6969,
      lastLongitudeDeg: 1.5972,
      trueScaleLatitudeDeg: 0,
      ...changes,
    }),
  );
const rotated = (changes: Partial<RotatedSection> = {}): Uint8Array =>
  messageOn(
    rotatedSection({
      ni: 5,
      nj: 4,
      scanOctet: 0x40,
      firstLatitudeDeg: -1,
      firstLongitudeDeg: 358,
      lastLatitudeDeg: 2,
      lastLongitudeDeg: 2,
      stepXDeg: 1,
      stepYDeg: 1,
      southPoleLatitudeDeg: -40,
      southPoleLongitudeDeg: 10,
      ...changes,
    }),
  );

async function gridOf(message: Uint8Array): Promise<ProjectedGrid> {
  const { grid } = await oneField(message);
  if (grid.kind !== "projected") throw new Error(grid.kind);
  return grid;
}

describe("grids on maps", () => {
  test("a Lambert grid says its map, its corner and its steps", async () => {
    expect(await gridOf(lambert())).toMatchObject({
      template: 30,
      rows: 4,
      columns: 5,
      stepX: 50_000,
      stepY: 40_000,
      componentsAlongGrid: true,
      projection: {
        kind: "lambertConformal",
        standardLatitude1Deg: 40,
        standardLatitude2Deg: 55,
        originLatitudeDeg: 45,
        originLongitudeDeg: 5,
        earth: { semiMajorMetres: 6_371_229, semiMinorMetres: 6_371_229 },
      },
    });
  });

  test("the first point is the corner that the scanning mode begins at", async () => {
    for (const [octet, right, up] of [
      [0x40, 0, 0],
      [0x00, 0, 3],
      [0xc0, 4, 0],
      [0x80, 4, 3],
    ] as const) {
      for (const message of [lambert({ scanOctet: octet }), polar({ scanOctet: octet })]) {
        const nodes = await nodesOf(await gridOf(message));
        const at = up * 5 + right;
        expect(nodes.latitudesDeg[at]).toBeCloseTo(message.length === lambert().length ? 40 : 60, 8);
        expect(nodes.longitudesDeg[at]).toBeCloseTo(-8, 8);
      }
    }
  });

  test("flags say whether winds run along the grid", async () => {
    for (const make of [lambert, polar, mercator, rotated]) {
      expect((await gridOf(make({ resolutionOctet: 0x38 }))).componentsAlongGrid).toBe(true);
      expect((await gridOf(make({ resolutionOctet: 0x30 }))).componentsAlongGrid).toBe(false);
    }
  });

  test("a southern pole's parallel with and without its sign is the same", async () => {
    const south = { centreOctet: 0x80, firstLatitudeDeg: -60 };
    const signed = await gridOf(polar({ ...south, trueScaleLatitudeDeg: -60 }));
    expect(await gridOf(polar({ ...south, trueScaleLatitudeDeg: 60 }))).toEqual(signed);
    expect(signed.projection).toMatchObject({ pole: "south", trueScaleLatitudeDeg: -60 });
  });

  test("a Mercator grid without steps takes them from its last point; round the whole earth too", async () => {
    const grid = await gridOf(mercator({ stepXMetres: 0, stepYMetres: 0 }));
    expect(grid.stepX).toBeCloseTo(100_000, -2);
    expect(grid.stepY).toBeCloseTo(100_000, -2);
    const turn = 2 * Math.PI * 6_371_229;
    const round = await gridOf(
      mercator({ ni: 37, firstLongitudeDeg: 0, lastLongitudeDeg: 0, stepXMetres: turn / 36, stepYMetres: 100_000 }),
    );
    expect(round.columns * round.stepX).toBeGreaterThan(turn);
  });

  test("one row, one column, one point", async () => {
    expect(await gridOf(lambert({ nj: 1, stepYMetres: 0 }))).toMatchObject({ rows: 1, stepY: 0 });
    expect(await gridOf(polar({ ni: 1, stepXMetres: 0 }))).toMatchObject({ columns: 1, stepX: 0 });
    expect(await gridOf(mercator({ ni: 1, nj: 1, lastLatitudeDeg: 0, lastLongitudeDeg: 358 }))).toMatchObject({ stepX: 0, stepY: 0 });
    expect(await gridOf(rotated({ ni: 1, lastLongitudeDeg: 358 }))).toMatchObject({ columns: 1, leastX: -2 });
  });

  test("shapes of the earth whose numbers the file gives", async () => {
    const earthIn = async (octets: readonly number[]) => {
      const { projection } = await gridOf(lambert({ earth: octets }));
      return projection.kind === "rotatedPole" ? null : projection.earth;
    };
    expect(await earthIn(earthOfRadius(6_371_200))).toEqual({ semiMajorMetres: 6_371_200, semiMinorMetres: 6_371_200 });
    expect(await earthIn(earthOfRadius(6_370_997.5, 1))).toEqual({ semiMajorMetres: 6_370_997.5, semiMinorMetres: 6_370_997.5 });
    expect(await earthIn(earthOfRadius(6_371_000, -3))).toEqual({ semiMajorMetres: 6_371_000, semiMinorMetres: 6_371_000 });
    expect(await earthIn(earthOfAxes(3, 6378.16, 6356.775, 3))).toEqual({ semiMajorMetres: 6_378_160, semiMinorMetres: 6_356_775 });
    expect(await earthIn(earthOfAxes(7, 6_378_137, 6_356_752.3, 1))).toEqual({ semiMajorMetres: 6_378_137, semiMinorMetres: 6_356_752.3 });
  });
});

const short = (message: Uint8Array, octets: number): Uint8Array => {
  // The section's own length, so that what follows still stands where it is looked for.
  const view = new DataView(message.buffer, message.byteOffset);
  const at = 16 + view.getUint32(16);
  const length = view.getUint32(at);
  const cut = Uint8Array.from([...message.slice(0, at + octets), ...message.slice(at + length)]);
  new DataView(cut.buffer).setUint32(at, octets);
  new DataView(cut.buffer).setUint32(12, cut.length);
  return cut;
};

const quietNaN = [0x7f, 0xc0, 0, 0];
const missing = [255, 255, 255, 255];

describe("grids that can't be true", () => {
  test.each<[string, Uint8Array]>([
    ["Lambert: no step along x", lambert({ stepXMetres: 0 })],
    ["Lambert: no step along y", lambert({ stepYMetres: 0 })],
    ["Lambert: a step that is missing", patched(lambert(), 3, 56, ...missing)],
    ["Lambert: a first latitude beyond the pole", lambert({ firstLatitudeDeg: 90.5 })],
    ["Lambert: first point at the pole it can't show", lambert({ firstLatitudeDeg: -90 })],
    ["Lambert: a first longitude beyond a turn", lambert({ firstLongitudeDeg: 361 })],
    ["Lambert: parallels equal and opposite", lambert({ parallelsDeg: [30, -30] })],
    ["Lambert: both parallels on the equator", lambert({ parallelsDeg: [0, 0] })],
    ["Lambert: a parallel at the pole", lambert({ parallelsDeg: [90, 90] })],
    ["Lambert: a parallel beyond it", lambert({ parallelsDeg: [40, 130] })],
    ["Lambert: its origin beyond the pole", lambert({ originLatitudeDeg: 95 })],
    ["Lambert: an earth of radius 0", lambert({ earth: earthOfRadius(0) })],
    ["Lambert: an earth in kilometres", lambert({ earth: earthOfRadius(6371) })],
    ["Lambert: an earth a hundred powers too small", lambert({ earth: earthOfRadius(6371, 0).with(1, 100) })],
    ["Lambert: an earth whose radius is left out", lambert({ earth: earthOfShape(1) })],
    ["Lambert: axes left out", lambert({ earth: earthOfShape(7) })],
    ["Lambert: an earth longer than wide", lambert({ earth: earthOfAxes(7, 6_356_752, 6_378_137, 0) })],
    ["Lambert: a section cut short", short(lambert(), 80)],
    ["polar: no steps", polar({ stepXMetres: 0, stepYMetres: 0 })],
    ["polar: true beyond the pole", polar({ trueScaleLatitudeDeg: 91 })],
    ["polar: first point at the other pole", polar({ firstLatitudeDeg: -90 })],
    ["polar: an orientation beyond a turn", polar({ originLongitudeDeg: 400 })],
    ["polar: a section cut short", short(polar(), 64)],
    ["Mercator: first point at the pole", mercator({ firstLatitudeDeg: -90 })],
    ["Mercator: last point at the pole", mercator({ lastLatitudeDeg: 90 })],
    ["Mercator: true at the pole", mercator({ trueScaleLatitudeDeg: 90 })],
    ["Mercator: steps that don't reach its last point north", mercator({ lastLatitudeDeg: 4 })],
    ["Mercator: steps that don't reach its last point east", mercator({ lastLongitudeDeg: 3 })],
    ["Mercator: a last point against its scanning mode", mercator({ lastLatitudeDeg: -2.6969 })],
    ["Mercator: more points than once round the earth takes", mercator({ ni: 405, lastLongitudeDeg: 1.26 })],
    ["Mercator: a section cut short", short(mercator(), 71)],
    ["turned: a pole beyond the pole", rotated({ southPoleLatitudeDeg: -91 })],
    ["turned: a turn that is no number", patched(rotated(), 3, 81, ...quietNaN)],
    ["turned: a turn without end", patched(rotated(), 3, 81, 0x7f, 0x80, 0, 0)],
    ["turned: a latitude beyond the pole", rotated({ firstLatitudeDeg: 88, lastLatitudeDeg: 91 })],
    ["turned: steps that don't reach its last point", rotated({ lastLatitudeDeg: 5 })],
    ["turned: against its scanning mode", rotated({ scanOctet: 0 })],
    ["turned: a section cut short", short(rotated(), 83)],
    ["no columns", patched(lambert(), 3, 31, ...signed4(0))],
    ["more rows than values", patched(polar(), 3, 35, ...signed4(5))],
  ])("%s", async (_, message) => {
    expect(await codesOf(message)).toEqual(["file-lies"]);
  });

  test.each<[string, Uint8Array]>([
    ["a shape of the earth that isn't known", lambert({ earth: earthOfShape(99) })],
    ["Lambert about both poles", lambert({ centreOctet: 0x40 })],
    ["Lambert on a turned pole", lambert({ southernPole: [-30, 10] })],
    ["polar about both poles", polar({ centreOctet: 0x40 })],
    ["a turned Mercator map", mercator({ orientationDeg: 30 })],
    ["rows shifted by half a step", lambert({ scanOctet: 0x48 })],
    ["columns uncounted", patched(mercator(), 3, 31, ...missing)],
  ])("%s is not read, and said so", async (_, message) => {
    expect(await codesOf(message)).toEqual(["grid-not-read"]);
  });

  test("a steps' flag left unset is no bar to a map; the southern pole of an upright cone stands anywhere upright", async () => {
    for (const southernPole of [
      [-90, 0],
      [90, 0],
      [0, 0],
    ] as const) {
      expect((await gridOf(lambert({ resolutionOctet: 0, southernPole }))).stepX).toBe(50_000);
    }
    expect((await gridOf(mercator({ resolutionOctet: 0 }))).stepX).toBe(100_000);
  });

  test("a Mercator grid that tells no last point goes once round the earth and no farther", async () => {
    const grid = async (ni: number) =>
      projectedGridFrom(
        {
          template: 10,
          projection: {
            kind: "mercator",
            trueScaleLatitudeDeg: 0,
            originLongitudeDeg: 0,
            earth: { semiMajorMetres: 6_371_229, semiMinorMetres: 6_371_229 },
            falseEastingMetres: 0,
            falseNorthingMetres: 0,
          },
          firstLatitudeDeg: 0,
          firstLongitudeDeg: 0,
          last: null,
          stepX: 100_000,
          stepY: 100_000,
          componentsAlongGrid: false,
          scan: { ni, nj: 2, iNegative: false, jPositive: true, jConsecutive: false, alternating: false },
        },
        "here",
      );
    expect((await grid(401)).ok).toBe(true);
    expect(await grid(405)).toMatchObject({
      ok: false,
      issues: [{ code: "file-lies", message: expect.stringContaining("round the earth") }],
    });
  });

  test("any octets in section 3: a grid whose nodes have places, or what is wrong with it, never a throw", async () => {
    const messages = [lambert(), polar(), mercator(), rotated()];
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...messages),
        fc.array(fc.tuple(fc.integer({ min: 15, max: 65 }), fc.constantFrom(0, 1, 0x7f, 0x80, 0xff, 0x40, 0x5a)), {
          minLength: 1,
          maxLength: 6,
        }),
        async (message, changes) => {
          const changed = changes.reduce((bytes, [octet, value]) => patched(bytes, 3, octet, value), message);
          const [item] = await itemsOf(changed);
          if (item?.kind !== "field" || item.grid.kind !== "projected") return;
          const { leastX, leastY, stepX, stepY } = item.grid;
          expect([leastX, leastY, stepX, stepY].every(Number.isFinite)).toBe(true);
          const { latitudesDeg, longitudesDeg, gridNorthDegTrue } = await nodesOf(item.grid);
          for (const values of [latitudesDeg, longitudesDeg, gridNorthDegTrue]) expect(values.every(Number.isFinite)).toBe(true);
          expect(latitudesDeg.every((latitude) => Math.abs(latitude) <= 90)).toBe(true);
        },
      ),
      { numRuns: 600 },
    );
  });
});

/** Section 2 of edition 1: grids of latitudes and longitudes and on maps (Manual on Codes I.2, FM 92 GRIB edition 1, section 2). */
import { describe, expect, test } from "vitest";
import { nodesOf, type ProjectedGrid } from "../../../../src/formats/grib/index.ts";
import { codesOf, decoded, itemsOf, oneField } from "../sample-message.ts";
import {
  edition1Message,
  IBM,
  type LatLonSample,
  lambertSection,
  latLonSection,
  mercatorSection,
  polarSection,
  rotatedSection,
  s24,
} from "./sample-edition1.ts";

const gridOf = async (grid: Uint8Array) => (await oneField(edition1Message({ grid }))).grid;
const refusalsOf = (grid: Uint8Array | null) => codesOf(edition1Message({ grid }));

async function mapOf(grid: Uint8Array): Promise<ProjectedGrid> {
  const read = await gridOf(grid);
  if (read.kind !== "projected") throw new Error(read.kind);
  return read;
}

describe("latitudes and longitudes", () => {
  test("the sample's places, and the message's order of values", async () => {
    const bytes = edition1Message({ grid: latLonSection({ scan: 0, first: [-31, 12.5], last: [-32.5, 13.5] }) });
    const field = await oneField(bytes);
    expect(field.grid).toMatchObject({
      kind: "latLon",
      template: 0,
      rows: 4,
      columns: 5,
      southDeg: -32.5,
      westDeg: 12.5,
      latitudeStepDeg: 0.5,
      longitudeStepDeg: 0.25,
      roundTheEarth: false,
      componentsAlongGrid: false,
    });
    expect([...(await decoded(bytes, field)).values]).toEqual([15, 16, 17, 18, 19, 10, 11, 12, 13, 14, 5, 6, 7, 8, 9, 0, 1, 2, 3, 4]);
  });

  test("steps that are nought, missing or not said to be given don't matter", async () => {
    const given = await gridOf(latLonSection());
    for (const changes of [{ steps: [0, 0] }, { steps: [65_535, 65_535] }, { steps: [1, 1], flags: 0 }] as readonly LatLonSample[]) {
      expect(await gridOf(latLonSection(changes))).toEqual(given);
    }
  });

  test("steps rounded to thousandths may lead astray: the corners hold; steps that contradict them are a lie", async () => {
    const sixteenths = { ni: 20, nj: 1, first: [40, 0], last: [40, 19 / 16], steps: [63, 0] } as const;
    expect(await gridOf(latLonSection(sixteenths))).toMatchObject({ longitudeStepDeg: 1.188 / 19 });
    expect(await refusalsOf(latLonSection({ ...sixteenths, steps: [70, 0] }))).toEqual(["file-lies"]);
    expect(await refusalsOf(latLonSection({ steps: [250, 300] }))).toEqual(["file-lies"]);
  });

  test("whole turns, either way of counting longitudes", async () => {
    const first = [0, 0] as const;
    for (const [ni, last, round] of [
      [4, [3, 270], true],
      [4, [3, -90], true],
      [5, [3, 360], false],
      [4, [3, 240], false],
    ] as const) {
      const nj = 4;
      const numbers = Array.from({ length: ni * nj }, (_, i) => i);
      const grid = latLonSection({ ni, nj, first, last, steps: [65_535, 1000], flags: 0 });
      const field = await oneField(edition1Message({ grid, numbers }));
      expect([last, field.grid.kind === "latLon" && field.grid.roundTheEarth]).toEqual([last, round]);
    }
  });

  test("lists of vertical coordinates are passed over; lists of rows' lengths aren't", async () => {
    const list = [0, 0, 0, 0, ...IBM.one, ...IBM.one];
    expect(await gridOf(latLonSection({ coordinates: 2, listOctet: 33, more: list }))).toEqual(await gridOf(latLonSection()));
    const lengths = [0, 0, 0, 0, 0, 5, 0, 5, 0, 5, 0, 5];
    expect(await refusalsOf(latLonSection({ coordinates: 0, listOctet: 33, more: lengths }))).toEqual(["grid-not-read"]);
    expect(await refusalsOf(latLonSection({ ni: 65_535 }))).toEqual(["grid-not-read"]);
    expect(await refusalsOf(latLonSection({ nj: 65_535 }))).toEqual(["grid-not-read"]);
  });

  test("no points, places off the earth, an order against the scanning mode, an unknown scanning mode", async () => {
    expect(await refusalsOf(latLonSection({ ni: 0 }))).toEqual(["file-lies"]);
    expect(await refusalsOf(latLonSection({ first: [-91, 0] }))).toEqual(["file-lies"]);
    expect(await refusalsOf(latLonSection({ last: [-31, 400] }))).toEqual(["file-lies"]);
    expect(await refusalsOf(latLonSection({ scan: 0 }))).toEqual(["file-lies"]);
    for (const scan of [0x50, 0x48, 0x41]) expect(await refusalsOf(latLonSection({ scan }))).toEqual(["grid-not-read"]);
  });
});

describe("grids that aren't read", () => {
  test("by name, with what they would have been", async () => {
    for (const [type, name] of [
      [2, /gnomonic/],
      [4, /Gaussian/],
      [14, /rotated Gaussian/],
      [20, /stretched/],
      [50, /spherical harmonics/],
      [90, /space/],
      [201, /type 201/],
    ] as const) {
      const [item] = await itemsOf(edition1Message({ grid: latLonSection({ type }) }));
      expect(item).toMatchObject({
        kind: "oddity",
        issue: { code: "grid-not-read", message: expect.stringMatching(name) },
        product: { discipline: 0, category: 2, number: 2, edition1: { tableVersion: 2, parameter: 33 } },
      });
    }
  });

  test("without section 2: the centre's own grid, by its number", async () => {
    const [item] = await itemsOf(edition1Message({ grid: null }));
    expect(item).toMatchObject({ kind: "oddity", issue: { code: "grid-not-read", message: expect.stringMatching(/number 255/) } });
  });

  test("a section too short for its kind", async () => {
    expect(await refusalsOf(latLonSection({ type: 10 }))).toEqual(["file-lies"]);
    expect(await refusalsOf(latLonSection({ type: 1 }))).toEqual(["file-lies"]);
    expect(await refusalsOf(latLonSection({ type: 3 }))).toEqual(["file-lies"]);
  });
});

describe("grids on maps", () => {
  test("a turned pole: its degrees, its pole and its turn", async () => {
    expect(await mapOf(rotatedSection({ angle: [0x41, 0xa0, 0, 0], flags: 0x88 }))).toMatchObject({
      template: 1,
      projection: { kind: "rotatedPole", southPoleLatitudeDeg: -30, southPoleLongitudeDeg: -170, rotationDeg: 10 },
      leastX: 12.5,
      leastY: -32.5,
      stepX: 0.25,
      stepY: 0.5,
      componentsAlongGrid: true,
    });
  });

  test("polar stereographic on the sphere of 6367.47 km, true at 60: Snyder's equations, on both sides of the earth", async () => {
    // Snyder, Map Projections: A Working Manual (USGS 1395), equations 21-5 to 21-11 and 21-33 with k0 = (1 + sin 60) / 2.
    const radians = Math.PI / 180;
    const rho = 2 * 6_367_470 * ((1 + Math.sin(60 * radians)) / 2) * Math.tan(Math.PI / 4 - (60 * radians) / 2);
    const x = rho * Math.sin(-5 * radians);
    const y = rho * Math.cos(-5 * radians);
    for (const [south, leastY, pole] of [
      [false, -y, "north"],
      [true, y, "south"],
    ] as const) {
      const grid = await mapOf(polarSection({ south }));
      expect(grid.projection).toMatchObject({
        kind: "polarStereographic",
        pole,
        originLongitudeDeg: -15,
        trueScaleLatitudeDeg: south ? -60 : 60,
      });
      expect(grid.leastX).toBeCloseTo(x, 5);
      expect(grid.leastY).toBeCloseTo(leastY, 5);
      expect([grid.template, grid.stepX, grid.stepY]).toEqual([20, 50_000, 50_000]);
    }
  });

  test("from whichever corner a map's grid is scanned, its nodes are the same", async () => {
    for (const section of [polarSection, lambertSection]) {
      const upward = section();
      const nodes = await nodesOf(await mapOf(upward));
      for (const scan of [0x00, 0x80, 0xc0]) {
        const corner = (scan & 0x40 ? 0 : 15) + (scan & 0x80 ? 4 : 0);
        const from = section({ scan });
        const [latitude, longitude] = [nodes.latitudesDeg[corner]!, nodes.longitudesDeg[corner]!];
        from.set([...s24(Math.round(latitude * 1000)), ...s24(Math.round(longitude * 1000))], 10);
        const again = await nodesOf(await mapOf(from));
        // The corner is rounded to a thousandth of a degree, and the whole grid is shifted by it.
        for (let at = 0; at < 20; at++) {
          expect(Math.abs(again.latitudesDeg[at]! - nodes.latitudesDeg[at]!)).toBeLessThan(0.0006);
          expect(Math.abs(again.longitudesDeg[at]! - nodes.longitudesDeg[at]!)).toBeLessThan(0.0012);
        }
      }
    }
  });

  test("the earth's figure by its flag, Lambert's two parallels, Mercator's one", async () => {
    expect((await mapOf(lambertSection({ flags: 0xc8 }))).projection).toMatchObject({
      kind: "lambertConformal",
      standardLatitude1Deg: 45,
      standardLatitude2Deg: 55,
      originLongitudeDeg: -5,
      earth: { semiMajorMetres: 6_378_160, semiMinorMetres: 6_356_775 },
    });
    const mercator = await mapOf(mercatorSection());
    expect(mercator).toMatchObject({
      template: 10,
      projection: { kind: "mercator", trueScaleLatitudeDeg: 20, earth: { semiMajorMetres: 6_367_470, semiMinorMetres: 6_367_470 } },
      stepX: 20_000,
      stepY: 20_000,
    });
  });

  test("maps about both poles, and points no distance apart", async () => {
    for (const section of [polarSection(), lambertSection()]) {
      const both = section.slice();
      both[26] = 0x40;
      expect(await refusalsOf(both)).toEqual(["grid-not-read"]);
      const nowhere = section.slice();
      nowhere.fill(0, 20, 26);
      expect(await refusalsOf(nowhere)).toEqual(["file-lies"]);
    }
  });
});

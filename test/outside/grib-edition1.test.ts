/**
 * GRIB edition 1 against the reference library: ecCodes (its command-line tools, Debian package libeccodes-tools; made with 2.28.0),
 * value by value, place by place and key by key: what it writes, its own samples, what our tests' writer makes, and real files of ECMWF
 * and MET Norway (their source and licence stand in DATA.md of the data folder).
 */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { decodeGribField, type GribField, nodesOf } from "../../src/formats/grib/index.ts";
import {
  type Edition1Sample,
  edition1Message,
  IBM,
  lambertSection,
  latLonSection,
  mercatorSection,
  polarSection,
  rotatedSection,
  secondOrderSection,
} from "../formats/grib/edition1/sample-edition1.ts";
import { codesOf, decoded, fieldsOf, HOUR, holes, itemsOf, joined, oneField, SCANS, written } from "../formats/grib/sample-message.ts";
import { type EccodesPoint, haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: checks of GRIB edition 1 against real files; ATHWART_REAL_DATA names no folder.");
const EDITION1_SCANS = SCANS.filter(({ scan }) => !scan.alternating);

const bytesOf = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

/** Every field of the file, value by value where ecCodes has it. */
async function expectAllAsEccodes(path: string, placeToleranceDeg?: number): Promise<readonly GribField[]> {
  const bytes = bytesOf(path);
  const fields = await fieldsOf(bytes);
  const points = pointsByEccodes(path);
  expect(fields.length).toBe(points.length);
  for (const [i, field] of fields.entries()) expectSameAsEccodes(field, await decoded(bytes, field), points[i]!, placeToleranceDeg);
  return fields;
}

async function made(workIn: string, name: string, samples: readonly Edition1Sample[]): Promise<string> {
  const path = join(workIn, `${name}.grib1`);
  writeFileSync(path, joined(...samples.map(edition1Message)));
  return path;
}

describe.skipIf(!haveEccodes)("GRIB edition 1 as ecCodes writes and reads it", () => {
  test("turned from edition 2: every scanning mode, with and without a bitmap, is the same value at every place", () =>
    inFolder(async (workIn) => {
      const messages = EDITION1_SCANS.flatMap(({ scan }) => [null, holes(20)].map((missing) => written({ centre: 98, scan, missing })));
      const path = rewrittenByEccodes(workIn, joined(...messages), "scans", "edition=1", false);
      expect(keysByEccodes(path, ["edition", "bitmapPresent"])).toEqual(messages.map((_, i) => ["1", String(i % 2)]));
      for (const [i, field] of (await expectAllAsEccodes(path)).entries()) {
        const { scan } = EDITION1_SCANS[i >> 1]!;
        expect(field).toMatchObject({ editionNumber: 1, packing: { template: null }, grid: { template: 0, scan }, hasBitmap: i % 2 === 1 });
      }
    }));

  test("packed by ecCodes with few and many bits a value, with and without a bitmap; and a constant", () =>
    inFolder(async (workIn) => {
      const values = Float64Array.from({ length: 20 }, (_, i) => Math.sin(i * 1.7) * 25);
      const messages = [null, holes(20)].map((missing) => written({ centre: 98, values, missing, decimalScale: 4 }));
      for (const bits of [1, 2, 7, 8, 9, 15, 16, 17, 24, 25, 26, 31, 32]) {
        const settings = `edition=1,decimalScaleFactor=0,bitsPerValue=${bits}`;
        const fields = await expectAllAsEccodes(rewrittenByEccodes(workIn, joined(...messages), `bits-${bits}`, settings));
        expect(fields.map(({ packing }) => packing.section[12])).toEqual([bits, bits]);
      }
      const constants = [null, holes(20)].map((missing) =>
        written({ centre: 98, values: new Float64Array(20).fill(-325), missing, decimalScale: 0 }),
      );
      const path = rewrittenByEccodes(workIn, joined(...constants), "constants", "edition=1");
      expect(keysByEccodes(path, ["bitsPerValue"])).toEqual([["0"], ["0"]]);
      await expectAllAsEccodes(path);
    }));

  test("1 to 32 bits a value and decimal scales from -3 to 4, with and without a bitmap, as ecCodes reads them", () =>
    inFolder(async (workIn) => {
      const samples = Array.from({ length: 32 }, (_, i) => {
        const bits = i + 1;
        const present = bits % 3 === 0 ? Array.from({ length: 20 }, (_, k) => (k % 4 === 2 ? 0 : 1)) : null;
        const numbers = Array.from({ length: present === null ? 20 : 15 }, (_, k) => Math.floor(((k * 37 + bits) % 41) * (2 ** bits / 41)));
        return { bits, numbers, present, decimalScale: (bits % 8) - 3, binaryScale: 5 - bits, reference: IBM.minus118625 };
      });
      await expectAllAsEccodes(await made(workIn, "bits", samples));
    }));

  test("second-order packing as ecCodes writes it, of every order, either way through the rows, with and without a bitmap", () =>
    inFolder(async (workIn) => {
      const grid = { rows: 23, columns: 31, southDeg: 40, westDeg: -12, latitudeStepDeg: 0.5, longitudeStepDeg: 0.5 };
      const count = grid.rows * grid.columns;
      const values = Float64Array.from({ length: count }, (_, i) => Math.sin(i / 40) * 12 + Math.cos((i % 31) / 3) * 3 - (i % 7) * 0.01);
      const scans = [{}, { jPositive: true }, { jConsecutive: true, iNegative: true }];
      const messages = scans.flatMap((scan) =>
        [null, holes(count)].map((missing) => written({ centre: 98, grid, values, missing, scan, decimalScale: 3 })),
      );
      const simple = rewrittenByEccodes(workIn, joined(...messages), "simple", "edition=1,bitsPerValue=16");
      const before = pointsByEccodes(simple);
      const kinds = ["boustrophedonic", "no_boustrophedonic", "no_SPD", "SPD1", "SPD2", "SPD3"];
      const seen = new Set<string>();
      for (const kind of kinds) {
        const path = rewrittenByEccodes(workIn, bytesOf(simple), kind, `packingType=grid_second_order_${kind}`);
        const keys = keysByEccodes(path, ["orderOfSPD", "boustrophedonicOrdering", "bitmapPresent"]);
        const after = pointsByEccodes(path);
        const bytes = bytesOf(path);
        const fields = await fieldsOf(bytes);
        expect(fields.length).toBe(messages.length);
        for (const [i, field] of fields.entries()) {
          const [order, turned, hasBitmap] = keys[i]!;
          seen.add(`${order}${turned}`);
          expect(field.packing.name).toBe("edition 1 second-order");
          const read = await decoded(bytes, field);
          // Packing whole numbers of 16 bits anew loses nothing.
          expectSameAsEccodes(field, read, before[i]!);
          // The tool takes the bitmap of turned rows as if they weren't turned: there the values before they were packed anew must do.
          if (turned === "0" || hasBitmap === "0") expectSameAsEccodes(field, read, after[i]!);
        }
      }
      expect([...seen].sort()).toEqual(["00", "10", "20", "21", "30"]);
    }));

  test("the international forms of second-order packing (rows, marked groups, one width or many) as ecCodes reads them", () =>
    inFolder(async (workIn) => {
      const present = Array.from({ length: 20 }, (_, i) => (i % 3 === 1 ? 0 : 1));
      const samples = [null, present].flatMap((bitmap) =>
        (["rowByRow", "general", "constantWidth"] as const).map((form) => ({
          present: bitmap,
          decimalScale: 1,
          section4: secondOrderSection(form, bitmap),
        })),
      );
      const path = await made(workIn, "international", samples);
      const types = ["row_by_row", "general_grib1", "constant_width"].map((form) => [`grid_second_order_${form}`]);
      expect(keysByEccodes(path, ["packingType"])).toEqual([...types, ...types]);
      await expectAllAsEccodes(path);
    }));

  test("grids over Greenwich and over 180, round the Earth, of twelfths of a degree, without steps, of one row and one column", () =>
    inFolder(async (workIn) => {
      const numbers = Array.from({ length: 20 }, (_, i) => i);
      const grids = [
        { first: [-1, -2], last: [0.5, 2], steps: [1000, 500] },
        { first: [-1, 358], last: [0.5, 2], steps: [1000, 500] },
        { first: [50, 178], last: [51.5, -178], steps: [1000, 500] },
        { first: [50, 178], last: [51.5, 182], steps: [1000, 500] },
        { first: [-90, 0], last: [90, 288], steps: [65_535, 65_535], flags: 0 },
        { first: [-32.5, 12.5], last: [-31, 13.5], steps: [65_535, 65_535], flags: 0 },
      ] as const;
      const oneRow = { ni: 20, nj: 1, first: [12, -61], last: [12, -51.5], steps: [500, 0] } as const;
      const oneColumn = { ni: 1, nj: 20, first: [12, -61], last: [21.5, -61], steps: [0, 500] } as const;
      const path = await made(
        workIn,
        "grids",
        [...grids, oneRow, oneColumn].map((grid) => ({ numbers, grid: latLonSection(grid) })),
      );
      await expectAllAsEccodes(path);
      const twelfths = { rows: 7, columns: 13, southDeg: 12, westDeg: -61, latitudeStepDeg: 1 / 12, longitudeStepDeg: 1 / 12 };
      const inTwelfths = rewrittenByEccodes(workIn, written({ centre: 98, grid: twelfths }), "twelfths", "edition=1", false);
      // Steps are written as 83 thousandths. The corners stay right; ecCodes adds up the steps and so drifts by a third of one each time.
      await expectAllAsEccodes(inTwelfths, (12 * (1000 / 12 - 83)) / 1000 + 2e-6);
    }));

  // ecCodes 2.28 takes the first point of a map's grid for its lowest, whatever the scanning mode, and the southern map to be true at
  // 60 N: those are held against Snyder's equations in the tests beside the program's parts.
  test("a turned pole, Mercator, Lambert and polar stereographic, on both figures of the earth: every node within a metre of ecCodes'", () =>
    inFolder(async (workIn) => {
      const grids = [rotatedSection(), mercatorSection(), polarSection(), lambertSection(), lambertSection({ flags: 0xc8 })];
      const path = await made(
        workIn,
        "projected",
        grids.map((grid) => ({ grid })),
      );
      const bytes = bytesOf(path);
      const points = pointsByEccodes(path);
      const fields = await fieldsOf(bytes);
      expect(fields.map(({ grid }) => (grid.kind === "projected" ? grid.projection.kind : grid.kind))).toEqual([
        "rotatedPole",
        "mercator",
        "polarStereographic",
        "lambertConformal",
        "lambertConformal",
      ]);
      expect(fields.map(({ grid }) => grid.componentsAlongGrid)).toEqual([false, false, false, false, true]);
      for (const [i, field] of fields.entries()) await expectNodesAsEccodes(bytes, field, points[i]!);
    }));

  test("ecCodes' own samples: what is read, with its places; what isn't, by name", () =>
    inFolder(async () => {
      const samples = execFileSync("codes_info", ["-s"], { encoding: "utf8" }).trim();
      for (const name of ["GRIB1", "regular_ll_sfc_grib1", "regular_ll_pl_grib1", "clusters_grib1"]) {
        const path = join(samples, `${name}.tmpl`);
        const items = await itemsOf(bytesOf(path));
        expect([name, items.length]).toEqual([name, 1]);
        if (name !== "clusters_grib1") await expectAllAsEccodes(path);
      }
      for (const name of ["rotated_ll_sfc_grib1", "rotated_ll_pl_grib1"]) {
        const path = join(samples, `${name}.tmpl`);
        await expectNodesAsEccodes(bytesOf(path), await oneField(bytesOf(path)), pointsByEccodes(path)[0]!);
      }
      // These say that their points are 0 metres apart.
      for (const name of ["polar_stereographic_sfc_grib1", "polar_stereographic_pl_grib1"]) {
        expect([name, await codesOf(bytesOf(join(samples, `${name}.tmpl`)))]).toEqual([name, ["file-lies"]]);
      }
      const unread = ["regular_gg_sfc_grib1", "reduced_gg_pl_32_grib1", "reduced_ll_sfc_grib1", "sh_sfc_grib1", "rotated_gg_sfc_grib1"];
      for (const name of unread) expect([name, await codesOf(bytesOf(join(samples, `${name}.tmpl`)))]).toEqual([name, ["grid-not-read"]]);
    }));

  test("times in every unit and range: ecCodes' dates, and its ends of the interval", () =>
    inFolder(async (workIn) => {
      const times: readonly (readonly [number, number, number, number])[] = [
        [1, 0, 0, 0],
        [1, 6, 0, 0],
        [0, 120, 0, 0],
        [2, 3, 0, 0],
        [10, 5, 0, 0],
        [11, 4, 0, 0],
        [12, 3, 0, 0],
        [13, 8, 0, 0],
        [14, 6, 0, 0],
        [1, 0, 0, 1],
        [1, 1, 44, 10],
        [1, 6, 12, 2],
        [1, 0, 24, 3],
        [1, 0, 6, 4],
        [1, 3, 6, 5],
      ];
      const dates = [
        [26, 5, 1, 6, 0, 21],
        [100, 12, 31, 18, 30, 20],
        [99, 2, 28, 23, 45, 20],
      ] as const;
      const samples = dates.flatMap((date) => times.map((time) => ({ centre: 98, date, time })));
      const path = await made(workIn, "times", samples);
      const theirs = keysByEccodes(path, ["dataDate", "dataTime", "startStep", "endStep"]);
      const fields = await fieldsOf(bytesOf(path));
      expect(fields.length).toBe(samples.length);
      for (const [i, { referenceAt, validFrom, validAt }] of fields.entries()) {
        const iso = new Date(referenceAt * 1000).toISOString();
        const ours = [
          iso.slice(0, 10).replaceAll("-", ""),
          String(Number(iso.slice(11, 13) + iso.slice(14, 16))),
          String((validFrom - referenceAt) / HOUR),
          String((validAt - referenceAt) / HOUR),
        ];
        expect([i, ...ours]).toEqual([i, ...theirs[i]!]);
      }
    }));

  test("parameters turned to edition 2 by ecCodes have the numbers that we give them", () =>
    inFolder(async (workIn) => {
      const international = [1, 7, 11, 20, 31, 32, 33, 34, 39, 49, 50, 51, 52, 71];
      const ofTable: readonly (readonly [table: number, parameters: readonly number[]])[] = [
        [1, international],
        [2, international],
        [3, international],
        [128, [34, 59, 129, 130, 131, 132, 133, 134, 135, 138, 155, 156, 157, 165, 166, 167, 168, 172, 207]],
        [140, [221, 229, 230, 231, 232, 234, 236]],
        [151, [131, 132]],
        [228, [1, 29, 246, 247]],
      ];
      const samples = ofTable.flatMap(([tableVersion, parameters]) =>
        parameters.map((parameter) => {
          const level = tableVersion === 151 ? ([160, 0, 0] as const) : ([1, 0, 0] as const);
          return { centre: 98, tableVersion, parameter, level };
        }),
      );
      const path = await made(workIn, "parameters", samples);
      const fields = await fieldsOf(bytesOf(path));
      const turned = rewrittenByEccodes(workIn, bytesOf(path), "turned", "edition=2", false);
      const keys = ["discipline", "parameterCategory", "parameterNumber", "typeOfFirstFixedSurface:i", "level"];
      const theirs = keysByEccodes(turned, keys);
      expect(theirs.length).toBe(samples.length);
      for (const [i, { discipline, category, number, level }] of fields.entries()) {
        const { tableVersion, parameter } = samples[i]!;
        const ours = [discipline, category, number, level.type, level.value ?? 0].map(String);
        expect([tableVersion, parameter, ...ours]).toEqual([tableVersion, parameter, ...theirs[i]!]);
      }
    }));

  test("members of ECMWF's and NCEP's ensembles: ecCodes' numbers", () =>
    inFolder(async (workIn) => {
      const ecmwf = (definition: number, type: number, number: number, length: number): readonly number[] => {
        const octets = [definition, 1, type, 4, 11, 0x30, 0x30, 0x30, 0x31, number, 51];
        return [...octets, ...new Array<number>(length - 40 - octets.length).fill(0)];
      };
      const samples = [
        { centre: 98, local: ecmwf(1, 10, 0, 52) },
        { centre: 98, local: ecmwf(1, 11, 50, 52) },
        { centre: 98, local: ecmwf(30, 11, 7, 106) },
        { centre: 88, subCentre: 98, tableVersion: 1, local: ecmwf(1, 11, 21, 52) },
      ];
      const path = await made(workIn, "members", samples);
      const keys = ["perturbationNumber", "numberOfForecastsInEnsemble"];
      expect((await fieldsOf(bytesOf(path))).map(({ member, ensemble }) => [member, ensemble!.forecastsInEnsemble].map(String))).toEqual(
        keysByEccodes(path, keys),
      );
      const ncep = await made(
        workIn,
        "ncep",
        [1, 2, 3].map((type) => ({ centre: 7, local: [1, type, 2, 1, 0] })),
      );
      expect((await fieldsOf(bytesOf(ncep))).map(({ ensemble }) => ensemble!.kindCode)).toEqual([1, 2, 3]);
      expect(keysByEccodes(ncep, ["type", "identificationNumber"])).toEqual([
        ["1", "2"],
        ["2", "2"],
        ["3", "2"],
      ]);
    }));

  test("a message over 8 MB, whose length doesn't go into its three octets: ecCodes' length, the values of edition 2, and what follows", () =>
    inFolder(async (workIn) => {
      const grid = { rows: 1100, columns: 1910, southDeg: -55, westDeg: -95, latitudeStepDeg: 0.1, longitudeStepDeg: 0.1 };
      const values = Float64Array.from({ length: grid.rows * grid.columns }, (_, i) => (i * 7919) % 4_294_967_291);
      const before = written({ centre: 98, grid, values, decimalScale: 0 });
      const path = rewrittenByEccodes(workIn, before, "large", "edition=1", false);
      const [length] = keysByEccodes(path, ["totalLength"])[0]!;
      const large = bytesOf(path);
      expect([large[4]! >= 0x80, large.length, Number(length)]).toEqual([true, large.length, large.length]);
      expect(large.length).toBeGreaterThan(2 ** 23);
      const bytes = joined(large, edition1Message());
      const [field, next] = await fieldsOf(bytes);
      expect(next?.place).toMatchObject({ messageNumber: 2, messageOffsetBytes: large.length });
      const read = await decoded(bytes, field!);
      expect(read.values.length).toBe(values.length);
      expect(read.values.findIndex((value, i) => value !== values[i])).toBe(-1);
      expect(await codesOf(large.subarray(0, large.length - 1))).toEqual(["file-truncated"]);
    }));
});

/** Every node of a projected grid within a metre of ecCodes' place for it, and the values the same. */
async function expectNodesAsEccodes(bytes: Uint8Array, field: GribField, points: readonly EccodesPoint[]): Promise<void> {
  const { grid } = field;
  if (grid.kind !== "projected") throw new Error(`not a projected grid: ${grid.kind}`);
  const read = await decodeGribField(bytesFromMemory(bytes), field);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const nodes = await nodesOf(grid);
  expect(points.length).toBe(grid.rows * grid.columns);
  const { ni, nj, iNegative, jPositive } = grid.scan;
  let worstMetres = 0;
  let worstValue = 0;
  for (const [k, { latitudeDeg, longitudeDeg, value }] of points.entries()) {
    const [i, j] = [k % ni, Math.floor(k / ni)];
    const at = (jPositive ? j : nj - 1 - j) * ni + (iNegative ? ni - 1 - i : i);
    const metresADegree = 111_200;
    const east = ((((nodes.longitudesDeg[at]! - longitudeDeg + 180) % 360) + 360) % 360) - 180;
    const off = Math.hypot(nodes.latitudesDeg[at]! - latitudeDeg, east * Math.cos((latitudeDeg * Math.PI) / 180));
    worstMetres = Math.max(worstMetres, off * metresADegree);
    worstValue = Math.max(worstValue, Math.abs(read.value.values[at]! - (value ?? Number.NaN)));
  }
  expect(worstMetres).toBeLessThan(1);
  expect(worstValue).toBeLessThan(1e-9);
}

describe.skipIf(folder === "")("real files of edition 1", () => {
  const real = (name: string): string => join(folder, name);
  const STORM = "wind/ecmwf_ens51_gust_storm_20131025.grib1";
  const WAM = "waves/metno_wam4_n-northsea_20191106_73h.grib1";

  for (const file of [STORM, WAM]) {
    test.skipIf(!haveEccodes)(`${file}: every value of every field where ecCodes has it`, async () => {
      const fields = await expectAllAsEccodes(real(file));
      expect((await itemsOf(bytesOf(real(file)))).length).toBe(fields.length);
    });
  }

  test("ECMWF's storm of 28 October 2013: 51 members, three intervals of the greatest gust and a height", async () => {
    const bytes = bytesOf(real(STORM));
    const fields = await fieldsOf(bytes);
    expect(fields.length).toBe(204);
    const runAt = Date.UTC(2013, 9, 25) / 1000;
    expect(new Set(fields.map(({ referenceAt }) => referenceAt))).toEqual(new Set([runAt]));
    const gusts = fields.filter(({ number }) => number === 22);
    expect(gusts.length).toBe(153);
    for (const { discipline, category, level, statistic, validAt, validFrom, productTemplate, edition1 } of gusts) {
      expect([discipline, category, level, statistic, validAt - validFrom, productTemplate, edition1]).toEqual([
        0,
        2,
        { type: 103, value: 10 },
        { process: "maximum", processCode: 2 },
        3 * HOUR,
        11,
        { tableVersion: 228, parameter: 28 },
      ]);
    }
    const intervals = [72, 78, 84];
    for (const hours of intervals) {
      const members = gusts.filter(({ validAt }) => validAt === runAt + hours * HOUR).map(({ member }) => member);
      expect(members.sort((a, b) => a - b)).toEqual(Array.from({ length: 51 }, (_, i) => i));
    }
    expect(new Set(gusts.map(({ ensemble }) => `${ensemble?.kindCode} of ${ensemble?.forecastsInEnsemble}`))).toEqual(
      new Set(["1 of 51", "3 of 51"]),
    );
    const heights = fields.filter(({ number }) => number !== 22);
    expect(
      new Set(heights.map(({ discipline, category, number, level }) => JSON.stringify([discipline, category, number, level]))),
    ).toEqual(new Set([JSON.stringify([0, 3, 4, { type: 100, value: 85_000 }])]));
    let greatest = 0;
    for (const field of gusts) for (const value of (await decoded(bytes, field)).values) greatest = Math.max(greatest, value);
    expect(greatest.toFixed(1)).toBe("48.6");
  });

  test("MET Norway's waves in the northern North Sea: 73 hours of height and direction", async () => {
    const bytes = bytesOf(real(WAM));
    const fields = await fieldsOf(bytes);
    const runAt = Date.UTC(2019, 10, 6, 18) / 1000;
    expect(fields.length).toBe(146);
    for (const number of [3, 10]) {
      const series = fields.filter((field) => field.number === number);
      expect(series.map(({ validAt }) => (validAt - runAt) / HOUR)).toEqual(Array.from({ length: 73 }, (_, i) => i));
      for (const { discipline, category, level, statistic, grid } of series) {
        expect([discipline, category, level, statistic]).toEqual([10, 0, { type: 1, value: null }, null]);
        expect(grid).toMatchObject({ rows: 15, columns: 33, southDeg: 58.5, westDeg: -2, latitudeStepDeg: 0.25, longitudeStepDeg: 0.25 });
      }
    }
    for (const field of fields) {
      const { values, missing } = await decoded(bytes, field);
      const [least, most] = field.number === 3 ? [0, 15] : [0, 360];
      expect(values.every((value, i) => missing[i] === 1 || (value >= least && value <= most))).toBe(true);
    }
  });
});

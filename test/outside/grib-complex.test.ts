/**
 * Complex packing (templates 5.2 and 5.3) against the reference library, ecCodes (its command-line tools, Debian package
 * libeccodes-tools; made with 2.28.0): what it packs, we read as it does; what our tests' own packer packs, it reads as we do. ecCodes
 * of that version packs without differences whatever order it is told, so that the second is the check of differences. And against
 * files as NOAA makes them, with the values that wgrib2 gave for one of them beside it (DATA.md of the data folder).
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { decodeGribField, type GribField } from "../../src/formats/grib/index.ts";
import { type ComplexSettings, complexMessage, type Packable } from "../formats/grib/pack-complex.ts";
import { decoded, fieldsOf, joined, oneField, written } from "../formats/grib/sample-message.ts";
import { haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

const ROWS = 23;
const COLUMNS = 31;
const POINTS = ROWS * COLUMNS;
const grid = { rows: ROWS, columns: COLUMNS, southDeg: 10, westDeg: -20, latitudeStepDeg: 0.5, longitudeStepDeg: 0.5 };

/** A repeatable number from 0 to 1 for each place. */
const noise = (i: number): number => Math.abs(Math.sin(i * 12.9898) * 43758.5453) % 1;
const SHAPES: Readonly<Record<string, (i: number) => number>> = {
  smooth: (i) => 12 * Math.sin((i % COLUMNS) / 9) * Math.cos(i / COLUMNS / 7),
  noisy: (i) => 40 * noise(i) - 20,
  stepped: (i) => (i % COLUMNS < 12 ? 0 : i > 300 ? 7.5 : noise(i)),
  spiked: (i) => (i === 411 ? 950 : noise(i) / 10),
};
const land = Uint8Array.from({ length: POINTS }, (_, i) => (Math.sin((i % COLUMNS) / 4) * Math.cos(i / COLUMNS / 3) > 0.35 ? 1 : 0));

async function valuesOf(bytes: Uint8Array, field: GribField) {
  const read = await decodeGribField(bytesFromMemory(bytes), field);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

describe.skipIf(!haveEccodes)("complex packing as ecCodes has it", () => {
  test("packed by ecCodes with 1 to 23 bits, four shapes, with and without a bitmap: the same values", () =>
    inFolder(async (folder) => {
      const messages = Object.values(SHAPES).flatMap((shape) =>
        [null, land].map((missing) =>
          // With more bits than are asked for below: ecCodes can't go beyond those that it finds.
          written({
            grid,
            missing,
            decimalScale: 6,
            values: Float64Array.from({ length: POINTS }, (_, i) => (missing?.[i] === 1 ? 0 : shape(i))),
          }),
        ),
      );
      for (let bits = 1; bits <= 23; bits++) {
        const packingType = bits % 2 === 0 ? "grid_complex" : "grid_complex_spatial_differencing";
        const path = rewrittenByEccodes(
          folder,
          joined(...messages),
          `bits-${bits}`,
          `packingType=${packingType},decimalScaleFactor=0,bitsPerValue=${bits}`,
        );
        expect(keysByEccodes(path, ["packingType"])).toEqual(messages.map(() => [packingType]));
        const bytes = readFileSync(path);
        const fields = await fieldsOf(bytes);
        expect(fields.map((field) => [field.packing.template, field.hasBitmap])).toEqual(
          messages.map((_, i) => [bits % 2 === 0 ? 2 : 3, i % 2 === 1]),
        );
        const points = pointsByEccodes(path);
        for (const [i, field] of fields.entries()) expectSameAsEccodes(field, await valuesOf(bytes, field), points[i]!);
      }
    }));

  test("both orders of differences, missing values of either kind or none, groups short and long, read by ecCodes: the same values", () =>
    inFolder(async (folder) => {
      const messages: Uint8Array[] = [];
      const scales = [0, 1, 4];
      for (const order of [undefined, 1, 2] as const) {
        for (const missingKinds of [0, 1, 2] as const) {
          for (const [n, shape] of Object.values(SHAPES).entries()) {
            const decimalScale = scales[(n + missingKinds) % 3]!;
            const numbers = Array.from({ length: POINTS }, (_, i): Packable => {
              if (missingKinds > 0 && land[i] === 1) return "primary";
              if (missingKinds > 1 && noise(i + 7) > 0.8) return "secondary";
              return Math.round((shape(i) + 30) * 2 ** (4 + 2 * n));
            });
            const settings: ComplexSettings = {
              missingKinds,
              groupLength: n % 2 === 0 ? (group) => 1 + ((group * 5) % 23) : () => 400,
              spareBits: n % 2,
              reference: -30,
              binaryScale: -4 - 2 * n,
              decimalScale,
              ...(order === undefined ? {} : { order }),
            };
            messages.push(complexMessage(numbers, ROWS, COLUMNS, settings));
          }
        }
      }
      const path = join(folder, "ours.grib2");
      writeFileSync(path, joined(...messages));
      const fields = pointsByEccodes(path);
      expect(fields.length).toBe(36);
      for (const [i, points] of fields.entries()) {
        const field = await oneField(messages[i]!);
        expectSameAsEccodes(field, await decoded(messages[i]!, field), points);
        expect(points.some(({ value }) => value === null)).toBe(Math.floor(i / 4) % 3 > 0);
      }
    }));

  test("what the templates leave open is read as ecCodes reads it: no groups, no bits, first values with their first bit set", () =>
    inFolder(async (folder) => {
      const constant = complexMessage([0, 0, 0, 0, 0, 0], 2, 3, { reference: 7.25, groupLength: () => 6 });
      const octet = (message: Uint8Array, at: number, value: number): Uint8Array => {
        const changed = message.slice();
        // Section 5 begins where its length and number stand: 0 0 0 47 5.
        const section5 = changed.findIndex((_, i) => [0, 0, 0, 47, 5].every((byte, k) => changed[i + k] === byte));
        changed[section5 + at - 1] = value;
        return changed;
      };
      const messages = [
        constant,
        octet(octet(constant, 35, 0), 46, 0),
        octet(octet(octet(constant, 35, 0), 46, 0), 23, 1),
        octet(constant, 23, 1),
        octet(constant, 23, 2),
        complexMessage([200, 201, 203, 202, 255, 240], 2, 3, { order: 1, descriptorOctets: 1 }),
        complexMessage([200, 201, 203, 202, 255, 240], 2, 3, { order: 2, descriptorOctets: 1 }),
      ];
      const path = join(folder, "open.grib2");
      writeFileSync(path, joined(...messages));
      for (const [i, points] of pointsByEccodes(path).entries()) {
        const field = await oneField(messages[i]!);
        expectSameAsEccodes(field, await decoded(messages[i]!, field), points);
        expect([i, points.map(({ value }) => value)]).toEqual([
          i,
          [3, 4].includes(i) ? new Array(6).fill(null) : i < 5 ? new Array(6).fill(7.25) : [200, 201, 203, 202, 255, 240],
        ]);
      }
    }));
});

const real = process.env.ATHWART_REAL_DATA ?? "";
if (real === "") console.warn("SKIPPED: checks of complex packing against real files; ATHWART_REAL_DATA names no folder.");

describe.skipIf(real === "")("complex packing in real files", () => {
  const bytesOf = (name: string): Uint8Array => new Uint8Array(readFileSync(join(real, "wind", name)));

  test("GFS in three packings: simple, complex, complex with second differences, are the same field; and what wgrib2 gave", async () => {
    const all = await Promise.all(
      [0, 2, 3].map(async (template) => {
        const bytes = bytesOf(`gfs_1deg_10m_template5_${template}.grib2`);
        const fields = await fieldsOf(bytes);
        expect(fields.map((field) => field.packing.template)).toEqual([template, template]);
        return Promise.all(fields.map((field) => valuesOf(bytes, field)));
      }),
    );
    for (const [component, csv] of [
      [0, "gfs_1deg_10m_expected_ugrd.csv"],
      [1, "gfs_1deg_10m_expected_vgrd.csv"],
    ] as const) {
      const simple = all[0]![component]!;
      for (const other of all.slice(1)) {
        expect(other[component]!.missing.some((one) => one === 1)).toBe(false);
        expect(other[component]!.values).toEqual(simple.values);
      }
      // Single precision to six figures, from the north.
      const expected = readFileSync(join(real, "wind", csv), "utf8")
        .trim()
        .split("\n")
        .map(Number);
      expect(expected.length).toBe(360 * 181);
      for (const { values } of all.map((packing) => packing[component]!)) {
        const ours = expected.map((_, k) => values[(180 - Math.floor(k / 360)) * 360 + (k % 360)]!);
        expect(ours.filter((value, k) => Number(Math.fround(value).toPrecision(6)) !== expected[k]).length).toBe(0);
      }
    }
  });

  test.skipIf(!haveEccodes)("NAM: every tenth of its 154 messages, every value in the message's order as ecCodes has it", () =>
    inFolder(async (folder) => {
      const whole = bytesOf("nam_awp211_lambert_20180917.grib2");
      const starts = [...new Set((await fieldsOf(whole)).map(({ place }) => place.messageOffsetBytes))];
      expect(starts.length).toBe(154);
      const bytes = joined(...starts.flatMap((start, i) => (i % 10 === 0 ? [whole.subarray(start, starts[i + 1])] : [])));
      const path = join(folder, "nam.grib2");
      writeFileSync(path, bytes);
      const fields = await fieldsOf(bytes);
      const points = pointsByEccodes(path);
      expect(fields.length).toBe(points.length);
      for (const [i, field] of fields.entries()) {
        expect(field.packing.template).toBe(3);
        // Its rows run from the south, each from the west: the message's order is ours.
        const { values } = await valuesOf(bytes, field);
        const worst = points[i]!.reduce(
          (most, { value }, k) => Math.max(most, Math.abs(values[k]! - value!) / Math.max(1, Math.abs(value!))),
          0,
        );
        expect(worst).toBeLessThanOrEqual(1e-12);
      }
    }),
  );

  test.skipIf(!haveEccodes)(
    "NDFD: four and a half million points, most of them missing inside the groups: ecCodes' count, extremes and mean",
    async () => {
      const path = join(real, "waves", "ndfd_waveheight_mercator_20231130_f14.grib2");
      const bytes = new Uint8Array(readFileSync(path));
      const [field] = await fieldsOf(bytes);
      const { values, missing } = await valuesOf(bytes, field!);
      const present = values.filter((_, i) => missing[i] === 0);
      const keys = ["missingValueManagementUsed:i", "numberOfMissing", "min", "max", "average"];
      const [[kinds, ...theirs]] = keysByEccodes(path, keys) as [string[]];
      expect([kinds, values.length]).toEqual(["1", 2517 * 1793]);
      const sum = present.reduce((total, value) => total + value, 0);
      const ours = [values.length - present.length, present.reduce((a, b) => Math.min(a, b)), present.reduce((a, b) => Math.max(a, b))];
      // grib_get prints six figures.
      expect([...ours, sum / present.length].map((one) => Number(one.toPrecision(6)))).toEqual(
        theirs.map((one) => Number(Number(one).toPrecision(6))),
      );
    },
  );
});

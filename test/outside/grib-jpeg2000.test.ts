/** GRIB2 packing 5.40 (JPEG 2000) against ecCodes (2.28.0, with OpenJPEG 2.5.0): what it packs, and real files. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { decodeGribField, type GribField, readGribFields } from "../../src/formats/grib/index.ts";
import { decoded, joined, oneField, written } from "../formats/grib/sample-message.ts";
import { haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

/** A sixth of a degree is told as 166667 millionths; ecCodes adds up the steps, up to 330 of them, where we take the corners. */
const SIXTHS_TOLERANCE_DEG = 330 * 0.34e-6 + 2e-6;

/** A smooth sea with some noise on an invented patch of it. */
function waves(rows: number, columns: number) {
  const values = Float64Array.from({ length: rows * columns }, (_, i) => {
    const [x, y] = [i % columns, Math.floor(i / columns)];
    return 12 * Math.sin(x / 13 + y / 31) * Math.cos(y / 9) + Math.sin(i * i) / 4;
  });
  const grid = { rows, columns, southDeg: -31, westDeg: 12, latitudeStepDeg: 0.001, longitudeStepDeg: 0.001 };
  return { grid, values, decimalScale: 4 };
}

const SHAPES = [
  [20, 30],
  [1, 50],
  [50, 1],
  [33, 65],
  [130, 7],
  [128, 128],
] as const;

describe.skipIf(!haveEccodes)("JPEG 2000 as ecCodes packs it", () => {
  // From 26 bits on what it packs is not what it was given: OpenJPEG's encoder overflows 32 bits.
  for (const hasBitmap of [false, true]) {
    test(`1 to 25 bits a value, several shapes, ${hasBitmap ? "with" : "without"} a bitmap: the same values`, () =>
      inFolder(async (folder) => {
        // One file for all, told by ecCodes in one go.
        const messages: Uint8Array[] = [];
        for (let bits = 1; bits <= 25; bits++) {
          const shapes = bits === 12 ? SHAPES : [SHAPES[bits % SHAPES.length]!];
          for (const [rows, columns] of shapes) {
            const sea = waves(rows, columns);
            const missing = hasBitmap
              ? Uint8Array.from(sea.values, (_, i) => (((i % columns) + Math.floor(i / columns) * 3) % 11 < 3 ? 1 : 0))
              : null;
            // In two steps: ecCodes holds the number of bits against the packing it finds.
            const jpeg = rewrittenByEccodes(folder, written({ ...sea, missing }), "jpeg", "packingType=grid_jpeg,decimalScaleFactor=0");
            messages.push(readFileSync(rewrittenByEccodes(folder, readFileSync(jpeg), "bits", `bitsPerValue=${bits}`)));
          }
        }
        const path = join(folder, "all.grib2");
        writeFileSync(path, joined(...messages));
        const points = pointsByEccodes(path);
        const keys = keysByEccodes(path, ["packingType", "bitsPerValue"]);
        const bitsSeen = new Set<number>();
        for (const [i, message] of messages.entries()) {
          const field = await oneField(message);
          expect([field.packing.template, field.hasBitmap, keys[i]![0]]).toEqual([40, hasBitmap, "grid_jpeg"]);
          expectSameAsEccodes(field, await decoded(message, field), points[i]!);
          bitsSeen.add(Number(keys[i]![1]));
        }
        expect([...bitsSeen]).toEqual(Array.from({ length: 25 }, (_, i) => i + 1));
      }));
  }

  test("a line of more points than 16 bits count, with a bitmap: the same values", () =>
    inFolder(async (folder) => {
      const sea = waves(1, 90_001);
      const missing = Uint8Array.from(sea.values, (_, i) => (i % 9 === 4 ? 1 : 0));
      const path = rewrittenByEccodes(folder, written({ ...sea, missing, decimalScale: 2 }), "line", "packingType=grid_jpeg");
      const bytes = readFileSync(path);
      const field = await oneField(bytes);
      expect([field.packing.template, field.packing.valueCount]).toEqual([40, 80_001]);
      expectSameAsEccodes(field, await decoded(bytes, field), pointsByEccodes(path)[0]!);
    }));

  test("scanning modes and decimal scales", () =>
    inFolder(async (folder) => {
      const sea = waves(17, 23);
      const messages = [
        written({ ...sea, scan: { iNegative: true } }),
        written({ ...sea, scan: { jPositive: true } }),
        written({ ...sea, scan: { iNegative: true, jPositive: true, jConsecutive: true } }),
        ...[-1, 0, 2, 3].map((decimalScale) => written({ ...sea, decimalScale })),
      ];
      for (const [i, message] of messages.entries()) {
        const path = rewrittenByEccodes(folder, message, `one-${i}`, "packingType=grid_jpeg");
        const bytes = readFileSync(path);
        const field = await oneField(bytes);
        expect(field.packing.template).toBe(40);
        expectSameAsEccodes(field, await decoded(bytes, field), pointsByEccodes(path)[0]!);
      }
    }));
});

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: checks of JPEG 2000 in GRIB against real files; ATHWART_REAL_DATA names no folder.");

/**
 * WaveWatch III as NOAA packs it (with bitmaps: the images are one row of all the points at sea, halved five times), and the Strait of Juan de Fuca
 * repacked by ecCodes; DATA.md of the data folder gives each one's source and licence.
 */
const REAL = [
  { file: "waves/gdaswave_wcoast_20211130_f000.grib2", fields: 19, placeToleranceDeg: SIXTHS_TOLERANCE_DEG },
  { file: "waves/gfswave_atlocn_20230823_f001.grib2", fields: 19, placeToleranceDeg: SIXTHS_TOLERANCE_DEG },
  { file: "crossing-juan-de-fuca/derived-grib2/current_jpeg.grib2", fields: 2, placeToleranceDeg: 25 * 17e-6 + 2e-6 },
  { file: "crossing-juan-de-fuca/derived-grib2/wind_jpeg.grib2", fields: 2 },
];

describe.skipIf(folder === "" || !haveEccodes)("JPEG 2000 in real files", () => {
  for (const { file, fields, placeToleranceDeg } of REAL) {
    test(`${file}: every value of all ${fields} fields as ecCodes has it`, async () => {
      const path = join(folder, file);
      const source = bytesFromMemory(readFileSync(path));
      const points = pointsByEccodes(path);
      const items: GribField[] = [];
      for await (const item of readGribFields(source)) {
        if (item.kind !== "field") throw new Error(`${item.issue.path}: ${item.issue.message}`);
        items.push(item);
      }
      expect([items.length, points.length]).toEqual([fields, fields]);
      for (const [i, field] of items.entries()) {
        expect(field.packing.template).toBe(40);
        const read = await decodeGribField(source, field);
        if (!read.ok) throw new Error(JSON.stringify(read.issues));
        expectSameAsEccodes(field, read.value, points[i]!, placeToleranceDeg);
      }
    });
  }
});

/**
 * CCSDS packing against the reference library: ecCodes (its command-line tools, Debian package libeccodes-tools; made with 2.28.0, which
 * codes by libaec 1.0.6), and real files: MFWAM (Météo-France) and the crossing of the Strait of Juan de Fuca packed by ecCodes both
 * simply and by CCSDS; DATA.md of the data folder gives each one's source and licence.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { assembled, decoded, fieldsOf, holes, joined, oneField, sectionsOf, written } from "../formats/grib/sample-message.ts";
import { haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { FIELDS, SHAPES } from "./grib-fields.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

/** Has ecCodes pack messages by CCSDS; their bits can be changed only afterwards. */
const packedByCcsds = (folder: string, name: string, messages: readonly Uint8Array[]): Uint8Array =>
  new Uint8Array(readFileSync(rewrittenByEccodes(folder, joined(...messages), name, "packingType=grid_ccsds")));

const repackedWith = (folder: string, coded: Uint8Array, name: string, settings: string): string =>
  rewrittenByEccodes(folder, coded, name, `decimalScaleFactor=0,${settings}`);

const middling = (values: Float64Array, missing: Uint8Array | null = null): Uint8Array =>
  written({ grid: SHAPES.middling, values, missing, decimalScale: 4 });
const POINTS = SHAPES.middling.rows * SHAPES.middling.columns;

/** Every field of a file of ecCodes' making: as many as there should be, and its values. */
async function expectSame(path: string, count: number): Promise<void> {
  const bytes = readFileSync(path);
  const fields = await fieldsOf(bytes);
  const points = pointsByEccodes(path);
  expect([points.length, fields.length]).toEqual([count, count]);
  for (const [i, field] of fields.entries()) {
    expect(field.packing.name).toBe("CCSDS");
    expectSameAsEccodes(field, await decoded(bytes, field), points[i]!);
  }
}

describe.skipIf(!haveEccodes)("CCSDS packing as ecCodes writes it", () => {
  test("1 to 32 bits a value, smooth, noisy, patchy and stepped, with and without a bitmap: ecCodes' values", () =>
    inFolder(async (folder) => {
      const messages = Object.values(FIELDS).flatMap((values) =>
        [null, holes(POINTS)].map((missing) => middling(values(SHAPES.middling), missing)),
      );
      const coded = packedByCcsds(folder, "coded", messages);
      for (let bits = 1; bits <= 32; bits++) {
        const path = repackedWith(folder, coded, `bits-${bits}`, `bitsPerValue=${bits}`);
        expect(keysByEccodes(path, ["packingType", "bitsPerValue"])).toEqual(messages.map(() => ["grid_ccsds", String(bits)]));
        await expectSame(path, messages.length);
      }
    }));

  test("every shape of grid and kind of field at 12 and 16 bits: ecCodes' values", () =>
    inFolder(async (folder) => {
      const messages = Object.values(SHAPES).flatMap((grid) =>
        Object.values(FIELDS).map((values) => written({ grid, values: values(grid), decimalScale: 4 })),
      );
      const coded = packedByCcsds(folder, "coded", messages);
      for (const bits of [12, 16]) await expectSame(repackedWith(folder, coded, `bits-${bits}`, `bitsPerValue=${bits}`), messages.length);
    }));

  test("blocks of 8, 16, 32 and 64, reference samples after 1 to 4096 of them, with and without prediction: ecCodes' values", () =>
    inFolder(async (folder) => {
      const coded = packedByCcsds(folder, "coded", [middling(FIELDS.patchy(SHAPES.middling)), middling(FIELDS.noisy(SHAPES.middling))]);
      for (const block of [8, 16, 32, 64]) {
        for (const [interval, flags] of [
          [1, 14],
          [5, 14],
          [128, 14],
          [4096, 14],
          [128, 6],
        ] as const) {
          const settings = `bitsPerValue=11,ccsdsFlags=${flags},ccsdsBlockSize=${block},ccsdsRsi=${interval}`;
          const path = repackedWith(folder, coded, `${block}-${interval}-${flags}`, settings);
          const told = [flags, block, interval].map(String);
          expect(keysByEccodes(path, ["ccsdsFlags", "ccsdsBlockSize", "ccsdsRsi"])).toEqual([told, told]);
          await expectSame(path, 2);
        }
      }
    }));

  test("the restricted options at 1 to 4 bits: ecCodes' values", () =>
    inFolder(async (folder) => {
      const coded = packedByCcsds(folder, "coded", [middling(FIELDS.patchy(SHAPES.middling)), middling(FIELDS.noisy(SHAPES.middling))]);
      for (let bits = 1; bits <= 4; bits++) {
        const path = repackedWith(folder, coded, `restricted-${bits}`, `bitsPerValue=${bits},ccsdsFlags=30`);
        expect(keysByEccodes(path, ["ccsdsFlags"])).toEqual([["30"], ["30"]]);
        await expectSame(path, 2);
      }
    }));

  test("samples called signed give what was put in at any number of bits (ecCodes reads its own right only at 8, 16 and 32)", () =>
    inFolder(async (folder) => {
      const coded = packedByCcsds(folder, "coded", [middling(FIELDS.noisy(SHAPES.middling))]);
      for (const bits of [2, 5, 8, 12, 16, 17, 25, 31, 32]) {
        const unsigned = readFileSync(repackedWith(folder, coded, `unsigned-${bits}`, `bitsPerValue=${bits}`));
        const path = repackedWith(folder, coded, `signed-${bits}`, `bitsPerValue=${bits},ccsdsFlags=15`);
        const signed = readFileSync(path);
        expect(Buffer.compare(signed, unsigned)).not.toBe(0);
        expect(await decoded(signed, await oneField(signed))).toEqual(await decoded(unsigned, await oneField(unsigned)));
        if (bits === 8 || bits === 16 || bits === 32) await expectSame(path, 1);
      }
    }));

  test("a constant field takes no bits and no code; a field without any value either: ecCodes' values", () =>
    inFolder(async (folder) => {
      const values = new Float64Array(POINTS).fill(-3.25);
      const messages = [null, holes(POINTS), new Uint8Array(POINTS).fill(1)].map((missing) => middling(values, missing));
      const path = repackedWith(folder, packedByCcsds(folder, "coded", messages), "constant", "bitsPerValue=12");
      await expectSame(path, 3);
      const fields = await fieldsOf(readFileSync(path));
      expect(fields.map((field) => field.data.lengthBytes)).toEqual([0, 0, 0]);
    }));

  test("the code of a field cut short at any byte is a lie", () =>
    inFolder(async (folder) => {
      const whole = packedByCcsds(folder, "whole", [middling(FIELDS.noisy(SHAPES.middling))]);
      const section7 = sectionsOf(whole).get(7)!;
      for (let length = 5; length < section7.length; length += 7) {
        const cut = section7.slice(0, length);
        new DataView(cut.buffer).setUint32(0, length);
        const message = assembled([...new Map(sectionsOf(whole)).set(7, cut).values()]);
        await expect(decoded(message, await oneField(message))).rejects.toThrow("file-lies");
      }
    }));
});

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: checks of CCSDS packing against real files; ATHWART_REAL_DATA names no folder.");

describe.skipIf(folder === "")("CCSDS packing in real files", () => {
  for (const what of ["current", "wind"]) {
    test(`the strait's ${what}: simple and CCSDS are the same values to the last bit, all 34 fields`, async () => {
      const named = (packing: string) => readFileSync(join(folder, `crossing-juan-de-fuca/derived-grib2/${what}_${packing}.grib2`));
      const [simple, ccsds] = [named("simple"), named("ccsds")];
      const [plain, coded] = [await fieldsOf(simple), await fieldsOf(ccsds)];
      expect([plain.length, coded.length]).toEqual([34, 34]);
      for (const [i, field] of coded.entries()) {
        expect([field.packing.template, plain[i]!.packing.template]).toEqual([42, 0]);
        expect(await decoded(ccsds, field)).toEqual(await decoded(simple, plain[i]!));
      }
    });
  }

  test.skipIf(!haveEccodes)("MFWAM's swell, 801 by 601 with land left out: ecCodes' values at every point", async () => {
    const path = join(folder, "waves/mfwam_swell_20250806_f001.grib2");
    const bytes = readFileSync(path);
    const field = await oneField(bytes);
    expect([field.packing.template, field.pointCount, field.hasBitmap]).toEqual([42, 801 * 601, true]);
    expectSameAsEccodes(field, await decoded(bytes, field), pointsByEccodes(path)[0]!);
  });
});

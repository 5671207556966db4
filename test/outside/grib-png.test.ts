/**
 * PNG packing against the reference library: ecCodes (its command-line tools, Debian package libeccodes-tools; made with 2.28.0, which
 * writes and reads pictures by libpng). It packs to whole bytes only: 8 and 16 bits grey, RGB and RGBA, whatever fewer bits section 5
 * names; so points of 1, 2 and 4 bits it can't judge. It fails where a picture comes out no smaller than its points, and writes
 * constant fields without a picture: what it can't write is written by the tests' own writer of pictures, and read by both.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Grib2Grid } from "../../src/formats/grib/index.ts";
import { repacked, seeded } from "../formats/grib/packed-section.ts";
import { pngOf } from "../formats/grib/png-encoder.ts";
import { decoded, fieldsOf, holes, joined, oneField, patched, SCANS, written } from "../formats/grib/sample-message.ts";
import { haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { FIELDS, SHAPES } from "./grib-fields.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

/** Has ecCodes pack messages as pictures, their bits first. */
function packedAsPng(folder: string, name: string, messages: readonly Uint8Array[], bits: number): string {
  const settings = `decimalScaleFactor=0,bitsPerValue=${bits}`;
  const simple = readFileSync(rewrittenByEccodes(folder, joined(...messages), `${name}-simple`, settings));
  return rewrittenByEccodes(folder, simple, name, "packingType=grid_png");
}

/** Every field of a file: as many as there should be, each as ecCodes reads it. */
async function expectSame(path: string, count: number): Promise<void> {
  const bytes = readFileSync(path);
  const fields = await fieldsOf(bytes);
  const points = pointsByEccodes(path);
  expect([points.length, fields.length]).toEqual([count, count]);
  for (const [i, field] of fields.entries()) {
    expect(field.packing.name).toBe("PNG");
    expectSameAsEccodes(field, await decoded(bytes, field), points[i]!);
  }
}

const field = (grid: Grib2Grid, values: Float64Array, missing: Uint8Array | null = null): Uint8Array =>
  written({ grid, values, missing, decimalScale: 4 });

/** Fields that any number of bits leaves compressible. */
const PICTURES = [FIELDS.levels, FIELDS.patchy, FIELDS.stepped];

describe.skipIf(!haveEccodes)("PNG packing as ecCodes writes and reads it", () => {
  test("1 to 32 bits a value, in levels, patches and steps, with and without a bitmap, tall and wide: ecCodes' values", () =>
    inFolder(async (folder) => {
      const grids = [SHAPES.middling, SHAPES.wide, SHAPES.tall];
      for (let bits = 1; bits <= 32; bits++) {
        const grid = grids[bits % grids.length]!;
        const messages = PICTURES.flatMap((values) =>
          [null, holes(grid.rows * grid.columns)].map((missing) => field(grid, values(grid), missing)),
        );
        const path = packedAsPng(folder, `bits-${bits}`, messages, bits);
        expect(keysByEccodes(path, ["packingType", "bitsPerValue"])).toEqual(messages.map(() => ["grid_png", String(bits)]));
        await expectSame(path, messages.length);
      }
    }));

  test("columns following one another lay the picture on its side: ecCodes' values", () =>
    inFolder(async (folder) => {
      const grid = SHAPES.middling;
      const messages = SCANS.filter(({ scan }) => !scan.alternating).map(({ scan }) =>
        written({ grid, scan, values: FIELDS.levels(grid), decimalScale: 4 }),
      );
      await expectSame(packedAsPng(folder, "scans", messages, 16), 8);
    }));

  test("noise of 8, 16, 24 and 32 bits on every shape, each row by another filter, in several parts: libpng reads what we read", () =>
    inFolder(async (folder) => {
      const next = seeded(31);
      const messages = Object.values(SHAPES).flatMap((grid) =>
        [8, 16, 24, 32].map((pointBits) => {
          const [width, height] = [grid.columns, grid.rows];
          const points = Array.from({ length: width * height }, () => next() % 2 ** pointBits);
          const png = pngOf({ width, height, pointBits, points }, { filterOf: () => next() % 5, partBytes: 101 });
          const packing = { template: 41, valueCount: width * height, bits: pointBits, reference: -100, decimalScale: 3, behind: [0] };
          return repacked(field(grid, new Float64Array(width * height)), packing, png);
        }),
      );
      const path = join(folder, "noise.grib2");
      writeFileSync(path, joined(...messages));
      await expectSame(path, messages.length);
    }));

  test("the template's old number gives the same field", () =>
    inFolder(async (folder) => {
      const bytes = readFileSync(packedAsPng(folder, "new", [field(SHAPES.middling, FIELDS.levels(SHAPES.middling))], 12));
      const old = patched(bytes, 5, 10, 40010 >> 8, 40010 & 255);
      const renumbered = await oneField(old);
      expect(renumbered.packing.template).toBe(40010);
      expect(await decoded(old, renumbered)).toEqual(await decoded(bytes, await oneField(bytes)));
    }));
});

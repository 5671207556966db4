/**
 * IEEE floating-point packing (template 5.4) against the reference library, ecCodes (its command-line tools, Debian package
 * libeccodes-tools; made with 2.28.0).
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { decoded, holes, oneField, written } from "../formats/grib/sample-message.ts";
import { haveEccodes, inFolder, keysByEccodes, pointsByEccodes, rewrittenByEccodes } from "./eccodes.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

describe.skipIf(!haveEccodes)("IEEE floating-point packing as ecCodes writes it", () => {
  for (const [precision, bits] of [
    [1, 32],
    [2, 64],
  ] as const) {
    test(`${bits} bits, with and without a bitmap, and a field of one value: the same values, to the last bit`, () =>
      inFolder(async (folder) => {
        const varied = Float64Array.from({ length: 20 }, (_, i) => Math.sin(i * 1.7) * 10 ** ((i % 6) - 2));
        for (const [i, changes] of [
          { values: varied, decimalScale: 5 },
          { values: varied, decimalScale: 5, missing: holes(20) },
          { values: new Float64Array(20).fill(-3.25) },
        ].entries()) {
          const path = rewrittenByEccodes(folder, written(changes), `ieee-${i}`, `packingType=grid_ieee,precision=${precision}`);
          expect(keysByEccodes(path, ["packingType", "precision:i"])).toEqual([["grid_ieee", String(precision)]]);
          const bytes = readFileSync(path);
          const field = await oneField(bytes);
          expect(field.packing.template).toBe(4);
          const read = await decoded(bytes, field);
          const points = pointsByEccodes(path)[0]!;
          expectSameAsEccodes(field, read, points);
          const sorted = (values: readonly number[]): readonly number[] => [...values].sort((a, b) => a - b);
          const theirs = points.flatMap(({ value }) => (value === null ? [] : [value]));
          expect(sorted([...read.values].filter((_, k) => read.missing[k] === 0))).toEqual(sorted(theirs));
        }
      }));
  }
});

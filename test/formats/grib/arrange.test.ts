import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { arrange } from "../../../src/formats/grib/arrange.ts";
import { placeOf, SCANS } from "./sample-message.ts";

describe("spreading values over the grid", () => {
  test("every scan, with and without a bitmap and values that the packing says are missing: as flag table 3.4 has it, point by point", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SCANS),
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 1, max: 300 }),
        // Runs of land and sea, so that whole bytes of the bitmap are alike.
        fc.option(fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1 }), { nil: null }),
        fc.boolean(),
        ({ octet, scan }, rows, columns, runs, packingHasMissing) => {
          const points = rows * columns;
          const sea = new Uint8Array(points).fill(1);
          if (runs !== null) {
            for (let at = 0, k = 0; at < points; k++) {
              const until = at + runs[k % runs.length]!;
              sea.fill(k % 2, at, until);
              at = until;
            }
          }
          const bitmap = runs === null ? null : new Uint8Array(Math.ceil(points / 8));
          for (let i = 0; i < points; i++) if (bitmap !== null && sea[i] === 1) bitmap[i >> 3]! |= 0x80 >> (i & 7);
          const count = sea.reduce((sum, one) => sum + one, 0);
          const gone = packingHasMissing ? Uint8Array.from({ length: count }, (_, i) => (i % 7 === 2 ? 1 : 0)) : null;
          const values = Float64Array.from({ length: count }, (_, i) => (gone?.[i] === 1 ? 0 : i + 1));

          const wantedValues = new Array<number>(points).fill(0);
          const wantedMissing = new Array<number>(points).fill(1);
          for (let k = 0, next = 0; k < points; k++) {
            if (sea[k] === 0) continue;
            const at = placeOf(k, rows, columns, octet);
            wantedValues[at] = values[next]!;
            wantedMissing[at] = gone?.[next] ?? 0;
            next++;
          }
          const got = arrange({ values: values.slice(), missing: gone }, bitmap, { ni: columns, nj: rows, ...scan });
          expect([...got.values]).toEqual(wantedValues);
          expect([...got.missing]).toEqual(wantedMissing);
        },
      ),
      { numRuns: 600 },
    );
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { weaveColumns53, weaveLine53 } from "../../../../src/formats/grib/packings/jpeg2000/wavelet-53.ts";
import { reversible53Wide } from "../../../../src/formats/grib/packings/jpeg2000/wavelet-53-wide.ts";
import { irreversible97 } from "../../../../src/formats/grib/packings/jpeg2000/wavelet-97.ts";

/**
 * The forward wavelets of ISO/IEC 15444-1 F.4.8, on a line whose first place is `parity`, by their equations: the line is continued on
 * both sides by mirroring (F.3.7) as far as the steps reach, and the steps are taken on all of it.
 */
function forward(line: readonly number[], parity: number, steps: readonly ((a: number, b: number, c: number) => number)[]): number[] {
  if (line.length === 1) return [...line];
  const reach = 2 * steps.length;
  const last = line.length - 1;
  const mirrored = (i: number): number => {
    const turn = ((i % (2 * last)) + 2 * last) % (2 * last);
    return line[turn > last ? 2 * last - turn : turn]!;
  };
  let wide = Array.from({ length: line.length + 2 * reach }, (_, i) => mirrored(i - reach));
  for (const [n, step] of steps.entries()) {
    const changed = n % 2 === 0 ? 1 : 0;
    wide = wide.map((own, i) =>
      (i + parity) % 2 === changed && i > 0 && i < wide.length - 1 ? step(wide[i - 1]!, own, wide[i + 1]!) : own,
    );
  }
  return wide.slice(reach, reach + line.length);
}

// Equations F-9 and F-10.
const FORWARD_53 = [
  (a: number, own: number, b: number): number => own - Math.floor((a + b) / 2),
  (a: number, own: number, b: number): number => own + Math.floor((a + b + 2) / 4),
];
// Equation F-11, table F.4.
const FORWARD_97 = [-1.586134342059924, -0.052980118572961, 0.882911075530934, 0.443506852043971].map(
  (factor) =>
    (a: number, own: number, b: number): number =>
      own + factor * (a + b),
);
const K = 1.230174104914001;

const split = (line: readonly number[], parity: number, want: 0 | 1): number[] => line.filter((_, i) => ((i + parity) & 1) === want);

const lines = (limit: number) => fc.tuple(fc.array(fc.integer({ min: -limit, max: limit }), { minLength: 1, maxLength: 40 }), fc.nat(1));

describe("the reversible wavelet", () => {
  test("a line put together is the line taken apart, up to 28 bits, both parities", () => {
    fc.assert(
      fc.property(lines(2 ** 27), ([line, parity]) => {
        const apart = line.length === 1 && parity === 1 ? [2 * line[0]!] : forward(line, parity, FORWARD_53);
        const out = new Int32Array(line.length + 2);
        const [low, high] = ([0, 1] as const).map((want) => Int32Array.from([7, ...split(apart, parity, want)]));
        weaveLine53(out, 1, line.length, parity, low!, 1, high!, 1);
        expect([...out]).toEqual([0, ...line, 0]);
      }),
      { numRuns: 500 },
    );
  });

  test("columns of three put together likewise", () => {
    fc.assert(
      fc.property(lines(2 ** 27), ([line, parity]) => {
        const columns = [line, line.map((value) => -value), line.map((_, i) => i)];
        const apart = columns.map((column) =>
          column.length === 1 && parity === 1 ? [2 * column[0]!] : forward(column, parity, FORWARD_53),
        );
        const out = Int32Array.from({ length: 3 * line.length }, (_, i) => apart[i % 3]![Math.floor(i / 3)]!);
        weaveColumns53(out, 3, line.length, parity);
        expect([0, 1, 2].map((c) => [...out].filter((_, i) => i % 3 === c))).toEqual(columns);
      }),
      { numRuns: 300 },
    );
  });

  test("in double precision, up to 40 bits, a line and columns are put together likewise", () => {
    fc.assert(
      fc.property(lines(2 ** 39), ([line, parity]) => {
        const apart = line.length === 1 && parity === 1 ? [2 * line[0]!] : forward(line, parity, FORWARD_53);
        const out = Float64Array.from([0, ...apart, 0]);
        reversible53Wide.weaveLine(out, 1, line.length, parity);
        expect([...out]).toEqual([0, ...line, 0]);
        const columns = Float64Array.from({ length: 2 * line.length }, (_, i) => apart[i >> 1]!);
        reversible53Wide.weaveColumns(columns, 2, line.length, parity);
        expect([...columns]).toEqual(line.flatMap((value) => [value, value]));
      }),
      { numRuns: 300 },
    );
  });

  test("a ramp has no high part, and is put together from its low part alone", () => {
    // 0, 2, 4 ... 14: every odd place is the mean of its neighbours, but the last, which has one.
    const out = new Int32Array(8);
    weaveLine53(out, 0, 8, 0, Int32Array.from([0, 4, 8, 13]), 0, Int32Array.from([0, 0, 0, 2]), 0);
    expect([...out]).toEqual([0, 2, 4, 6, 8, 10, 12, 14]);
  });
});

describe("the irreversible wavelet", () => {
  const apartOf = (line: readonly number[], parity: number): number[] => {
    if (line.length === 1) return parity === 1 ? [2 * line[0]!] : [...line];
    return forward(line, parity, FORWARD_97).map((value, i) => ((i + parity) & 1 ? value * K : value / K));
  };

  test("a line put together is the line taken apart, to 1e-12 of its size, both parities", () => {
    fc.assert(
      fc.property(lines(1e6), ([line, parity]) => {
        const { low, high } = irreversible97.scales(line.length);
        const out = Float64Array.from([0, ...apartOf(line, parity).map((value, i) => value * ((i + parity) & 1 ? high : low)), 0]);
        irreversible97.weaveLine(out, 1, line.length, parity);
        for (const [i, value] of [0, ...line, 0].entries()) expect(Math.abs(out[i]! - value)).toBeLessThanOrEqual(1e-6);
      }),
      { numRuns: 500 },
    );
  });

  test("columns of two put together likewise", () => {
    fc.assert(
      fc.property(lines(1e6), ([line, parity]) => {
        const { low, high } = irreversible97.scales(line.length);
        const apart = apartOf(line, parity).map((value, i) => value * ((i + parity) & 1 ? high : low));
        const out = Float64Array.from({ length: 2 * line.length }, (_, i) => apart[i >> 1]! * (i & 1 ? -1 : 1));
        irreversible97.weaveColumns(out, 2, line.length, parity);
        for (const [i, value] of line.entries()) {
          expect(Math.abs(out[2 * i]! - value)).toBeLessThanOrEqual(1e-6);
          expect(Math.abs(out[2 * i + 1]! + value)).toBeLessThanOrEqual(1e-6);
        }
      }),
      { numRuns: 300 },
    );
  });
});

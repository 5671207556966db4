import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { HeaderBits } from "../../../../src/formats/grib/packings/jpeg2000/header-bits.ts";
import { TagTree } from "../../../../src/formats/grib/packings/jpeg2000/tag-tree.ts";

/** Packs bits as packet headers do: after 0xFF a zero bit is stuffed. */
function packed(bits: readonly number[]): Uint8Array {
  const out: number[] = [];
  for (let i = 0; i < bits.length; ) {
    const room = out.at(-1) === 0xff ? 7 : 8;
    let byte = 0;
    for (let k = 0; k < room; k++) byte = 2 * byte + (bits[i++] ?? 0);
    out.push(byte);
  }
  return Uint8Array.from(out);
}

/** A number of a tree, read to the end. */
function numberAt(tree: TagTree, column: number, row: number, bits: HeaderBits): number {
  let limit = 1;
  while (!tree.isBelow(limit, column, row, bits)) limit++;
  return limit - 1;
}

/** Codes every number of a table in turn, by the words of ISO/IEC 15444-1 B.10.2: from the root each node's excess over its parent. */
function coded(numbers: readonly (readonly number[])[]): number[] {
  const levels = [numbers.map((row) => [...row])];
  for (let top = levels[0]!; top.length > 1 || top[0]!.length > 1; top = levels.at(-1)!) {
    const half = Array.from({ length: Math.ceil(top.length / 2) }, (_, y) =>
      Array.from({ length: Math.ceil(top[0]!.length / 2) }, (_, x) =>
        Math.min(...[0, 1].flatMap((dy) => [0, 1].map((dx) => top[2 * y + dy]?.[2 * x + dx] ?? Number.POSITIVE_INFINITY))),
      ),
    );
    levels.push(half);
  }
  const told = new Set<string>();
  const bits: number[] = [];
  for (const [y, row] of numbers.entries()) {
    for (const x of row.keys()) {
      for (let level = levels.length - 1, parent = 0; level >= 0; level--) {
        const own = levels[level]![y >> level]![x >> level]!;
        const name = `${level} ${y >> level} ${x >> level}`;
        if (!told.has(name)) bits.push(...new Array<number>(own - parent).fill(0), 1);
        told.add(name);
        parent = own;
      }
    }
  }
  return bits;
}

describe("tag trees", () => {
  test("the example of ISO/IEC 15444-1 B.10.2 (figure B.12, from memory): 01111, 001, 101 give 1, 3, 2", () => {
    const bits = new HeaderBits(packed([0, 1, 1, 1, 1, 0, 0, 1, 1, 0, 1]));
    bits.startAt(0);
    const tree = new TagTree(6, 3);
    expect([0, 1, 2].map((column) => numberAt(tree, column, 0, bits))).toEqual([1, 3, 2]);
    expect(bits.isOverrun).toBe(false);
  });

  test("tables of any size and numbers read back", () => {
    const tables = fc
      .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
      .chain(([across, down]) =>
        fc.array(fc.array(fc.nat(12), { minLength: across, maxLength: across }), { minLength: down, maxLength: down }),
      );
    fc.assert(
      fc.property(tables, (numbers) => {
        const bits = new HeaderBits(packed(coded(numbers)));
        bits.startAt(0);
        const tree = new TagTree(numbers[0]!.length, numbers.length);
        expect(numbers.map((row, y) => row.map((_, x) => numberAt(tree, x, y, bits)))).toEqual(numbers);
      }),
      { numRuns: 200 },
    );
  });

  test("a limit settles no more than it asks: the rest of a number is read later", () => {
    const bits = new HeaderBits(packed([0, 0, 1]));
    bits.startAt(0);
    const tree = new TagTree(1, 1);
    expect([1, 2, 2, 3].map((limit) => tree.isBelow(limit, 0, 0, bits))).toEqual([false, false, false, true]);
  });
});

describe("bits of packet headers", () => {
  test("a bit is stuffed after 0xFF, and behind a last 0xFF a byte", () => {
    const bits = new HeaderBits(Uint8Array.from([0xff, 0x7f, 0x80, 0xff, 0x00, 0x12]));
    bits.startAt(0);
    expect([bits.bits(15), bits.bits(1), bits.end()]).toEqual([0x7fff, 1, 3]);
    bits.startAt(3);
    expect([bits.bits(8), bits.end()]).toEqual([0xff, 5]);
  });

  test("beyond the end the bits are 0, and it is told", () => {
    const bits = new HeaderBits(Uint8Array.from([0xa0]));
    bits.startAt(0);
    expect([bits.bits(8), bits.isOverrun, bits.bits(9), bits.isOverrun]).toEqual([0xa0, false, 0, true]);
  });
});

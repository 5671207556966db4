/** PNG packing against pictures written by Node's zlib and the definitions of ISO/IEC 15948 (`png-encoder.ts`). */
import { deflateSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crc32 } from "../../../src/formats/grib/packings/png/crc-32.ts";
import { oldPngPacking, pngPacking } from "../../../src/formats/grib/packings/png.ts";
import { mutatedBytes, repacked, type Section5, seeded, unpackedBy } from "./packed-section.ts";
import { chunk, filteredRows, type Picture, pngOf, SIGNATURE } from "./png-encoder.ts";
import { ascii, codesOf, decoded, holes, joined, oneField, written } from "./sample-message.ts";

const WIDTHS = [1, 2, 4, 8, 16, 24, 32];

function picture(width: number, height: number, pointBits: number, next: () => number): Picture {
  let value = 0;
  const points = Array.from({ length: width * height }, () => {
    value = next() % 3 === 0 ? next() % 2 ** pointBits : (value + (next() % 3)) % 2 ** pointBits;
    return value;
  });
  return { width, height, pointBits, points };
}

const packed = ({ width, height, pointBits }: Picture, more: Partial<Section5> = {}): Section5 => ({
  template: 41,
  valueCount: width * height,
  bits: pointBits,
  behind: [0],
  ...more,
});
const read = (of: Picture, png: Uint8Array, more: Partial<Section5> = {}) => unpackedBy(pngPacking, packed({ ...of }, more), png);

const small = picture(9, 6, 8, seeded(1));

describe("pictures of every width", () => {
  test("1, 2, 4, 8, 16, 24 and 32 bits a point, any size, any filter in any row, in any number of parts", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...WIDTHS),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 1, max: 30 }),
        fc.integer(),
        fc.option(fc.integer({ min: 1, max: 50 })),
        (pointBits, width, height, seed, partBytes) => {
          const next = seeded(seed);
          const one = picture(width, height, pointBits, next);
          const filters = Array.from({ length: height }, () => next() % 5);
          const png = pngOf(one, { filterOf: (row) => filters[row]!, ...(partBytes === null ? {} : { partBytes }) });
          const values = read(one, png);
          if (typeof values === "string") throw new Error(values);
          expect([...values]).toEqual(one.points);
        },
      ),
      { numRuns: 400 },
    );
  });

  test("each filter over the whole of a larger picture, stored, deflated by fixed and by dynamic codes", () => {
    const next = seeded(7);
    for (const pointBits of WIDTHS) {
      const one = picture(61, 37, pointBits, next);
      for (let filter = 0; filter <= 4; filter++) {
        for (const options of [{ level: 0 }, { strategy: 4 }, { level: 9 }]) {
          const zlib = new Uint8Array(
            deflateSync(
              filteredRows(one, () => filter),
              options,
            ),
          );
          const values = read(one, pngOf(one, { zlib }));
          expect([pointBits, filter, options, typeof values]).toEqual([pointBits, filter, options, "object"]);
          const wrong = one.points.findIndex((point, i) => (values as Float64Array)[i] !== point);
          expect(wrong).toBe(-1);
        }
      }
    }
  });

  test("scaled as simple packing is, spread over the bitmap, by either number of the template", async () => {
    const of = { width: 13, height: 1, pointBits: 16, points: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 4095] };
    for (const template of [41, 40010]) {
      const section = packed(of, { template, bits: 12, reference: 50, binaryScale: 1, decimalScale: 2 });
      const message = repacked(written({ missing: holes(20) }), section, pngOf(of));
      const field = await oneField(message);
      const { values, missing } = await decoded(message, field);
      expect([...missing]).toEqual([...holes(20)]);
      // From the north-west corner: the last row of ours first.
      const order = [15, 16, 17, 18, 19, 10, 11, 12, 13, 14, 5, 6, 7, 8, 9, 0, 1, 2, 3, 4].filter((at) => missing[at] === 0);
      expect(order.map((at) => values[at])).toEqual(of.points.map((point) => (50 + 2 * point) / 100));
    }
    expect([pngPacking.name, oldPngPacking.name]).toEqual(["PNG", "PNG, by its old number"]);
  });

  test("no bits are one value everywhere; no values need no picture", () => {
    expect(read(small, new Uint8Array(0), { bits: 0, reference: 725, decimalScale: 2 })).toEqual(new Float64Array(54).fill(725));
    expect(read(small, new Uint8Array(0), { valueCount: 0 })).toEqual(new Float64Array(0));
  });

  test("parts that say nothing of the points are passed over, and bytes behind the end", () => {
    const extra = [chunk("gAMA", new Uint8Array(4)), chunk("tEXt", ascii("Title\0of no account"))];
    expect(read(small, joined(pngOf(small, { extra }), new Uint8Array(7)))).toEqual(Float64Array.from(small.points));
  });

  test("the check sum is the standard's: 0xCBF43926 for the digits 1 to 9, 0xAE426082 for an IEND", () => {
    // The usual check value of CRC-32 (common practice), and the last four bytes of every PNG file.
    expect([crc32(ascii("123456789")), crc32(ascii("IEND"))]).toEqual([0xcbf4_3926, 0xae42_6082]);
  });
});

describe("pictures that can't be true, or aren't read", () => {
  test("interlaced pictures, palettes, alpha beside grey, and deep colours are refused by name", () => {
    const refused = [{ 12: 1 }, { 9: 3 }, { 9: 4 }, { 8: 16, 9: 2 }, { 8: 16, 9: 6 }, { 8: 3 }];
    for (const header of refused) expect([header, read(small, pngOf(small, { header }))]).toEqual([header, "packing-not-read"]);
    expect(read(small, pngOf(small, { extra: [chunk("ABCD", new Uint8Array(3))] }))).toBe("packing-not-read");
  });

  test("sizes, bits and methods that contradict section 5 or the standard are lies", () => {
    expect(read(small, pngOf(small), { valueCount: 55 })).toBe("file-lies");
    expect(read(small, pngOf(small), { bits: 12 })).toBe("file-lies");
    expect(read({ ...small, points: [200] }, pngOf(small), { bits: 2 })).toBe("file-lies");
    for (const header of [{ 10: 1 }, { 11: 1 }, { 12: 2 }, { 0: 255 }, { 3: 0 }])
      expect(read(small, pngOf(small, { header }))).toBe("file-lies");
    const five = filteredRows(small, () => 0);
    five[10] = 5;
    expect(read(small, pngOf(small, { zlib: new Uint8Array(deflateSync(five)) }))).toBe("file-lies");
  });

  test("a scaling without finite numbers, more than 32 bits, a short section 5 are refused before the picture is looked at", async () => {
    const code = (more: Partial<Section5>) =>
      codesOf(repacked(written(), packed({ ...small, width: 5, height: 4 }, more), new Uint8Array(9)));
    expect(await code({ bits: 33 })).toEqual(["packing-not-read"]);
    expect(await code({ reference: Number.NaN })).toEqual(["file-lies"]);
    expect(await code({ binaryScale: 0x7fff })).toEqual(["file-lies"]);
    expect(await code({})).toEqual([]);
  });

  test("an empty section 7, no signature, a cut, a changed bit, a doubled header, parts pulled apart are lies", () => {
    const whole = pngOf(small, { partBytes: 10 });
    expect(read(small, new Uint8Array(0))).toBe("file-lies");
    for (let at = 0; at < whole.length; at++) {
      expect([at, read(small, whole.subarray(0, at))]).toEqual([at, "file-lies"]);
      const changed = whole.slice();
      changed[at]! ^= 1 << (at % 8);
      expect([at, read(small, changed)]).toEqual([at, "file-lies"]);
    }
    const head = whole.subarray(8, 33);
    expect(read(small, joined(SIGNATURE, head, whole.subarray(8)))).toBe("file-lies");
    expect(read(small, joined(SIGNATURE, whole.subarray(33)))).toBe("file-lies");
    expect(read(small, joined(whole.subarray(0, 55), chunk("tEXt", ascii("a\0b")), whole.subarray(55)))).toBe("file-lies");
  });

  test("rows too short, too long, with a wrong check, not deflated at all are lies", () => {
    const rows = filteredRows(small, () => 0);
    const zlib = (bytes: Uint8Array) => new Uint8Array(deflateSync(bytes));
    const good = zlib(rows);
    expect(read(small, pngOf(small, { zlib: zlib(rows.subarray(1)) }))).toBe("file-lies");
    expect(read(small, pngOf(small, { zlib: zlib(joined(rows, rows.subarray(0, 1))) }))).toBe("file-lies");
    expect(read(small, pngOf(small, { zlib: good.map((byte, i) => (i === good.length - 1 ? byte ^ 1 : byte)) }))).toBe("file-lies");
    expect(read(small, pngOf(small, { zlib: rows }))).toBe("file-lies");
    expect(read(small, pngOf(small, { zlib: new Uint8Array(0) }))).toBe("file-lies");
    expect(read(small, pngOf(small, { zlib: Uint8Array.from([0x78, 0xbb, 0, 0, 0, 0, 0, 0]) }))).toBe("file-lies");
  });

  test("a small picture that would grow to 200 MB is left off at once, and takes no memory for it", () => {
    const bomb = new Uint8Array(deflateSync(new Uint8Array(200_000_000)));
    const before = process.memoryUsage().arrayBuffers;
    const from = performance.now();
    expect(read(small, pngOf(small, { zlib: bomb }))).toBe("file-lies");
    expect(performance.now() - from).toBeLessThan(1000);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(20_000_000);
  });

  test("a picture said to be far larger than its bytes can be is refused before its rows are made", () => {
    const huge = { width: 5000, height: 4000, pointBits: 32, points: [] };
    const png = pngOf(huge, { zlib: new Uint8Array(deflateSync(new Uint8Array(1000))) });
    const before = process.memoryUsage().arrayBuffers;
    expect(read(huge, png)).toBe("file-lies");
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(1_000_000);
  });

  test("rows that overlap as an early encoder wrote them are told, not read shifted", () => {
    // Points of 4 bits, 5 a row, packed without a break; rows of 3 bytes begin 2 bytes apart, as if 5 points took 2.
    const bytes = Uint8Array.from([0x12, 0x34, 0x56, 0x78, 0x9a, 0xbc, 0xde]);
    const rows = joined(...[0, 2, 4].map((at) => joined(Uint8Array.from([0]), bytes.subarray(at, at + 3))));
    const of = { width: 5, height: 3, pointBits: 4, points: [] };
    expect(read(of, pngOf(of, { zlib: new Uint8Array(deflateSync(rows)) }))).toBe("packing-not-read");
  });

  test("3000 seeded mutations, their check sums mended so that they get through: whole numbers or a refusal, never a throw", () => {
    const next = seeded(20_260_503);
    const outcomes = new Map<string, number>();
    for (let round = 0; round < 3000; round++) {
      const one = picture(1 + (next() % 20), 1 + (next() % 20), WIDTHS[next() % 7]!, next);
      const filtered = filteredRows(one, () => next() % 5);
      const kind = next() % 4;
      const rows = kind === 0 ? mutatedBytes(filtered, next) : filtered;
      const zlib = new Uint8Array(deflateSync(rows));
      const header =
        kind === 1 ? { [next() % 2 === 0 ? 8 + (next() % 5) : next() % 13]: next() % 2 === 0 ? next() & 255 : next() & 7 } : {};
      const png = pngOf(one, { zlib: kind === 2 ? mutatedBytes(zlib, next) : zlib, header });
      const values = read(one, kind === 3 ? mutatedBytes(png, next) : png);
      const outcome = typeof values === "string" ? values : "read";
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
      if (typeof values === "string") continue;
      expect(values.every((value) => Number.isInteger(value) && value >= 0 && value < 2 ** one.pointBits)).toBe(true);
    }
    expect([...outcomes.keys()].sort()).toEqual(["file-lies", "packing-not-read", "read"]);
    for (const times of outcomes.values()) expect(times).toBeGreaterThan(30);
  });
});

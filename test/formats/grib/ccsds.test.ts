/**
 * CCSDS packing against the Blue Book: CCSDS 121.0-B-3, Lossless Data Compression, August 2020; tables and sections are its own. Codes
 * are set by hand from its tables, or made by a coder written from them (`ccsds-encoder.ts`).
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ccsdsPacking } from "../../../src/formats/grib/packings/ccsds.ts";
import { type BlockOption, bytesOf, encoded, maskOf, optionsFor, type SampleCoding } from "./ccsds-encoder.ts";
import { mutatedBytes, repacked, type Section5, seeded, unpackedBy } from "./packed-section.ts";
import { codesOf, decoded, holes, oneField, written } from "./sample-message.ts";

const packed = (coding: SampleCoding, valueCount: number, more: Partial<Section5> = {}): Section5 => ({
  template: 42,
  valueCount,
  bits: coding.bits,
  behind: [maskOf(coding), coding.blockSamples, coding.intervalBlocks >> 8, coding.intervalBlocks & 255],
  ...more,
});
const read = (coding: SampleCoding, valueCount: number, code: Uint8Array) => unpackedBy(ccsdsPacking, packed(coding, valueCount), code);
/** The whole numbers that a code gives, by R = 0, E = 0, D = 0. */
const samplesOf = (coding: SampleCoding, valueCount: number, code: string): readonly number[] | string => {
  const values = read(coding, valueCount, bytesOf(code));
  return typeof values === "string" ? values : [...values];
};

const EIGHT: SampleCoding = { bits: 8, blockSamples: 8, intervalBlocks: 3 };
const DIFFERENCES: SampleCoding = { ...EIGHT, predicted: true };

describe("codes set by hand from the Blue Book's tables", () => {
  test("fundamental sequences (table 3-1, key 001): noughts counted up to a one, over the ends of words", () => {
    const long = "0".repeat(100);
    expect(samplesOf(EIGHT, 8, `001 1 01 001 0001 ${long}1 1 00001 1`)).toEqual([0, 1, 2, 3, 100, 0, 4, 0]);
  });

  test("split samples (section 3.3, key 011 for k = 2): all the upper parts, then all the two lower bits", () => {
    expect(samplesOf(EIGHT, 8, "011 1 01 1 001 1 1 1 0001 00 01 10 11 00 01 10 11")).toEqual([0, 5, 2, 11, 0, 1, 2, 15]);
  });

  test("the second extension (section 3.4.2, keys 000 1): pairs by (a + b)(a + b + 1) / 2 + b", () => {
    // 0 is (0,0), 1 is (1,0), 2 is (0,1), 4 is (1,1).
    expect(samplesOf(EIGHT, 8, "000 1 1 01 001 00001")).toEqual([0, 0, 1, 0, 0, 1, 1, 1]);
  });

  test("no compression (section 3.5, key 111): the samples as they are", () => {
    expect(samplesOf(EIGHT, 3, "111 00000001 11111111 10000000 00000000 00000000 00000000 00000000 00000000")).toEqual([1, 255, 128]);
  });

  test("empty blocks (table 3-2, keys 000 0): 1 to 4 by none to three noughts, the segment's rest by four, n from 5 by n", () => {
    const coding: SampleCoding = { ...EIGHT, intervalBlocks: 100 };
    const seven = "111 00000111 00000111 00000111 00000111 00000111 00000111 00000111 00000111";
    const nought = (blocks: number) => new Array(8 * blocks).fill(0);
    const sevens = new Array(8).fill(7);
    expect(samplesOf(coding, 8 * 5, `000 0 1 ${seven} 000 0 001`)).toEqual([...nought(1), ...sevens, ...nought(3)]);
    expect(samplesOf(coding, 8 * 7, `000 0 000001 ${seven}  000 0 1`)).toEqual([...nought(5), ...sevens, ...nought(1)]);
    // The rest of the segment of 64 blocks; then of the interval of 100.
    expect(samplesOf(coding, 8 * 102, `${seven} 000 0 00001 ${seven} 000 0 00001 ${seven} ${seven}`)).toEqual([
      ...sevens,
      ...nought(63),
      ...sevens,
      ...nought(35),
      ...sevens,
      ...sevens,
    ]);
    // A field may end within the rest of a segment.
    expect(samplesOf(coding, 13, "000 0 00001")).toEqual(nought(2).slice(0, 13));
  });

  test("prediction (section 4): the interval's first sample as it is, then even up, odd down, and straight on beyond the nearer end", () => {
    // From 250: +2 is 4, -3 is 5, +5 (up to 254) is 10; then from 254 with room for 1 only: -4 is 1 + 4 = 5; from 250, 0; -100: 5 + 100.
    const residuals = [4, 5, 10, 5, 0, 105, 0].map((one) => one.toString(2).padStart(8, "0")).join(" ");
    expect(samplesOf(DIFFERENCES, 8, `111 11111010 ${residuals}`)).toEqual([250, 252, 249, 254, 250, 250, 150, 150]);
  });

  test("the reference sample stands behind the key in every option, and counts as the first of its block", () => {
    expect(samplesOf(DIFFERENCES, 8, "001 00000101 1 1 001 1 1 1 01")).toEqual([5, 5, 5, 6, 6, 6, 6, 5]);
    expect(samplesOf(DIFFERENCES, 8, "010 00000101 1 1 1 1 1 1 01 0 0 1 0 0 0 0")).toEqual([5, 5, 5, 4, 4, 4, 4, 5]);
    expect(samplesOf(DIFFERENCES, 8, "000 1 00000101 001 1 1 01")).toEqual([5, 4, 4, 4, 4, 4, 3, 3]);
    // Two blocks alike, the third one up and down; a new interval begins with a new reference.
    expect(samplesOf(DIFFERENCES, 32, "000 0 00001001 01  001 001 01 1 1 1 1 1 1  000 0 00000010 1")).toEqual([
      ...new Array(16).fill(9),
      ...[10, 9, 9, 9, 9, 9, 9, 9],
      ...new Array(8).fill(2),
    ]);
  });

  test("keys have 1 or 2 bits where options are restricted, 3 up to 8 bits a sample, 4 up to 16, 5 up to 32 (table 5-1)", () => {
    expect(samplesOf({ ...EIGHT, bits: 2, restricted: true }, 8, "1 00 01 10 11 00 01 10 11  0 0 1")).toEqual([0, 1, 2, 3, 0, 1, 2, 3]);
    expect(samplesOf({ ...EIGHT, bits: 4, restricted: true }, 8, "10 1 01 001 1 1 1 1 1  0 0 1 0 0 0 0 1")).toEqual([
      0, 2, 5, 0, 0, 0, 0, 1,
    ]);
    expect(samplesOf({ ...EIGHT, bits: 9 }, 8, "0001 1 01 1 1 1 1 1 1")).toEqual([0, 1, 0, 0, 0, 0, 0, 0]);
    expect(samplesOf({ ...EIGHT, bits: 17 }, 8, "00001 1 01 1 1 1 1 1 1")).toEqual([0, 1, 0, 0, 0, 0, 0, 0]);
    const most = "1".repeat(32);
    expect(samplesOf({ ...EIGHT, bits: 32 }, 8, `11111 ${most.repeat(8)}`)).toEqual(new Array(8).fill(2 ** 32 - 1));
  });
});

const codingArbitrary = fc
  .record({
    bits: fc.integer({ min: 1, max: 32 }),
    blockSamples: fc.constantFrom(8, 16, 32, 64),
    intervalBlocks: fc.constantFrom(1, 2, 3, 70, 130, 4096),
    predicted: fc.boolean(),
    signed: fc.boolean(),
    wholeBytes: fc.boolean(),
    narrow: fc.boolean(),
  })
  .map(({ narrow, ...coding }) => ({ ...coding, restricted: narrow && coding.bits <= 4 }));

/** Samples that stay, creep and leap by turns, so that every option has its day. */
function wandering(bits: number, count: number, next: () => number): readonly number[] {
  const most = 2 ** bits;
  let sample = next() % most;
  let manner = 0;
  return Array.from({ length: count }, (_, i) => {
    if (i % 150 === 0) manner = next() % 5;
    if (manner === 1) sample = Math.min(most - 1, Math.max(0, sample + (next() % 3) - 1));
    else if (manner === 2) sample = (sample + (next() % 50)) % most;
    else if (manner === 3) sample = next() % most;
    else if (manner === 4) sample = next() % 2 === 0 ? 0 : most - 1;
    return sample;
  });
}

describe("whatever is coded by the Blue Book's definitions", () => {
  test("comes out as it went in: 1 to 32 bits, every block length, interval and flag, every option that a block can take", () => {
    const used = new Set<BlockOption>();
    fc.assert(
      fc.property(codingArbitrary, fc.integer({ min: 1, max: 3000 }), fc.integer(), (coding, count, seed) => {
        const next = seeded(seed);
        const samples = wandering(coding.bits, count, next);
        const chosen = new Map<number, BlockOption>();
        const code = encoded(samples, coding, (residuals, block) => {
          const options = optionsFor(residuals, coding);
          const option = chosen.get(block) ?? options[next() % 4 === 0 ? next() % options.length : options.length - 1]!;
          chosen.set(block, option);
          used.add(option);
          return option;
        });
        const values = read(coding, count, code);
        if (typeof values === "string") throw new Error(values);
        const wrong = samples.findIndex((sample, i) => values[i] !== sample);
        expect([wrong, samples[wrong]]).toEqual([-1, undefined]);
      }),
      { numRuns: 200 },
    );
    expect([...used].filter((option) => typeof option === "string").sort()).toEqual(["empty", "pairs", "plain"]);
    expect([...used].filter((option) => typeof option === "number").length).toBeGreaterThan(20);
  });

  test("is scaled as simple packing is, and spread over the bitmap", async () => {
    const coding: SampleCoding = { bits: 12, blockSamples: 8, intervalBlocks: 128, predicted: true };
    const samples = [0, 3, 4095, 17, 17, 17, 2000, 1999, 1998, 5, 6, 7, 8];
    const code = encoded(samples, coding, () => "plain");
    const scaled = packed(coding, 13, { reference: -50, binaryScale: 1, decimalScale: 2 });
    const message = repacked(written({ missing: holes(20) }), scaled, code);
    const field = await oneField(message);
    expect([field.packing.name, field.packing.valueCount, field.data.lengthBytes]).toEqual(["CCSDS", 13, code.length]);
    const simple = written({
      missing: holes(20),
      values: spread(samples.map((one) => (-50 + 2 * one) / 100)),
      decimalScale: 2,
    });
    expect(await decoded(message, field)).toEqual(await decoded(simple, await oneField(simple)));
  });

  test("no bits are one value everywhere; no values need no code, whatever the options say", () => {
    const constant = packed(EIGHT, 5, { bits: 0, reference: 725, decimalScale: 2, behind: [255, 0, 0, 0] });
    expect(unpackedBy(ccsdsPacking, constant, bytesOf("1"))).toEqual(new Float64Array(5).fill(725));
    expect(unpackedBy(ccsdsPacking, packed(EIGHT, 0), new Uint8Array(0))).toEqual(new Float64Array(0));
  });
});

/** Thirteen values in the message's order, from the north, put where `holes` has none. */
function spread(values: readonly number[]): Float64Array {
  const out = new Float64Array(20);
  let next = 0;
  for (let row = 3; row >= 0; row--) {
    for (let column = 0; column < 5; column++) if ((row * 5 + column) % 3 !== 1) out[row * 5 + column] = values[next++]!;
  }
  return out;
}

describe("codes that can't be true", () => {
  test("an end before the last value, a run beyond the interval, numbers beyond the sample's bits are lies", () => {
    expect(samplesOf(EIGHT, 8, "")).toBe("file-lies");
    expect(samplesOf(EIGHT, 8, "001 1 1 1 1")).toBe("file-lies");
    expect(samplesOf(EIGHT, 9, "001 1 1 1 1 1 1 1 1 001 10")).toBe("file-lies");
    expect(samplesOf(EIGHT, 32, "000 0 0001")).toBe("file-lies");
    expect(samplesOf(EIGHT, 8, `001 ${"0".repeat(256)} 1 1 1 1 1 1 1 1`)).toBe("file-lies");
    expect(samplesOf({ ...EIGHT, bits: 3 }, 8, `000 1 ${"0".repeat(36)}1 1 1 1`)).toBe("file-lies");
    expect(samplesOf({ ...EIGHT, bits: 3 }, 8, "110 1 1 1 1 1 1 1 1 01000 00000 00000 00000 00000 00000 00000 00000")).toBe("file-lies");
    expect(samplesOf(EIGHT, 8, `000 1 ${"0".repeat(91)}1 1 1 1`)).toBe("file-lies");
    expect(samplesOf(EIGHT, 8, `000 1 ${"0".repeat(90)}1 1 1 1`)).toEqual([0, 12, 0, 0, 0, 0, 0, 0]);
  });

  test("options that there are not are refused before anything is read, each by name", async () => {
    const code = (behind: readonly number[], more: Partial<Section5> = {}) =>
      codesOf(repacked(written(), { ...packed(EIGHT, 20), behind, ...more }, new Uint8Array(90)));
    expect(await code([4, 10, 0, 3])).toEqual(["packing-not-read"]);
    expect(await code([4 + 128, 8, 0, 3])).toEqual(["packing-not-read"]);
    expect(await code([4, 8, 0, 3], { bits: 33 })).toEqual(["packing-not-read"]);
    expect(await code([4, 8, 0, 0])).toEqual(["file-lies"]);
    expect(await code([4 + 16, 8, 0, 3])).toEqual(["file-lies"]);
    expect(await code([4, 8, 0, 3], { reference: Number.POSITIVE_INFINITY })).toEqual(["file-lies"]);
    expect(await code([4, 8, 0])).toEqual(["file-lies"]);
    expect(await code([4, 8, 0, 3])).toEqual([]);
  });

  test("3000 seeded mutations: whole numbers within the bits, or a lie; never a throw, never slow", () => {
    const next = seeded(20_260_502);
    const outcomes = new Map<string, number>();
    let slowest = 0;
    for (let round = 0; round < 3000; round++) {
      const bits = 1 + (next() % 32);
      const coding: SampleCoding = { bits, blockSamples: 8 << (next() % 4), intervalBlocks: 1 + (next() % 130), predicted: next() % 4 > 0 };
      const samples = wandering(bits, 400, next);
      const code = encoded(samples, coding, (residuals) => optionsFor(residuals, coding).at(-1)!);
      const count = next() % 3 === 0 ? next() % 100_000 : 400;
      const from = performance.now();
      const values = read(coding, count, mutatedBytes(code, next));
      slowest = Math.max(slowest, performance.now() - from);
      const outcome = typeof values === "string" ? values : "read";
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
      if (typeof values === "string") continue;
      expect(values.length).toBe(count);
      expect(values.every((value) => Number.isInteger(value) && value >= 0 && value < 2 ** bits)).toBe(true);
    }
    expect([...outcomes.keys()].sort()).toEqual(["file-lies", "read"]);
    for (const times of outcomes.values()) expect(times).toBeGreaterThan(300);
    expect(slowest).toBeLessThan(1000);
  });

  test("a long field from a few bytes ends as soon as the code does", () => {
    const from = performance.now();
    expect(read({ ...EIGHT, intervalBlocks: 4096 }, 20_000_000, bytesOf("000 0 00001".repeat(40)))).toBe("file-lies");
    expect(performance.now() - from).toBeLessThan(2000);
  });
});

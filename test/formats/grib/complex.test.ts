import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { codes } from "../../../src/core/answers/index.ts";
import { Octets } from "../../../src/formats/grib/octets.ts";
import { readPacking, unpackValues } from "../../../src/formats/grib/packings/registry.ts";
import { type ComplexSettings, complexMessage, type Packable, packComplex } from "./pack-complex.ts";
import { codesOf, decoded, oneField, patched } from "./sample-message.ts";

/** Values in the message's order, "missing" where there is none; or the code of what is wrong. */
function unpacked(section5: Uint8Array, section7: Uint8Array): readonly (number | "missing")[] | string {
  const read = readPacking(new Octets(section5), "here");
  if (!read.ok) return read.issues[0]!.code;
  const values = unpackValues(read.value.packing, section7.subarray(5), "here");
  if (!values.ok) return values.issues[0]!.code;
  const { values: numbers, missing } = values.value;
  expect(numbers.length).toBe(read.value.packing.valueCount);
  return [...numbers].map((value, i) => {
    if (missing?.[i] !== 1) return value;
    expect(value).toBe(0);
    return "missing";
  });
}

const withOctets = (section: Uint8Array, octet: number, ...octets: readonly number[]): Uint8Array => {
  const changed = section.slice();
  changed.set(octets, octet - 1);
  return changed;
};

const unsaid = [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];

describe("complex packing", () => {
  test("octets set by hand: two groups, one of one value throughout", () => {
    // R = 1.5, E = 1, D = 1. Groups: reference 5, width 2, values 5 6 8; reference 9, width 0, length 2.
    const section5 = [0, 0, 0, 47, 5, 0, 0, 0, 5, 0, 2, 0x3f, 0xc0, 0, 0, 0, 1, 0, 1, 4, 0, 1, 0, ...unsaid, 0, 0, 0, 2, 0, 2];
    section5.push(0, 0, 0, 3, 1, 0, 0, 0, 2, 0);
    const section7 = [0, 0, 0, 8, 7, 0x59, 0b1000_0000, 0b0001_1100];
    const sums = [5, 6, 8, 9, 9].map((x) => (1.5 + x * 2) / 10);
    expect(unpacked(Uint8Array.from(section5), Uint8Array.from(section7))).toEqual(sums);
  });

  test("octets set by hand: second differences, one primary and one secondary missing value between them", () => {
    // 7 10 _ 12 13 _ 20: second differences of what is there are -1, -1, 6; the least is -1, so 0 0 7 is packed behind two noughts.
    const section5 = [0, 0, 0, 49, 5, 0, 0, 0, 7, 0, 3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, ...unsaid, 0, 0, 0, 1, 4, 0];
    section5.push(0, 0, 0, 7, 1, 0, 0, 0, 7, 0, 2, 1);
    const section7 = [0, 0, 0, 12, 7, 7, 10, 0x81, 0x00, 0xf0, 0x0e, 0x70];
    expect(unpacked(Uint8Array.from(section5), Uint8Array.from(section7))).toEqual([7, 10, "missing", 12, 13, "missing", 20]);
  });

  test("whatever the numbers, groups, widths, missing values and order of differences: they read back to the last bit", () => {
    const settings = fc.record({
      order: fc.constantFrom(undefined, 1 as const, 2 as const),
      missingKinds: fc.constantFrom(0 as const, 1 as const, 2 as const),
      lengths: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 5 }),
      lengthStep: fc.integer({ min: 1, max: 3 }),
      spareBits: fc.integer({ min: 0, max: 2 }),
      bits: fc.integer({ min: 0, max: 29 }),
      binaryScale: fc.integer({ min: -20, max: 10 }),
      decimalScale: fc.integer({ min: -3, max: 6 }),
      reference: fc.float({ min: -1000, max: 1000, noNaN: true }),
    });
    const parts = fc.array(fc.tuple(fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), fc.nat({ max: 9 })), { maxLength: 60 });
    fc.assert(
      fc.property(settings, parts, ({ lengths, bits, ...rest }, parts) => {
        // Runs of missing values, so that whole groups are missing too.
        let kind: Packable = 0;
        const numbers = parts.map(([part, turn]): Packable => {
          if (turn < 3) kind = rest.missingKinds > turn ? (["primary", "secondary"] as const)[turn as 0 | 1] : 0;
          return kind === 0 ? Math.floor(part * 2 ** bits) : kind;
        });
        const lengthOf = (group: number): number => 1 + rest.lengthStep * lengths[group % lengths.length]!;
        const { order, ...others } = rest;
        const packing: ComplexSettings = { ...others, ...(order === undefined ? {} : { order }), groupLength: lengthOf };
        const { reference, binaryScale, decimalScale } = rest;
        const factor = decimalScale < 0 ? 10 ** -decimalScale : 1;
        const divisor = decimalScale > 0 ? 10 ** decimalScale : 1;
        const wanted = numbers.map((one) =>
          typeof one === "number" ? (reference * factor + 0 + one * (2 ** binaryScale * factor)) / divisor : "missing",
        );
        expect(unpacked(...packComplex(numbers, packing))).toEqual(wanted);
      }),
      { numRuns: 1500 },
    );
  });

  test("groups of every width from 0 to 32 bits, at every place in a byte", () => {
    for (let bits = 0; bits <= 32; bits++) {
      for (let lead = 0; lead < 8; lead++) {
        // A group of one-bit values before shifts the next one within its byte.
        const group = Array.from({ length: 11 }, (_, i) => (i === 0 ? 0 : Math.floor((2 ** bits - 1) / ((i % 3) + 1))));
        const numbers = [0, ...new Array(lead).fill(1), ...group];
        const groupLength = (g: number): number => (g === 0 ? lead + 1 : 11);
        expect([bits, lead, unpacked(...packComplex(numbers, { groupLength }))]).toEqual([bits, lead, numbers]);
      }
    }
  });

  test("thousands of groups", () => {
    const numbers = Array.from({ length: 9000 }, (_, i) => (i * 7919) % 1013);
    for (const order of [1, 2] as const) {
      expect(unpacked(...packComplex(numbers, { order, groupLength: (g) => 1 + (g % 4) }))).toEqual(numbers);
    }
  });

  test("first values and least difference of 1 to 4 octets; first values have no sign", () => {
    for (const descriptorOctets of [1, 2, 3, 4]) {
      const numbers = [200, 210, 190, 231, 254];
      for (const order of [1, 2] as const) {
        expect(unpacked(...packComplex(numbers, { order, descriptorOctets }))).toEqual(numbers);
      }
    }
  });

  test("fewer values than the order of the differences, or none at all", () => {
    for (const order of [1, 2] as const) {
      for (const numbers of [[], [9], [9, 4], ["primary"], ["primary", 5, "primary"]] as const) {
        const wanted = numbers.map((one) => (one === "primary" ? "missing" : one));
        expect(unpacked(...packComplex(numbers, { order, missingKinds: 1 }))).toEqual(wanted);
      }
    }
  });

  test("no groups: every value is the reference, as encoders write a field of one value", () => {
    for (const order of [undefined, 1, 2] as const) {
      const [section5] = packComplex([0, 0, 0], { reference: 12.5, decimalScale: 1, ...(order === undefined ? {} : { order }) });
      const none = withOctets(withOctets(section5, 32, 0, 0, 0, 0), 43, 0, 0, 0, 0);
      expect(unpacked(none, Uint8Array.of(0, 0, 0, 5, 7))).toEqual([1.25, 1.25, 1.25]);
    }
  });

  test("groups without any bits are missing where missing values have a number of their own: no bits are all set", () => {
    const [section5, section7] = packComplex([0, 0, 0, 0], { reference: 3 });
    expect(unpacked(section5, section7)).toEqual([3, 3, 3, 3]);
    for (const kinds of [1, 2]) expect(unpacked(withOctets(section5, 23, kinds), section7)).toEqual(new Array(4).fill("missing"));
  });

  test("rows as groups are read where their lengths stand in the message, else refused", () => {
    const numbers = Array.from({ length: 20 }, (_, i) => (i * i) % 17);
    const [section5, section7] = packComplex(numbers, { splitting: 0, groupLength: () => 5 });
    expect(unpacked(section5, section7)).toEqual(numbers);
    expect(unpacked(withOctets(section5, 38, 0, 0, 0, 0), section7)).toBe("packing-not-read");
  });

  test("in a message, behind a bitmap: values missing by the bitmap and by the packing", async () => {
    const message = complexMessage([1, 2, "primary", 4], 2, 3, { order: 1, missingKinds: 1 }, Uint8Array.of(0b1011_0100));
    // The message's rows run from the north.
    const { values, missing } = await decoded(message, await oneField(message));
    expect([...missing]).toEqual([1, 1, 0, 0, 1, 0]);
    expect([...values]).toEqual([0, 0, 4, 1, 0, 2]);
  });

  test("what is sound but not read is told as such", async () => {
    const message = complexMessage([1, 2, 3, 4], 2, 2, { order: 2 });
    for (const [octet, value] of [
      [22, 2],
      [23, 3],
      [23, 255],
      [48, 3],
      [49, 5],
      [20, 33],
      [37, 33],
      [47, 33],
    ] as const) {
      expect([octet, await codesOf(patched(message, 5, octet, value))]).toEqual([octet, ["packing-not-read"]]);
    }
  });

  test("what contradicts itself is told before anything is unpacked", async () => {
    const message = complexMessage([1, 2, 3, 4], 2, 2, { order: 2 });
    for (const [octet, ...octets] of [
      [12, 0x7f, 0x80, 0, 0],
      [16, 0x7f, 0xff],
      [18, 0x7f, 0xff],
      [32, 0, 0, 0, 5],
      [48, 0],
    ] as const) {
      expect([octet, await codesOf(patched(message, 5, octet, ...octets))]).toEqual([octet, ["file-lies"]]);
    }
    expect(unpacked(withOctets(packComplex([1])[0].subarray(0, 46), 1, 0, 0, 0, 46), new Uint8Array(9))).toBe("file-lies");
    expect(unpacked(withOctets(packComplex([1], { order: 1 })[0].subarray(0, 48), 1, 0, 0, 0, 48), new Uint8Array(9))).toBe("file-lies");
  });

  test("lengths that don't add up, widths beyond 32 bits, sums beyond what is exact, data cut at any byte", () => {
    const numbers = Array.from({ length: 30 }, (_, i) => (i * 37) % 101);
    for (const order of [undefined, 2] as const) {
      const [section5, section7] = packComplex(numbers, { groupLength: (g) => 3 + g, ...(order === undefined ? {} : { order }) });
      expect(unpacked(section5, section7)).toEqual(numbers);
      for (const [octet, value] of [
        [41, 4],
        [42, 2],
        [46, 31],
        [36, 40],
      ] as const) {
        expect([octet, unpacked(withOctets(section5, octet, value), section7)]).toEqual([octet, "file-lies"]);
      }
      expect(unpacked(withOctets(section5, 38, 255, 255, 255, 255), section7)).toBe("file-lies");
      for (let end = 5; end < section7.length; end++) expect(unpacked(section5, section7.subarray(0, end))).toBe("file-lies");
    }
    // One second difference of 2^31 - 1, again and again: after n values the sum is n(n - 1)/2 times as much.
    const count = 2000;
    const flood = withOctets(packComplex([0, 0, 0], { order: 2, descriptorOctets: 4 })[0], 6, 0, 0, 0, 0, 0);
    new DataView(flood.buffer).setUint32(5, count);
    new DataView(flood.buffer).setUint32(42, count);
    flood[9] = 0;
    flood[10] = 3;
    const data = Uint8Array.of(0, 0, 0, 17, 7, 0, 0, 0, 0, 0, 0, 0, 0, 0x7f, 0xff, 0xff, 0xff);
    expect(unpacked(flood, data)).toBe("file-lies");
  });

  test("twenty million values or groups out of a few bytes are refused without room being made for them", () => {
    const [section5, section7] = packComplex([1, 5, 2, 7], { groupLength: () => 2 });
    const millions = section5.slice();
    const view = new DataView(millions.buffer);
    view.setUint32(5, 20_000_000);
    const before = process.memoryUsage().arrayBuffers;
    for (const groups of [2, 20_000_000]) {
      view.setUint32(31, groups);
      expect(unpacked(millions, section7)).toBe("file-lies");
    }
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(1_000_000);
  });

  test("6000 seeded mutations: finite values of the right count or a typed refusal, never a throw", () => {
    let state = 20_260_502;
    const next = (): number => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0;
      return (state >>> 8) & 0xffff;
    };
    const numbers = Array.from(
      { length: 120 },
      (_, i): Packable => (i % 11 === 3 ? "primary" : i > 60 && i < 80 ? "secondary" : (i * i) % 97),
    );
    const present = numbers.map((one) => (typeof one === "number" ? one : 0));
    const fixtures = [
      packComplex(present, { groupLength: (g) => 2 + (g % 9) }),
      packComplex(present, { order: 1, groupLength: (g) => 2 + (g % 9) }),
      packComplex(numbers, { missingKinds: 2, groupLength: (g) => 2 + (g % 9), order: 2, decimalScale: 2 }),
    ];
    const outcomes = new Map<string, number>();
    for (let round = 0; round < 6000; round++) {
      const [section5, section7] = fixtures[round % 3]!.map((section) => section.slice()) as [Uint8Array, Uint8Array];
      for (let changes = 1 + (next() % 3); changes > 0; changes--) {
        const section = next() % 2 === 0 ? section5 : section7;
        // The count and the template stay: the message's reader holds the first against the grid, and the second is the matter here.
        section[(section === section5 ? 11 : 5) + (next() % (section.length - (section === section5 ? 11 : 5)))] = next();
      }
      const cut = next() % 8 === 0 ? section7.subarray(0, 5 + (next() % (section7.length - 5))) : section7;
      const values = unpacked(section5, cut);
      const outcome = typeof values === "string" ? values : "unpacked";
      if (typeof values === "string") expect(Object.keys(codes)).toContain(values);
      else expect(values.every((value) => value === "missing" || Number.isFinite(value))).toBe(true);
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    }
    for (const outcome of ["unpacked", "file-lies", "packing-not-read"]) expect(outcomes.get(outcome) ?? 0, outcome).toBeGreaterThan(100);
  });
});

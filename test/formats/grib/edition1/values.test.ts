/** Sections 3 and 4 of edition 1, and the message as a whole (Manual on Codes I.2, FM 92 GRIB edition 1). */
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../../../src/formats/bytes/index.ts";
import { decodeGribField, looksLikeGrib, MAX_GRIB_POINTS } from "../../../../src/formats/grib/index.ts";
import { ascii, codesOf, decoded, fieldsOf, itemsOf, joined, oneField, written } from "../sample-message.ts";
import { bitsOf, edition1Message, IBM, latLonSection, s16, secondOrderSection, u16, u24 } from "./sample-edition1.ts";

const PRESENT = Array.from({ length: 20 }, (_, k) => (k % 4 === 2 ? 0 : 1));

async function valuesOf(bytes: Uint8Array) {
  const { values, missing } = await decoded(bytes, await oneField(bytes));
  return [...values].map((value, i) => (missing[i] === 1 ? null : value));
}

async function refusalAtDecoding(bytes: Uint8Array): Promise<string | null> {
  const read = await decodeGribField(bytesFromMemory(bytes), await oneField(bytes));
  return read.ok ? null : read.issues[0]!.code;
}

/** The message with one octet of section 4 changed, counted from 1. */
function withOctet4(message: Uint8Array, octet: number, value: number): Uint8Array {
  const changed = message.slice();
  const section4 = 8 + 28 + 32;
  changed[section4 + octet - 1] = value;
  return changed;
}

describe("simple packing", () => {
  test("R + X × 2^E over 10^D, R one of IBM's numbers", async () => {
    const numbers = Array.from({ length: 20 }, (_, i) => i * 3);
    const values = await valuesOf(edition1Message({ numbers, reference: IBM.minus118625, binaryScale: 2, decimalScale: 1 }));
    expect(values).toEqual(numbers.map((number) => (-118.625 + number * 4) / 10));
    expect((await valuesOf(edition1Message({ numbers, reference: IBM.one, binaryScale: -3, decimalScale: -2 })))[7]).toBe(
      (1 + 21 / 8) * 100,
    );
  });

  test("points without a value, odd bits, and bits idle at the end", async () => {
    const numbers = Array.from({ length: 15 }, (_, i) => i * 11);
    let next = 0;
    const expected = PRESENT.map((one) => (one === 1 ? numbers[next++]! : null));
    expect(await valuesOf(edition1Message({ numbers, bits: 13, present: PRESENT }))).toEqual(expected);
  });

  test("no bits: a constant, also where it is missing in places, whatever is over", async () => {
    expect(await valuesOf(edition1Message({ numbers: [], bits: 0, reference: IBM.minus118625, decimalScale: 1 }))).toEqual(
      new Array(20).fill(-118.625),
    );
    expect(await valuesOf(edition1Message({ numbers: [], bits: 0, reference: IBM.one, present: PRESENT }))).toEqual(
      PRESENT.map((one) => (one === 1 ? 1 : null)),
    );
  });

  test("values that the flag says were whole numbers are read the same", async () => {
    const message = edition1Message();
    expect(await valuesOf(withOctet4(message, 4, 0x20))).toEqual(await valuesOf(message));
  });

  test("too few bytes for the grid's points, or far too many, are a lie; a record's padding isn't", async () => {
    const nine = latLonSection({ ni: 5, nj: 5, last: [-30.5, 13.5] });
    expect(await codesOf(edition1Message({ grid: nine }))).toEqual(["file-lies"]);
    expect(await codesOf(edition1Message({ numbers: new Array<number>(300).fill(1) }))).toEqual(["file-lies"]);
    expect(await codesOf(edition1Message({ numbers: new Array<number>(80).fill(1) }))).toEqual([]);
  });

  test("scales that give no finite numbers, and more than 32 bits", async () => {
    expect(await codesOf(edition1Message({ binaryScale: 32_000 }))).toEqual(["file-lies"]);
    expect(await codesOf(edition1Message({ decimalScale: -32_000 }))).toEqual(["file-lies"]);
    expect(await codesOf(edition1Message({ decimalScale: 32_000 }))).toEqual(["file-lies"]);
    expect(await codesOf(withOctet4(edition1Message(), 11, 33))).toEqual(["packing-not-read"]);
  });

  test("spherical harmonics and a matrix at each point by name", async () => {
    for (const [flags, name] of [
      [0x80, /spherical harmonics/],
      [0xc0, /spherical harmonics/],
      [0x10, /matrix/],
    ] as const) {
      const [item] = await itemsOf(withOctet4(edition1Message(), 4, flags));
      expect(item).toMatchObject({ issue: { code: "packing-not-read", message: expect.stringMatching(name) }, product: { number: 2 } });
    }
  });
});

describe("the bitmap", () => {
  test("too few bits, and one of the centre's own", async () => {
    expect(await codesOf(edition1Message({ present: PRESENT.slice(0, 8), numbers: [1, 2, 3, 4, 5, 6] }))).toEqual(["file-lies"]);
    const own = edition1Message({ present: PRESENT, numbers: new Array<number>(15).fill(1) });
    own[8 + 28 + 32 + 5] = 9;
    const [item] = await itemsOf(own);
    expect(item).toMatchObject({ issue: { code: "packing-not-read", message: expect.stringMatching(/number 9/) } });
  });
});

describe("second-order packing", () => {
  const form = (kind: "rowByRow" | "general" | "constantWidth", present: readonly number[] | null = null) =>
    edition1Message({ present, section4: secondOrderSection(kind, present), decimalScale: 1 });
  const scaled = (number: number): number => (-118.625 + number / 4) / 10;

  test("row by row, marked groups, one width: first-order and second-order numbers added", async () => {
    const widths = { rowByRow: [3, 0, 5, 4], general: [3, 0, 5, 4], constantWidth: [4, 4, 4, 4] };
    for (const [kind, width] of Object.entries(widths) as [keyof typeof widths, number[]][]) {
      for (const present of [null, PRESENT]) {
        let i = 0;
        const expected = Array.from({ length: 20 }, (_, k) => {
          if (present !== null && present[k] === 0) return null;
          const group = kind === "rowByRow" ? Math.floor(k / 5) : Math.floor(i / 6);
          i++;
          return scaled(100 + 37 * group + ((k * 5) % 2 ** width[group]!));
        });
        expect([kind, await valuesOf(form(kind, present))]).toEqual([kind, expected]);
      }
    }
  });

  /** ECMWF's extended form with differences: 20 numbers in groups of 6, 6 and what is left. */
  function extended(order: number, numbers: readonly number[], bias: number, flags = 0): Uint8Array {
    let rest = [...numbers];
    for (let n = 0; n < order; n++) rest = rest.map((number, i) => (i === 0 ? number : number - rest[i - 1]!));
    const stored = rest.slice(order).map((number) => number - bias);
    const lengths = [6, 6, stored.length - 12];
    const firsts = [0, 1, 2].map((group) => Math.min(...stored.slice(group * 6, group * 6 + lengths[group]!)));
    const seconds = stored.map((number, i) => [number - firsts[Math.min(2, Math.floor(i / 6))]!, 9] as const);
    const start =
      order === 0
        ? []
        : [20, ...bitsOf([...numbers.slice(0, order).map((n) => [n, 20] as const), [Math.abs(bias) + (bias < 0 ? 2 ** 19 : 0), 20]])];
    const body = [
      ...s16(0),
      ...IBM.nought,
      12,
      ...u16(0),
      0x18 | order | flags,
      ...u16(0),
      ...u16(3),
      ...u16(20),
      0,
      4,
      5,
      ...u16(0),
      ...start,
      ...bitsOf([9, 9, 9].map((width) => [width, 4])),
      ...bitsOf(lengths.map((length) => [length, 5])),
      ...bitsOf(firsts.map((first) => [first, 12])),
      ...bitsOf(seconds),
    ];
    return Uint8Array.from([...u24(4 + body.length), 0x40, ...body]);
  }

  const numbers = Array.from({ length: 20 }, (_, i) => 1000 + Math.round(60 * Math.sin(i * 0.9)));

  test("differences of first to third order, with what was taken from all of them", async () => {
    for (const [order, bias] of [
      [0, 0],
      [1, -117],
      [2, -240],
      [3, -260],
    ] as const) {
      expect([order, await valuesOf(edition1Message({ section4: extended(order, numbers, bias) }))]).toEqual([order, numbers]);
    }
  });

  test("rows that run to and fro", async () => {
    const turned = [0, 1, 2, 3].flatMap((row) => {
      const line = numbers.slice(row * 5, row * 5 + 5);
      return row % 2 === 1 ? line.reverse() : line;
    });
    const bytes = edition1Message({ section4: extended(2, turned, -240, 0x04) });
    expect(await valuesOf(bytes)).toEqual(numbers);
    expect((await oneField(bytes)).grid.scan.alternating).toBe(true);
  });

  test("groups that hold more or fewer values than there are, too many groups, lists cut short: a lie at decoding", async () => {
    expect(await refusalAtDecoding(edition1Message({ section4: extended(0, [...numbers, 1], 0) }))).toBe("file-lies");
    expect(await refusalAtDecoding(edition1Message({ section4: extended(0, numbers.slice(1), 0) }))).toBe("file-lies");
    for (const [octet, value] of [
      [11, 33],
      [11, 30],
      [17, 255],
      [18, 4],
      [21, 255],
      [22, 40],
      [23, 33],
    ] as const) {
      const message = withOctet4(edition1Message({ section4: extended(1, numbers, -117) }), octet, value);
      expect([octet, await refusalAtDecoding(message)]).toEqual([octet, "file-lies"]);
    }
    const general = form("general");
    expect(await refusalAtDecoding(withOctet4(general, 18, 3))).toBe("file-lies");
    expect(await refusalAtDecoding(withOctet4(general, 22, 33))).toBe("file-lies");
    expect(await refusalAtDecoding(withOctet4(general, 26, 0))).toBe("file-lies");
    expect(await refusalAtDecoding(withOctet4(form("rowByRow"), 18, 3))).toBe("file-lies");
  });

  test("flags that make no known form", async () => {
    for (const flags of [0x40, 0x58, 0x38, 0x08, 0x11, 0x33]) {
      expect([flags, await codesOf(withOctet4(form("general"), 14, flags))]).toEqual([flags, ["packing-not-read"]]);
    }
  });
});

describe("the message", () => {
  test("both editions in one file, with stray bytes between", async () => {
    const items = await itemsOf(joined(edition1Message(), ascii("\r\n"), written({ number: 3 }), edition1Message({ parameter: 34 })));
    expect(items.map((item) => (item.kind === "field" ? `${item.editionNumber}: ${item.number}` : item.issue.code))).toEqual([
      "1: 2",
      "stray-bytes",
      "2: 3",
      "1: 3",
    ]);
    expect(await looksLikeGrib(bytesFromMemory(edition1Message()))).toBe(true);
  });

  test("a field says where its bits and values lie, and what else there is to say", async () => {
    const numbers = new Array<number>(15).fill(7);
    const [, field] = await fieldsOf(joined(edition1Message(), edition1Message({ present: PRESENT, numbers, centre: 98, subCentre: 3 })));
    const at = edition1Message().length;
    expect(field).toMatchObject({
      editionNumber: 1,
      centre: 98,
      subCentre: 3,
      generatingProcess: 96,
      place: { messageNumber: 2, fieldNumber: 1, messageOffsetBytes: at },
      packing: { template: null, name: "edition 1 simple", valueCount: 15 },
      pointCount: 20,
      hasBitmap: true,
      bitmap: { offsetBytes: at + 8 + 28 + 32 + 6 },
      data: { offsetBytes: at + 8 + 28 + 32 + 10 + 11, lengthBytes: 15 },
    });
  });

  test("cut off anywhere it is told as cut off, and what stands before it is read", async () => {
    const message = edition1Message({ present: PRESENT, numbers: new Array<number>(15).fill(7) });
    for (let cut = 8; cut < message.length; cut++) {
      const codes = (await itemsOf(joined(message, message.subarray(0, cut)))).map((item) =>
        item.kind === "field" ? "field" : item.issue.code,
      );
      expect([cut, ...codes]).toEqual([cut, "field", "file-truncated"]);
    }
  });

  test('without its "7777", or with sections that don\'t fill it, it is refused, and the next one is found', async () => {
    const message = edition1Message({ present: PRESENT, numbers: new Array<number>(15).fill(7) });
    const broken = (at: number, value: number): Uint8Array => {
      const changed = message.slice();
      changed[at] = value;
      return changed;
    };
    const lies = [
      broken(message.length - 1, 0x38),
      broken(6, message[6]! - 2),
      broken(6, 9),
      broken(10, 27),
      broken(10, 30),
      broken(38, 31),
      broken(38, 34),
      broken(8 + 28 + 32 + 2, 5),
      broken(8 + 28 + 32 + 2, 12),
      broken(8 + 28 + 32 + 12, 20),
      broken(15, 0x80),
      broken(15, 0x40),
      broken(15, 0),
    ];
    for (const [i, bytes] of lies.entries()) {
      const items = await itemsOf(joined(bytes, edition1Message({ parameter: 34 })));
      const told = items.map((item) => (item.kind === "field" ? item.number : item.issue.code));
      // A message that is too short leaves bytes over.
      expect([i, told.filter((one) => one !== "stray-bytes")]).toEqual([i, ["file-lies", 3]]);
    }
  });

  test("a length with its top bit set is that of a message over 8 MB, told as cut off where the file is shorter", async () => {
    const message = edition1Message();
    message[4] = 0x80;
    expect(await codesOf(message)).toEqual(["file-truncated"]);
  });

  test("more points than are decoded at once are refused before anything is counted", async () => {
    const side = Math.ceil(Math.sqrt(MAX_GRIB_POINTS)) + 1;
    const grid = latLonSection({ ni: side, nj: side, first: [-40, 0], last: [40, 80], steps: [65_535, 65_535], flags: 0 });
    expect(await codesOf(edition1Message({ grid, numbers: [], bits: 0 }))).toEqual(["file-too-large"]);
    expect(await codesOf(edition1Message({ grid, present: PRESENT, numbers: [], bits: 0 }))).toEqual(["file-too-large"]);
  });
});

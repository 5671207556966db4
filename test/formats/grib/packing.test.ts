import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FieldRoom } from "../../../src/formats/grib/index.ts";
import { packedBytes, unpackScaled } from "../../../src/formats/grib/packings/unpack-bits.ts";
import { unpackRowsScaled } from "../../../src/formats/grib/packings/unpack-rows.ts";
import { codesOf, decoded, itemsOf, oneField, patched, sample, written } from "./sample-message.ts";

const PLAIN = { reference: 0, step: 1, divisor: 1 };

describe("simple packing", () => {
  test("numbers of every width from 1 to 32 bits are those that whole-number arithmetic gives", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 32 }), fc.uint8Array({ minLength: 4, maxLength: 64 }), (bits, bytes) => {
        const count = Math.floor((bytes.length * 8) / bits);
        const whole = bytes.reduce((sum, byte) => sum * 256n + BigInt(byte), 0n);
        const wanted = Array.from({ length: count }, (_, i) => {
          const below = BigInt(bytes.length * 8 - (i + 1) * bits);
          return Number((whole >> below) & ((1n << BigInt(bits)) - 1n));
        });
        const out = new Float64Array(count);
        unpackScaled({ data: bytes, firstBit: 0, bits }, PLAIN, out);
        expect([...out]).toEqual(wanted);
      }),
      { numRuns: 500 },
    );
  });

  test("rows of every width are those of the whole, the first one last where they are turned over", () => {
    const scaling = { reference: -3.5, step: 0.25, divisor: 10 };
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 32 }),
        fc.integer({ min: 1, max: 9 }),
        fc.uint8Array({ minLength: 36, maxLength: 96 }),
        (bits, columns, data) => {
          const rows = Math.floor((data.length * 8) / (bits * columns));
          const whole = new Float64Array(rows * columns);
          unpackScaled({ data, firstBit: 0, bits }, scaling, whole);
          for (const lastRowFirst of [false, true]) {
            const values = new Float64Array(rows * columns).fill(Number.NaN);
            unpackRowsScaled(data, bits, scaling, { values, columns, lastRowFirst });
            const inOrder = Array.from({ length: rows }, (_, row) => [...whole.subarray(row * columns, (row + 1) * columns)]);
            expect([...values]).toEqual((lastRowFirst ? inOrder.reverse() : inOrder).flat());
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  test("room that is decoded into again holds the later field, and nothing of what was missing before", async () => {
    const room = new FieldRoom();
    const first = room.take(4);
    first.missing[2] = 1;
    const again = room.take(4);
    expect([again === first, [...again.missing]]).toEqual([true, [0, 0, 0, 0]]);
    expect(room.take(6).values).toHaveLength(6);
  });

  test("what is written reads back to half a step, whatever the values and scales", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.double({ min: -90, max: 90, noNaN: true }), { minLength: 20, maxLength: 20 }),
        fc.integer({ min: -1, max: 5 }),
        fc.integer({ min: -3, max: 3 }),
        async (list, decimalScale, binaryScale) => {
          const message = written({ values: Float64Array.from(list), decimalScale, binaryScale });
          const { values } = await decoded(message, await oneField(message));
          const halfStep = 2 ** binaryScale / 10 ** decimalScale / 2;
          for (const [i, value] of values.entries()) expect(Math.abs(value - list[i]!)).toBeLessThanOrEqual(halfStep + 1e-12);
        },
      ),
      { numRuns: 200 },
    );
  });

  test("a field of one value takes no bits and reads back as that value", async () => {
    const message = written({ values: new Float64Array(20).fill(-3.25) });
    const field = await oneField(message);
    expect(field.data.lengthBytes).toBe(0);
    expect([...(await decoded(message, field)).values]).toEqual(new Array(20).fill(-3.25));
  });

  test("a field without any value reads back as all missing", async () => {
    const message = written({ missing: new Uint8Array(20).fill(1) });
    const field = await oneField(message);
    expect(field.packing.valueCount).toBe(0);
    expect([...(await decoded(message, field)).missing]).toEqual(new Array(20).fill(1));
  });

  test("the worked sum of the formula: Y = (R + X 2^E) / 10^D", async () => {
    // R = 100, E = -1, D = 1, X = 0..19 in 5 bits: Y = (100 + X / 2) / 10. Regulation 92.9.4, Manual on Codes I.2.
    const message = written({ values: Float64Array.from({ length: 20 }, (_, i) => (100 + i / 2) / 10), decimalScale: 1, binaryScale: -1 });
    const field = await oneField(message);
    const view = new DataView(field.packing.section.buffer);
    expect([view.getFloat32(11), view.getUint16(15), view.getUint16(17), view.getUint8(19)]).toEqual([100, 0x8001, 1, 5]);
    expect([...(await decoded(message, field)).values]).toEqual(Array.from({ length: 20 }, (_, i) => (100 + i / 2) / 10));
  });

  test("scalings without finite numbers, and more than 32 bits, are refused before anything is read", async () => {
    expect(await codesOf(patched(written(), 5, 12, 0x7f, 0x80, 0, 0))).toEqual(["file-lies"]);
    expect(await codesOf(patched(written(), 5, 16, 0x7f, 0xff))).toEqual(["file-lies"]);
    expect(await codesOf(patched(written(), 5, 18, 0x7f, 0xff))).toEqual(["file-lies"]);
    expect(await codesOf(patched(written(), 5, 20, 33))).toEqual(["packing-not-read"]);
  });

  test("other packings are told by name", async () => {
    const [lone] = await itemsOf(patched(written(), 5, 10, 0, 200));
    expect(lone).toMatchObject({ issue: { code: "packing-not-read", message: "Packing 5.200 (run length) is not read." } });
    expect(await codesOf(patched(written(), 5, 10, 0, 77))).toEqual(["packing-not-read"]);
  });

  test("values that can't be written throw, quoting them", () => {
    expect(() => written({ values: new Float64Array(20).fill(Number.NaN) })).toThrow("NaN");
    expect(() => written({ values: Float64Array.from({ length: 20 }, (_, i) => i * 1e9), decimalScale: 3 })).toThrow("bits");
    expect(() => written({ values: sample().values.slice(1) })).toThrow("19 values");
  });

  test("asking for more bits than the data holds throws", () => {
    expect(() => unpackScaled({ data: new Uint8Array(packedBytes(9, 12) - 1), firstBit: 0, bits: 12 }, PLAIN, new Float64Array(9))).toThrow(
      "12 bits",
    );
  });
});

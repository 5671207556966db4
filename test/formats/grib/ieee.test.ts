import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { decodeGribField } from "../../../src/formats/grib/index.ts";
import { OctetWriter } from "../../../src/formats/grib/octet-writer.ts";
import { assembled, codesOf, decoded, itemsOf, oneField, patched, sectionsOf, written } from "./sample-message.ts";

/** A message of one row whose values are packed as IEEE numbers of `bits` bits (templates 5.4 and 7.4). */
function ieeeMessage(values: readonly number[], bits: 32 | 64): Uint8Array {
  const grid = { rows: 1, columns: values.length, southDeg: -31, westDeg: 12, latitudeStepDeg: 0, longitudeStepDeg: 0.5 };
  const sections = new Map(sectionsOf(written({ grid, values: new Float64Array(values.length) })));
  sections.set(
    5,
    new OctetWriter()
      .unsigned(values.length, 4)
      .unsigned(4, 2)
      .unsigned(bits === 32 ? 1 : 2, 1)
      .section(5),
  );
  const data = new DataView(new ArrayBuffer((values.length * bits) / 8));
  for (const [i, value] of values.entries()) {
    if (bits === 32) data.setFloat32(i * 4, value);
    else data.setFloat64(i * 8, value);
  }
  sections.set(7, new OctetWriter().section(7, new Uint8Array(data.buffer)));
  return assembled([...sections.values()]);
}

describe("IEEE floating-point packing", () => {
  test("octets set by hand: single precision (IEEE 754) of 1, -2, 0.15625 and its largest number", async () => {
    const message = ieeeMessage([0, 0, 0, 0], 32);
    const data = [0x3f, 0x80, 0, 0, 0xc0, 0, 0, 0, 0x3e, 0x20, 0, 0, 0x7f, 0x7f, 0xff, 0xff];
    const set = patched(message, 7, 6, ...data);
    expect([...(await decoded(set, await oneField(set))).values]).toEqual([1, -2, 0.15625, (2 - 2 ** -23) * 2 ** 127]);
  });

  test("any finite numbers read back to the last bit; NaN is missing", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.double({ noDefaultInfinity: true }), { minLength: 1, maxLength: 30 }),
        fc.constantFrom(32 as const, 64 as const),
        async (list, bits) => {
          const values = bits === 64 ? list : list.map((value) => Math.fround(value / 2 ** 900));
          const message = ieeeMessage(values, bits);
          const read = await decoded(message, await oneField(message));
          expect([...read.values]).toEqual(values.map((value) => (Number.isNaN(value) ? 0 : value)));
          expect([...read.missing]).toEqual(values.map((value) => (Number.isNaN(value) ? 1 : 0)));
        },
      ),
      { numRuns: 300 },
    );
  });

  test("an infinite value is refused, saying which", async () => {
    for (const bits of [32, 64] as const) {
      for (const infinite of [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
        const message = ieeeMessage([1, Number.NaN, infinite], bits);
        const read = await decodeGribField(bytesFromMemory(message), await oneField(message));
        expect(read.ok ? [] : read.issues.map(({ code, message: said }) => [code, said])).toEqual([
          ["file-lies", `Value 3 of the field is ${infinite}.`],
        ]);
      }
    }
  });

  test("128 bits are refused by name, other precisions by number, and too few bytes or octets as a lie", async () => {
    const message = ieeeMessage([1, 2, 3], 64);
    const [item] = await itemsOf(patched(message, 5, 12, 3));
    expect(item?.kind === "oddity" && [item.issue.code, item.issue.message]).toEqual([
      "packing-not-read",
      "IEEE floating-point numbers of 128 bits are not read; 32 and 64 bits are.",
    ]);
    expect(await codesOf(patched(message, 5, 12, 0))).toEqual(["packing-not-read"]);
    const sections = new Map(sectionsOf(message));
    sections.set(5, new OctetWriter().unsigned(3, 4).unsigned(4, 2).section(5));
    expect(await codesOf(assembled([...sections.values()]))).toEqual(["file-lies"]);
    const single = new Map(sectionsOf(ieeeMessage([1, 2, 3], 32)));
    single.set(5, sectionsOf(message).get(5)!);
    expect(await codesOf(assembled([...single.values()]))).toEqual(["file-lies"]);
  });
});

import { describe, expect, test } from "vitest";
import { unpackScaled } from "../../../src/formats/grib/packings/unpack-bits.ts";
import { decoded, holes, oneField, placeOf, SCANS, sample, sectionsOf, written } from "./sample-message.ts";

describe("the order of points", () => {
  for (const { octet, scan } of SCANS) {
    test(`scanning mode ${octet}: points stand in the message as WMO flag table 3.4 says`, () => {
      const message = written({ scan });
      expect(sectionsOf(message).get(3)![71]).toBe(octet);
      const section5 = sectionsOf(message).get(5)!;
      const view = new DataView(section5.buffer, section5.byteOffset);
      const packed = new Float64Array(20);
      const data = sectionsOf(message).get(7)!.slice(5);
      const numbers = { data: Uint8Array.from([...data, 0, 0, 0, 0]), firstBit: 0, bits: section5[19]! };
      unpackScaled(numbers, { reference: view.getFloat32(11), step: 1, divisor: 100 }, packed);
      const { values } = sample();
      expect([...packed]).toEqual(Array.from(packed, (_, k) => values[placeOf(k, 4, 5, octet)]));
    });

    for (const bitmap of [false, true]) {
      test(`scanning mode ${octet}${bitmap ? " with a bitmap" : ""} reads back from south to north and west to east`, async () => {
        const missing = bitmap ? holes(20) : null;
        const message = written({ scan, missing });
        const field = await oneField(message);
        expect(field.grid).toMatchObject({
          southDeg: -31,
          westDeg: 12.5,
          latitudeStepDeg: 0.5,
          longitudeStepDeg: 0.25,
          rows: 4,
          columns: 5,
        });
        const read = await decoded(message, field);
        const wanted = Array.from(sample().values, (value, i) => (missing?.[i] ? 0 : value));
        expect([...read.values]).toEqual(wanted);
        expect([...read.missing]).toEqual([...(missing ?? new Uint8Array(20))]);
      });
    }
  }
});

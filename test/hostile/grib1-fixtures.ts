/** One small file of edition 1 of each packing and grid that is read, by the tests' own writer of it. */
import {
  type Edition1Sample,
  edition1Message,
  IBM,
  lambertSection,
  mercatorSection,
  polarSection,
  rotatedSection,
  secondOrderSection,
} from "../formats/grib/edition1/sample-edition1.ts";
import { joined, RUN_AT } from "../formats/grib/sample-message.ts";
import type { Fixture } from "./fixture.ts";

const HOUR = 3600;
const present = Array.from({ length: 20 }, (_, k) => (k % 3 === 1 ? 0 : 1));
const some = Array.from({ length: 13 }, (_, i) => i * 3);
const all = Array.from({ length: 20 }, (_, i) => i * 5);
const scaled = { decimalScale: 1, bits: 11, reference: IBM.one } as const;
/** ECMWF's local section: member 4 of 51. */
const local = [1, 1, 11, 4, 11, 0x30, 0x30, 0x30, 0x31, 4, 51, 0];

/** Both components of the wind at 6 and 9 h. */
const winds = (sample: Edition1Sample): Uint8Array =>
  joined(...[6, 9].flatMap((hour) => [33, 34].map((parameter) => edition1Message({ parameter, time: [1, hour, 0, 0], ...sample }))));

const FILES: Readonly<Record<string, readonly [Uint8Array, Partial<Fixture["crop"]>]>> = {
  simple: [winds({ ...scaled, numbers: all }), {}],
  "simple, bitmap": [winds({ ...scaled, present, numbers: some }), {}],
  constant: [winds({ bits: 0, numbers: all, reference: IBM.one }), {}],
  ...Object.fromEntries(
    (["rowByRow", "general", "constantWidth"] as const).flatMap((form) => [
      [`second order, ${form}`, [winds({ section4: secondOrderSection(form, null), decimalScale: 1 }), {}]],
      [`second order, ${form}, bitmap`, [winds({ present, section4: secondOrderSection(form, present), decimalScale: 1 }), {}]],
    ]),
  ),
  rotated: [winds({ ...scaled, numbers: all, grid: rotatedSection() }), { southDeg: 25, northDeg: 29, westDeg: -175, eastDeg: 180 }],
  Mercator: [
    winds({ ...scaled, numbers: all, grid: mercatorSection() }),
    { southDeg: 10.1, northDeg: 10.4, westDeg: -59.8, eastDeg: -59.5 },
  ],
  "polar stereographic": [
    winds({ ...scaled, numbers: all, grid: polarSection({ flags: 0x88 }) }),
    { southDeg: 60.4, northDeg: 60.9, westDeg: -19, eastDeg: -17 },
  ],
  Lambert: [
    winds({ ...scaled, numbers: all, grid: lambertSection({ flags: 0x88 }) }),
    { southDeg: 50.2, northDeg: 50.5, westDeg: -9.5, eastDeg: -9 },
  ],
  "a member": [
    joined(...[165, 166].map((parameter) => edition1Message({ centre: 98, tableVersion: 128, parameter, level: [1, 0, 0], local }))),
    {},
  ],
  "a gust over an interval": [
    joined(...[6, 9].map((hour) => edition1Message({ parameter: 180, centre: 7, time: [1, hour - 3, hour, 2], numbers: all, bits: 7 }))),
    {},
  ],
  waves: [
    joined(
      ...[100, 101, 103].map((parameter) =>
        edition1Message({ parameter, level: [102, 0, 0], numbers: all.map((one) => one / 5), bits: 5 }),
      ),
    ),
    {},
  ],
  "a current": [
    joined(...[49, 50].map((parameter) => edition1Message({ parameter, level: [160, 0, 0], numbers: all, ...scaled, decimalScale: 2 }))),
    {},
  ],
};

/** Every file of edition 1 that is mutated. */
export function grib1Fixtures(): readonly Fixture[] {
  const crop = { southDeg: -32, northDeg: -31.6, westDeg: 12.8, eastDeg: 13.1, from: RUN_AT + 6 * HOUR, until: RUN_AT + 9 * HOUR };
  return Object.entries(FILES).map(([name, [bytes, more]]) => ({
    name: `GRIB1, ${name}`,
    structure: "grib1",
    bytes,
    crop: { ...crop, ...more },
  }));
}

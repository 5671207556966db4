import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../../../src/formats/bytes/index.ts";
import { decodeGribField } from "../../../../src/formats/grib/index.ts";
import { assembled, codesOf, decoded, oneField, sectionsOf, written } from "../sample-message.ts";
import { HEIGHT, IMAGE, LOSSLESS, WIDTH } from "./style-streams.ts";

const grid = { rows: HEIGHT, columns: WIDTH, southDeg: -31, westDeg: 12.5, latitudeStepDeg: 0.5, longitudeStepDeg: 0.25 };
const stream = LOSSLESS[0]!.bytes;

interface Packed {
  readonly template?: number;
  readonly reference?: number;
  readonly binaryScale?: number;
  readonly decimalScale?: number;
  readonly bits?: number;
  readonly image?: Uint8Array;
  readonly octets?: number;
}

/** A message packed by template 5.40, whose rows run from the south as the image's do from the top. */
function packed({ template = 40, reference = 0, binaryScale = 0, decimalScale = 0, bits = 12, image = stream, octets = 23 }: Packed) {
  const values = Float64Array.from({ length: WIDTH * HEIGHT }, (_, i) => i % 7);
  const sections = new Map(sectionsOf(written({ grid, values, scan: { jPositive: true } })));
  const section5 = new Uint8Array(octets);
  const view = new DataView(section5.buffer);
  view.setUint32(0, octets);
  view.setUint8(4, 5);
  view.setUint32(5, WIDTH * HEIGHT);
  view.setUint16(9, template);
  view.setFloat32(11, reference);
  view.setUint16(15, binaryScale < 0 ? 0x8000 - binaryScale : binaryScale);
  view.setUint16(17, decimalScale < 0 ? 0x8000 - decimalScale : decimalScale);
  view.setUint8(19, bits);
  if (octets > 22) view.setUint8(22, 255);
  sections.set(5, section5);
  const section7 = new Uint8Array(5 + image.length);
  new DataView(section7.buffer).setUint32(0, section7.length);
  section7[4] = 7;
  section7.set(image, 5);
  sections.set(7, section7);
  return assembled([...sections.values()]);
}

async function valuesOf(message: Uint8Array): Promise<readonly number[]> {
  return [...(await decoded(message, await oneField(message))).values];
}

/** The code that decoding gives. */
async function refusalOf(message: Uint8Array): Promise<string | null> {
  const values = await decodeGribField(bytesFromMemory(message), await oneField(message));
  return values.ok ? null : values.issues[0]!.code;
}

describe("JPEG 2000 packing", () => {
  test("Y = (R + X 2^E) / 10^D with X the image's samples (regulation 92.9.4, Manual on Codes I.2)", async () => {
    const x = [...IMAGE];
    expect(await valuesOf(packed({ reference: -50, binaryScale: -3, decimalScale: 1 }))).toEqual(x.map((one) => (-50 + one / 8) / 10));
    expect(await valuesOf(packed({ reference: 2, binaryScale: 1, decimalScale: -1 }))).toEqual(x.map((one) => (2 + one * 2) * 10));
  });

  test("the number the template had before it was adopted is read too", async () => {
    const message = packed({ template: 40_000 });
    expect((await oneField(message)).packing.template).toBe(40_000);
    expect(await valuesOf(message)).toEqual([...IMAGE]);
  });

  test("no bits a value, or no image: one value", async () => {
    const constant = new Array<number>(WIDTH * HEIGHT).fill(2.5);
    expect(await valuesOf(packed({ bits: 0, reference: 2.5, image: new Uint8Array(0) }))).toEqual(constant);
    expect(await valuesOf(packed({ bits: 0, reference: 2.5 }))).toEqual(constant);
    expect(await valuesOf(packed({ bits: 12, reference: 25, decimalScale: 1, image: new Uint8Array(0) }))).toEqual(constant);
  });

  test("samples that need more bits than section 5 names are refused; a wider image alone isn't", async () => {
    expect(await refusalOf(packed({ bits: 8 }))).toBe("file-lies");
    const signed = stream.slice();
    signed[42] = 0x80 | 15;
    expect(await valuesOf(packed({ bits: 12, image: signed }))).toEqual([...IMAGE.map((sample) => sample - 2048)]);
  });

  test("damaged or foreign bytes in section 7 are refused when the field is decoded", async () => {
    expect(await refusalOf(packed({ image: stream.subarray(0, 400) }))).toBe("file-lies");
    expect(await refusalOf(packed({ image: new Uint8Array(1000) }))).toBe("file-lies");
    expect(await refusalOf(packed({ image: stream.subarray(0, 1) }))).toBe("file-lies");
  });

  test("scalings without finite numbers, too many bits and a short section 5 are refused before anything is read", async () => {
    expect(await codesOf(packed({ binaryScale: 0x7fff }))).toEqual(["file-lies"]);
    expect(await codesOf(packed({ reference: Number.POSITIVE_INFINITY }))).toEqual(["file-lies"]);
    expect(await codesOf(packed({ decimalScale: 0x7fff }))).toEqual(["file-lies"]);
    expect(await codesOf(packed({ bits: 33 }))).toEqual(["packing-not-read"]);
    expect(await codesOf(packed({ octets: 22 }))).toEqual(["file-lies"]);
  });
});

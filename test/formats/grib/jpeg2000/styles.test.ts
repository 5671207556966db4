import { describe, expect, test } from "vitest";
import { decodeJpeg2000 } from "../../../../src/formats/grib/packings/jpeg2000/decode-image.ts";
import { decodedByOpenJpeg } from "./codec-openjpeg.ts";
import { HEIGHT, IMAGE, LOSSLESS, LOSSY, SAMPLE_BITS, WIDTH } from "./style-streams.ts";

const POINTS = WIDTH * HEIGHT;

function samplesOf(bytes: Uint8Array): Int32Array {
  const image = decodeJpeg2000(bytes, POINTS, "here");
  if (!image.ok) throw new Error(JSON.stringify(image.issues));
  const { width, height, sampleBits, isSigned } = image.value;
  expect([width, height, sampleBits, isSigned]).toEqual([WIDTH, HEIGHT, SAMPLE_BITS, false]);
  return image.value.samples;
}

describe("streams of every style", () => {
  for (const { name, options, bytes } of LOSSLESS) {
    test(`${name} (${options}): the image to the last bit`, () => expect(samplesOf(bytes)).toEqual(IMAGE));
  }

  test("a reversible stream with its last bits left out: to the last bit what OpenJPEG makes of it", () => {
    const [stream] = LOSSY.filter(({ name }) => name.startsWith("reversible"));
    const samples = samplesOf(stream!.bytes);
    expect(samples).toEqual(decodedByOpenJpeg(stream!.bytes));
    expect(samples).not.toEqual(IMAGE);
  });

  test("irreversible streams: within 1 of what OpenJPEG makes of them", () => {
    for (const { name, bytes } of LOSSY.filter((one) => one.name.startsWith("irreversible"))) {
      const theirs = decodedByOpenJpeg(bytes);
      const off = samplesOf(bytes).map((sample, i) => Math.abs(sample - theirs[i]!));
      expect([name, Math.max(...off) <= 1, off.filter((one) => one > 0).length < 0.03 * POINTS]).toEqual([name, true, true]);
    }
  });

  test("each stream but the last two bytes, its EOC marker, is all there; cut anywhere before, it is refused", () => {
    for (const { name, bytes } of [...LOSSLESS, ...LOSSY]) {
      if (name === "JP2 wrapper") continue;
      expect([name, decodeJpeg2000(bytes.subarray(0, -2), POINTS, "here").ok]).toEqual([name, true]);
      for (let length = 0; length < bytes.length - 2; length += 1 + (length >> 6)) {
        const cut = decodeJpeg2000(bytes.subarray(0, length), POINTS, "here");
        expect([name, length, cut.ok ? null : cut.issues[0]!.code]).toEqual([name, length, "file-lies"]);
      }
    }
  });

  test("a tile-part that tells no length goes on to the EOC marker, whatever stands behind", () => {
    const plain = LOSSLESS[0]!.bytes.slice();
    const sot = plain.findIndex((byte, i) => byte === 0xff && plain[i + 1] === 0x90);
    plain.fill(0, sot + 6, sot + 10);
    expect(samplesOf(Uint8Array.from([...plain, 0, 0, 0]))).toEqual(IMAGE);
    const cut = decodeJpeg2000(plain.subarray(0, -9), POINTS, "here");
    expect(cut.ok ? null : cut.issues[0]!.code).toBe("file-lies");
  });

  test("samples said to have 28, 29 or 31 bits, and signed ones: the image about the middle of their range, which the coding leaves out", () => {
    const { bytes } = LOSSLESS[0]!;
    for (const [depth, middle] of [
      [27, 2 ** 27],
      [28, 2 ** 28],
      [30, 2 ** 30],
      [0x80 | 11, 0],
      [0x80 | 30, 0],
    ] as const) {
      const deep = bytes.slice();
      // Ssiz: the number of bits less one, and whether they have a sign (ISO/IEC 15444-1 table A.11).
      deep[42] = depth;
      const image = decodeJpeg2000(deep, POINTS, "here");
      if (!image.ok) throw new Error(JSON.stringify(image.issues));
      expect([depth, image.value.samples]).toEqual([depth, IMAGE.map((sample) => sample - 2 ** 11 + middle)]);
    }
    const deeper = bytes.slice();
    deeper[42] = 31;
    const image = decodeJpeg2000(deeper, POINTS, "here");
    expect(image.ok ? null : image.issues[0]!.code).toBe("packing-not-read");
  });

  test("a stream that was cut and closed again lacks packets that it tells of, and is refused", () => {
    const { bytes } = LOSSLESS[0]!;
    const sot = bytes.findIndex((byte, i) => byte === 0xff && bytes[i + 1] === 0x90);
    for (let gone = 1; gone < 700; gone += 23) {
      const closed = Uint8Array.from([...bytes.subarray(0, -2 - gone), 0xff, 0xd9]);
      new DataView(closed.buffer).setUint32(sot + 6, closed.length - 2 - sot);
      const image = decodeJpeg2000(closed, POINTS, "here");
      expect([gone, image.ok ? null : image.issues[0]!.code]).toEqual([gone, "file-lies"]);
    }
  });

  test("bytes left over behind the last packet are refused", () => {
    const { bytes } = LOSSLESS[0]!;
    const sot = bytes.findIndex((byte, i) => byte === 0xff && bytes[i + 1] === 0x90);
    const longer = Uint8Array.from([...bytes.subarray(0, -2), 0, 0xff, 0xd9]);
    new DataView(longer.buffer).setUint32(sot + 6, longer.length - 2 - sot);
    const image = decodeJpeg2000(longer, POINTS, "here");
    expect(image.ok ? null : image.issues[0]!.code).toBe("file-lies");
  });

  test("damage that segmentation symbols tell of is refused", () => {
    const { bytes } = LOSSLESS.find(({ name }) => name === "segmentation symbols")!;
    let refused = 0;
    for (let at = bytes.length - 300; at < bytes.length - 100; at += 10) {
      const damaged = bytes.slice();
      damaged[at]! ^= 0x10;
      const image = decodeJpeg2000(damaged, POINTS, "here");
      if (!image.ok) refused++;
    }
    expect(refused).toBeGreaterThan(15);
  });
});

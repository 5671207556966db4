import { describe, expect, test } from "vitest";
import { decodeJpeg2000 } from "../../../../src/formats/grib/packings/jpeg2000/decode-image.ts";
import { seeded } from "./seeded.ts";
import { HEIGHT, LOSSLESS, LOSSY, WIDTH } from "./style-streams.ts";

const POINTS = WIDTH * HEIGHT;
const plain = LOSSLESS[0]!.bytes;

/** Where a marker stands; the first of its kind. */
const markerAt = (bytes: Uint8Array, marker: number): number => bytes.findIndex((byte, i) => byte === 0xff && bytes[i + 1] === marker);
const SIZ = 0x51;
const COD = 0x52;
const QCD = 0x5c;

/** The plain stream with bytes of a marker segment changed, counted from its marker. */
function patched(marker: number, offset: number, ...bytes: readonly number[]): Uint8Array {
  const copy = plain.slice();
  copy.set(bytes, markerAt(copy, marker) + offset);
  return copy;
}

/** The plain stream with a marker segment put in front of its tile. */
function withSegment(...segment: readonly number[]): Uint8Array {
  const sot = markerAt(plain, 0x90);
  return Uint8Array.from([...plain.subarray(0, sot), ...segment, ...plain.subarray(sot)]);
}

function codeOf(bytes: Uint8Array, points = POINTS): string | null {
  const image = decodeJpeg2000(bytes, points, "here");
  return image.ok ? null : image.issues[0]!.code;
}

const four = (value: number): readonly number[] => [value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];

function mutated(next: () => number, bytes: Uint8Array): Uint8Array {
  let copy: Uint8Array = bytes.slice();
  for (let changes = 1 + (next() % 3); changes > 0; changes--) {
    // Half of the changes fall on the headers.
    const at = next() % (next() % 2 === 0 ? Math.min(120, copy.length) : copy.length);
    const kind = next() % 8;
    if (kind < 3) copy[at] = next();
    else if (kind < 5) copy[at]! ^= 1 << (next() % 8);
    else if (kind === 5 && at + 4 <= copy.length) {
      const telling = [0, 1, 0xffff_ffff, 0x7fff_ffff, 0x8000_0000, 20_000_000, copy.length, next()];
      copy.set(four(telling[next() % telling.length]!), at);
    } else if (kind === 6)
      copy = Uint8Array.from([...copy.subarray(0, at), ...copy.subarray(Math.min(copy.length, at + 1 + (next() % 9)))]);
    else copy = Uint8Array.from([...copy.subarray(0, at), ...copy.subarray(Math.max(0, at - (next() % 20)))]);
  }
  return copy;
}

describe("hostile streams", () => {
  test("3000 seeded mutations of streams of every style: an image of its samples or a typed refusal, never a throw, none slow", () => {
    const next = seeded(20_260_502);
    const streams = [...LOSSLESS, ...LOSSY];
    const outcomes = new Map<string, number>();
    let slowestMs = 0;
    for (let round = 0; round < 3000; round++) {
      const bytes = mutated(next, streams[round % streams.length]!.bytes);
      const startMs = performance.now();
      const image = decodeJpeg2000(bytes, POINTS, "here");
      slowestMs = Math.max(slowestMs, performance.now() - startMs);
      const outcome = image.ok ? "decoded" : image.issues[0]!.code;
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
      if (!image.ok) continue;
      const { samples, sampleBits, isSigned, least, most, width, height } = image.value;
      expect([samples.length, width * height]).toEqual([POINTS, POINTS]);
      const floor = isSigned ? -(2 ** (sampleBits - 1)) : 0;
      expect(least >= floor && most < floor + 2 ** sampleBits).toBe(true);
    }
    expect(slowestMs).toBeLessThan(2000);
    for (const outcome of ["decoded", "file-lies", "packing-not-read"]) expect(outcomes.get(outcome) ?? 0, outcome).toBeGreaterThan(50);
  });

  test("an image that hasn't as many samples as there are values", () => {
    expect([POINTS - 1, POINTS + 1, 1, 20_000_000].map((points) => codeOf(plain, points))).toEqual(new Array(4).fill("file-lies"));
    // 2^32 - 1 each way; and as many samples as told, but in more lines than the packets are for.
    expect(codeOf(patched(SIZ, 6, ...four(0xffff_ffff), ...four(0xffff_ffff)))).toBe("file-lies");
    expect(codeOf(patched(SIZ, 6, ...four(1), ...four(POINTS)))).toBe("file-lies");
  });

  test("tiles of one sample each, and more than 65,535 of them", () => {
    expect(codeOf(patched(SIZ, 22, ...four(1), ...four(1)))).toBe("file-lies");
    const vast = patched(SIZ, 6, ...four(4000), ...four(5000));
    vast.set([...four(1), ...four(1)], markerAt(vast, SIZ) + 22);
    expect(codeOf(vast, 20_000_000)).toBe("file-lies");
    expect(codeOf(patched(SIZ, 22, ...four(0), ...four(0)))).toBe("file-lies");
  });

  /** A stream of one tile of the given size, not halved, in precincts of 2 to the `exponent` each way, with the given packets. */
  function unhalved(width: number, height: number, exponent: number, packets: readonly number[]): Uint8Array {
    const size = patched(SIZ, 6, ...four(width), ...four(height)).slice(0, markerAt(plain, COD));
    size.set([...four(width), ...four(height)], markerAt(size, SIZ) + 22);
    const cod = [0xff, 0x52, 0, 13, 1, 0, 0, 1, 0, 0, 4, 4, 0, 1, exponent * 17];
    // 2 guard bits and an exponent of 30: 31 bit-planes.
    const qcd = [0xff, 0x5c, 0, 4, 0x40, 30 << 3];
    const sot = [0xff, 0x90, 0, 10, 0, 0, ...four(14 + packets.length), 0, 1, 0xff, 0x93];
    return Uint8Array.from([...size, ...cod, ...qcd, ...sot, ...packets, 0xff, 0xd9]);
  }

  test("a small stream for 20 million samples, 65,535 layers, precincts of one sample: refused for want of packets", () => {
    const startMs = performance.now();
    expect(codeOf(unhalved(4000, 5000, 0, []), 20_000_000)).toBe("file-lies");
    expect(codeOf(patched(COD, 6, 0xff, 0xff))).toBe("file-lies");
    expect(performance.now() - startMs).toBeLessThan(1000);
  });

  test("precincts of one sample, all of whose packets are there and empty: more than is read", () => {
    expect(codeOf(unhalved(50, 100, 0, new Array<number>(5000).fill(0)), 5000)).toBe("packing-not-read");
    expect(codeOf(unhalved(10, 20, 0, new Array<number>(200).fill(0)), 200)).toBeNull();
  });

  test("every pass of every bit-plane told for a million samples in four bytes a code-block: done in seconds", () => {
    // A packet: not empty; included; no zero plane; 91 passes (1 1 11 11111 and 54 in 7 bits); no longer length; 0 in 9 bits.
    const packet = [0b1111_1111, 0b0111_1011, 0b0110_0000, 0b0000_0000];
    const startMs = performance.now();
    const code = codeOf(unhalved(1024, 1024, 6, new Array(256).fill(packet).flat()), 1024 * 1024);
    expect(code).toBeNull();
    expect(performance.now() - startMs).toBeLessThan(5000);
  });

  test("what is sound but not read says so", () => {
    const unread = [
      // Two components, a sample for every second place.
      patched(SIZ, 38, 0, 2),
      patched(SIZ, 41, 2),
      // High-throughput code-blocks, capabilities of part 15, a region of interest, changing orders, packet headers apart.
      patched(COD, 12, 0x40),
      withSegment(0xff, 0x50, 0, 6, 0, 2, 0, 0),
      withSegment(0xff, 0x5e, 0, 5, 0, 0, 4),
      withSegment(0xff, 0x5f, 0, 9, 0, 0, 0, 1, 3, 1, 0),
      withSegment(0xff, 0x60, 0, 4, 0, 0),
      // A step for what the reversible wavelet keeps whole.
      patched(QCD, 4, 0x41),
    ];
    expect(unread.map((bytes) => codeOf(bytes))).toEqual(unread.map(() => "packing-not-read"));
  });

  test("what can't be so says so", () => {
    const untrue = [
      new Uint8Array(0),
      Uint8Array.of(0xff),
      Uint8Array.of(0xff, 0x4f, 0xff, 0xd9),
      plain.slice(2),
      // Progression 5, no layer, 33 halvings, code-blocks of 2^11 and of 2^13 samples, wavelet 2.
      patched(COD, 5, 5),
      patched(COD, 6, 0, 0),
      patched(COD, 9, 33),
      patched(COD, 10, 9, 0),
      patched(COD, 10, 5, 8),
      patched(COD, 13, 2),
      // Steps told for fewer bands than there are, and of a style that is none.
      patched(COD, 9, 5),
      patched(QCD, 4, 0x43),
      // A tile that isn't, and a marker between its tile and the end.
      patched(0x90, 5, 1),
      Uint8Array.from([...plain.subarray(0, -2), 0xff, 0x64, 0, 2, 0xff, 0xd9]),
      // No tile at all.
      Uint8Array.from([...plain.subarray(0, markerAt(plain, 0x90)), 0xff, 0xd9]),
    ];
    expect(untrue.map((bytes) => codeOf(bytes))).toEqual(untrue.map(() => "file-lies"));
  });

  test("a JP2 wrapper without a codestream, or with boxes that have no room", () => {
    const wrapped = LOSSLESS.find(({ name }) => name === "JP2 wrapper")!.bytes;
    const box = wrapped.findIndex(
      (_, i) => wrapped[i] === 0x6a && wrapped[i + 1] === 0x70 && wrapped[i + 2] === 0x32 && wrapped[i + 3] === 0x63,
    );
    const renamed = wrapped.slice();
    renamed[box] = 0x78;
    expect(codeOf(renamed)).toBe("file-lies");
    const long = wrapped.slice();
    long.set(four(0xffff_fff0), box - 4);
    expect(codeOf(long)).toBe("file-lies");
    const tight = wrapped.slice();
    tight.set(four(3), box - 4);
    expect(codeOf(tight)).toBe("file-lies");
    // A length of 0 goes on to the end.
    const open = wrapped.slice();
    open.set(four(0), box - 4);
    expect(codeOf(open)).toBeNull();
  });
});

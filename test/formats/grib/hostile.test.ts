import { describe, expect, test } from "vitest";
import { codes } from "../../../src/core/answers/index.ts";
import { type ByteSource, bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { axesOf, decodeGribField, readGribFields } from "../../../src/formats/grib/index.ts";
import { ascii, assembled, holes, hoursOn, joined, sectionsOf, written } from "./sample-message.ts";

/** mulberry32: a small generator of 32-bit numbers, so that every run sees the same mutations. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (t ^ (t >>> 14)) >>> 0;
  };
}

const east = written({ missing: holes(20) });
const north = written({ number: 3 });
const gust = written({
  number: 22,
  interval: { validUntil: hoursOn(9), processCode: 2 },
  ensemble: { kindCode: 3, perturbationNumber: 4, forecastsInEnsemble: 10 },
  scan: { jConsecutive: true, alternating: true },
});
const paired = assembled([
  ...sectionsOf(east).values(),
  ...[4, 5].map((n) => sectionsOf(north).get(n)!),
  Uint8Array.from([0, 0, 0, 6, 6, 255]),
  sectionsOf(north).get(7)!,
]);
const fixture = joined(paired, ascii("\n"), gust);

/** One to four changes: a byte, four bytes to a telling number, a piece cut out, a piece doubled, the end cut off. */
function mutated(next: () => number): Uint8Array {
  let bytes: Uint8Array = fixture.slice();
  for (let changes = 1 + (next() % 4); changes > 0; changes--) {
    const at = next() % bytes.length;
    const kind = next() % 8;
    if (kind < 4) bytes[at] = next();
    else if (kind === 4 && at + 4 <= bytes.length) {
      const telling = [0, 1, 0xffff_ffff, 0x7fff_ffff, 0x8000_0000, 20_000_000, bytes.length, next()];
      new DataView(bytes.buffer).setUint32(at, telling[next() % telling.length]!);
    } else if (kind === 5) bytes = joined(bytes.subarray(0, at), bytes.subarray(at + 1 + (next() % 16)));
    else if (kind === 6) bytes = joined(bytes.subarray(0, at), bytes.subarray(Math.max(0, at - (next() % 64))));
    else if (kind === 7) bytes = bytes.slice(0, Math.max(1, at));
  }
  return bytes;
}

/** Counts what is asked for; a source of `n` bytes that is asked for many times its size is being read in circles. */
function counting(bytes: Uint8Array): { source: ByteSource; asked: () => number } {
  const inner = bytesFromMemory(bytes);
  let asked = 0;
  return {
    asked: () => asked,
    source: {
      sizeBytes: inner.sizeBytes,
      read: (offset, length) => {
        asked += length;
        return inner.read(offset, length);
      },
    },
  };
}

describe("hostile bytes", () => {
  test("4000 seeded mutations of a small file: fields or typed oddities, finite values, never a throw, never read in circles", async () => {
    const next = seeded(20_260_501);
    const outcomes = new Map<string, number>();
    const count = (what: string) => outcomes.set(what, (outcomes.get(what) ?? 0) + 1);
    for (let round = 0; round < 4000; round++) {
      const bytes = mutated(next);
      const { source, asked } = counting(bytes);
      for await (const item of readGribFields(source)) {
        if (item.kind === "oddity") {
          expect(Object.keys(codes)).toContain(item.issue.code);
          expect(item.issue.message).not.toBe("");
          count(item.issue.code);
          continue;
        }
        const decoded = await decodeGribField(source, item);
        count(decoded.ok ? "decoded" : decoded.issues[0]!.code);
        if (!decoded.ok) continue;
        expect(decoded.value.values.length).toBe(item.pointCount);
        expect(decoded.value.values.every(Number.isFinite)).toBe(true);
        if (item.grid.kind !== "latLon") continue;
        const axes = axesOf(item.grid);
        expect(axes.latitudesDeg.every((deg, i) => Math.abs(deg) <= 90.000001 && (i === 0 || deg > axes.latitudesDeg[i - 1]!))).toBe(true);
        expect(axes.longitudesDeg.every((deg, i) => deg >= -180 && deg < 541 && (i === 0 || deg > axes.longitudesDeg[i - 1]!))).toBe(true);
      }
      expect(asked()).toBeLessThanOrEqual(bytes.length * 30);
    }
    // The mutations reach every kind of outcome that they can; else the test would show nothing.
    const reached = [
      "decoded",
      "file-lies",
      "file-truncated",
      "stray-bytes",
      "packing-not-read",
      "grid-not-read",
      "product-not-read",
      "edition-not-read",
    ];
    for (const what of reached) expect(outcomes.get(what) ?? 0, what).toBeGreaterThan(5);
  });
});

import { describe, expect, test } from "vitest";
import { codes } from "../../../../src/core/answers/index.ts";
import { type ByteSource, bytesFromMemory } from "../../../../src/formats/bytes/index.ts";
import { axesOf, decodeGribField, mapAxesOf, nodesOf, readGribFields } from "../../../../src/formats/grib/index.ts";
import { ascii, joined } from "../sample-message.ts";
import {
  edition1Message,
  IBM,
  lambertSection,
  mercatorSection,
  polarSection,
  rotatedSection,
  secondOrderSection,
} from "./sample-edition1.ts";

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

const present = Array.from({ length: 20 }, (_, k) => (k % 3 === 1 ? 0 : 1));
const numbers = Array.from({ length: 13 }, (_, i) => i * 5);
const member = [1, 1, 11, 4, 11, 0x30, 0x30, 0x30, 0x31, 7, 51, 0];
const fixtures = [
  edition1Message({ present, numbers, bits: 11, reference: IBM.minus118625 }),
  edition1Message({ centre: 98, tableVersion: 228, parameter: 28, level: [1, 0, 0], time: [1, 69, 72, 2], local: member }),
  edition1Message({ centre: 7, parameter: 180, local: [1, 2, 3, 1, 0], time: [11, 3, 4, 3] }),
  ...(["rowByRow", "general", "constantWidth"] as const).map((form) =>
    edition1Message({ present, section4: secondOrderSection(form, present) }),
  ),
  ...[rotatedSection(), mercatorSection(), polarSection({ scan: 0xa0 }), lambertSection()].map((grid) => edition1Message({ grid })),
];

/** Two of the messages with one to four changes: a byte, three bytes to a telling number, a piece cut out, a piece doubled, the end cut off. */
function mutated(next: () => number): Uint8Array {
  let bytes: Uint8Array = joined(fixtures[next() % fixtures.length]!, ascii("\n"), fixtures[next() % fixtures.length]!);
  for (let changes = 1 + (next() % 4); changes > 0; changes--) {
    const at = next() % bytes.length;
    const kind = next() % 8;
    if (kind < 4) bytes[at] = next();
    else if (kind === 4 && at + 3 <= bytes.length) {
      const telling = [0, 1, 0xff_ffff, 0x7f_ffff, 0x80_0000, 0x80_0001, bytes.length, next() & 0xff_ffff];
      const value = telling[next() % telling.length]!;
      bytes.set([value >>> 16, (value >>> 8) & 255, value & 255], at);
    } else if (kind === 5) bytes = joined(bytes.subarray(0, at), bytes.subarray(at + 1 + (next() % 16)));
    else if (kind === 6) bytes = joined(bytes.subarray(0, at), bytes.subarray(Math.max(0, at - (next() % 64))));
    else if (kind === 7) bytes = bytes.slice(0, Math.max(1, at));
  }
  return bytes;
}

/** Most mutations break the structure, and few get past it: these change one or two octets and leave it whole. */
function twisted(next: () => number): Uint8Array {
  const bytes = fixtures[next() % fixtures.length]!.slice();
  for (let changes = 1 + (next() % 2); changes > 0; changes--) bytes[8 + (next() % (bytes.length - 12))] = next() % 3 === 0 ? 255 : next();
  return bytes;
}

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

const outcomes = new Map<string, number>();

async function holdUp(bytes: Uint8Array): Promise<void> {
  const count = (what: string) => outcomes.set(what, (outcomes.get(what) ?? 0) + 1);
  const { source, asked } = counting(bytes);
  for await (const item of readGribFields(source)) {
    if (item.kind === "oddity") {
      expect(Object.keys(codes)).toContain(item.issue.code);
      expect(item.issue.message).not.toBe("");
      count(item.issue.code);
      continue;
    }
    expect(item.validFrom).toBeLessThanOrEqual(item.validAt);
    expect([item.level.value ?? 0, item.secondLevel?.value ?? 0].every(Number.isFinite)).toBe(true);
    const decoded = await decodeGribField(source, item);
    count(decoded.ok ? `decoded ${item.packing.name}` : decoded.issues[0]!.code);
    if (decoded.ok) {
      expect(decoded.value.values.length).toBe(item.pointCount);
      expect(decoded.value.values.every(Number.isFinite)).toBe(true);
    }
    const { grid } = item;
    count(grid.kind === "latLon" ? grid.kind : grid.projection.kind);
    if (grid.kind === "latLon") {
      const axes = axesOf(grid);
      expect(axes.latitudesDeg.every((deg, i) => Math.abs(deg) <= 90.000001 && (i === 0 || deg > axes.latitudesDeg[i - 1]!))).toBe(true);
      expect(axes.longitudesDeg.every((deg, i) => deg >= -180 && deg < 541 && (i === 0 || deg > axes.longitudesDeg[i - 1]!))).toBe(true);
    } else {
      const { xs, ys } = mapAxesOf(grid);
      expect([xs, ys].every((axis) => axis.every((at, i) => Number.isFinite(at) && (i === 0 || at > axis[i - 1]!)))).toBe(true);
      if (item.pointCount > 10_000) continue;
      const nodes = await nodesOf(grid);
      expect(nodes.latitudesDeg.every((deg) => Math.abs(deg) <= 90)).toBe(true);
    }
  }
  expect(asked()).toBeLessThanOrEqual(bytes.length * 60);
}

describe("hostile bytes of edition 1", () => {
  test("6000 seeded mutations: fields or typed oddities, finite values, never a throw, never read in circles", async () => {
    const next = seeded(20_260_601);
    for (let round = 0; round < 3000; round++) await holdUp(mutated(next));
    for (let round = 0; round < 3000; round++) await holdUp(twisted(next));
    // The mutations reach every kind of outcome that they can; else the test would show nothing.
    const reached = [
      "decoded edition 1 simple",
      "decoded edition 1 second-order",
      "latLon",
      "rotatedPole",
      "mercator",
      "polarStereographic",
      "lambertConformal",
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

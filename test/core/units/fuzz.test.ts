import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Parsed } from "../../../src/core/answers/index.ts";
import {
  COMPASS_POINTS,
  parseAngle,
  parseBearing,
  parseBurn,
  parseDuration,
  parseLength,
  parseNumber,
  parsePosition,
  parseSea,
  parseShare,
  parseSpeed,
  parseSpeedProduct,
  parseVolume,
  parseWindRange,
} from "../../../src/core/units/index.ts";

const readers: readonly ((text: string, path: string) => Parsed<unknown>)[] = [
  parseAngle,
  parseBearing,
  parseBurn,
  parseDuration,
  parseLength,
  parseNumber,
  parsePosition,
  parseSea,
  parseShare,
  parseSpeed,
  parseSpeedProduct,
  parseVolume,
  parseWindRange,
];

/** Any string, and strings of the pieces that quantities are made of. */
const pieces =
  "0 1 9 12 16 47 90 360 0.5 999999999 . , - – + ' \" ° % @ G / : h min s m ft in kn m/s gal US imp L /h N S E W NE SSW by VRB calm to gusting ½ T".split(
    " ",
  );
const texts = fc.oneof(
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.array(fc.constantFrom(...pieces, " ", "\u00a0"), { maxLength: 14 }).map((parts) => parts.join("")),
  fc.array(fc.constantFrom(...pieces), { maxLength: 9 }).map((parts) => parts.join(" ")),
);

const numbersIn = (value: unknown): number[] =>
  typeof value === "number" ? [value] : typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];

describe("any text at all", () => {
  it("gives finite numbers or issues with a path, a message and a cure; nothing throws", () => {
    fc.assert(
      fc.property(texts, (text) => {
        for (const read of readers) {
          const parsed = read(text, "somewhere");
          if (parsed.ok) for (const number of numbersIn(parsed.value)) expect(Number.isFinite(number), `${read.name} ${text}`).toBe(true);
          else {
            expect(parsed.issues.length).toBeGreaterThan(0);
            for (const one of parsed.issues)
              expect([one.path, one.message === "", one.whatToDo === ""]).toEqual(["somewhere", false, false]);
          }
        }
      }),
      { numRuns: 3000 },
    );
  });

  it("is read or refused at once however long it is", () => {
    const began = performance.now();
    for (const text of ["9".repeat(1e5), "1 ".repeat(5e4), "N ".repeat(5e4), "- ".repeat(5e4), "G".repeat(1e5), `${" ".repeat(1e5)}x`]) {
      for (const read of readers) expect(read(text, "x").ok).toBe(false);
    }
    expect(performance.now() - began).toBeLessThan(2000);
  });
});

const decimals = (max: number) => fc.integer({ min: 0, max: max * 100 }).map((hundredths) => hundredths / 100);

describe("what is written out is read back", () => {
  it("feet and inches", () => {
    fc.assert(
      fc.property(fc.nat(200), fc.nat(11), (feet, inches) => {
        for (const text of [`${feet}'${inches}"`, `${feet} ft ${inches} in`, `${feet}′ ${inches}″`]) {
          const parsed = parseLength(text, "x");
          expect(parsed.ok && parsed.value).toBeCloseTo((feet * 12 + inches) * 0.0254, 9);
        }
      }),
    );
  });

  it("speeds, durations, volumes", () => {
    fc.assert(
      fc.property(decimals(90), fc.nat(99), fc.nat(59), (number, hours, minutes) => {
        const speed = parseSpeed(`${number} kn`, "x");
        expect(speed.ok && speed.value).toBeCloseTo((number * 1852) / 3600, 10);
        const volume = parseVolume(`${number} US gal`, "x");
        expect(volume.ok && volume.value).toBeCloseTo(number * 231 * 0.0254 ** 3 * 1000, 9);
        for (const text of [`${hours} h ${minutes}`, `${hours}:${String(minutes).padStart(2, "0")}`, `${hours}h${minutes}min`]) {
          expect(parseDuration(text, "x")).toEqual({ ok: true, value: hours * 3600 + minutes * 60 });
        }
      }),
    );
  });

  it("positions in degrees and minutes, in degrees, minutes and seconds, and in decimals", () => {
    const seconds = (degrees: number) => fc.integer({ min: -degrees * 3600, max: degrees * 3600 - 1 });
    fc.assert(
      fc.property(seconds(90), seconds(180), (latitude, longitude) => {
        const part = (total: number, letters: string, form: (d: number, m: number, s: number) => string) => {
          const size = Math.abs(total);
          return `${form(Math.floor(size / 3600), Math.floor(size / 60) % 60, size % 60)}${letters[total < 0 ? 1 : 0]!}`;
        };
        const both = (form: (d: number, m: number, s: number) => string) => `${part(latitude, "NS", form)} ${part(longitude, "EW", form)}`;
        const written = [
          both((d, m, s) => `${d}°${m}'${s}"`),
          both((d, m, s) => `${d} ${m} ${s} `),
          both((d, m, s) => `${d} ${(m + s / 60).toFixed(8).replace(/^60.*/, "59.99999999")}`),
          `${(latitude / 3600).toFixed(9)}, ${(longitude / 3600).toFixed(9)}`,
        ];
        for (const text of written) {
          const parsed = parsePosition(text, "x");
          expect(parsed.ok, text).toBe(true);
          if (!parsed.ok) continue;
          expect(parsed.value.latitudeDeg).toBeCloseTo(latitude / 3600, 7);
          expect(parsed.value.longitudeDeg).toBeCloseTo(longitude / 3600, 7);
        }
      }),
    );
  });

  it("winds: the arc holds both ends, is under half a circle, and low ≤ high ≤ gust", () => {
    const point = fc.integer({ min: 0, max: 31 });
    fc.assert(
      fc.property(point, point, fc.nat(40), fc.nat(20), fc.nat(20), (first, last, low, more, gustMore) => {
        fc.pre(Math.abs(first - last) !== 16);
        const text = `${COMPASS_POINTS[first]!}-${COMPASS_POINTS[last]!} ${low}-${low + more} G${low + more + gustMore}`;
        const parsed = parseWindRange(text, "x");
        expect(parsed.ok, text).toBe(true);
        if (!parsed.ok) return;
        const { fromDegTrue, arcDeg, speedLowMps, speedHighMps, gustMps } = parsed.value;
        expect(arcDeg).toBeLessThan(180);
        const ends = [fromDegTrue, (fromDegTrue + arcDeg) % 360].toSorted((a, b) => a - b);
        expect(ends).toEqual([first * 11.25, last * 11.25].toSorted((a, b) => a - b));
        expect(speedLowMps).toBeLessThanOrEqual(speedHighMps);
        expect(speedHighMps).toBeLessThanOrEqual(gustMps ?? -1);
      }),
    );
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  lightAt,
  lightOver,
  moonIlluminatedShare,
  moonPlace,
  positionOf,
  sunAltitudeDeg,
  sunPlace,
} from "../../../src/core/earth/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";

const utc = (iso: string) => epochSeconds(Date.parse(iso) / 1000);

/** The sun's altitude by the low-precision formulas of the Astronomical Almanac (page C5; 0.01° from 1950 to 2050), without parallax. */
function almanacSunAltitudeDeg(at: number, latitudeDeg: number, longitudeDeg: number): number {
  const rad = Math.PI / 180;
  const n = at / 86400 + 2440587.5 - 2451545;
  const mean = 280.46 + 0.9856474 * n;
  const anomaly = (357.528 + 0.9856003 * n) * rad;
  const lambda = (mean + 1.915 * Math.sin(anomaly) + 0.02 * Math.sin(2 * anomaly)) * rad;
  const obliquity = (23.439 - 0.0000004 * n) * rad;
  const rightAscension = Math.atan2(Math.cos(obliquity) * Math.sin(lambda), Math.cos(lambda));
  const declination = Math.asin(Math.sin(obliquity) * Math.sin(lambda));
  const hourAngle = (280.46061837 + 360.98564736629 * n + longitudeDeg) * rad - rightAscension;
  const lat = latitudeDeg * rad;
  return Math.asin(Math.sin(lat) * Math.sin(declination) + Math.cos(lat) * Math.cos(declination) * Math.cos(hourAngle)) / rad;
}

describe("the sun's height", () => {
  it("agrees with the almanac's low-precision formulas within their 0.01° and the sun's parallax, anywhere, 2020 to 2040", () => {
    fc.assert(
      fc.property(
        fc.double({ min: utc("2020-01-01T00:00:00Z"), max: utc("2040-01-01T00:00:00Z"), noNaN: true }),
        fc.double({ min: -89, max: 89, noNaN: true }),
        fc.double({ min: -180, max: 179.9, noNaN: true }),
        (at, lat, lon) => {
          const altitudeDeg = sunAltitudeDeg(epochSeconds(at), positionOf(lat, lon));
          expect(Math.abs(altitudeDeg - almanacSunAltitudeDeg(at, lat, lon))).toBeLessThan(0.0125 + 8.8 / 3600);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("stands in the south at noon in the north, and east of it before", () => {
    const place = positionOf(50, 0);
    expect(Math.abs(sunPlace(utc("2027-03-21T12:07:00Z"), place).azimuthDegTrue - 180)).toBeLessThan(1);
    expect(sunPlace(utc("2027-03-21T09:00:00Z"), place).azimuthDegTrue).toBeLessThan(140);
  });

  it("is quick enough to be asked hundreds of times", () => {
    const place = positionOf(50, 0);
    const began = performance.now();
    for (let i = 0; i < 2000; i++) sunAltitudeDeg(epochSeconds(1.8e9 + 60 * i), place);
    // Some 10 µs each; the bound leaves room for a busy machine.
    expect((performance.now() - began) / 2000).toBeLessThan(0.1);
  });
});

describe("the light", () => {
  it("passes from night to day through both twilights at the times that are told", () => {
    const place = positionOf(-17.6, -149.6);
    const from = utc("2027-04-08T10:00:00Z");
    const { sun, civil, nautical } = lightOver({ from, until: epochSeconds(from + 86400) }, place);
    if (sun.kind !== "crosses" || civil.kind !== "crosses" || nautical.kind !== "crosses") throw new Error("no dawn");
    const around = (at: number | null): string[] => [-30, 30].map((seconds) => lightAt(epochSeconds((at ?? 0) + seconds), place));
    expect(around(nautical.upAt)).toEqual(["night", "nautical"]);
    expect(around(civil.upAt)).toEqual(["nautical", "civil"]);
    expect(around(sun.upAt)).toEqual(["civil", "day"]);
    expect(around(sun.downAt)).toEqual(["day", "civil"]);
    expect(around(civil.downAt)).toEqual(["civil", "nautical"]);
    expect(around(nautical.downAt)).toEqual(["nautical", "night"]);
  });

  it("tells every crossing of a long interval in order", () => {
    const from = utc("2027-04-08T00:00:00Z");
    const { sun } = lightOver({ from, until: epochSeconds(from + 5 * 86400) }, positionOf(40, 0));
    if (sun.kind !== "crosses") throw new Error(sun.kind);
    expect(sun.crossings.map((one) => one.going)).toEqual(Array.from({ length: 10 }, (_, i) => (i % 2 === 0 ? "up" : "down")));
    expect(sun.upAt).toBe(sun.crossings[0]?.at);
    expect(() => lightOver({ from, until: from }, positionOf(40, 0))).toThrow(/interval/);
  });
});

describe("the moon", () => {
  // A total eclipse of the moon was greatest at 2025-03-14T06:59Z, one of the sun at 2024-04-08T18:17Z (NASA's eclipse lists).
  it("is full in its eclipse and new in the sun's", () => {
    expect(moonIlluminatedShare(utc("2025-03-14T06:59:00Z"))).toBeGreaterThan(0.999);
    expect(moonIlluminatedShare(utc("2024-04-08T18:17:00Z"))).toBeLessThan(0.001);
    const place = positionOf(25, -104);
    const moon = moonPlace(utc("2024-04-08T18:17:00Z"), place);
    expect(Math.abs(moon.altitudeDeg - sunAltitudeDeg(utc("2024-04-08T18:17:00Z"), place))).toBeLessThan(0.3);
  });
});

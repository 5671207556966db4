import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import { moonPhases, springsAndNeaps, tideForm } from "../../../../src/core/water/index.ts";
import { curveOf, madeStation } from "./made-station.ts";

const HOUR = 3600;
const utc = (iso: string) => epochSeconds(Date.parse(iso) / 1000);

describe("phases of the moon", () => {
  // Instants that almanacs print for August 2026 (from memory: the new moon of a total eclipse of the sun, the full moon of a partial one of the moon).
  it("August 2026: new on the 12th at 1737, full on the 28th at 0418 UTC, within two minutes", () => {
    const phases = moonPhases(utc("2026-08-01T00:00Z"), utc("2026-09-01T00:00Z"));
    expect(phases.map(({ phase }) => phase)).toEqual(["last quarter", "new", "first quarter", "full"]);
    expect(Math.abs((phases[1]?.at ?? 0) - utc("2026-08-12T17:37Z"))).toBeLessThan(120);
    expect(Math.abs((phases[3]?.at ?? 0) - utc("2026-08-28T04:18Z"))).toBeLessThan(120);
  });
});

describe("springs and neaps", () => {
  const [from, until] = [utc("2027-03-01T00:00Z"), utc("2027-06-01T00:00Z")];

  // The age of the tide: 0.984 (g of S2 − g of M2) hours (Doodson and Warburg, Admiralty Manual of Tides; common practice).
  it.each([0, 36, 60])("come after each phase of the moon by the age of the tide, S2 %i° behind M2", (behindDeg) => {
    const curve = curveOf(madeStation({ M2: [1.5, 10], S2: [0.5, 10 + behindDeg] }, 2));
    const found = springsAndNeaps(curve, from, until) ?? [];
    expect(found.length).toBe(moonPhases(from, until).length);
    const later = found.map(({ at, moon }) => (at - moon.at) / HOUR);
    const mean = later.reduce((sum, hours) => sum + hours, 0) / later.length;
    // Single ones are found to half a day, since ranges come four a day and the moon's motion is uneven.
    expect(Math.abs(mean - 0.984 * behindDeg)).toBeLessThan(4);
    for (const { kind, rangeMetres, moon } of found) {
      expect(kind).toBe(moon.phase === "new" || moon.phase === "full" ? "springs" : "neaps");
      // f of M2 is 0.97 to 0.98 that spring.
      expect(Math.abs(rangeMetres - (kind === "springs" ? 3.93 : 1.93))).toBeLessThan(0.08);
    }
  });

  it("are told of no tide that is mainly diurnal, and mean ranges by M2 and S2", () => {
    const diurnal = madeStation({ K1: [0.5, 10], O1: [0.4, 20], M2: [0.2, 5], S2: [0.05, 9] });
    expect(springsAndNeaps(curveOf(diurnal), from, until)).toBeNull();
    expect(tideForm(diurnal)?.formNumber).toBeCloseTo(3.6, 9);
    expect(tideForm(madeStation({ M2: [1.5, 0], S2: [0.5, 0], K1: [0.1, 0] }))).toEqual({
      formNumber: 0.05,
      meanSpringRangeMetres: 4,
      meanNeapRangeMetres: 2,
    });
    expect(tideForm(madeStation({ K1: [0.4, 0] }))).toBeNull();
  });
});

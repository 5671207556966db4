import { describe, expect, it } from "vitest";
import { lookSquare, type SquareLook, squareDepartures } from "../../../src/core/passage/index.ts";
import { turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { boxLane, lanedCrossing } from "./lanes-waters.ts";
import { HOUR, KN } from "./waters.ts";

const look =
  (off: (hours: number) => number | null) =>
  (departAt: number): SquareLook | null => {
    const offSquareDeg = off(departAt / HOUR);
    return offSquareDeg === null ? null : { departAt, headingDegTrue: 90 + offSquareDeg, arrivalAt: departAt + HOUR, offSquareDeg };
  };
const hourly = Array.from({ length: 25 }, (_, i) => i * HOUR);
const hoursOf = (at: number): number => at / HOUR;

describe("from which departure one heading is square", () => {
  it("is found between the hours where the lean changes side, to a second", () => {
    const found = squareDepartures(
      look((h) => 4 * (h - 7.3712)),
      hourly,
    );
    expect(Math.abs((found.squarest?.departAt ?? 0) - 7.3712 * HOUR)).toBeLessThan(1.5);
    expect(Math.abs(found.squarest?.offSquareDeg ?? 90)).toBeLessThan(0.002);
    expect(found.spells).toHaveLength(1);
    // Within 10° for 2.5 h to either side.
    expect(Math.abs((found.spells[0]?.from ?? 0) - (7.3712 - 2.5) * HOUR)).toBeLessThan(2);
    expect(Math.abs((found.spells[0]?.until ?? 0) - (7.3712 + 2.5) * HOUR)).toBeLessThan(2);
  });

  it("is found where the lean comes nearest without changing side", () => {
    const found = squareDepartures(
      look((h) => 3 + 2 * (h - 11.62) ** 2),
      hourly,
    );
    expect(Math.abs((found.squarest?.departAt ?? 0) - 11.62 * HOUR)).toBeLessThan(30);
    expect(found.squarest?.offSquareDeg).toBeCloseTo(3, 4);
    expect(Math.abs((found.spells[0]?.until ?? 0) - (11.62 + Math.sqrt(3.5)) * HOUR)).toBeLessThan(2);
  });

  it("is found in a spell that lies between two hours", () => {
    const found = squareDepartures(
      look((h) => 80 * (h - 5.5)),
      hourly,
    );
    expect(found.spells).toHaveLength(1);
    expect(hoursOf(found.spells[0]?.from ?? 0)).toBeCloseTo(5.375, 3);
    expect(hoursOf(found.spells[0]?.until ?? 0)).toBeCloseTo(5.625, 3);
  });

  it("may come more than once, and not at all", () => {
    const twice = squareDepartures(
      look((h) => 40 * Math.sin((2 * Math.PI * h) / 12)),
      hourly,
    );
    expect(twice.spells).toHaveLength(5);
    const never = squareDepartures(
      look((h) => 25 + Math.cos(h)),
      hourly,
    );
    expect(never.spells).toEqual([]);
    expect(never.squarest?.offSquareDeg).toBeCloseTo(24, 4);
  });

  it("passes over departures that have no answer", () => {
    const found = squareDepartures(
      look((h) => (h < 6 ? null : 4 * (h - 3))),
      hourly,
    );
    expect(found.spells).toEqual([]);
    expect(hoursOf(found.squarest?.departAt ?? 0)).toBeLessThan(6.5);
    expect(
      squareDepartures(
        look(() => null),
        hourly,
      ),
    ).toEqual({ toleranceDeg: 10, spells: [], squarest: null });
    expect(
      squareDepartures(
        look(() => 1),
        [],
      ),
    ).toEqual({ toleranceDeg: 10, spells: [], squarest: null });
  });

  it("in a uniform stream that never turns is always or never the same", () => {
    const lanes = [boxLane("lane", 0, [8, 12])];
    const at = (rateKn: number) =>
      squareDepartures((departAt) => lookSquare(lanedCrossing(uniformCurrent(0, rateKn * KN), [24, 0], lanes), departAt), hourly);
    expect(at(0.5).spells).toMatchObject([{ from: 0, until: 24 * HOUR }]);
    expect(at(2).spells).toEqual([]);
    // asin(2/5) off square.
    expect(Math.abs(at(2).squarest?.offSquareDeg ?? 0)).toBeCloseTo((Math.asin(2 / 5) * 180) / Math.PI, 6);
  });

  it("in a tide that carries her as far back as out is when both halves are even", () => {
    const tide = turningTide({ rateMps: 2 * KN, periodSeconds: 12.42 * HOUR, epochAt: 0 });
    const crossing = lanedCrossing(tide, [24.84, 0], [boxLane("lane", 0, [8, 12])]);
    const found = squareDepartures((departAt) => lookSquare(crossing, departAt), hourly);
    // At 5 knots the crossing takes 4.968 h: slack at 6.21 h in its middle, so that she leaves at 6.21 − 2.484 = 3.726 h.
    expect(found.spells.some((spell) => Math.abs(hoursOf(spell.squarest.departAt) - 3.726) < 0.002)).toBe(true);
  });
});

import { describe, expect, it } from "vitest";
import { sunAltitudeDeg } from "../../../src/core/earth/index.ts";
import { needSpans, needsTogether } from "../../../src/core/places/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";

const WHERE = { latitudeDeg: 40, longitudeDeg: -30 };
const DAY = 1_780_531_200;
const HOUR = 3600;
const within = { from: DAY, until: DAY + 24 * HOUR };

describe("light", () => {
  it("begins and ends when the sun is at its height, to a second", () => {
    const { open } = needSpans({ kind: "light", sunAboveDeg: -6 }, within, WHERE);
    expect(open).toHaveLength(1);
    for (const at of [open[0]?.from, open[0]?.until]) {
      // The sun climbs no faster than a degree in four minutes.
      expect(Math.abs(sunAltitudeDeg(epochSeconds(at as number), WHERE) + 6)).toBeLessThan(2 / 240);
    }
  });

  it("is all day, or never, far north", () => {
    const north = { latitudeDeg: 80, longitudeDeg: -30 };
    expect(needSpans({ kind: "light", sunAboveDeg: 0 }, within, north).open).toEqual([within]);
    expect(needSpans({ kind: "light", sunAboveDeg: 40 }, within, north).open).toEqual([]);
  });
});

describe("water over a sill", () => {
  // 0.5 m charted, 2.0 m wanted: 1.5 m of tide. Hourly 0.5, 1.0, 2.0, 2.0, 1.0 m: from half past the second hour to half past the fourth.
  const heights = [0.5, 1, 2, 2, 1].map((height, k) => ({ at: DAY + k * HOUR, heightAboveChartDatumMetres: height }));
  const need = { kind: "depth" as const, depthMetres: 0.5, neededMetres: 2, heights };

  it("is enough between the instants at which straight lines cross what is wanted", () => {
    const { open, maybe } = needSpans(need, within, WHERE);
    expect(open).toEqual([{ from: DAY + 1.5 * HOUR, until: DAY + 3.5 * HOUR }]);
    // After the last height nothing is known.
    expect(maybe).toEqual([
      { from: DAY + 1.5 * HOUR, until: DAY + 3.5 * HOUR },
      { from: DAY + 4 * HOUR, until: within.until },
    ]);
  });

  it("is not known between heights that stand too far apart", () => {
    const gap = { ...need, heights: heights.filter((_, k) => k !== 2) };
    const { open, maybe } = needSpans(gap, within, WHERE);
    expect(open).toEqual([{ from: DAY + 3 * HOUR, until: DAY + 3.5 * HOUR }]);
    expect(maybe[0]).toEqual({ from: DAY + HOUR, until: DAY + 3.5 * HOUR });
  });
});

describe("needs together", () => {
  const rules = (fromMinutes: number, untilMinutes: number) => ({
    zone: "UTC",
    rules: [{ weekdays: [1, 2, 3, 4, 5, 6, 7] as const, season: null, opens: { kind: "hours" as const, fromMinutes, untilMinutes } }],
    holidays: [],
    onHolidays: [],
  });

  it("must all be met, and restricted hours shut at their beginning and open at their end", () => {
    const needs = [
      { kind: "clock" as const, rules: rules(360, 1200) },
      { kind: "notDuring" as const, rules: rules(420, 540) },
    ];
    expect(needsTogether(needs, within, WHERE).open).toEqual([
      { from: DAY + 6 * HOUR, until: DAY + 7 * HOUR - 1 },
      { from: DAY + 9 * HOUR, until: DAY + 20 * HOUR },
    ]);
  });
});

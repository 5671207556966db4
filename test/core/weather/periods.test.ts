import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { COVERED, NO_PLACE, NO_TIME } from "../../../src/core/fields/index.ts";
import { epochSeconds, wrap360Deg } from "../../../src/core/units/index.ts";
import {
  firstWindThatCovers,
  gridWind,
  middleOf,
  periodWind,
  VARIABLE_FROM_ARC_DEG,
  WIND_SLOTS,
  type WindEnd,
  type WindPeriod,
  widestWind,
} from "../../../src/core/weather/index.ts";
import { HOUR, KN, plane, readWind, windAt, windGrid } from "./readings.ts";

/** `[from hour, until hour, from°, arc°, low kn, high kn, gust kn]`. */
const period = ([from, until, fromDegTrue, arcDeg, low, high, gust]: readonly [
  number,
  number,
  number,
  number,
  number,
  number,
  number | null,
]): WindPeriod => ({
  from: epochSeconds(from * HOUR),
  until: epochSeconds(until * HOUR),
  fromDegTrue,
  arcDeg,
  speedLowMps: low * KN,
  speedHighMps: high * KN,
  gustMps: gust === null ? null : gust * KN,
});
const letter = (...periods: readonly Parameters<typeof period>[0][]) => periodWind("the letter", 99, periods.map(period), 1.3);
const end = (low: number, high: number, fromDeg: number, arcDeg: number) => ({
  low: expect.closeTo(low * KN, 9),
  high: expect.closeTo(high * KN, 9),
  fromDeg: expect.closeTo(fromDeg, 9),
  arcDeg: expect.closeTo(arcDeg, 9),
});

describe("wind from periods", () => {
  const source = letter([6, 12, 45, 0, 12, 16, 20], [12, 18, 45, 45, 10, 15, null], [21, 24, 0, 360, 0, 8, null]);

  it("keeps the whole of every range, for the worse end to be taken; a missing gust is the stated factor and flagged", () => {
    expect(windAt(source, 7 * HOUR)).toEqual({ ends: [end(12, 16, 45, 0)], gust: expect.closeTo(20 * KN, 9), assumed: false, source: 0 });
    expect(windAt(source, 13 * HOUR)).toEqual({
      ends: [end(10, 15, 45, 45)],
      gust: expect.closeTo(1.3 * 15 * KN, 9),
      assumed: true,
      source: 0,
    });
    expect(windAt(source, 22 * HOUR).ends).toEqual([end(0, 8, 0, 360)]);
  });

  it("holds from each start until just before each end; the last end itself is included, gaps are not covered", () => {
    const sampler = source.onPlane(plane, 0);
    expect(windAt(source, 6 * HOUR).ends[0]!.arcDeg).toBe(0);
    expect(windAt(source, 12 * HOUR - 1e-3).ends[0]!.arcDeg).toBe(0);
    expect(windAt(source, 12 * HOUR).ends[0]!.arcDeg).toBe(45);
    for (const hour of [6 - 1e-6, 18, 19, 21 - 1e-6, 24 + 1e-6, Number.NaN]) expect(readWind(sampler, hour * HOUR)).toBe(NO_TIME);
    expect(windAt(source, 24 * HOUR).ends[0]!.arcDeg).toBe(360);
    expect(source).toMatchObject({ name: "the letter", issuedAt: 99, memberCount: 1, covers: { from: 6 * HOUR, until: 24 * HOUR } });
  });

  it("jumps at starts and ends, each told once, those at the edge not", () => {
    const sampler = source.onPlane(plane, 0);
    expect(sampler.breaksWithin(0, 30 * HOUR)).toEqual([6, 12, 18, 21, 24].map((h) => h * HOUR));
    expect(sampler.breaksWithin(6 * HOUR, 18 * HOUR)).toEqual([12 * HOUR]);
  });

  it("is the same all over the area and for every member", () => {
    expect(readWind(source.onPlane(plane, 5), 7 * HOUR, 1e9, -1e9)).toEqual(windAt(source, 7 * HOUR));
  });

  it("a calm has the whole circle", () => {
    expect(windAt(letter([0, 6, 90, 0, 0, 0, null]), HOUR)).toEqual({
      ends: [{ low: 0, high: 0, fromDeg: 0, arcDeg: 360 }],
      gust: 0,
      assumed: true,
      source: 0,
    });
  });

  it("a gust typed below the wind's own top is taken as that top", () => {
    expect(windAt(letter([0, 6, 90, 0, 10, 20, 15]), HOUR)).toMatchObject({ gust: expect.closeTo(20 * KN, 9), assumed: false });
  });

  it("the boat is run with the middle of both ranges", () => {
    const out = new Float64Array(WIND_SLOTS);
    letter([0, 6, 340, 60, 10, 16, null]).onPlane(plane, 0).readInto(out, 0, 0, 0);
    expect(middleOf(out)).toEqual({ speedMps: expect.closeTo(13 * KN, 9), fromDegTrue: expect.closeTo(10, 9) });
  });

  it("the boat is run with no direction in a calm and where the wind may come from half the circle or more", () => {
    const out = new Float64Array(WIND_SLOTS);
    const fromOf = (arcDeg: number, knots: number) => {
      letter([0, 6, 90, arcDeg, knots, knots, null]).onPlane(plane, 0).readInto(out, 0, 0, 0);
      return middleOf(out);
    };
    expect(VARIABLE_FROM_ARC_DEG).toBe(180);
    expect(fromOf(360, 8)).toEqual({ speedMps: 8 * KN, fromDegTrue: null });
    expect(fromOf(180, 8).fromDegTrue).toBeNull();
    expect(fromOf(179, 8).fromDegTrue).toBeCloseTo(179.5, 9);
    expect(fromOf(0, 0)).toEqual({ speedMps: 0, fromDegTrue: null });
  });

  it("needs a period, and each to end after it begins", () => {
    expect(() => letter()).toThrow("at least one period");
    for (const until of [6, 5])
      expect(() => letter([6, until, 0, 0, 1, 2, null])).toThrow(`a period from ${6 * HOUR} until ${until * HOUR}`);
  });
});

describe("periods that overlap", () => {
  it("two: each is an end of the reading while both hold, the earlier first; the stronger gust of both", () => {
    const source = letter([6, 14, 45, 0, 12, 16, 18], [12, 18, 225, 45, 8, 15, null]);
    expect(windAt(source, 11 * HOUR).ends).toEqual([end(12, 16, 45, 0)]);
    expect(windAt(source, 12 * HOUR)).toEqual({
      ends: [end(12, 16, 45, 0), end(8, 15, 225, 45)],
      gust: expect.closeTo(19.5 * KN, 9),
      assumed: true,
      source: 0,
    });
    expect(windAt(source, 14 * HOUR).ends).toEqual([end(8, 15, 225, 45)]);
    expect(source.onPlane(plane, 0).breaksWithin(0, 24 * HOUR)).toEqual([6, 12, 14, 18].map((h) => h * HOUR));
  });

  it("one inside another, and one that outlasts what begins after it", () => {
    const source = letter([0, 24, 0, 0, 10, 12, 20], [6, 9, 90, 0, 20, 25, 30]);
    expect(windAt(source, 3 * HOUR).ends).toHaveLength(1);
    expect(windAt(source, 7 * HOUR)).toMatchObject({
      ends: [end(10, 12, 0, 0), end(20, 25, 90, 0)],
      gust: expect.closeTo(30 * KN, 9),
      assumed: false,
    });
    expect(windAt(source, 24 * HOUR).ends).toEqual([end(10, 12, 0, 0)]);
    expect(source.covers).toEqual({ from: 0, until: 24 * HOUR });
  });

  it("three and more: the second end is the widest of all but the first", () => {
    const source = letter([0, 9, 180, 0, 5, 9, null], [3, 9, 350, 10, 10, 14, null], [6, 9, 20, 20, 20, 25, 28]);
    expect(windAt(source, 7 * HOUR)).toEqual({
      ends: [end(5, 9, 180, 0), end(10, 25, 350, 50)],
      gust: expect.closeTo(28 * KN, 9),
      assumed: false,
      source: 0,
    });
    expect(windAt(source, 9 * HOUR).ends).toHaveLength(2);
  });

  it("in any order of writing the same", () => {
    const periods = [
      [0, 9, 180, 0, 5, 9, null],
      [3, 12, 350, 10, 10, 14, null],
      [6, 8, 20, 20, 20, 25, 28],
    ] as const;
    for (let h = 0; h <= 12; h += 0.5)
      expect(windAt(letter(periods[2], periods[0], periods[1]), h * HOUR)).toEqual(windAt(letter(...periods), h * HOUR));
  });

  it("any letter: while a period holds, its speeds, its directions and its gust lie within the reading", () => {
    const one = fc
      .tuple(
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: 0, max: 120 }),
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 0, max: 10 }),
        fc.option(fc.integer({ min: 0, max: 60 }), { nil: null }),
      )
      .map(([from, lasts, fromDeg, arc, low, more, gust]) => period([from, from + lasts, fromDeg, arc, low, low + more, gust]));
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 6 }), fc.double({ min: -1, max: 33, noNaN: true }), (periods, hour) => {
        const at = hour * HOUR;
        const got = readWind(periodWind("any", null, periods, 1.3).onPlane(plane, 0), at);
        const holding = periods.filter((p) => at >= p.from && at < p.until);
        if (holding.length === 0) {
          expect(got === NO_TIME || at === Math.max(...periods.map((p) => p.until))).toBe(true);
          return;
        }
        if (typeof got === "number") throw new Error(`not covered: ${got}`);
        for (const p of holding) {
          const inside = got.ends.some(
            (e) =>
              e.low <= p.speedLowMps &&
              e.high >= p.speedHighMps &&
              (e.arcDeg >= 360 || wrap360Deg(p.fromDegTrue - e.fromDeg + 1e-9) + p.arcDeg <= e.arcDeg + 1e-6),
          );
          expect(inside).toBe(true);
          expect(got.gust).toBeGreaterThanOrEqual(p.gustMps ?? p.speedHighMps * 1.3);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe("the widest of several winds", () => {
  const wind = (fromDegTrue: number, arcDeg: number, speedLowMps = 5, speedHighMps = 6): WindEnd => ({
    fromDegTrue,
    arcDeg,
    speedLowMps,
    speedHighMps,
  });
  it.each([
    [[wind(10, 5), wind(350, 30)], 350, 30],
    [[wind(10, 5), wind(350, 0)], 350, 25],
    [[wind(90, 0), wind(180, 0), wind(135, 10)], 90, 90],
    [[wind(0, 0), wind(120, 0), wind(240, 0)], 0, 240],
    [[wind(0, 200), wind(180, 200)], 0, 360],
    [[wind(100, 360), wind(20, 0)], 20, 360],
    [[wind(300, 0), wind(300, 0)], 300, 0],
    [[wind(300, 90), wind(310, 10)], 300, 90],
    [[wind(0, 0, 0, 0), wind(50, 10)], 50, 10],
    [[wind(0, 0, 0, 0), wind(50, 0, 0, 0)], 0, 360],
  ])("%j is from %d° over %d°", (winds, fromDegTrue, arcDeg) => {
    const { speedLowMps: _, speedHighMps: __, ...arc } = widestWind(winds);
    expect(arc).toEqual({ fromDegTrue, arcDeg });
  });
  it("has the least and the greatest speed, and one is itself", () => {
    expect(widestWind([wind(0, 0, 3, 8), wind(0, 0, 5, 12)])).toMatchObject({ speedLowMps: 3, speedHighMps: 12 });
    expect(widestWind([wind(7, 9)])).toEqual(wind(7, 9));
    expect(() => widestWind([])).toThrow("no winds");
  });
});

describe("winds in order of precedence", () => {
  const grid = gridWind(
    [
      {
        wind: windGrid(
          [0, 6 * HOUR],
          [
            [30, 90],
            [30, 90],
          ],
          { source: "a grid", issuedAt: 5 },
        ),
        gust: null,
      },
      {
        wind: windGrid(
          [0, 6 * HOUR],
          [
            [40, 90],
            [40, 90],
          ],
        ),
        gust: null,
      },
    ],
    1.3,
  );
  const paper = letter([4, 12, 0, 0, 10, 12, 15]);
  const source = firstWindThatCovers([grid, paper]);

  it("the first that covers answers, and says which it was", () => {
    expect(windAt(source, 5 * HOUR)).toMatchObject({ source: 0, ends: [{ high: expect.closeTo(30 * KN, 5) }] });
    expect(windAt(source, 8 * HOUR)).toMatchObject({ source: 1, ends: [{ high: expect.closeTo(12 * KN, 5) }] });
    expect(windAt(firstWindThatCovers([paper, grid]), 5 * HOUR).source).toBe(0);
    expect(windAt(firstWindThatCovers([paper, grid]), 2 * HOUR).source).toBe(1);
    expect(windAt(source, 5 * HOUR, 1)).toMatchObject({ ends: [{ high: expect.closeTo(40 * KN, 5) }] });
    expect(source).toMatchObject({ name: "a grid, then the letter", issuedAt: 5, memberCount: 2, covers: { from: 0, until: 12 * HOUR } });
  });

  it("where none does, the place is told if one had the time, else the time", () => {
    const sampler = source.onPlane(plane, 0);
    expect(readWind(sampler, 2 * HOUR, 1e9)).toBe(NO_PLACE);
    expect(readWind(sampler, 13 * HOUR, 1e9)).toBe(NO_TIME);
    expect(sampler.readInto(new Float64Array(WIND_SLOTS), 1e9, 0, 5 * HOUR)).toBe(COVERED);
  });

  it("has the breaks of all, and needs one source", () => {
    expect(source.onPlane(plane, 0).breaksWithin(0, 24 * HOUR)).toEqual([4 * HOUR, 6 * HOUR, 12 * HOUR]);
    expect(() => firstWindThatCovers([])).toThrow("no wind source");
  });
});

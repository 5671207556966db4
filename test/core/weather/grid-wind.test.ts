import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { COVERED, NO_PLACE, NO_TIME } from "../../../src/core/fields/index.ts";
import { turnDeg } from "../../../src/core/units/index.ts";
import { gridWind, middleOf, WIND_SLOTS } from "../../../src/core/weather/index.ts";
import { gustGrid, HOUR, KN, plane, readWind, windAt, windGrid } from "./readings.ts";

const steady = (times: readonly number[], winds: Parameters<typeof windGrid>[1]) =>
  gridWind([{ wind: windGrid(times, winds), gust: null }], 1.3);
const DAY = [0, 6 * HOUR, 12 * HOUR];

describe("wind on a grid, in time", () => {
  it("takes speed and direction apart: a veer at a steady rate, at full strength", () => {
    const wind = steady(DAY, [
      [18, 300],
      [18, 30],
      [24, 30],
    ]);
    for (let h = 0; h <= 6; h += 0.5) {
      const { ends } = windAt(wind, h * HOUR);
      expect(ends).toHaveLength(1);
      expect(ends[0]!.low).toBeCloseTo(18 * KN, 5);
      expect(ends[0]!.high).toBe(ends[0]!.low);
      expect(Math.abs(turnDeg(ends[0]!.fromDeg, 300 + 15 * h))).toBeLessThan(1e-4);
      expect(ends[0]!.arcDeg).toBe(0);
    }
    expect(windAt(wind, 9 * HOUR).ends[0]!.high).toBeCloseTo(21 * KN, 5);
  });

  it("backs across north where that is shorter", () => {
    const wind = steady(DAY, [
      [10, 20],
      [20, 340],
      [20, 340],
    ]);
    expect(windAt(wind, 1.5 * HOUR).ends[0]).toMatchObject({ low: expect.closeTo(12.5 * KN, 5), fromDeg: expect.closeTo(10, 4) });
    expect(windAt(wind, 4.5 * HOUR).ends[0]!.fromDeg).toBeCloseTo(350, 4);
  });

  it.each([91, 135, 180, 225, 269])("a turn of %d° inside a step gives both ends for the whole of it", (turn) => {
    const wind = steady(DAY, [
      [18, 200],
      [12, 200 + turn],
      [12, 200 + turn],
    ]);
    for (let h = 0.25; h < 6; h += 0.25) {
      const { ends, gust, assumed } = windAt(wind, h * HOUR);
      expect(ends).toHaveLength(2);
      expect(ends[0]!.low).toBeCloseTo(18 * KN, 5);
      expect(ends[0]!.fromDeg).toBeCloseTo(200, 4);
      expect(ends[1]!.high).toBeCloseTo(12 * KN, 5);
      expect(Math.abs(turnDeg(ends[1]!.fromDeg, 200 + turn))).toBeLessThan(1e-4);
      expect(gust).toBeCloseTo(1.3 * 18 * KN, 5);
      expect(assumed).toBe(true);
    }
  });

  it("at a step itself that step alone holds, the last included", () => {
    const wind = steady(DAY, [
      [18, 200],
      [12, 20],
      [16, 200],
    ]);
    for (const [h, knots, fromDeg] of [
      [0, 18, 200],
      [6, 12, 20],
      [12, 16, 200],
    ] as const) {
      expect(windAt(wind, h * HOUR).ends).toEqual([
        { low: expect.closeTo(knots * KN, 5), high: expect.closeTo(knots * KN, 5), fromDeg: expect.closeTo(fromDeg, 4), arcDeg: 0 },
      ]);
    }
    const holed = steady(DAY, [null, [12, 20], null]).onPlane(plane, 0);
    expect(readWind(holed, 6 * HOUR)).toMatchObject({ ends: [{ high: expect.closeTo(12 * KN, 5) }] });
    expect([readWind(holed, 0), readWind(holed, 3 * HOUR), readWind(holed, 12 * HOUR)]).toEqual([NO_PLACE, NO_PLACE, NO_PLACE]);
    expect(readWind(steady(DAY, [null, null, [9, 90]]).onPlane(plane, 0), 12 * HOUR)).toMatchObject({
      ends: [{ fromDeg: expect.closeTo(90, 4) }],
    });
  });

  it("a calm has no direction of its own: the wind springs up from where it will blow, and dies where it blew", () => {
    const wind = steady(DAY, [
      [0, 0],
      [12, 250],
      [0, 0],
    ]);
    expect(windAt(wind, 0).ends).toEqual([{ low: 0, high: 0, fromDeg: 0, arcDeg: 360 }]);
    expect(windAt(wind, 3 * HOUR).ends).toEqual([
      { low: expect.closeTo(6 * KN, 5), high: expect.closeTo(6 * KN, 5), fromDeg: expect.closeTo(250, 4), arcDeg: 0 },
    ]);
    expect(windAt(wind, 9 * HOUR).ends[0]!.fromDeg).toBeCloseTo(250, 4);
    expect(windAt(wind, 12 * HOUR).ends[0]).toMatchObject({ high: 0, arcDeg: 360 });
  });

  it("covers from the first step to the last, told before the place", () => {
    const wind = steady(DAY, [
      [10, 0],
      [10, 0],
      [10, 0],
    ]);
    const sampler = wind.onPlane(plane, 0);
    expect(wind.covers).toEqual({ from: 0, until: 12 * HOUR });
    for (const at of [-1, 12 * HOUR + 1, Number.NaN]) expect(readWind(sampler, at, 1e9)).toBe(NO_TIME);
    expect(readWind(sampler, 12 * HOUR, 1e9)).toBe(NO_PLACE);
    // One step is an instant, not a forecast for ever.
    const once = steady([50], [[10, 0]]).onPlane(plane, 0);
    expect(readWind(once, 50)).toMatchObject({ ends: [{ high: expect.closeTo(10 * KN, 5) }] });
    expect(readWind(once, 51)).toBe(NO_TIME);
  });

  it("any turn: never calmer than the weaker end nor stronger than the stronger, never NaN", () => {
    const wind = fc.tuple(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 360, noNaN: true }));
    fc.assert(
      fc.property(wind, wind, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, share) => {
        const { ends, gust } = windAt(steady([0, 6 * HOUR], [a, b]), share * 6 * HOUR);
        const weaker = Math.min(a[0], b[0]) * KN - 1e-5;
        const stronger = Math.max(a[0], b[0]) * KN + 1e-5;
        for (const end of ends) {
          expect(end.low).toBeGreaterThanOrEqual(weaker);
          expect(end.high).toBeLessThanOrEqual(stronger);
          expect(end.fromDeg >= 0 && end.fromDeg < 360).toBe(true);
          expect(gust).toBeGreaterThanOrEqual(end.high);
        }
        if (share > 0 && share < 1 && ends.length === 1 && a[0] > 0.01 && b[0] > 0.01) {
          // On the shorter way from one to the other, at the share of the turn.
          const turn = turnDeg(a[1], b[1]);
          expect(Math.abs(turn)).toBeLessThan(90.001);
          expect(Math.abs(turnDeg(ends[0]!.fromDeg, a[1] + share * turn))).toBeLessThan(0.01);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe("gusts on a grid", () => {
  const wind = windGrid(DAY, [
    [10, 0],
    [20, 0],
    [20, 0],
  ]);
  const withGusts = (...given: Parameters<typeof gustGrid>) => gridWind([{ wind, gust: gustGrid(...given) }], 1.3);

  it("between two steps the greater of both holds; at a step its own", () => {
    const source = withGusts(DAY, [15, 30, 25]);
    for (const [h, knots] of [
      [0, 15],
      [1, 30],
      [5, 30],
      [6, 30],
      [7, 30],
      [12, 25],
    ] as const) {
      expect(windAt(source, h * HOUR)).toMatchObject({ gust: expect.closeTo(knots * KN, 5), assumed: false });
    }
  });

  it("the greatest since the step before holds over the whole of its step", () => {
    const source = withGusts(DAY, [33, 30, 25], "maximumSincePrevious");
    for (const [h, knots] of [
      [0, 33],
      [0.5, 30],
      [6, 30],
      [6.5, 25],
      [12, 25],
    ] as const) {
      expect(windAt(source, h * HOUR).gust).toBeCloseTo(knots * KN, 5);
    }
    // The step's own greatest is enough: it does not lean on the one before.
    expect(windAt(withGusts(DAY, [null, 30, 25], "maximumSincePrevious"), HOUR)).toMatchObject({
      gust: expect.closeTo(30 * KN, 5),
      assumed: false,
    });
  });

  it("is never below the wind it is a gust of", () => {
    expect(windAt(withGusts(DAY, [5, 5, 5]), 3 * HOUR)).toMatchObject({ gust: expect.closeTo(15 * KN, 5), assumed: false });
  });

  it("where the file has none at a place or time, the stated factor serves and is flagged", () => {
    expect(windAt(withGusts([6 * HOUR, 12 * HOUR], [30, 30]), 3 * HOUR)).toMatchObject({
      gust: expect.closeTo(1.3 * 15 * KN, 5),
      assumed: true,
    });
    expect(windAt(withGusts(DAY, [null, 30, 30]), 3 * HOUR)).toMatchObject({ gust: expect.closeTo(1.3 * 15 * KN, 5), assumed: true });
    expect(windAt(withGusts(DAY, [null, 30, 30]), 9 * HOUR).assumed).toBe(false);
    expect(windAt(gridWind([{ wind, gust: null }], 1.5), 0)).toMatchObject({ gust: expect.closeTo(15 * KN, 5), assumed: true });
  });

  it("its own steps are breaks too", () => {
    const source = withGusts([0, 3 * HOUR, 9 * HOUR, 12 * HOUR], [1, 1, 1, 1]);
    expect(source.onPlane(plane, 0).breaksWithin(0, 12 * HOUR)).toEqual([3 * HOUR, 6 * HOUR, 9 * HOUR]);
    expect(source.onPlane(plane, 0).breaksWithin(-1, 13 * HOUR)).toEqual([0, 3 * HOUR, 6 * HOUR, 9 * HOUR, 12 * HOUR]);
    expect(
      gridWind([{ wind, gust: null }], 1.3)
        .onPlane(plane, 0)
        .breaksWithin(5 * HOUR, 7 * HOUR),
    ).toEqual([6 * HOUR]);
    expect(
      gridWind([{ wind, gust: null }], 1.3)
        .onPlane(plane, 0)
        .breaksWithin(6 * HOUR, 12 * HOUR),
    ).toEqual([]);
  });
});

describe("members", () => {
  const member = (knots: number, gust: number | null) => ({
    wind: windGrid(DAY, Array(3).fill([knots, 90]), { source: `member of ${knots}`, issuedAt: 7 }),
    gust: gust === null ? null : gustGrid(DAY, Array(3).fill(gust)),
  });
  const source = gridWind([member(10, 14), member(20, null), member(30, 44)], 1.3);

  it("are read each by itself, with its own gusts; one that is lacking is the first", () => {
    expect(source).toMatchObject({ memberCount: 3, name: "member of 10", issuedAt: 7, covers: { from: 0, until: 12 * HOUR } });
    expect(windAt(source, HOUR, 0)).toMatchObject({
      ends: [{ high: expect.closeTo(10 * KN, 5) }],
      gust: expect.closeTo(14 * KN, 5),
      assumed: false,
    });
    expect(windAt(source, HOUR, 1)).toMatchObject({
      ends: [{ high: expect.closeTo(20 * KN, 5) }],
      gust: expect.closeTo(26 * KN, 5),
      assumed: true,
    });
    expect(windAt(source, HOUR, 2)).toMatchObject({ ends: [{ high: expect.closeTo(30 * KN, 5) }], gust: expect.closeTo(44 * KN, 5) });
    expect(windAt(source, HOUR, 9)).toMatchObject({ ends: [{ high: expect.closeTo(10 * KN, 5) }] });
  });

  it("are at least one", () => {
    expect(() => gridWind([], 1.3)).toThrow("at least one member");
  });
});

describe("the wind a boat is run with", () => {
  it("is the middle of the first end", () => {
    const wind = gridWind(
      [
        {
          wind: windGrid(DAY, [
            [18, 10],
            [10, 190],
            [10, 190],
          ]),
          gust: null,
        },
      ],
      1.3,
    );
    const out = new Float64Array(WIND_SLOTS);
    expect(wind.onPlane(plane, 0).readInto(out, 0, 0, 3 * HOUR)).toBe(COVERED);
    const { speedMps, fromDegTrue } = middleOf(out);
    expect(speedMps).toBeCloseTo(18 * KN, 5);
    expect(fromDegTrue).toBeCloseTo(10, 4);
  });
});

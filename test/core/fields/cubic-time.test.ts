import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, positionOf } from "../../../src/core/earth/index.ts";
import { COVERED, type Coverage, CubicInTime, type GridData, LinearInTime, NO_PLACE, NO_TIME } from "../../../src/core/fields/index.ts";
import { gridOf, steps } from "./grids.ts";

const HOUR = 3600;
const plane = flatPlane(positionOf(0, 0.5), 50_000);
/** The same value all over a cell around the plane, one number a step; null where missing. */
const series = (times: readonly number[], valueAt: (at: number, t: number) => number | null): GridData =>
  gridOf({
    latitudesDeg: [-1, 1],
    longitudesDeg: [-1, 2],
    times,
    values: ({ at, t }) => {
      const value = valueAt(at, t);
      return value === null ? null : [value, -value];
    },
  });
const out = new Float64Array(2);
const at = (sampler: CubicInTime | LinearInTime, when: number): number | Coverage => {
  const coverage = sampler.sampleInto(out, 0, 0, when);
  return coverage === COVERED ? out[0]! : coverage;
};
/** Share of a semidiurnal tide's peak of 1 that is kept, worst of many phases, inside a day and a half of steps. */
const peakKept = (stepHours: number, make: (data: GridData) => CubicInTime | LinearInTime): number => {
  let worst = 1;
  for (let phase = 0; phase < 12.42; phase += 0.1) {
    const sampler = make(
      series(steps(0, stepHours * HOUR, Math.round(36 / stepHours) + 1), (when) => Math.cos((2 * Math.PI * (when / HOUR - phase)) / 12.42)),
    );
    // The first peak after the one-sided first step.
    const peak = phase + (phase < stepHours ? 12.42 : 0);
    worst = Math.min(worst, at(sampler, peak * HOUR));
  }
  return worst;
};

describe("a current in time", () => {
  it("keeps a semidiurnal tide's peak to 0.2 % from hourly steps, where straight lines lose 3 %", () => {
    const kept = peakKept(1, (data) => new CubicInTime(data, plane));
    expect(kept).toBeGreaterThan(0.998);
    const straight = peakKept(1, (data) => new LinearInTime(data, plane));
    expect(straight).toBeGreaterThan(0.965);
    expect(straight).toBeLessThan(0.97);
  });

  it("from 3-hourly steps loses a tenth of it, where straight lines lose more than a quarter", () => {
    const kept = peakKept(3, (data) => new CubicInTime(data, plane));
    expect(kept).toBeGreaterThan(0.89);
    expect(kept).toBeLessThan(0.91);
    const straight = peakKept(3, (data) => new LinearInTime(data, plane));
    expect(straight).toBeGreaterThan(0.72);
    expect(straight).toBeLessThan(0.74);
  });

  it("is exact at the steps, the first and the last included, and covers not a second beyond", () => {
    const times = [0, 3600, 5000, 20_000, 21_000];
    const values = [0.5, -1.25, 2, 0.75, -3];
    const sampler = new CubicInTime(
      series(times, (_, t) => values[t]!),
      plane,
    );
    times.forEach((when, t) => {
      expect(at(sampler, when)).toBe(values[t]);
    });
    for (const when of [-0.001, 21_000.001, Number.NaN, Number.POSITIVE_INFINITY])
      expect(sampler.sampleInto(out, 0, 0, when)).toBe(NO_TIME);
  });

  it("tells the time before the place", () => {
    const sampler = new CubicInTime(
      series([0, 10], () => 1),
      plane,
    );
    expect(sampler.sampleInto(out, 1e9, 0, 11)).toBe(NO_TIME);
    expect(sampler.sampleInto(out, 1e9, 0, 10)).toBe(NO_PLACE);
  });

  it("reproduces a parabola exactly, whatever the steps", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 600, max: 40_000 }), { minLength: 2, maxLength: 8 }),
        fc.tuple(
          fc.double({ min: -2, max: 2, noNaN: true }),
          fc.double({ min: -2, max: 2, noNaN: true }),
          fc.double({ min: -2, max: 2, noNaN: true }),
        ),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (gaps, [a, b, c], share) => {
          const times = [0];
          for (const gap of gaps) times.push(times[times.length - 1]! + gap);
          const last = times[times.length - 1]!;
          const parabola = (when: number): number => a + b * (when / last) + c * (when / last) ** 2;
          const sampler = new CubicInTime(series(times, parabola), plane);
          // The nodes are 32-bit numbers: 6 times 2^-24 of their size, and up to four times that where the steps differ sixtyfold.
          expect(Math.abs((at(sampler, share * last) as number) - parabola(share * last))).toBeLessThan(2e-5);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("reads a constant as that constant and a straight line as a straight line, to the last digits", () => {
    const constant = new CubicInTime(
      series([0, 3600, 7200, 12_000], () => 0.75),
      plane,
    );
    const straight = new CubicInTime(
      series([0, 4096, 8192, 16_384], (when) => when / 4096),
      plane,
    );
    for (let when = 0; when <= 12_000; when += 333) {
      expect(at(constant, when)).toBeCloseTo(0.75, 12);
      expect(at(straight, when)).toBeCloseTo(when / 4096, 12);
    }
  });

  it("does without a neighbour that is missing: one-sided, straight with none, and nothing where an end is missing", () => {
    const values = [0, 1, 4, 9, 16];
    const without = (...holes: readonly number[]): CubicInTime =>
      new CubicInTime(
        series(steps(0, 100, 5), (_, t) => (holes.includes(t) ? null : values[t]!)),
        plane,
      );
    // t² is a parabola: any three of the points give it back.
    expect(at(without(), 150)).toBeCloseTo(2.25, 6);
    expect(at(without(0), 150)).toBeCloseTo(2.25, 6);
    expect(at(without(3), 150)).toBeCloseTo(2.25, 6);
    expect(at(without(0, 3), 150)).toBeCloseTo(2.5, 6);
    expect(at(without(1), 150)).toBe(NO_PLACE);
    expect(at(without(2), 150)).toBe(NO_PLACE);
    // At a step only that step is asked: the first and the last too.
    expect(at(without(1), 200)).toBe(4);
    expect(at(without(1), 0)).toBe(0);
    expect(at(without(3), 400)).toBe(16);
    expect(at(without(0), 0)).toBe(NO_PLACE);
    expect(at(without(4), 400)).toBe(NO_PLACE);
  });

  it("of two steps is a straight line", () => {
    const sampler = new CubicInTime(
      series([0, 100], (when) => when),
      plane,
    );
    expect(at(sampler, 25)).toBeCloseTo(25, 9);
  });

  it("of one step is held steady, and says so", () => {
    const sampler = new CubicInTime(
      series([5000], () => 1.5),
      plane,
    );
    expect(sampler.heldSteady).toBe(true);
    for (const when of [-1e9, 5000, 2e9]) expect(at(sampler, when)).toBe(1.5);
    expect(sampler.sampleInto(out, 1e9, 0, 5000)).toBe(NO_PLACE);
    expect(sampler.nearestInto(out, 0, 0, 7e8, 300_000)).toBe(true);
    expect(
      new CubicInTime(
        series([0, 1], () => 1),
        plane,
      ).heldSteady,
    ).toBe(false);
  });

  it("swings beyond its ends by no more than 2/27 of the changes around it", () => {
    // Hermite's h10 and h11 stay within 4/27, and on even steps the slopes are the means of two chords.
    const size = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.array(size, { minLength: 4, maxLength: 4 }), fc.double({ min: 0, max: 1, noNaN: true }), (values, share) => {
        const sampler = new CubicInTime(
          series(steps(0, 100, 4), (_, t) => values[t]!),
          plane,
        );
        const v = at(sampler, 100 + 100 * share) as number;
        const [a, b, c, d] = values as [number, number, number, number];
        const beyond = (2 / 27) * (Math.abs(b - a) + 2 * Math.abs(c - b) + Math.abs(d - c));
        expect(v).toBeGreaterThanOrEqual(Math.min(b, c) - beyond - 1e-6);
        expect(v).toBeLessThanOrEqual(Math.max(b, c) + beyond + 1e-6);
      }),
      { numRuns: 300 },
    );
  });
});

describe("the nearest known place", () => {
  // Three nodes in a row, one missing at the second step only.
  const row = gridOf({
    latitudesDeg: [0],
    longitudesDeg: [0.3, 0.5, 0.6],
    times: [0, 100, 200],
    values: ({ t, i }) => (i === 2 || (t === 1 && i === 1) ? null : [10 * i + t * t, 0]),
  });
  const METRES = 60 * 1852;

  it("is a covered node within the metres given, and no node beyond them", () => {
    const sampler = new CubicInTime(row, plane);
    expect(sampler.nearestInto(out, 0.02 * METRES, 0, 0, 0.021 * METRES)).toBe(true);
    expect(out[0]).toBe(10);
    expect(sampler.nearestInto(out, 0.02 * METRES, 0, 0, 0.019 * METRES)).toBe(false);
    // The node at 0.6 is nearer, but never covered.
    expect(sampler.nearestInto(out, 0.09 * METRES, 0, 0, 0.2 * METRES)).toBe(true);
    expect(out[0]).toBe(10);
  });

  it("is covered at both steps around the instant, and read in time as elsewhere", () => {
    const sampler = new CubicInTime(row, plane);
    expect(sampler.nearestInto(out, 0, 0, 50, 0.3 * METRES)).toBe(true);
    expect(out[0]).toBeCloseTo(0.25, 9);
    expect(sampler.nearestInto(out, 0, 0, 50, 0.1 * METRES)).toBe(false);
    expect(sampler.nearestInto(out, 0, 0, 200, 0.1 * METRES)).toBe(true);
    expect(out[0]).toBe(14);
    expect(sampler.nearestInto(out, 0, 0, 201, 0.3 * METRES)).toBe(false);
  });

  it("knows a place that it has, also after it has run out", () => {
    const data = series([0, 100], () => 1);
    const sampler = new CubicInTime(data, plane);
    for (const when of [-1e6, 0, 50, 100, 1e9]) expect(sampler.reachesPlace(0, 0, when)).toBe(true);
    expect(sampler.reachesPlace(60_000, 0, 50)).toBe(false);
  });
});

describe("the sea's kind of grid, straight in time", () => {
  const sampler = new LinearInTime(
    series([0, 100, 400, 500], (_, t) => (t === 3 ? null : [1, 3, 0, 0][t]!)),
    plane,
  );
  it("never overshoots, is exact at steps and covers nothing beside a missing one", () => {
    expect(at(sampler, 0)).toBe(1);
    expect(at(sampler, 25)).toBeCloseTo(1.5, 12);
    expect(at(sampler, 250)).toBeCloseTo(1.5, 12);
    expect(at(sampler, 400)).toBe(0);
    expect(at(sampler, 400.5)).toBe(NO_PLACE);
    expect(sampler.sampleInto(out, 0, 0, 500.1)).toBe(NO_TIME);
    expect(sampler.sampleInto(out, 1e9, 0, 250)).toBe(NO_PLACE);
    expect([...sampler.steps]).toEqual([0, 100, 400, 500]);
  });
  it("of one step holds at that instant only", () => {
    const one = new LinearInTime(
      series([50], () => 2),
      plane,
    );
    expect(at(one, 50)).toBe(2);
    expect(one.sampleInto(out, 0, 0, 50.1)).toBe(NO_TIME);
  });
});

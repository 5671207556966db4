import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wrap360Deg } from "../../../src/core/units/index.ts";
import { WIND_SLOTS } from "../../../src/core/weather/index.ts";
import { marginOf, type Range, speedRangeOf, windAgainstRangeOf } from "../../../src/core/window/index.ts";
import { kn, kn2, limit } from "./setup.ts";

interface End {
  readonly from: number;
  readonly arc?: number;
  readonly low: number;
  readonly high?: number;
}

function reading(...ends: readonly End[]): Float64Array {
  const out = new Float64Array(WIND_SLOTS);
  out[0] = ends.length;
  for (const [i, { from, arc = 0, low, high = low }] of ends.entries()) out.set([kn(low), kn(high), wrap360Deg(from), arc], 1 + 4 * i);
  return out;
}

/** Wind against a current, kn²: the least and greatest. The set is a bearing on the plane. */
function against(wind: Float64Array, setDeg: number, rateKnots: number, convergenceDeg = 0): Range {
  const setRad = (setDeg * Math.PI) / 180;
  const range: Range = { low: Number.NaN, high: Number.NaN };
  windAgainstRangeOf(wind, kn(rateKnots) * Math.sin(setRad), kn(rateKnots) * Math.cos(setRad), convergenceDeg, range);
  return { low: range.low / kn2(1), high: range.high / kn2(1) };
}

describe("wind against current, kn²", () => {
  it("is the wind's component against the set times the rate", () => {
    // Set north. A northerly blows dead against it: 20 × 3. From 45° off, 20·cos 45° × 3 = 42.43; from 60°, half.
    expect(against(reading({ from: 0, low: 20 }), 0, 3).high).toBeCloseTo(60, 9);
    expect(against(reading({ from: 45, low: 20 }), 0, 3).high).toBeCloseTo(60 * Math.SQRT1_2, 9);
    expect(against(reading({ from: 300, low: 20 }), 0, 3).high).toBeCloseTo(30, 9);
    // Set 225: a south-westerly.
    expect(against(reading({ from: 225, low: 12 }), 225, 2.5).high).toBeCloseTo(30, 9);
  });

  it("is nothing across, with, in slack water and in a calm", () => {
    for (const from of [90, 270]) expect(against(reading({ from, low: 30 }), 0, 4).high).toBeCloseTo(0, 12);
    for (const from of [120, 180, 230]) expect(against(reading({ from, low: 30 }), 0, 4)).toEqual({ low: 0, high: 0 });
    expect(against(reading({ from: 0, low: 30 }), 0, 0)).toEqual({ low: 0, high: 0 });
    expect(against(reading({ from: 0, arc: 360, low: 0 }), 0, 4)).toEqual({ low: 0, high: 0 });
  });

  it("has no cut-off angle: a degree forward of the beam already counts", () => {
    expect(against(reading({ from: 89, low: 20 }), 0, 3).high).toBeCloseTo(60 * Math.sin(Math.PI / 180), 9);
  });

  it("takes the worst over an arc, and the high end of the speeds; the best with the low end", () => {
    // N to E round to a set of 030: the arc holds 030, dead against.
    expect(against(reading({ from: 0, arc: 90, low: 8, high: 12 }), 30, 2)).toEqual({
      low: expect.closeTo(8, 9),
      high: expect.closeTo(24, 9),
    });
    // E to S, set north: the easterly end is just across.
    expect(against(reading({ from: 90, arc: 90, low: 8, high: 12 }), 0, 2).high).toBeCloseTo(0, 12);
    // NW to NE across north.
    expect(against(reading({ from: 315, arc: 90, low: 10 }), 0, 2)).toEqual({
      low: expect.closeTo(20 * Math.SQRT1_2, 9),
      high: expect.closeTo(20, 9),
    });
    // Variable: anything from with to dead against.
    expect(against(reading({ from: 200, arc: 360, low: 5, high: 10 }), 77, 3)).toEqual({ low: 0, high: expect.closeTo(30, 9) });
    // Nearly all round, but for 10° each side of dead against.
    expect(against(reading({ from: 10, arc: 340, low: 10 }), 0, 2).high).toBeCloseTo(20 * Math.cos((10 * Math.PI) / 180), 9);
  });

  it("agrees over arcs with a look at every tenth of a degree", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 3599 }),
        fc.integer({ min: 0, max: 3600 }),
        fc.integer({ min: 0, max: 3599 }),
        (from10, arc10, set10) => {
          const got = against(reading({ from: from10 / 10, arc: arc10 / 10, low: 10 }), set10 / 10, 2);
          let most = 0;
          let least = Number.POSITIVE_INFINITY;
          for (let k = 0; k <= arc10; k++) {
            const value = Math.max(0, 20 * Math.cos(((from10 + k - set10) / 10) * (Math.PI / 180)));
            most = Math.max(most, value);
            least = Math.min(least, value);
          }
          expect(got.high).toBeCloseTo(most, 9);
          expect(got.low).toBeCloseTo(least, 9);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("takes the worse of both ends of a step in which the wind shifts", () => {
    const shift = reading({ from: 180, low: 18 }, { from: 0, low: 14 });
    expect(against(shift, 0, 3)).toEqual({ low: 0, high: expect.closeTo(42, 9) });
    expect(against(shift, 180, 3)).toEqual({ low: 0, high: expect.closeTo(54, 9) });
    const range: Range = { low: 0, high: 0 };
    speedRangeOf(shift, range);
    expect(range.low).toBeCloseTo(kn(14), 12);
    expect(range.high).toBeCloseTo(kn(18), 12);
  });

  it("joins a true wind to a current on the plane: true = bearing on the plane + convergence", () => {
    // Where true north leans 2° from the sheet, a set of 358 on the sheet is 000 true, and a true northerly is dead against it.
    expect(against(reading({ from: 0, low: 20 }), 358, 3, 2).high).toBeCloseTo(60, 9);
    expect(against(reading({ from: 90, low: 20 }), 358, 3, 2).high).toBeCloseTo(0, 9);
    expect(against(reading({ from: 90, low: 20 }), 0, 3, 2).high).toBeCloseTo(60 * Math.sin((2 * Math.PI) / 180), 9);
  });

  it("does not change when everything is turned together", () => {
    const angle = fc.double({ min: 0, max: 360, noNaN: true });
    const speed = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(angle, fc.double({ min: 0, max: 180, noNaN: true }), speed, angle, speed, angle, (from, arc, low, set, rate, turn) => {
        const one = against(reading({ from, arc, low, high: low + 5 }), set, rate);
        const other = against(reading({ from: from + turn, arc, low, high: low + 5 }), set + turn, rate);
        expect(Math.abs(one.high - other.high)).toBeLessThan(1e-8);
        expect(Math.abs(one.low - other.low)).toBeLessThan(1e-8);
      }),
    );
  });
});

/** Facts of the trade (common practice), with the limit of this kind that a careful skipper might set: happy at nothing, never at 40 kn². */
describe("a stream of 1 to 6 kn and a light wind (common practice)", () => {
  const usual = limit("windAgainstCurrentMps2", 0, 40);
  const rate = fc.double({ min: 1, max: 6, noNaN: true });
  const light = fc.double({ min: 0.5, max: 10, noNaN: true });
  const set = fc.double({ min: 0, max: 360, noNaN: true });
  const marginFor = (wind: Float64Array, setDeg: number, rateKnots: number) =>
    marginOf(usual, against(wind, setDeg, rateKnots).high * kn2(1));

  it("is fair when the wind blows along with the stream or across it", () => {
    fc.assert(
      fc.property(set, rate, light, fc.constantFrom(90, 120, 180, 240, 270), (setDeg, knots, windKnots, off) => {
        // Just across, the last bit of a cosine may show: a billionth.
        expect(marginFor(reading({ from: setDeg + off, low: windKnots }), setDeg, knots)).toBeGreaterThan(1 - 1e-9);
      }),
    );
  });

  it("is not fair with any wind against the stream", () => {
    fc.assert(
      fc.property(set, rate, light, fc.integer({ min: -85, max: 85 }), (setDeg, knots, windKnots, off) => {
        expect(marginFor(reading({ from: setDeg + off, low: windKnots }), setDeg, knots)).toBeLessThan(1 - 1e-3);
      }),
    );
  });

  it("already has its margin eaten into by 5 kn of wind against 3 kn of current", () => {
    // 15 of 40 kn²: (40 − 15)/40.
    expect(marginFor(reading({ from: 0, low: 5 }), 0, 3)).toBeCloseTo(0.625, 9);
  });
});

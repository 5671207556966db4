import { describe, expect, it } from "vitest";
import { courseToSteer, MEND_FROM_SHARE, oneHeading, squareInLanes } from "../../../src/core/passage/index.ts";
import { BIAS_NM, normalChanceAbove, upStreamBias } from "../../../src/core/plan/index.ts";
import { gaussianJet, turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { TOTAL_SPREAD_SHARE } from "../../../src/core/window/index.ts";
import { boxLane, headingsOf, lanedCrossing } from "../passage/lanes-waters.ts";
import { arriving, crossing, HOUR, KN, NM } from "../passage/waters.ts";

/** Hours over a straight line at a boat's speed in a uniform stream to the north. */
function hoursOver(eastNm: number, northNm: number, boatKn: number, rateKn: number): number {
  const course = (Math.atan2(eastNm, northNm) * 180) / Math.PI;
  const steer = courseToSteer(course, boatKn, 0, rateKn);
  if (steer === "cannotHold") throw new Error("cannot hold");
  return Math.hypot(eastNm, northNm) / steer.speedMadeGood;
}

describe("the chance above", () => {
  // Source: scipy.stats.norm.sf. Status: computed.
  it.each([
    [0, 0.5],
    [0.5, 0.3085375387],
    [1, 0.1586552539],
    [2, 0.0227501319],
    [3, 0.001349898],
    [-1, 0.8413447461],
    [-2.5, 0.9937903347],
  ])("%d standard deviations", (z, chance) => {
    expect(Math.abs(normalChanceAbove(z) - chance)).toBeLessThan(1e-7);
  });
});

describe("aiming up-stream in a uniform stream, against the closed form", () => {
  const lengthNm = 40;
  const boatKn = 5;
  const rateKn = 2;
  const one = crossing(uniformCurrent(0, rateKn * KN), [0, 0], [lengthNm, 0]);
  const way = arriving(oneHeading(one, 0));
  // Down-stream is north: to port of a line to the east.
  const bias = upStreamBias(one, way, -1);

  it("tells each mile's heading, minutes and chance", () => {
    expect(bias?.rows.map((row) => row.biasMetres / NM)).toEqual([...BIAS_NM]);
    const plain = hoursOver(lengthNm, 0, boatKn, rateKn);
    for (const row of bias?.rows ?? []) {
      const b = row.biasMetres / NM;
      const share = MEND_FROM_SHARE;
      // To the aim until the course is mended, then straight to the destination.
      const hours = hoursOver(share * lengthNm, -share * b, boatKn, rateKn) + hoursOver((1 - share) * lengthNm, share * b, boatKn, rateKn);
      expect(Math.abs(row.costSeconds / HOUR - (hours - plain))).toBeLessThan(1e-5);
      // Held until abeam: she ends on the destination when the stream carries her b farther north in that time.
      const abeam = lengthNm / (boatKn * Math.sin((row.headingDegTrue * Math.PI) / 180));
      const brings = 1 + b / (rateKn * abeam);
      expect(Math.abs(row.downStreamChance - normalChanceAbove((brings - 1) / TOTAL_SPREAD_SHARE))).toBeLessThan(1e-5);
    }
    expect(bias?.rows[0]).toMatchObject({ costSeconds: 0 });
    expect(bias?.rows[0]?.downStreamChance).toBeCloseTo(0.5, 5);
    expect(headingsOf(way)[0]).toBeCloseTo(bias?.rows[0]?.headingDegTrue ?? 0, 9);
  });

  it("buys more the surer the stream is, and the same mirrored", () => {
    const surer = upStreamBias(one, way, -1, 0.1);
    const south = crossing(uniformCurrent(180, rateKn * KN), [0, 0], [lengthNm, 0]);
    const mirrored = upStreamBias(south, arriving(oneHeading(south, 0)), 1);
    bias?.rows.forEach((row, i) => {
      if (i > 0) expect(surer?.rows[i]?.downStreamChance).toBeLessThan(row.downStreamChance);
      expect(mirrored?.rows[i]?.costSeconds).toBeCloseTo(row.costSeconds, 2);
      expect(mirrored?.rows[i]?.downStreamChance).toBeCloseTo(row.downStreamChance, 5);
      expect((mirrored?.rows[i]?.headingDegTrue ?? 0) + row.headingDegTrue).toBeCloseTo(180, 5);
    });
  });
});

describe("aiming up-stream", () => {
  it("in a jet costs more with each mile, and lessens the chance", () => {
    const one = crossing(gaussianJet({ rateMps: 3 * KN, axisMetres: 20 * NM, halfWidthMetres: 10 * NM }), [0, 0], [45, 0]);
    const rows = upStreamBias(one, arriving(oneHeading(one, 0)), -1)?.rows ?? [];
    expect(rows).toHaveLength(BIAS_NM.length);
    for (let i = 1; i < rows.length; i++) {
      expect(rows[i]!.costSeconds).toBeGreaterThan(rows[i - 1]!.costSeconds);
      expect(rows[i]!.downStreamChance).toBeLessThan(rows[i - 1]!.downStreamChance);
    }
  });

  it("of a way square in the lanes is by its heading outside them", () => {
    const lanes = [boxLane("lane", 0, [10, 14])];
    const one = lanedCrossing(gaussianJet({ rateMps: 3 * KN, axisMetres: 12 * NM, halfWidthMetres: 7 * NM }), [30, 0], lanes);
    const way = arriving(squareInLanes(one, 0));
    const rows = upStreamBias(one, way, -1)?.rows ?? [];
    expect(rows[0]?.headingDegTrue).toBeCloseTo(headingsOf(way)[0] as number, 9);
    expect(rows[0]?.downStreamChance).toBeCloseTo(0.5, 3);
    expect(rows[4]?.downStreamChance).toBeLessThan(0.3);
  });

  it("has no price where the stream turns while she crosses", () => {
    const one = crossing(turningTide({ rateMps: 2 * KN, periodSeconds: 12.42 * HOUR, epochAt: 0 }), [0, 0], [50, 0]);
    expect(upStreamBias(one, arriving(oneHeading(one, 3 * HOUR)), 1)).toBeNull();
  });

  it("stops at the miles that no heading leads to", () => {
    // A stream of nearly the boat's speed: farther up-stream than it was can't be reached.
    const one = crossing(uniformCurrent(0, 5.2 * KN), [0, 0], [24, 7.2]);
    const rows = upStreamBias(one, arriving(oneHeading(one, 0)), -1)?.rows ?? [];
    expect(rows.length).toBeGreaterThanOrEqual(1);
    expect(rows.length).toBeLessThan(BIAS_NM.length);
  });
});

describe("the spread of the total", () => {
  // Source: error of modelled surface currents against GPS drifters, five sets (error_statistics.txt of the open drifter comparison):
  // vector RMS in m/s and autocorrelation of the error after 1, 3, 6, 12 and 24 hours. Status: open data.
  const sets = [
    { rms: 0.45, rho: [0.95, 0.76, 0.5, 0.26, 0] },
    { rms: 0.48, rho: [0.94, 0.74, 0.45, 0.24, -0.05] },
    { rms: 0.34, rho: [0.93, 0.68, 0.38, 0.27, -0.04] },
    { rms: 0.35, rho: [0.93, 0.67, 0.39, 0.27, -0.07] },
    { rms: 0.33, rho: [0.76, 0.61, 0.34, 0.41, 0.21] },
  ];
  const LAGS = [0, 1, 3, 6, 12, 24];

  it("is what those errors average to over ten hours, against a stream of two knots", () => {
    const shares = sets.map(({ rms, rho }) => {
      const all = [1, ...rho];
      const rhoAt = (hours: number): number => {
        const i = LAGS.findIndex((lag, k) => hours <= (LAGS[k + 1] ?? lag));
        const s = (hours - LAGS[i]!) / (LAGS[i + 1]! - LAGS[i]!);
        return all[i]! + s * (all[i + 1]! - all[i]!);
      };
      // Variance of a mean over T: (2/T²)∫(T − τ)ρ(τ) dτ.
      const T = 10;
      let sum = 0;
      for (let k = 0; k < 1000; k++) {
        const tau = ((k + 0.5) * T) / 1000;
        sum += ((T - tau) * rhoAt(tau) * T) / 1000;
      }
      return (rms / Math.SQRT2) * Math.sqrt((2 * sum) / T / T);
    });
    expect(Math.min(...shares)).toBeCloseTo(0.18, 2);
    expect(Math.max(...shares)).toBeCloseTo(0.29, 2);
    expect(TOTAL_SPREAD_SHARE * 2 * KN).toBeGreaterThan(Math.min(...shares));
    expect(TOTAL_SPREAD_SHARE * 2 * KN).toBeLessThan(Math.max(...shares));
  });
});

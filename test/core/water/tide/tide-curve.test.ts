import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import { factorOf, findConstituent, lunarOrbit, meanLongitudes, nodeFactors, tideCurve } from "../../../../src/core/water/index.ts";
import { argumentDeg } from "../../../../src/core/water/tide/constituents.ts";
import { curveOf, madeStation } from "./made-station.ts";

const constants = {
  M2: [1.6, 105],
  S2: [0.7, 150],
  N2: [0.3, 80],
  K2: [0.2, 140],
  K1: [0.5, 230],
  O1: [0.4, 210],
  M1: [0.1, 40],
  L2: [0.15, 130],
  OO1: [0.05, 10],
  M4: [0.2, 300],
  "2MK5": [0.05, 20],
  SA: [0.1, 190],
} as const;
const station = madeStation(constants, 2.5);
const curve = curveOf(station);

/** The sum with V, f and u of the instant itself. */
function exactHeight(at: number): number {
  const longitudes = meanLongitudes(epochSeconds(at));
  const factors = nodeFactors(lunarOrbit(longitudes.moonNodeDeg), longitudes.moonPerigeeDeg);
  return Object.entries(constants).reduce((sum, [name, [amplitude, phase]]) => {
    const constituent = findConstituent(name)!;
    const { f, uDeg } = factorOf(constituent, factors);
    return sum + f * amplitude * Math.cos(((argumentDeg(constituent, longitudes) + uDeg - phase) * Math.PI) / 180);
  }, 2.5);
}

describe("the curve of a tide", () => {
  it("is the sum with each instant's own node factors, within 0.1 mm, over nineteen years", () => {
    for (let i = 0; i < 4000; i++) {
      const at = Date.UTC(2015, 0, 1) / 1000 + i * 41.7 * 3600;
      expect(Math.abs(curve.heightAt(epochSeconds(at)) - exactHeight(at))).toBeLessThan(1e-4);
    }
  });

  it("has no step at the new year, nor anywhere else between its spans", () => {
    for (let day = 0; day < 4000; day += 10) {
      const at = Math.floor(Date.UTC(2020, 0, 1) / 864_000_000 + day / 10) * 864_000;
      const [before, after] = [curve.heightAt(epochSeconds(at - 1e-3)), curve.heightAt(epochSeconds(at))];
      expect(Math.abs(after - before)).toBeLessThan(2e-6);
    }
  });

  it("rises at the rate of its differences", () => {
    for (let i = 0; i < 500; i++) {
      const at = Date.UTC(2026, 2, 1) / 1000 + i * 4567;
      const difference = (curve.heightAt(epochSeconds(at + 30)) - curve.heightAt(epochSeconds(at - 30))) / 60;
      expect(curve.rateAt(epochSeconds(at))).toBeCloseTo(difference, 7);
    }
  });

  it("names everything that is wrong with constants, and drops nothing", () => {
    const wrong = madeStation({ M2: [1, 0], LDA2: [0.1, 3], LAMBDA2: [0.1, 3], QX3: [0.2, 5], S2: [-1, 0], K1: [0.1, Number.NaN] });
    const got = tideCurve(wrong);
    expect(got.ok).toBe(false);
    expect(got.ok ? [] : got.issues.map(({ path, code }) => `${path} ${code}`)).toEqual([
      "constants[2] tide-constituent-repeated",
      "constants[3] tide-constituent-unknown",
      "constants[4] tide-constant-range",
      "constants[5] tide-constant-range",
    ]);
    const none = tideCurve(madeStation({}));
    expect(none.ok ? [] : none.issues.map(({ code }) => code)).toEqual(["tide-constants-none"]);
    const levelless = tideCurve(madeStation({ M2: [1, 0] }, Number.NaN));
    expect(levelless.ok ? [] : levelless.issues.map(({ code }) => code)).toEqual(["tide-constant-range"]);
  });
});

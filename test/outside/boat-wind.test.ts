import { describe, expect, it } from "vitest";
import { windOverWater } from "../../src/core/boat/index.ts";
import { motionToward, mpsFromKnots } from "../../src/core/units/index.ts";

/**
 * Wind over moving water: the wind as a vector less the current as a vector, and the stress on the sea with its square. The reference
 * figures were worked apart from this program with complex numbers: wind w from φ and current c toward ψ give −w·e^{iφ} − c·e^{iψ}.
 */
describe("wind over moving water", () => {
  const cases = [
    { windKnots: 15, fromDeg: 0, currentKnots: 3.5, towardDeg: 0, relativeKnots: 18.5, relativeFromDeg: 0, stress: 1.52111 },
    { windKnots: 15, fromDeg: 180, currentKnots: 3.5, towardDeg: 0, relativeKnots: 11.5, relativeFromDeg: 180, stress: 0.58778 },
    { windKnots: 20, fromDeg: 45, currentKnots: 3, towardDeg: 0, relativeKnots: 22.2228, relativeFromDeg: 39.522, stress: null },
  ];
  it.each(cases)("$windKnots kn from $fromDeg over $currentKnots kn toward $towardDeg", (one) => {
    const ground = { windMps: mpsFromKnots(one.windKnots), windFromDegTrue: one.fromDeg };
    const relative = windOverWater(ground, motionToward(mpsFromKnots(one.currentKnots), one.towardDeg));
    expect(Math.abs(relative.windMps / mpsFromKnots(1) - one.relativeKnots)).toBeLessThan(1e-5);
    expect(relative.windFromDegTrue).not.toBeNull();
    const turn = ((((relative.windFromDegTrue ?? Number.NaN) - one.relativeFromDeg + 540) % 360) + 360) % 360;
    expect(Math.abs(turn - 180)).toBeLessThan(5e-4);
    if (one.stress !== null) expect((relative.windMps / ground.windMps) ** 2).toBeCloseTo(one.stress, 5);
  });
});

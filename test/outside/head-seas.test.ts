/**
 * Speed lost to head seas. The rule is ours, and fitted; held here against what was integrated apart from the program over a wind sea's
 * spectrum: references/make_head_seas.py → head-seas.json (two response functions: Jinkine & Ferdinande 1974, Gerritsma & Beukelman 1972).
 * Status: computed; equations partly from memory, as the script says.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addedBySea, GRAVITY_MPS2, headSeaRule, speedLeftInSea } from "../../src/core/boat/index.ts";
import { METRES_PER_FOOT } from "../../src/core/units/index.ts";

interface Reference {
  readonly boats: readonly {
    readonly waterlineLengthMetres: number;
    readonly seas: readonly {
      readonly heightMetres: number;
      readonly peakPeriodSeconds: number;
      readonly overStated: { readonly fitted: number; readonly radiated: number };
    }[];
  }[];
}
const { boats } = JSON.parse(readFileSync(new URL("references/head-seas.json", import.meta.url), "utf8")) as Reference;
const lengthOf = (seconds: number): number => (GRAVITY_MPS2 * seconds * seconds) / (2 * Math.PI);
const cases = boats.flatMap(({ waterlineLengthMetres, seas }) => seas.map((sea) => ({ waterlineLengthMetres, ...sea })));

describe("resistance that head seas add, over that of 1 m at 5 s", () => {
  it("is there for three boats and nine seas", () => {
    expect(cases).toHaveLength(27);
  });

  it.each(cases)("$heightMetres m at $peakPeriodSeconds s, a waterline of $waterlineLengthMetres m", (one) => {
    const rule = headSeaRule(0.2, one.waterlineLengthMetres);
    if (rule === null) throw new Error("no rule");
    const added = addedBySea(rule, one.heightMetres, lengthOf(one.peakPeriodSeconds));
    for (const reference of [one.overStated.fitted, one.overStated.radiated]) {
      const share = added / reference;
      // Seas about as long as the boat: too much, never too little.
      if (one.peakPeriodSeconds < 4) expect(share > 1 && share < 1.5, `${share}`).toBe(true);
      else expect(Math.abs(share - 1), `${share}`).toBeLessThan(0.04);
    }
  });

  it("of a boat whose waterline isn't known stays within a tenth of the references from 4 s on", () => {
    const rule = headSeaRule(0.2, null);
    if (rule === null) throw new Error("no rule");
    for (const one of cases.filter(({ peakPeriodSeconds }) => peakPeriodSeconds >= 4)) {
      const added = addedBySea(rule, one.heightMetres, lengthOf(one.peakPeriodSeconds));
      expect(Math.abs(added / one.overStated.radiated - 1)).toBeLessThan(0.11);
    }
  });

  // Common practice: a sea of 3 ft at 10 s is calm, a short one of the same height stops a small boat.
  it("a 3 ft sea at 10 s takes next to nothing, at 4 s a quarter and more of the speed of a boat that loses a fifth in the stated sea", () => {
    const rule = headSeaRule(0.2, 10);
    if (rule === null) throw new Error("no rule");
    const left = (seconds: number): number => speedLeftInSea(rule, addedBySea(rule, 3 * METRES_PER_FOOT, lengthOf(seconds)));
    expect(left(10)).toBeGreaterThan(0.98);
    expect(left(4)).toBeLessThan(0.75);
  });
});

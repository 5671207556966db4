import { describe, expect, it } from "vitest";
import type { BoatModel } from "../../../src/core/boat/index.ts";
import { findHeadings, offOf, oneHeading, startOf } from "../../../src/core/passage/index.ts";
import { gaussianJet, sumOfCurrents, turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { arriving, crossing, HOUR, headingOf, KN, NM, powerBoat, whyOf } from "./waters.ts";

/** A boat that goes faster from a heading on, as when an engine goes on there. */
function fasterFrom(headingDeg: number, slowKnots: number, fastKnots: number): BoatModel {
  return {
    dependsOnWind: false,
    propelInto(out, headingDegTrue) {
      const fast = headingDegTrue >= headingDeg;
      out.speedThroughWaterMps = (fast ? fastKnots : slowKnots) * KN;
      out.leewayDeg = 0;
      out.engineOn = fast;
      out.burnLitresPerHour = 0;
    },
  };
}

describe("single headings", () => {
  it("are found near a known one too, and are the same", () => {
    const jet = gaussianJet({ rateMps: 3 * KN, axisMetres: 25 * NM, halfWidthMetres: 10 * NM });
    const one = crossing(jet, [0, 0], [50, 0], powerBoat(6));
    const whole = arriving(oneHeading(one, 0));
    for (const near of [100.2, 97, 110, 460, -260, 200]) {
      const found = arriving(oneHeading(one, 0, { near }));
      expect(headingOf(found)).toBeCloseTo(headingOf(whole), 5);
      expect(found.arrivalAt).toBeCloseTo(whole.arrivalAt, 2);
    }
  });

  it("lead to a destination in any direction, across north too", () => {
    for (let bearing = 0; bearing < 360; bearing += 15) {
      const rad = (bearing * Math.PI) / 180;
      const way = arriving(oneHeading(crossing(uniformCurrent(bearing + 90, 2 * KN), [0, 0], [30 * Math.sin(rad), 30 * Math.cos(rad)]), 0));
      const expected = (bearing - (Math.asin(2 / 5) * 180) / Math.PI + 360) % 360;
      expect(headingOf(way)).toBeCloseTo(expected, 4);
      expect(headingOf(way)).toBeGreaterThanOrEqual(0);
      expect(headingOf(way)).toBeLessThan(360);
    }
  });

  it("two that lie within one spacing of the look are both found, and the earliest is taken", () => {
    // A tide and a jet in which three headings lead there, two of them 5° apart; by the third it takes three times as long.
    const current = sumOfCurrents([
      turningTide({
        rateMps: 5.81 * KN,
        periodSeconds: 12.42 * HOUR,
        epochAt: 0,
        bell: { axisMetres: 6.44 * NM, halfWidthMetres: 4.79 * NM },
      }),
      gaussianJet({ rateMps: 4.42 * KN, axisMetres: 4.4 * NM, halfWidthMetres: 5 * NM }),
    ]);
    const one = crossing(current, [0, 0], [11.66, -8.82], powerBoat(5.65));
    const departAt = 36_336;
    const { found } = findHeadings(one.simulator, one.boat, one.line, startOf(one, departAt), 300);
    // Every change of side in steps of a tenth of a degree is a heading that was found.
    const changes: number[] = [];
    let before: number | null = null;
    for (let off = -85; off <= 85; off += 0.1) {
      const headingDegTrue = one.line.sheetDeg + off;
      const until = { kind: "along", line: one.line, metres: one.line.lengthMetres } as const;
      const end = one.simulator.run(one.boat, { kind: "heading", headingDegTrue }, until, startOf(one, departAt), 300, null);
      const miss = end.kind === "reached" ? offOf(one.line, end.xMetres, end.yMetres) : null;
      if (miss !== null && before !== null && miss > 0 !== before > 0) changes.push(headingDegTrue);
      before = miss;
    }
    expect(changes).toHaveLength(3);
    expect(found).toHaveLength(3);
    for (const change of changes) expect(found.some((each) => Math.abs(each.headingDegTrue - change) <= 0.1)).toBe(true);
    for (let i = 1; i < found.length; i++) expect(found[i]!.arrivalAt).toBeGreaterThan(found[i - 1]!.arrivalAt);
    expect((found[0]!.arrivalAt - departAt) / HOUR).toBeLessThan(4);
    expect(arriving(oneHeading(one, departAt)).headingsThatLead).toBe(3);
  });

  it("one at which the boat's speed jumps counts when it lands within a five-hundredth of the line", () => {
    // At 5 kn the heading is 113.58, at 5.02 kn 113.48; the speed jumps between them, so that no heading leads there quite.
    const small = crossing(uniformCurrent(0, 2 * KN), [0, 0], [50, 0], fasterFrom(113.53, 5, 5.02));
    const way = arriving(oneHeading(small, 0));
    expect(headingOf(way)).toBeCloseTo(113.53, 6);
    const last = way.track.count - 1;
    const miss = Math.abs(way.track.yMetres[last]!);
    expect(miss).toBeGreaterThan(1);
    expect(miss).toBeLessThan(0.1 * NM);
  });

  it("one at which the boat's speed jumps much does not", () => {
    const great = crossing(uniformCurrent(0, 2 * KN), [0, 0], [50, 0], fasterFrom(112, 5, 6));
    expect(whyOf(oneHeading(great, 0)).code).toBe("unreachable");
  });

  it("end a leg that stops within rounding of its end, wherever that lies", () => {
    // Legs whose last step ends a hair short of the end must not be taken again and again.
    for (let i = 0; i < 200; i++) {
      const one = crossing(
        uniformCurrent(i * 7.3, (i % 5) * 0.5 * KN),
        [0.1 * i, -0.3 * i],
        [40 + 0.37 * i, 11 - 0.21 * i],
        powerBoat(4 + (i % 7) * 0.31),
      );
      expect(oneHeading(one, 1_800_000_000 + 977 * i).kind).toBe("arrives");
    }
  });
});

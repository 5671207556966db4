import { describe, expect, it } from "vitest";
import { crossAt } from "../../../src/core/plan/index.ts";
import { nmFromMetres } from "../../../src/core/units/index.ts";
import { engineFailureInWords, fuelInWords } from "../../../src/words/index.ts";
import { kn, prepared, tansy } from "../../core/plan/setup.ts";
import { clock } from "../../core/window/setup.ts";
import { limitsReference } from "./reference.ts";

/*
 * Fuel by thirds, and turning back from the worst point.
 *
 * 36.1 miles due west at 6 kn, in water that sets 045 at 1.5 kn everywhere. Across the line that is 1.06 kn, to be steered against; along
 * it 1.06 kn, foul on the way out and fair on the way back. Made good: √(36 − 1.125) − 1.061 = 4.845 kn out, 5.906 + 1.061 = 6.966 kn
 * back. From the berth it is 4.97 miles of pilotage at 5 kn, just short of an hour, and on the other side 1.99 miles at 4 kn.
 *
 * The engine burns 2.6 L an hour and 40 L are usable. Berth to berth: 0.99 + 7.46 + 0.50 = 8.95 h, 23.3 L; 16.7 L left. By thirds 13.3 L
 * are not to be burnt: the limit `happy` two thirds left, `never` one third, has (16.7 − 13.3)/13.3 = 0.25 of margin.
 *
 * She leaves the berth at 0900 UTC and is in open water at 0959. Turning back is quicker than going on as long as what she has gone,
 * g hours at 4.845 kn, takes less at 6.966 kn than what is left: g × 0.6955 < 7.46 − g, so for g under 4.4 h. The whole hours are 1000,
 * 1100, 1200, 1300 and 1400, g = 4.01 h at the last: 2.79 h back, and twice the pilotage: 0.99 + 4.01 + 2.79 + 0.99 = 8.78 h, 22.8 L. At
 * 1500 it would be 5.01 h gone and 2.45 h to go: nobody turns back there.
 */
const ref = limitsReference().fuel;
const one = prepared({
  boat: {
    ...tansy,
    power: { speedMps: kn(6), burnLitresPerHour: 2.6, burnMeasuredAtMps: null, usableFuelLitres: 40, headwindLossShare: 0 },
  },
  waterSources: [{ kind: "uniform", setDegTrue: 45, rateMps: kn(1.5) }],
  pilotageOut: { speedOverGroundMps: kn(5), points: [{ latitudeDeg: 34, longitudeDeg: -39.9 }] },
  pilotageIn: { speedOverGroundMps: kn(4), points: [{ latitudeDeg: 34, longitudeDeg: -40.764 }] },
  limits: [{ felt: "fuelLeftLitres", happy: 80 / 3, never: 40 / 3, during: "once", toleratedSeconds: 0 }],
});

describe("fuel by thirds, and turning back from the worst point", () => {
  const answer = crossAt(one, clock(9));
  const { fuel, row } = answer;
  if (fuel === null || fuel.worstTurnBack === null) throw new Error("no fuel was reckoned");
  const { worstTurnBack } = fuel;

  it("burns and leaves what the triangles give", () => {
    expect(Math.abs(fuel.engineSeconds - 3600 * ref.engineH)).toBeLessThan(60);
    expect(fuel.burntLitres).toBeCloseTo(ref.burntLitres, 1);
    expect(fuel.reserveShare * (fuel.usableLitres as number)).toBeCloseTo(ref.reserveLitres, 9);
    expect(row.margins).toHaveLength(1);
    const [judged] = row.margins;
    if (judged?.kind !== "judged") throw new Error("not judged");
    expect(judged.value).toBeCloseTo(ref.leftLitres, 1);
    expect(judged.margin).toBeCloseTo(ref.margin, 2);
    expect(judged.at).toBe(row.arrivalAt);
  });

  it("turns back at the last hour at which that is quicker, and reckons both harbour legs of it", () => {
    expect(worstTurnBack.at).toBe(clock(ref.worstTurnBack.atH));
    expect(Math.abs(worstTurnBack.backSeconds - 3600 * ref.worstTurnBack.backH)).toBeLessThan(60);
    expect(worstTurnBack.allLitres).toBeCloseTo(ref.worstTurnBack.allLitres, 1);
    expect(nmFromMetres(worstTurnBack.acrossMetres)).toBeCloseTo(ref.worstTurnBack.acrossNm, 1);
  });

  it("is told in words; without sails she goes with the water when the engine stops", () => {
    expect(fuelInWords(fuel, one).replaceAll("\u00a0", " ")).toBe(
      "The engine runs 8 h 57 from berth to berth and burns 23 L of 40 L usable: 17 L left. By thirds 13 L are not to be burnt. While turning back is quicker than going on it costs most at Thu 11:00, 19.4 nm across: 2 h 47 back and 23 L in all, 17 L left.",
    );
    expect(engineFailureInWords(fuel.engineFails, one)).toContain("1.5 kn toward 045 true");
  });
});

describe("the engine stopped for good", () => {
  // Still water, 36.1 miles west at 6 kn from 0900: 6.01 h. The wind is south, 8 to 12 kn: 10 kn on the beam, in which she sails 5 kn.
  // The engine stops at 1200, 18 miles on: what is left takes 18.1/5 = 3.61 h instead of 3.01 h, 36 minutes more.
  const sail = {
    points: [60, 90, 120].flatMap((trueWindAngleDeg) =>
      [5, 10, 15].map((knots) => ({ trueWindAngleDeg, trueWindMps: kn(knots), speedMps: kn(knots / 2) })),
    ),
    leewayCoefficient: null,
    leewayCapDeg: 0,
  };
  const sailed = prepared({ boat: { ...tansy, sail }, waterSources: [{ kind: "uniform", setDegTrue: 0, rateMps: 0 }] });

  it("leaves her to her sails, and tells for every hour how much later she is in", () => {
    const { fuel } = crossAt(sailed, clock(9));
    const at = (hour: number) => fuel?.engineFails.find((one) => one.at === clock(hour));
    expect(fuel?.engineFails.map((one) => one.at)).toEqual([10, 11, 12, 13, 14, 15].map((hour) => clock(hour)));
    for (const hour of [10, 12, 14]) {
      const leftNm = ref.wholeNm - 6 * (hour - 9);
      const { outcome } = at(hour) ?? {};
      if (outcome?.kind !== "sails") throw new Error(JSON.stringify(outcome));
      expect(Math.abs(outcome.lateSeconds - 3600 * (leftNm / 5 - leftNm / 6))).toBeLessThan(60);
    }
    expect(engineFailureInWords(fuel?.engineFails ?? [], sailed)).toContain("Beating to windward is not reckoned.");
  });
});

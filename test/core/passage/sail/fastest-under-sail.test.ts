import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { landOn } from "../../../../src/core/coast/index.ts";
import { fastestWay, oneHeading, waysAndBest } from "../../../../src/core/passage/index.ts";
import { type CurrentSource, gaussianJet, sumOfCurrents, turningTide, uniformCurrent } from "../../../../src/core/water/index.ts";
import { power } from "../../boat/boats.ts";
import { FLAT, HOUR, KN, NM } from "../waters.ts";
import { arrives, type Blows, planOf, sailing, sailingModel } from "./waters-under-sail.ts";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const still = uniformCurrent(0, 0);

const waters = (jetKn: number, tideKn: number): CurrentSource =>
  sumOfCurrents([
    gaussianJet({ rateMps: jetKn * KN, axisMetres: 14 * NM, halfWidthMetres: 7 * NM }),
    turningTide({ rateMps: tideKn * KN, periodSeconds: 12.42 * HOUR, epochAt: 0, bell: { axisMetres: 26 * NM, halfWidthMetres: 6 * NM } }),
  ]);

const anyPassage = fc.record({
  jetKn: between(-3, 3),
  tideKn: between(-1.5, 1.5),
  northNm: between(-8, 8),
  blows: fc.record({
    knots: between(8, 18),
    fromDeg: between(0, 359),
    shiftHours: fc.integer({ min: 1, max: 10 }),
    turnDeg: between(-60, 60),
  }),
});

const blowing = ({
  knots,
  fromDeg,
  shiftHours,
  turnDeg,
}: {
  knots: number;
  fromDeg: number;
  shiftHours: number;
  turnDeg: number;
}): Blows => ({
  knots,
  fromDeg,
  shiftHours,
  thenDeg: (fromDeg + turnDeg + 360) % 360,
});

/** What the search may miss of the very fastest. */
const SEARCH_SHARE = 3e-4;

describe("the fastest under sail", () => {
  it("is no later than one heading, and no plan is earlier than it", () => {
    fc.assert(
      fc.property(anyPassage, ({ jetKn, tideKn, northNm, blows }) => {
        const one = sailing(waters(jetKn, tideKn), [36, northNm], blowing(blows));
        const way = arrives(fastestWay(one, 0, { crossCheck: false }));
        const heading = oneHeading(one, 0);
        if (heading.kind === "arrives") expect(way.arrivalAt).toBeLessThan(heading.arrivalAt * (1 + SEARCH_SHARE) + 1);
        const plan = way.underSail?.plan;
        if (plan?.kind === "arrives") expect(plan.arrivalAt).toBeGreaterThan(way.arrivalAt * (1 - SEARCH_SHARE));
      }),
      { numRuns: 30 },
    );
  });

  it("mirrored wind and water give the way and the plan mirrored", () => {
    fc.assert(
      fc.property(anyPassage, ({ jetKn, tideKn, northNm, blows }) => {
        const wind = blowing(blows);
        const one = arrives(fastestWay(sailing(waters(jetKn, tideKn), [36, northNm], wind), 0, { crossCheck: false }));
        const turned = { ...wind, fromDeg: (540 - wind.fromDeg) % 360, thenDeg: (540 - (wind.thenDeg ?? 0)) % 360 };
        const other = arrives(fastestWay(sailing(waters(-jetKn, -tideKn), [36, -northNm], turned), 0, { crossCheck: false }));
        // Ways that take as long as each other may be taken the other way round in the mirror: to what the search may miss.
        expect(Math.abs(other.arrivalAt / one.arrivalAt - 1)).toBeLessThan(SEARCH_SHARE);
      }),
      { numRuns: 12 },
    );
  });
});

describe("the plan under sail", () => {
  it("beats dead to windward with boards on either side, each as long as a board is kept", () => {
    const way = arrives(fastestWay(sailing(still, [24, 0], { knots: 12, fromDeg: 90 }), 0));
    const plan = planOf(way);
    expect(way.crossChecked).toBe(true);
    expect(plan.tacks).toBeGreaterThanOrEqual(1);
    expect(plan.gybes).toBe(0);
    expect(plan.boards.every(({ sailed }) => sailed === "closeHauled")).toBe(true);
    plan.boards.forEach((board, i) => {
      expect(board.windOver).not.toBe(plan.boards[i - 1]?.windOver);
      expect(board.after).toBe(i === 0 ? null : "tack");
      expect(board.untilAt - board.fromAt).toBeGreaterThanOrEqual(1800);
    });
    expect(Math.abs(plan.arrivalAt - way.arrivalAt - 60 * plan.tacks)).toBeLessThan(3);
    const last = plan.track.count - 1;
    expect(Math.hypot((plan.track.xMetres[last] as number) - 24 * NM, plan.track.yMetres[last] as number)).toBeLessThan(2);
  });

  it("pays as much as it is told to", () => {
    const one = sailing(still, [24, 0], { knots: 12, fromDeg: 90 });
    const handling = { leastBoardSeconds: 3600, tackSeconds: 300, gybeSeconds: 0 };
    const way = arrives(fastestWay(one, 0, { crossCheck: false, handling }));
    expect(way.underSail?.handling).toEqual(handling);
    expect(Math.abs(planOf(way).arrivalAt - way.arrivalAt - 300 * planOf(way).tacks)).toBeLessThan(3);
    expect(fastestWay(one, 0, { crossCheck: false, plan: false })).toMatchObject({ kind: "arrives", underSail: null });
  });

  it("holds one course where no boards are wanted, and is the bound then", () => {
    const way = arrives(fastestWay(sailing(waters(2, 1), [36, 0], { knots: 12, fromDeg: 0 }), 0, { crossCheck: false }));
    expect(planOf(way)).toMatchObject({ tacks: 0, gybes: 0 });
    expect(planOf(way).arrivalAt).toBeCloseTo(way.arrivalAt, 0);
  });

  it("goes round land, on no board across it", () => {
    const rings = [Float64Array.from([10, 6, 14, 6, 14, -3, 10, -3].map((nm) => nm / 60))];
    const land = landOn(FLAT, [{ kind: "land", name: null, rings }]);
    if (land === null) throw new Error("no land");
    const way = arrives(fastestWay(sailing(still, [26, 0], { knots: 12, fromDeg: 80 }, sailingModel(), land), 0));
    const { count, xMetres: x, yMetres: y } = planOf(way).track;
    expect(way.landCorners.length).toBeGreaterThan(0);
    for (let i = 0; i + 1 < count; i++) {
      expect(land.crosses(x[i] as number, y[i] as number, x[i + 1] as number, y[i + 1] as number)).toBe(false);
    }
    expect(planOf(way).arrivalAt).toBeGreaterThan(way.arrivalAt);
  });

  it("is what the best of all costs is told against, and no headings held by the hour are made of boards", () => {
    const found = waysAndBest(sailing(still, [24, 0], { knots: 12, fromDeg: 90 }), 0, { closely: true });
    expect(found.ways.some(({ kind }) => kind === "arrives")).toBe(false);
    expect(found.ways.map(({ name }) => name)).not.toContain("changingHeadings");
    expect(found.fastest?.kind).toBe("arrives");
  });
});

describe("where there is no way under sail, and where the engine goes", () => {
  it("tells a current that she can't stem, and a wind without direction", () => {
    expect(fastestWay(sailing(uniformCurrent(270, 8 * KN), [20, 0], { knots: 10, fromDeg: 90 }), 0)).toMatchObject({
      kind: "fails",
      why: { code: "unreachable" },
    });
    expect(fastestWay(sailing(still, [20, 0], { knots: 10, fromDeg: 0, arcDeg: 360 }), 0).kind).toBe("fails");
  });

  it("motors into the wind by her rule, and makes no boards of headings that are not sailed", () => {
    const ruled = sailingModel({ power, engineRule: { onBelowMps: 3 * KN, offAboveMps: 4 * KN } });
    const way = arrives(fastestWay(sailing(still, [24, 0], { knots: 12, fromDeg: 90 }, ruled), 0, { crossCheck: false }));
    // 24 miles at 5.5 kn dead into the wind, which takes nothing from this engine.
    expect(way.arrivalAt).toBeLessThan((24 / 5.5) * HOUR + 1);
    expect(planOf(way)).toMatchObject({ tacks: 0 });
    expect(way.engineSeconds).toBeGreaterThan(0.9 * way.arrivalAt);
  });

  it("is no sailing boat's answer for one that motor-sails all the way", () => {
    const motorSailing = sailingModel({ power, goes: "motor-sail" });
    const way = arrives(fastestWay(sailing(still, [24, 0], { knots: 12, fromDeg: 0 }, motorSailing), 0, { crossCheck: false }));
    expect(way.underSail).toBeNull();
  });
});

import { describe, expect, it } from "vitest";
import { sailSpeedMps, sailTable } from "../../src/core/boat/index.ts";
import { type FastestArrives, fastestWay, type SailPlan } from "../../src/core/passage/index.ts";
import { fastestArrives, fastestHours } from "./fastest-cases.ts";
import { type Blow, SAIL_CASES, sailPoints, underSail } from "./sail-cases.ts";
import { HOUR, KN, NM } from "./ways-cases.ts";

/** Three hundredths of a percent. */
const WITHIN_SHARE = 3e-4;

// Source: make_sail.py beside the figures (scipy: convex duality where water and wind go by place or by time alone, else an optimised line
// extrapolated, its two fineness apart by 2e-5). Status: computed.
describe("the fastest under sail, tacking free, beside convex duality and an optimised line", () => {
  it.each(SAIL_CASES.map((one) => ({ ...one, name: `${one.case}: ${one.hours} h` })))("$name", (one) => {
    const crossing = underSail(one);
    for (const crossCheck of [false, true]) {
      const way = fastestArrives(fastestWay(crossing, 0, { crossCheck }));
      const share = fastestHours(way) / one.hours - 1;
      expect(Math.abs(share), `cross-check ${crossCheck}: ${fastestHours(way)} h`).toBeLessThanOrEqual(WITHIN_SHARE);
      // The plan pays for its tacks, and can't be quicker than what is true; it is not far behind where tacks are few.
      const plan = planned(way);
      expect(plan.arrivalAt).toBeGreaterThan(one.hours * HOUR * (1 - 1e-4));
      expect(plan.arrivalAt - way.arrivalAt).toBeLessThan(0.01 * one.hours * HOUR);
    }
  });
});

function planned(way: FastestArrives): SailPlan & { readonly kind: "arrives" } {
  const plan = way.underSail?.plan;
  if (plan?.kind !== "arrives") throw new Error(`no plan: ${JSON.stringify(plan)}`);
  return plan;
}

const TABLE = sailTable(sailPoints);

/**
 * The closed form for a steady wind and a uniform current: the best mixture of any two headings, tried in steps of half a degree, that goes
 * along the unit vector; m/s over the ground. Wind over the water, directions mathematical.
 */
function bestMixtureMps(
  toward: readonly [number, number],
  windMps: number,
  windFromDeg: number,
  current: readonly [number, number],
): number {
  if (!TABLE.ok) throw new Error("no table");
  const overX = -windMps * Math.sin((windFromDeg * Math.PI) / 180) - current[0];
  const overY = -windMps * Math.cos((windFromDeg * Math.PI) / 180) - current[1];
  const into = Math.atan2(-overY, -overX);
  const sides: { readonly left: number; readonly ahead: number }[] = [];
  for (let deg = 0; deg < 360; deg += 0.5) {
    const speed = sailSpeedMps(TABLE.value, deg > 180 ? 360 - deg : deg, Math.hypot(overX, overY));
    const x = speed * Math.cos(into + (deg * Math.PI) / 180) + current[0];
    const y = speed * Math.sin(into + (deg * Math.PI) / 180) + current[1];
    sides.push({ left: toward[0] * y - toward[1] * x, ahead: toward[0] * x + toward[1] * y });
  }
  let best = 0;
  for (const a of sides) {
    if (a.left > 0) continue;
    for (const b of sides) {
      if (b.left <= 0) continue;
      best = Math.max(best, (a.ahead * b.left - b.ahead * a.left) / (b.left - a.left));
    }
  }
  return best;
}

const steady =
  (knots: number, fromDeg: number): Blow =>
  () => [knots, fromDeg];

describe("in a steady wind and a uniform current", () => {
  const cases: readonly (readonly [what: string, windFromDeg: number, currentKn: readonly [number, number]])[] = [
    ["dead to windward", 90, [0, 0]],
    ["near the lay line", 55, [0, 0]],
    ["reaching", 10, [0, 0]],
    ["dead down wind", 270, [0, 0]],
    ["to windward with a current under the lee bow", 90, [0, 1.5]],
    ["to windward against a current", 90, [-1, 0.5]],
    ["down wind in a current from the side", 250, [0.5, -2]],
  ];
  it.each(cases)("%s the time is the distance over the best mixture of two headings", (_what, windFromDeg, currentKn) => {
    const crossing = underSail({ blow: steady(12, windFromDeg), flow: () => currentKn, toNm: [30, 0] });
    const way = fastestArrives(fastestWay(crossing, 0));
    const made = bestMixtureMps([1, 0], 12 * KN, windFromDeg, [currentKn[0] * KN, currentKn[1] * KN]);
    // The headings tried lie half a degree apart: they may miss the best by so little.
    expect(way.arrivalAt / ((30 * NM) / made) - 1).toBeLessThan(2e-5);
    expect(way.arrivalAt / ((30 * NM) / made) - 1).toBeGreaterThan(-5e-5);
  });

  it.each(cases)("%s the plan is later by what its tacks cost, the water going on meanwhile", (_what, windFromDeg, currentKn) => {
    const crossing = underSail({ blow: steady(12, windFromDeg), flow: () => currentKn, toNm: [30, 0] });
    const way = fastestArrives(fastestWay(crossing, 0, { crossCheck: false }));
    const plan = planned(way);
    const lost = plan.tacks * 60 + plan.gybes * 120;
    // While she goes about she drifts: what is left is sailed in less time.
    const [x, y] = [30 * NM - currentKn[0] * KN * lost, -currentKn[1] * KN * lost];
    const made = bestMixtureMps([x / Math.hypot(x, y), y / Math.hypot(x, y)], 12 * KN, windFromDeg, [currentKn[0] * KN, currentKn[1] * KN]);
    expect(Math.abs(plan.arrivalAt / (lost + Math.hypot(x, y) / made) - 1)).toBeLessThan(1e-4);
  });

  it("the plan comes to the bound as tacks cost nothing and boards may be short", () => {
    const crossing = underSail({ blow: steady(12, 90), flow: (x) => [0, 3 * Math.exp(-(((x - 20) / 9) ** 2))], toNm: [45, 4] });
    const lateness = [1, 0.25, 0].map((share) => {
      const handling = { leastBoardSeconds: 1800 * share, tackSeconds: 60 * share, gybeSeconds: 120 * share };
      const way = fastestArrives(fastestWay(crossing, 0, { crossCheck: false, handling }));
      return (planned(way).arrivalAt - way.arrivalAt) / way.arrivalAt;
    });
    expect(lateness[1]).toBeLessThan(lateness[0] as number);
    expect(lateness[2]).toBeLessThan(lateness[1] as number);
    expect(Math.abs(lateness[2] as number)).toBeLessThan(2e-4);
  });
});

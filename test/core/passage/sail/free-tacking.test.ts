import { describe, expect, it } from "vitest";
import { sailSpeedMps, sailTable } from "../../../../src/core/boat/index.ts";
import {
  CURRENT_AHEAD,
  CURRENT_ASIDE,
  FreeTacking,
  goesUnderSail,
  RAY_AHEAD,
  RAY_ASIDE,
  WIND,
} from "../../../../src/core/passage/fastest/sail/free-tacking.ts";
import { kn, points, power } from "../../boat/boats.ts";
import { powerBoat } from "../waters.ts";
import { sailingModel } from "./waters-under-sail.ts";

/** The reach at an angle off the wind, degrees counter-clockwise, in a current ahead and aside. */
function reachMps(hull: FreeTacking, offWindDeg: number, windMps: number, aheadMps = 0, asideMps = 0): number {
  const rad = (offWindDeg * Math.PI) / 180;
  hull.asked[RAY_AHEAD] = Math.cos(rad);
  hull.asked[RAY_ASIDE] = Math.sin(rad);
  hull.asked[CURRENT_AHEAD] = aheadMps;
  hull.asked[CURRENT_ASIDE] = asideMps;
  hull.asked[WIND] = windMps;
  return hull.reachMps();
}

const table = sailTable(points);
if (!table.ok) throw new Error("no table");
const speed = (deg: number, windMps: number): number => sailSpeedMps(table.value, deg, windMps);
const degrees = Array.from({ length: 1801 }, (_, i) => i / 10);

describe("what is made good with tacks and gybes free", () => {
  it("is to windward and to leeward the best that any angle makes", () => {
    for (const knots of [6, 9, 12.3, 18]) {
      const hull = new FreeTacking(sailingModel());
      const best = (sense: number): number =>
        Math.max(...degrees.map((deg) => sense * speed(deg, kn(knots)) * Math.cos((deg * Math.PI) / 180)));
      // The search's curves go by straight lines between winds 0.1 m/s apart: a kink of the table between two costs so much.
      expect(Math.abs(reachMps(hull, 0, kn(knots)) / best(1) - 1)).toBeLessThan(2e-3);
      expect(Math.abs(reachMps(hull, 180, kn(knots)) / best(-1) - 1)).toBeLessThan(2e-3);
      const angle = hull.bestDeg("beat", kn(knots));
      expect(speed(angle, kn(knots)) * Math.cos((angle * Math.PI) / 180)).toBeCloseTo(best(1), 3);
    }
  });

  it("is never less than one heading makes, alike on both sides, whatever was asked before", () => {
    const hull = new FreeTacking(sailingModel());
    for (let deg = 3; deg < 180; deg += 7) {
      const reach = reachMps(hull, deg, kn(12));
      expect(reach).toBeGreaterThanOrEqual(speed(deg, kn(12)) * (1 - 1e-4));
      expect(reachMps(hull, -deg, kn(12))).toBeCloseTo(reach, 9);
      expect(reachMps(new FreeTacking(sailingModel()), deg, kn(12))).toBe(reach);
    }
  });

  it("is carried by the current, and is nothing where that is too strong", () => {
    const hull = new FreeTacking(sailingModel());
    const still = reachMps(hull, 0, kn(12));
    expect(reachMps(hull, 0, kn(12), kn(1))).toBeCloseTo(still + kn(1), 9);
    expect(reachMps(hull, 0, kn(12), kn(-9))).toBe(0);
    expect(reachMps(hull, 0, kn(12), 0, kn(20))).toBe(0);
  });

  it("mixes only headings that are sailed: by her rule the engine takes her to windward", () => {
    const ruled = new FreeTacking(sailingModel({ power, engineRule: { onBelowMps: kn(3), offAboveMps: kn(4) } }));
    expect(reachMps(ruled, 0, kn(12))).toBeCloseTo(kn(5.5), 9);
    expect(ruled.bestDeg("beat", kn(12))).toBeNaN();
    expect(ruled.bestDeg("run", kn(12))).toBeGreaterThan(120);
  });

  it("is for boats that go without their engine", () => {
    expect(goesUnderSail(sailingModel())).toBe(true);
    expect(goesUnderSail(sailingModel({ power, goes: "motor-sail" }))).toBe(false);
    expect(goesUnderSail(powerBoat(5))).toBe(false);
  });
});

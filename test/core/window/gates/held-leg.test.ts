import { describe, expect, it } from "vitest";
import { runPilotage } from "../../../../src/core/passage/index.ts";
import { metresFromNm } from "../../../../src/core/units/index.ts";
import { uniformCurrent } from "../../../../src/core/water/index.ts";
import { lyingOffAtEnd, withHolds } from "../../../../src/core/window/gates/held-leg.ts";
import { clock, kn, plane, trackOf } from "../setup.ts";

/** Two miles north at 4 kn, half an hour, from 12:00. */
const leg = runPilotage(plane, [plane.toPosition(0, 0), plane.toPosition(0, metresFromNm(2))], kn(4), clock(12));
const milesAt = (run: typeof leg, at: number): number => {
  const i = run.atSeconds.findIndex((one) => Math.abs(one - at) < 1e-6);
  return (run.yMetres[i] as number) / metresFromNm(1);
};

describe("a leg with waits", () => {
  it("lies still while she waits, and is so much later after it", () => {
    const held = withHolds(leg, [{ fromAt: clock(12, 15), untilAt: clock(12, 40) }]);
    expect(held.atSeconds[held.count - 1]).toBeCloseTo(clock(12, 55), 6);
    expect(milesAt(held, clock(12, 15))).toBeCloseTo(1, 4);
    expect(milesAt(held, clock(12, 40))).toBeCloseTo(1, 4);
    expect(held.lengthMetres).toBe(leg.lengthMetres);
    // Every node is later than the one before, at most ten minutes; only those of the wait are marked, and there she does not move.
    for (let i = 1; i < held.count; i++) {
      const seconds = (held.atSeconds[i] as number) - (held.atSeconds[i - 1] as number);
      expect(seconds).toBeGreaterThan(0);
      expect(seconds).toBeLessThanOrEqual(600 + 1e-6);
      const moved = Math.abs((held.yMetres[i] as number) - (held.yMetres[i - 1] as number)) > 1e-6;
      expect(moved).toBe(held.waiting?.[i] === 0);
    }
  });

  it("may wait at its beginning, more than once, and at its end", () => {
    const held = withHolds(leg, [
      { fromAt: clock(12), untilAt: clock(12, 5) },
      { fromAt: clock(12, 20), untilAt: clock(12, 30) },
      { fromAt: clock(12, 30), untilAt: clock(12, 31) },
      { fromAt: clock(12, 46), untilAt: clock(13) },
    ]);
    expect(milesAt(held, clock(12, 5))).toBeCloseTo(0, 6);
    expect(milesAt(held, clock(12, 31))).toBeCloseTo(1, 4);
    expect(milesAt(held, clock(12, 46))).toBeCloseTo(2, 4);
    expect(held.atSeconds[held.count - 1]).toBeCloseTo(clock(13), 6);
  });

  it("is the leg itself without any", () => {
    expect(withHolds(leg, [])).toBe(leg);
  });
});

describe("lying off at the end of open water", () => {
  const track = trackOf([
    { at: clock(11), nm: 6 },
    { at: clock(12), nm: 0 },
  ]);
  const lain = lyingOffAtEnd(track, clock(12, 25), uniformCurrent(0, kn(2)).onPlane(plane));

  it("keeps her place, with the engine off and the stream felt", () => {
    expect(Array.from(lain.atSeconds.slice(2), (at) => Math.round(at))).toEqual(
      [0, 1, 2].map((k) => Math.round(clock(12) + ((k + 1) * 1500) / 3)),
    );
    expect(Array.from(lain.xMetres.slice(1))).toEqual([0, 0, 0, 0]);
    expect(Array.from(lain.engineOn)).toEqual([1, 0, 0, 0, 0]);
    expect(Array.from(lain.burnLitresPerHour.slice(1))).toEqual([0, 0, 0, 0]);
    expect(lain.currentNorthMps[3]).toBeCloseTo(kn(2), 9);
    expect(lain.answeredBy[3]).toBe(0);
  });

  it("leaves a track without a wait as it is", () => {
    expect(lyingOffAtEnd(track, clock(12), uniformCurrent(0, 0).onPlane(plane))).toBe(track);
  });
});

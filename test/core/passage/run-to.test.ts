import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { landOn } from "../../../src/core/coast/index.ts";
import { findHeadings, lineBetween, oneHeading, placeAt, RunsTo } from "../../../src/core/passage/index.ts";
import { analyticCurrent, gridCurrent, uniformCurrent } from "../../../src/core/water/index.ts";
import { crossing, currentGrid, HOUR, KN, NM, powerBoat } from "./waters.ts";

/** A stream with eddies: a uniform part and four waves across the plane, at most as many knots as told. */
const eddies = (knots: number, phases: readonly number[]) =>
  analyticCurrent("eddies", (out, x, y, at) => {
    const [a = 0, b = 0, c = 0, d = 0] = phases;
    const k = (2 * Math.PI) / (22 * NM);
    const wave = (2 * Math.PI * at) / (14 * HOUR);
    out[0] = (knots * KN * (Math.sin(k * y + a) + Math.cos(k * x + b + wave))) / 3;
    out[1] = (knots * KN * (Math.cos(k * x + c) + Math.sin(k * y + d - wave))) / 3;
  });

describe("runs to one place, hour after hour", () => {
  it("find in eddies what a search all round finds each time, to two seconds", () => {
    const phase = fc.double({ min: 0, max: 6.28, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2.5, noNaN: true }),
        fc.tuple(phase, phase, phase, phase),
        fc.tuple(fc.integer({ min: -25, max: 60 }), fc.integer({ min: -30, max: 30 })),
        (knots, phases, [xNm, yNm]) => {
          const made = crossing(eddies(knots, phases), [0, 0], [45, 5], powerBoat(5.5));
          const way = oneHeading(made, 0);
          if (way.kind === "fails") return;
          const place = { xMetres: xNm * NM, yMetres: yNm * NM };
          const runs = new RunsTo(made, made.boat, place);
          for (let hour = 1; hour * HOUR < way.arrivalAt; hour++) {
            const { xMetres, yMetres } = placeAt(way.track, hour * HOUR);
            if (Math.hypot(place.xMetres - xMetres, place.yMetres - yMetres) < NM) continue;
            const got = runs.from(xMetres, yMetres, hour * HOUR);
            const line = lineBetween(made.line.plane, xMetres, yMetres, place.xMetres, place.yMetres);
            const all = findHeadings(made.simulator, made.boat, line, { xMetres, yMetres, at: hour * HOUR, engineOn: false }, 300);
            const best = all.found[0];
            if (best === undefined) expect(got.kind).toBe("fails");
            else expect(Math.abs((got.kind === "arrives" ? got.arrivalAt : 0) - best.arrivalAt)).toBeLessThan(2);
          }
        },
      ),
      { numRuns: 15 },
    );
  });

  it("burn by the hour", () => {
    const made = crossing(uniformCurrent(0, 1), [0, 0], [30, 0], powerBoat(6, 4));
    const run = new RunsTo(made, made.boat, { xMetres: 10 * NM, yMetres: 3 * NM }).from(0, 0, 0);
    if (run.kind === "fails") throw new Error(run.why.code);
    expect(run.fuelLitres).toBeCloseTo((4 * run.arrivalAt) / HOUR, 9);
  });

  it("are over where the boat is there", () => {
    const made = crossing(uniformCurrent(0, 1), [0, 0], [30, 0]);
    expect(new RunsTo(made, made.boat, { xMetres: 5, yMetres: 5 }).from(0, 0, 600)).toMatchObject({ arrivalAt: 600, orders: [] });
  });

  it("go round land by the fastest way where no single heading leads there, and not where the water is not known", () => {
    // A wall of land three miles thick, from 20 miles south to 12 miles north of the way.
    const wall = Float64Array.from([20, -20, 23, -20, 23, 12, 20, 12].map((minutes) => minutes / 60));
    const made = crossing(uniformCurrent(0, 0), [0, 0], [40, 0], powerBoat(5));
    const land = landOn(made.line.plane, [{ kind: "land", name: "the wall", rings: [wall] }]);
    const runs = new RunsTo(made, made.boat, { xMetres: 40 * NM, yMetres: 0 }, { ...made.around, land });
    const run = runs.from(0, 0, 0);
    if (run.kind === "fails") throw new Error(run.why.code);
    expect(run.by).toBe("fastest");
    expect(run.orders.length).toBeGreaterThan(1);
    // Round its two northern corners: the legs are 23.3, 3 and 20.8 miles long; the corners are kept clear of by a little.
    const roundNm = Math.hypot(20, 12) + 3 + Math.hypot(17, 12);
    const nmRun = (run.arrivalAt / HOUR) * 5;
    expect(nmRun).toBeGreaterThan(roundNm * 0.998);
    expect(nmRun).toBeLessThan(roundNm * 1.02);
    const unknown = crossing(
      gridCurrent(currentGrid({ westDeg: -0.5, eastDeg: 0.5, spanDeg: 0.5, hours: 48 }, () => [0, 0])),
      [0, 0],
      [20, 0],
    );
    const far = new RunsTo(unknown, unknown.boat, { xMetres: 40 * NM, yMetres: 0 }).from(0, 0, 0);
    expect(far).toMatchObject({ kind: "fails", why: { code: "not-covered-place" } });
  });
});

import { describe, expect, it } from "vitest";
import { pilotageSeconds, runPilotage } from "../../../src/core/passage/index.ts";
import { FLAT, KN, NM } from "./waters.ts";

const place = (eastNm: number, northNm: number) => FLAT.toPosition(eastNm * NM, northNm * NM);
const points = [place(0, 0), place(3, 0), place(3, 4)];

describe("a fixed track in or out of harbour", () => {
  it("takes its length over the speed and ends at its last point", () => {
    const run = runPilotage(FLAT, points, 5 * KN, 1000);
    expect(run.lengthMetres).toBeCloseTo(7 * NM, 6);
    expect(run.atSeconds[run.count - 1]).toBeCloseTo(1000 + 1.4 * 3600, 6);
    expect(pilotageSeconds(FLAT, points, 5 * KN)).toBeCloseTo(1.4 * 3600, 6);
    expect(run.xMetres[run.count - 1]).toBeCloseTo(3 * NM, 6);
    expect(run.yMetres[run.count - 1]).toBeCloseTo(4 * NM, 6);
  });

  it("has a node at every point and at least every ten minutes, at one speed", () => {
    const run = runPilotage(FLAT, points, 5 * KN, 0);
    const corner = run.atSeconds.findIndex((at) => Math.abs(at - 0.6 * 3600) < 1e-6);
    expect(run.xMetres[corner]).toBeCloseTo(3 * NM, 6);
    expect(run.yMetres[corner]).toBeCloseTo(0, 6);
    for (let i = 1; i < run.count; i++) {
      const seconds = run.atSeconds[i]! - run.atSeconds[i - 1]!;
      expect(seconds).toBeGreaterThan(0);
      expect(seconds).toBeLessThanOrEqual(600 + 1e-9);
      const metres = Math.hypot(run.xMetres[i]! - run.xMetres[i - 1]!, run.yMetres[i]! - run.yMetres[i - 1]!);
      expect(metres / seconds).toBeCloseTo(5 * KN, 9);
    }
  });

  it("with one point is there at once", () => {
    const run = runPilotage(FLAT, [place(1, 1)], 5 * KN, 77);
    expect([run.count, run.atSeconds[0], run.lengthMetres]).toEqual([1, 77, 0]);
    expect(pilotageSeconds(FLAT, [], 5 * KN)).toBe(0);
  });

  it("needs a speed and a point", () => {
    for (const speed of [0, -1, Number.NaN]) {
      expect(() => runPilotage(FLAT, points, speed, 0)).toThrow("needs a speed");
      expect(() => pilotageSeconds(FLAT, points, speed)).toThrow("needs a speed");
    }
    expect(() => runPilotage(FLAT, [], 5, 0)).toThrow("needs points");
  });
});

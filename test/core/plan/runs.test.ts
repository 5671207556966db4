import { describe, expect, it } from "vitest";
import type { GridData } from "../../../src/core/fields/index.ts";
import { crossAt, tryDepartures } from "../../../src/core/plan/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { clock } from "../window/setup.ts";
import { currentGrid, grid, kn, prepared, windGrid } from "./setup.ts";

const files = { kind: "files", files: ["a", "b"] } as const;
const from = (hours: number) => epochSeconds(clock(hours));

/** The same over the first steps, six hours apart, only. */
function cut(whole: GridData, steps: number): GridData {
  const wide = 9 * whole.quantities.length;
  return {
    ...whole,
    times: whole.times.slice(0, steps),
    values: whole.values.slice(0, steps * wide),
    missing: whole.missing.slice(0, steps * 9),
  };
}

/** The strongest wind felt under each departure, knots. */
function winds(weather: readonly GridData[], until = 24): { hour: number; knots: number; seams: number }[] {
  const one = prepared({ weatherSources: [files], leaveFrom: from(0), leaveUntil: from(until) }, { water: [null], weather: [weather] });
  const answer = tryDepartures(one)!;
  return answer.rows.map((row, i) => {
    const felt = answer.kept[i]!.planned!.columns.windMps.high;
    return { hour: (row.departAt - clock(0)) / 3600, knots: Math.round(Math.max(...felt) / kn(1)), seams: answer.seams[i]!.length };
  });
}

// 36 miles against and across a knot take just under 6.1 h.
describe("of several runs of a forecast", () => {
  // The older run blows 10 kn to hour 48, the newer 20 kn, but only to hour 18.
  const older = windGrid(10, { issuedAt: clock(-6) });
  const newer = cut(windGrid(20, { issuedAt: clock(0) }), 4);

  it("the newest that covers a passage whole is used, whatever their order", () => {
    for (const order of [
      [older, newer],
      [newer, older],
    ]) {
      const felt = winds(order);
      expect(felt.filter((one) => one.hour <= 11).map((one) => one.knots)).toEqual(new Array(12).fill(20));
      // From hour 12 the passage ends after hour 18: the newer run covers it in part, the older whole.
      expect(felt.filter((one) => one.hour >= 12).map((one) => one.knots)).toEqual(new Array(13).fill(10));
      expect(felt.every((one) => one.seams === 0)).toBe(true);
    }
  });

  it("two are joined where none covers the passage whole, and the seam is told with its jump", () => {
    // The older begins at hour 12 now: a passage from hour 10 has the newer to 18 only… and one from 12.5 neither misses.
    const late: GridData = { ...older, times: older.times.map((at) => at + 15 * 3600) };
    const felt = winds([newer, late], 14);
    expect(felt.filter((one) => one.seams > 0).map((one) => one.hour)).toEqual([12, 13, 14]);
    const one = prepared(
      { weatherSources: [files], leaveFrom: from(12), leaveUntil: from(12) },
      { water: [null], weather: [[newer, late]] },
    );
    const seam = tryDepartures(one)!.seams[0]![0]!;
    expect(seam).toMatchObject({ quantity: "wind", at: clock(18), fromRunIssuedAt: clock(0), toRunIssuedAt: clock(-6) });
    expect(seam.jump! / kn(1)).toBeCloseTo(10, 6);
    expect(seam.turnDeg).toBeCloseTo(0, 6);
    expect(crossAt(one, clock(12)).seams).toEqual([seam]);
  });

  it("so it is with currents, and the passage is run again with the run that serves", () => {
    // The newer run's stream is twice as strong, to hour 18 only.
    const water = [cut(currentGrid(2, { issuedAt: clock(0) }), 4), currentGrid(1, { issuedAt: clock(-6) })];
    const one = prepared({ waterSources: [files], leaveFrom: from(6), leaveUntil: from(14) }, { water: [water], weather: [null] });
    const answer = tryDepartures(one)!;
    const hours = answer.rows.map((row) => (row.arrivalAt! - row.departAt) / 3600);
    // Square across the stream at 6 kn a boat makes good √(6² − c²).
    const miles = hours[8]! * Math.sqrt(35);
    expect(hours.slice(0, 6).every((taken) => Math.abs(taken - miles / Math.sqrt(32)) < 0.01)).toBe(true);
    expect(hours.slice(6).every((taken) => Math.abs(taken - miles / Math.sqrt(35)) < 0.01)).toBe(true);
    expect(answer.seams.every((seams) => seams.length === 0)).toBe(true);
    expect(crossAt(one, clock(14)).ways.map(({ way }) => way.kind)).toContain("arrives");
  });

  it("the sea's are joined too", () => {
    const sea = (height: number, issuedAt: number) => grid(["seaHeightMetres"], [height], { issuedAt });
    const late: GridData = { ...sea(1.5, clock(-6)), times: sea(1, 0).times.map((at) => at + 15 * 3600) };
    const weather = [windGrid(10), cut(sea(1, clock(0)), 4), late];
    const one = prepared({ weatherSources: [files], leaveFrom: from(13), leaveUntil: from(13) }, { water: [null], weather: [weather] });
    expect(tryDepartures(one)!.seams[0]).toEqual([
      expect.objectContaining({ quantity: "sea", at: clock(18), jump: expect.closeTo(0.5, 6), turnDeg: null }),
    ]);
  });
});

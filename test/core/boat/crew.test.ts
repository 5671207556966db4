import { describe, expect, it } from "vitest";
import { awakeOnArrivalSeconds, awakeOnLeavingSeconds, type Crew } from "../../../src/core/boat/index.ts";

const H = 3600;
const crew = (up: Crew["up"], watchkeepers = 2): Crew => ({ watchkeepers, up, sleptOffWatchShare: 0.5 });
const byClock = crew({ kind: "clock", upAtSecondOfDay: 7 * H, inBedAtSecondOfDay: 22 * H });

describe("how long a crew that gets up at 0700 and goes to bed at 2200 has been up when it leaves", () => {
  it.each([
    [7, 0],
    [10, 3],
    [22, 15],
    // In bed for an hour, and called at once: the sleep counts for nothing.
    [23, 16],
    // Called at 0159, a minute short of four hours; at 0200 it is four.
    [2 + 59 / 60, 19 + 59 / 60],
    [3, 1],
    [5, 1],
    [6.5, 1],
  ])("at %d h: %d h", (leaving, hours) => {
    expect(awakeOnLeavingSeconds(byClock, leaving * H)).toBeCloseTo(hours * H, 6);
  });

  it("stays up for a night's departure where no bedtime is stated, and is as told where that is told", () => {
    const staysUp = crew({ kind: "clock", upAtSecondOfDay: 7 * H, inBedAtSecondOfDay: null });
    expect(awakeOnLeavingSeconds(staysUp, 5 * H)).toBe(22 * H);
    expect(awakeOnLeavingSeconds(crew({ kind: "awake", seconds: 4 * H }), 5 * H)).toBe(4 * H);
  });
});

describe("how long each watchkeeper has been up on arrival", () => {
  it("is told by watches shared evenly, half of the time off watch slept, and none of it in harbour", () => {
    // Alone: 3 + 10 + 1. Two: off watch 5 h, slept 2.5. Three: off watch 6 h 40, slept 3 h 20.
    for (const [many, hours] of [
      [1, 14],
      [2, 11.5],
      [3, 14 - 10 / 3],
    ] as const)
      expect(awakeOnArrivalSeconds(crew({ kind: "awake", seconds: 0 }, many), 3 * H, 10 * H, H)).toBeCloseTo(hours * H, 6);
  });
});

import { describe, expect, it } from "vitest";
import { compassHeading, positionOf, rhumbBetween } from "../../src/core/earth/index.ts";
import { courseToSteer, headingAndSpeedFor, holdTrack, madeGood, runPilotage, setAndDrift } from "../../src/core/passage/index.ts";
import { uniformCurrent } from "../../src/core/water/index.ts";
import { crossingTo, FLAT, HOUR, KN, NM } from "./ways-cases.ts";

const apartDeg = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

function steer(course: number, speed: number, set: number, drift: number) {
  const answer = courseToSteer(course, speed, set, drift);
  if (answer === "cannotHold") throw new Error("the course can't be held");
  return answer;
}

// Source: "Answers to Practice Chart" (a sailing school's answer sheet, seen), plotted by hand: ±3° and ±0.1 kn. The exact figures are
// worked out from the triangle: 1e-3.
describe("courses to steer, against a practice chart's answers", () => {
  it.each([
    { course: 90, speed: 5, set: 210, drift: 2, plotted: [70, 3.7], exact: [69.732, 3.6904] },
    { course: 45, speed: 6.55, set: 135, drift: 2, plotted: [25, 6.2], exact: [27.221, 6.2372] },
    { course: 235, speed: 6.2, set: 315, drift: 3.5, plotted: [200, 5.8], exact: [201.225, 5.7613] },
  ] as const)("to make good $course at $speed in $set $drift", ({ course, speed, set, drift, plotted, exact }) => {
    const answer = steer(course, speed, set, drift);
    expect(apartDeg(answer.headingDeg, plotted[0])).toBeLessThan(3);
    expect(Math.abs(answer.speedMadeGood - plotted[1])).toBeLessThan(0.1);
    expect(apartDeg(answer.headingDeg, exact[0])).toBeLessThan(1e-3);
    expect(Math.abs(answer.speedMadeGood - exact[1])).toBeLessThan(1e-3);
  });

  it("steers 084 by compass for 070 true, variation 10 W and deviation 4 W", () => {
    const answer = compassHeading(70, { variationDeg: -10, deviationCard: [{ headingDegMag: 80, deviationDeg: -4 }] });
    expect(apartDeg(answer.headingDegCompass, 84)).toBeLessThan(1e-9);
    const computed = compassHeading(steer(90, 5, 210, 2).headingDeg, {
      variationDeg: -10,
      deviationCard: [{ headingDegMag: 80, deviationDeg: -4 }],
    });
    expect(apartDeg(computed.headingDegCompass, 84)).toBeLessThan(1);
  });
});

describe("set and drift", () => {
  // Source: a lesson on set and drift (T. Forsberg, seen): 4.2 nm from the dead reckoning to the fix in two hours.
  it("4.2 nm in two hours are 2.1 kn", () => {
    expect(setAndDrift(123, 4.2, 2)).toEqual({ setDeg: 123, drift: 2.1 });
  });

  // Source: "Seamanship Secrets", p. 114 (seen).
  it("a fix that bears 045 from the dead reckoning, half a mile off after half an hour: 045, 1.0 kn", () => {
    expect(setAndDrift(45, 0.5, 0.5)).toEqual({ setDeg: 45, drift: 1 });
  });

  // Source: a question of the US Coast Guard's examination bank (seen); the answer is computed. The trap: the set goes from the dead
  // reckoning to the fix.
  it("dead reckoning 2.0 nm due north of the fix after an hour: the set is 180, not 000", () => {
    const fix = positionOf(41, -71);
    const reckoned = positionOf(41 + 2 / 60, -71);
    const leg = rhumbBetween(reckoned, fix);
    const { setDeg, drift } = setAndDrift(leg.bearingDegTrue, 2, 1);
    expect(setDeg).toBeCloseTo(180, 9);
    expect(drift).toBe(2);
  });

  it("agrees with the triangle: a boat kept on 090 in the set found ends at the fix", () => {
    const { setDeg, drift } = setAndDrift(180, 2, 1);
    const made = madeGood(90, 6, setDeg, drift);
    expect(made.courseDeg).toBeGreaterThan(90);
    expect(made.speed * Math.cos(((made.courseDeg as number) * Math.PI) / 180)).toBeCloseTo(-2, 12);
  });
});

// Source: a lesson on currents (seen): a boat on 090 at 10 kn in a current setting 180 at 2 kn is pushed to the right. Corrected figures
// computed.
it("a current setting south pushes an eastward boat to the right, and is met by steering to the left", () => {
  expect(madeGood(90, 10, 180, 2).courseDeg).toBeGreaterThan(90);
  const answer = steer(90, 10, 180, 2);
  expect(apartDeg(answer.headingDeg, 78.463)).toBeLessThan(1e-3);
  expect(Math.abs(answer.speedMadeGood - 9.79796)).toBeLessThan(1e-5);
});

// Source: "The American Practical Navigator" (Bowditch), chapter on dead reckoning, current sailing, examples 1 to 3; from memory, worked
// again exactly. The published answers are rounded: ±0.6° and ±0.15 kn (half their last place and the plotting).
describe("current sailing, against the handbook's worked examples", () => {
  it("example 1: heading 080 at 10 in 140 at 2 makes good 089 at 11.2", () => {
    const made = madeGood(80, 10, 140, 2);
    expect(apartDeg(made.courseDeg as number, 89)).toBeLessThan(0.6);
    expect(Math.abs(made.speed - 11.2)).toBeLessThan(0.15);
    expect(apartDeg(made.courseDeg as number, 88.948)).toBeLessThan(1e-3);
    expect(Math.abs(made.speed - 11.1355)).toBeLessThan(1e-4);
  });

  it("example 2: to make good 095 at 12 in 170 at 2.5 steer 083.5, 12.4 made good", () => {
    const answer = steer(95, 12, 170, 2.5);
    expect(apartDeg(answer.headingDeg, 83.5)).toBeLessThan(0.6);
    expect(Math.abs(answer.speedMadeGood - 12.4)).toBeLessThan(0.15);
    expect(apartDeg(answer.headingDeg, 83.391)).toBeLessThan(1e-3);
    expect(Math.abs(answer.speedMadeGood - 12.4016)).toBeLessThan(1e-4);
  });

  it("example 3: to make good 265 at 15 in 185 at 3 steer 276 at 14.8", () => {
    const answer = headingAndSpeedFor(265, 15, 185, 3);
    expect(apartDeg(answer.headingDeg as number, 276)).toBeLessThan(0.6);
    expect(Math.abs(answer.speed - 14.8)).toBeLessThan(0.15);
    expect(apartDeg(answer.headingDeg as number, 276.533)).toBeLessThan(1e-3);
    expect(Math.abs(answer.speed - 14.7774)).toBeLessThan(1e-4);
  });
});

// Computed from right-angled triangles: 6, 3, 3√3 and 5, 3, 4.
describe("a current square to the track", () => {
  it.each([
    { speed: 6, heading: 120, madeGoodAt: 5.1961524227 },
    { speed: 5, heading: 126.8698976458, madeGoodAt: 4 },
  ])("at $speed kn", ({ speed, heading, madeGoodAt }) => {
    const answer = steer(90, speed, 0, 3);
    expect(Math.abs(answer.headingDeg - heading)).toBeLessThan(1e-9);
    expect(Math.abs(answer.speedMadeGood - madeGoodAt)).toBeLessThan(1e-9);
  });

  it("the boat run along the track takes the same heading and speed", () => {
    const way = holdTrack(crossingTo([20, 0], 6, uniformCurrent(0, 3 * KN), 300), 0);
    if (way.kind === "fails") throw new Error(way.why.code);
    expect(way.arrivalAt / HOUR).toBeCloseTo(20 / 5.1961524227, 9);
    for (const heading of way.track.headingDegTrue) expect(heading).toBeCloseTo(120, 9);
  });

  it("a current across the track as strong as the boat, or stronger, can't be held, and is said", () => {
    expect(courseToSteer(90, 5, 0, 5.5)).toBe("cannotHold");
    expect(courseToSteer(90, 5, 0, 5)).toBe("cannotHold");
    expect(courseToSteer(90, 0, 0, 0)).toBe("cannotHold");
    // From right ahead and stronger than the boat: the track could be pointed, but no way is made.
    expect(courseToSteer(90, 5, 270, 5.5)).toBe("cannotHold");
    const way = holdTrack(crossingTo([20, 0], 5, uniformCurrent(0, 5.5 * KN), 300), 0);
    expect(way.kind === "fails" && way.why.code).toBe("cannot-hold");
  });
});

// Computed: 45 nm at 5.5 kn over the ground take 8.181818 h; leaving at 0330 the boat is there at 11:40:55.
it("45 nm at 5.5 kn over the ground from 0330 end at 11:40:55", () => {
  const departAt = 3.5 * HOUR;
  const ends = [FLAT.toPosition(0, 0), FLAT.toPosition(45 * NM, 0)];
  const run = runPilotage(FLAT, ends, 5.5 * KN, departAt);
  const seconds = run.atSeconds[run.count - 1] as number;
  expect((seconds - departAt) / HOUR).toBeCloseTo(8.181818, 6);
  expect(Math.round(seconds)).toBe(11 * HOUR + 40 * 60 + 55);
});

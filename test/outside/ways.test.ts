import { describe, expect, it } from "vitest";
import {
  acrossThenTurn,
  alongOf,
  bowOnDestination,
  type Crossing,
  carryOut,
  DEFAULT_STEP_SECONDS,
  holdTrack,
  lineBetween,
  lookAcross,
  offOf,
  oneHeading,
  reAimTables,
  type WayArrives,
} from "../../src/core/passage/index.ts";
import {
  arriving,
  CASES,
  type Case,
  caseOf,
  crossingFor,
  type Figures,
  FLAT,
  HOUR,
  headingOf,
  hoursOf,
  KN,
  NM,
  offLineNm,
  turn,
  whyOf,
} from "./ways-cases.ts";

/** The fine step shows that the method is right, the default step what a skipper gets. */
const STEPS = [
  { name: "fine steps", seconds: 5, share: 1e-6 },
  { name: "default steps", seconds: DEFAULT_STEP_SECONDS, share: 1e-4 },
] as const;
type Step = (typeof STEPS)[number];

/** Within so much of a value, at least so much of `size`. */
function near(actual: number, expected: number, step: Step, what: string, size = Math.abs(expected)): void {
  expect(Math.abs(actual - expected), `${what}: ${actual} against ${expected}`).toBeLessThanOrEqual(step.share * size);
}

function figuresNear(crossing: Crossing, way: WayArrives, expected: Figures, step: Step): void {
  const lengthNm = crossing.line.lengthMetres / NM;
  near(hoursOf(way), expected.durationHours, step, "hours");
  near(way.throughWaterMetres / NM, expected.throughWaterNm, step, "miles through the water");
  // A bow kept on a mark is brought to 5 m of it; the last curve is taken straight. A metre of ground is allowed for it.
  const pursuit = way.name === "bowOnDestination";
  const ground = Math.abs(way.overGroundMetres / NM - expected.overGroundNm) - (pursuit ? 1 / NM : 0);
  expect(ground, `miles over the ground against ${expected.overGroundNm}`).toBeLessThanOrEqual(step.share * expected.overGroundNm);
  const off = offLineNm(crossing, way);
  const unseen = pursuit ? betweenNodesNm(crossing, way) / lengthNm / step.share : 0;
  near(off.min, expected.offLineNm.min, step, "farthest off to port", lengthNm * (1 + unseen));
  near(off.max, expected.offLineNm.max, step, "farthest off to starboard", lengthNm * (1 + unseen));
  const last = way.track.count - 1;
  const { line } = crossing;
  expect(
    Math.hypot((way.track.xMetres[last] as number) - line.toX, (way.track.yMetres[last] as number) - line.toY),
    "ends on the destination",
  ).toBeLessThan(0.01);
}

/**
 * How much farther off the line than its nodes a track may go, nm: a parabola seen at even spacing rises above its highest node by at most
 * an eighth of the drop from there to the lower neighbour.
 */
function betweenNodesNm({ line }: Crossing, { track }: WayArrives): number {
  const off = Array.from(track.xMetres, (x, i) => Math.abs(offOf(line, x, track.yMetres[i] as number)) / NM);
  const far = off.indexOf(Math.max(...off));
  return ((off[far] as number) - Math.min(off[far - 1] ?? 0, off[far + 1] ?? 0)) / 8;
}

const bearingOf = ([east, north]: readonly [number, number]): number => (Math.atan2(east, north) * 180) / Math.PI;

// Source: references/ways.json, worked out with scipy (DOP853, brentq) by make_ways.py beside it; the streams, ways and senses are told
// there. Status: computed.
describe.each(STEPS)("the ways across analytic streams, $name", (step) => {
  const departOf = (one: Case): number => one.t0h * HOUR;

  it.each(CASES.filter((one) => one.ways.oneHeading !== undefined))("one heading: $id", (one) => {
    const crossing = crossingFor(one, step.seconds);
    const expected = one.ways.oneHeading;
    const way = oneHeading(crossing, departOf(one));
    if (!expected?.answered) {
      expect(whyOf(way).code).toBe("unreachable");
      return;
    }
    const arrived = arriving(way);
    near(headingOf(arrived), expected.headingDegTrue, step, "heading", 360);
    figuresNear(crossing, arrived, expected, step);
    const within = expected.headingsThatReach.filter((each) => turn(bearingOf(one.to), each.headingDegTrue) <= 85);
    expect(arrived.headingsThatLead).toBe(within.length);
  });

  it.each(CASES.filter((one) => one.ways.holdTrack?.answered === true))("hold the track: $id", (one) => {
    const crossing = crossingFor(one, step.seconds);
    const expected = one.ways.holdTrack;
    if (!expected?.answered) throw new Error(`${one.id} is not held`);
    figuresNear(crossing, arriving(holdTrack(crossing, departOf(one))), expected, step);
  });

  it.each(CASES.filter((one) => one.ways.holdTrack?.answered === false))("the track can't be held: $id", (one) => {
    const crossing = crossingFor(one, step.seconds);
    const expected = one.ways.holdTrack;
    if (expected === undefined || expected.answered) throw new Error(`${one.id} is held`);
    const why = whyOf(holdTrack(crossing, departOf(one)));
    expect(why.code).toBe("cannot-hold");
    const { xMetres, yMetres } = FLAT.toPlane(why.where);
    near(alongOf(crossing.line, xMetres, yMetres) / NM, expected.firstAlongNm, step, "where it fails", crossing.line.lengthMetres / NM);
    // She slows down to nothing as she comes near the place, so that the instant is known only to a step.
    const seconds = hoursUntil(crossing, one.boatKn, expected.firstAlongNm) * HOUR;
    expect(Math.abs(why.at - departOf(one) - seconds)).toBeLessThanOrEqual(step.seconds);
  });

  it.each(CASES)("bow on the destination: $id", (one) => {
    const crossing = crossingFor(one, step.seconds);
    const expected = one.ways.bowOnDestination;
    const way = bowOnDestination(crossing, departOf(one));
    if (expected.answered) {
      figuresNear(crossing, arriving(way), expected, step);
      return;
    }
    const why = whyOf(way);
    expect(why.code).toBe("stalled");
    if (expected.stallsAtXY !== undefined) {
      // She comes to rest ever more slowly, and is given up a tide after she last made way.
      const { xMetres, yMetres } = FLAT.toPlane(why.where);
      const [x, y] = expected.stallsAtXY;
      expect(Math.hypot(xMetres / NM - x, yMetres / NM - y)).toBeLessThan(0.05);
    }
  });

  it.each(CASES.filter((one) => one.ways.acrossThenTurn !== undefined))("straight across, then turn: $id", (one) => {
    const crossing = crossingFor(one, step.seconds);
    const expected = one.ways.acrossThenTurn?.x;
    if (expected === undefined || one.turnAtNm === undefined) throw new Error(`${one.id} has no turn`);
    const stream = lookAcross(crossing.around.current, crossing.line, departOf(one), one.boatKn * KN);
    if (stream === null) throw new Error("no stream");
    const turnWhen = { kind: "along", line: lineBetween(FLAT, 0, 0, NM, 0), metres: one.turnAtNm * NM } as const;
    for (const afterTurn of ["holdTrack", "courseToSteer"] as const) {
      const way = arriving(acrossThenTurn(crossing, departOf(one), stream, { turnWhen, afterTurn }));
      const then = afterTurn === "holdTrack" ? expected.thenHoldTrack : expected.thenOneHeading;
      figuresNear(crossing, way, then, step);
      near(headingOf(way), 90, step, "heading square to the set", 360);
      near(((way.orders[1]?.fromAt ?? Number.NaN) - departOf(one)) / HOUR, expected.turnAfterHours, step, "when it turns");
      if (afterTurn === "courseToSteer") near(headingOf(way, 1), expected.thenOneHeading.headingDegTrue, step, "course to steer", 360);
    }
  });

  it.each(CASES.filter((one) => one.orderKept !== undefined))("the order kept in a weaker and a stronger stream: $id", (one) => {
    const crossing = crossingFor(one, step.seconds);
    const way = arriving(oneHeading(crossing, departOf(one)));
    if (way.clear === null || one.clearOfStreamAtXNm === undefined) throw new Error("never clear");
    const slanting = one.to[1] !== 0;
    // The place is found to a second.
    if (!slanting) expect(Math.abs(way.clear.alongMetres / NM - one.clearOfStreamAtXNm)).toBeLessThan(one.boatKn / HOUR);
    // The reference keeps the order for just so many miles along the line.
    const order = { ...way, clear: { ...way.clear, alongMetres: one.clearOfStreamAtXNm * NM } };
    for (const expected of one.orderKept ?? []) {
      if (expected.keptUntil !== (slanting ? "alongLine" : "x")) continue;
      const { run, offAtClearMetres } = carryOut(crossing, order, { streamFactor: expected.strength });
      if (run.kind === "fails") throw new Error(run.why.code);
      near((run.end.at - way.departAt) / HOUR, expected.durationHours, step, `hours at ${expected.strength}`);
      near((run.end.at - way.arrivalAt) / HOUR, expected.addedHours, step, `added hours at ${expected.strength}`, expected.durationHours);
      near(
        (offAtClearMetres ?? Number.NaN) / NM,
        expected.offLineAtClearNm,
        step,
        `off at ${expected.strength}`,
        crossing.line.lengthMetres / NM,
      );
    }
  });

  it("the table to re-aim by: J1", () => {
    const one = caseOf("J1");
    const crossing = crossingFor(one, step.seconds);
    const way = arriving(oneHeading(crossing, 0));
    const tables = reAimTables(crossing, way, -1);
    let compared = 0;
    for (const expected of one.reAim ?? []) {
      const table = tables.find((each) => each.streamFactor === expected.strength);
      const row = table?.rows.find((each) => Math.abs(each.acrossMetres / NM - expected.fromXY[0]) < 1e-9);
      // The stream sets north, to port of a line to the east: down-stream is north.
      const cell = row?.cells[[-4, -2, 0, 2, 4].indexOf(expected.offPathNorthNm)];
      if (row === undefined || cell === undefined || cell === null) throw new Error(`no cell for ${JSON.stringify(expected)}`);
      near(row.at / HOUR, expected.afterHours, step, "when there");
      near(cell.headingDegTrue, expected.headingDegTrue, step, "heading", 360);
      near((cell.arrivalAt - row.at) / HOUR, expected.remainingHours, step, "hours that remain", way.arrivalAt / HOUR);
      compared++;
    }
    expect(compared).toBe(45);
  });
});

/** Hours on the held track until the current across it is as strong as the boat: ∫ dx / √(S² − v²), the root taken out by x = x₁ − u². */
function hoursUntil(crossing: Crossing, boatKn: number, alongNm: number): number {
  if (alongNm === 0) return 0;
  const out = new Float64Array(2);
  const pieces = 20_000;
  const top = Math.sqrt(alongNm);
  let hours = 0;
  for (let i = 0; i < pieces; i++) {
    const u = (top * (i + 0.5)) / pieces;
    crossing.around.current.sampleInto(out, (alongNm - u * u) * NM, 0, 0);
    const northKn = (out[1] as number) / KN;
    hours += (((2 * u) / Math.sqrt(boatKn * boatKn - northKn * northKn)) * top) / pieces;
  }
  return hours;
}

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
  oneHeading,
  STRONG_CROSS_CURRENT_SHARE,
  type Track,
  type Way,
  waysAcross,
} from "../../src/core/passage/index.ts";
import { arriving, CASES, caseOf, crossingFor, crossingTo, currentOf, FLAT, HOUR, KN, NM } from "./ways-cases.ts";

function everyWay(crossing: Crossing, departAt: number, turnAtNm: number | undefined): readonly Way[] {
  const speed = crossing.line.lengthMetres / (6 * HOUR);
  const stream = lookAcross(crossing.around.current, crossing.line, departAt, speed);
  if (stream === null) throw new Error("no stream");
  const turned =
    turnAtNm === undefined
      ? []
      : (["courseToSteer", "holdTrack"] as const).map((afterTurn) =>
          acrossThenTurn(crossing, departAt, stream, {
            afterTurn,
            turnWhen: { kind: "along", line: lineBetween(FLAT, 0, 0, NM, 0), metres: turnAtNm * NM },
          }),
        );
  return [
    oneHeading(crossing, departAt),
    holdTrack(crossing, departAt),
    bowOnDestination(crossing, departAt),
    acrossThenTurn(crossing, departAt, stream),
    ...turned,
  ];
}

// Source: the streams of references/ways.json (jets and a tide under a bell); the finer run of the same program, itself held against scipy
// in ways.test.ts to 1e-6.
describe("the default step against steps of 5 s", () => {
  const cases = CASES.filter((one) => ["J1", "J2", "J5"].includes(one.id) || one.id.startsWith("C7"));

  it("has the cases it speaks of", () => {
    expect(cases.map((one) => one.id)).toEqual(["J1", "J2", "J5", "C7-t0", "C7-t1.5", "C7-t3", "C7-t4", "C7-t7"]);
  });

  it.each(cases)("$id: every way arrives within a second of it", (one) => {
    const departAt = one.t0h * HOUR;
    const coarse = everyWay(crossingFor(one, DEFAULT_STEP_SECONDS), departAt, one.turnAtNm);
    const fine = everyWay(crossingFor(one, 5), departAt, one.turnAtNm);
    coarse.forEach((way, i) => {
      const other = arriving(fine[i] as Way);
      const apart = Math.abs(arriving(way).arrivalAt - other.arrivalAt);
      expect(apart, `${way.name} ${i}: ${apart} s`).toBeLessThan(1);
    });
  });
});

const stepsOf = (track: Track): number[] =>
  Array.from({ length: track.count - 1 }, (_, i) => track.atSeconds[i + 1]! - track.atSeconds[i]!);

describe("how a step is cut", () => {
  // A jet of 4.6 kn against a boat of 5 kn: its core exceeds 0.8 of the boat's speed, its sides do not.
  const strong = crossingTo([40, 0], 5, currentOf({ kind: "gaussian", peakKn: 4.6, axisNm: 20, widthNm: 8 }), DEFAULT_STEP_SECONDS);

  it.each(["oneHeading", "holdTrack"] as const)(
    "is halved where the current across the line exceeds 0.8 of the boat's speed: %s",
    (name) => {
      const { track } = arriving(name === "oneHeading" ? oneHeading(strong, 0) : holdTrack(strong, 0));
      let halved = 0;
      let whole = 0;
      stepsOf(track).forEach((seconds, i) => {
        const cross = Math.abs(track.currentEastMps[i]! * strong.line.alongY - track.currentNorthMps[i]! * strong.line.alongX);
        if (cross > STRONG_CROSS_CURRENT_SHARE * track.throughWaterMps[i]!) {
          expect(seconds).toBeLessThanOrEqual(DEFAULT_STEP_SECONDS / 2);
          if (seconds === DEFAULT_STEP_SECONDS / 2) halved++;
        } else {
          expect(seconds).toBeLessThanOrEqual(DEFAULT_STEP_SECONDS);
          if (seconds === DEFAULT_STEP_SECONDS) whole++;
        }
      });
      expect(halved).toBeGreaterThan(10);
      expect(whole).toBeGreaterThan(10);
    },
  );

  it.each([0, 1234.5, 1_800_000_123.25])("at every whole hour of the clock, leaving at %d", (departAt) => {
    const crossing = crossingFor(caseOf("J1"), DEFAULT_STEP_SECONDS);
    for (const way of waysAcross(crossing, departAt).ways) {
      const { track, arrivalAt } = arriving(way);
      const nodes = new Set(track.atSeconds);
      let hours = 0;
      for (let hour = Math.ceil(departAt / HOUR) * HOUR; hour < arrivalAt; hour += HOUR) {
        expect(nodes.has(hour), `${way.name} at ${hour}`).toBe(true);
        hours++;
      }
      expect(hours).toBeGreaterThanOrEqual(8);
    }
  });

  it("on the destination, at the arrival, for every way", () => {
    for (const one of CASES) {
      const crossing = crossingFor(one, DEFAULT_STEP_SECONDS);
      for (const way of waysAcross(crossing, one.t0h * HOUR).ways) {
        if (way.kind === "fails") continue;
        const { track, arrivalAt } = way;
        const last = track.count - 1;
        expect(track.atSeconds[last]).toBe(arrivalAt);
        // A boat that goes straight across and comes out within a metre of the destination has nothing left to steer.
        const left = way.name === "acrossThenTurn" && way.orders.length === 1 ? 1 : 2e-3;
        expect(Math.hypot(track.xMetres[last]! - crossing.line.toX, track.yMetres[last]! - crossing.line.toY)).toBeLessThan(left);
        // Time goes on from node to node, and no node stands twice.
        for (const seconds of stepsOf(track)) expect(seconds).toBeGreaterThan(0);
      }
    }
  });

  it("on the turn, which is a node of the track with the new heading", () => {
    const one = caseOf("J2");
    const crossing = crossingFor(one, DEFAULT_STEP_SECONDS);
    const stream = lookAcross(crossing.around.current, crossing.line, 0, one.boatKn * KN);
    if (stream === null) throw new Error("no stream");
    for (const turnWhen of [
      { kind: "along", line: lineBetween(FLAT, 0, 0, NM, 0), metres: 38 * NM },
      { kind: "along", line: lineBetween(FLAT, 0, 0, NM, 0), metres: 60 * NM, byAt: 7.77 * HOUR },
    ] as const) {
      const { track, orders } = arriving(acrossThenTurn(crossing, 0, stream, { turnWhen }));
      const turned = orders[1];
      if (turned === undefined || turned.steer.kind !== "heading") throw new Error("no turn");
      const node = track.atSeconds.indexOf(turned.fromAt);
      expect(node).toBeGreaterThan(0);
      if ("byAt" in turnWhen) expect(turned.fromAt).toBe(turnWhen.byAt);
      else expect(Math.abs(track.xMetres[node]! - turnWhen.metres)).toBeLessThan(1e-5);
      expect(track.headingDegTrue[node]).toBeCloseTo(turned.steer.headingDegTrue, 9);
      expect(track.headingDegTrue[node - 1]).toBeCloseTo(90, 9);
      expect(turned.fromAlongMetres).toBeCloseTo(alongOf(crossing.line, track.xMetres[node]!, track.yMetres[node]!), 6);
    }
  });

  it("on the place where the order ends and on the ends of an engine stop, when an order is carried out otherwise", () => {
    const crossing = crossingFor(caseOf("J1"), DEFAULT_STEP_SECONDS);
    const way = arriving(oneHeading(crossing, 0));
    const { run } = carryOut(crossing, way, { stop: { alongMetres: 20 * NM, seconds: 5000 } });
    if (run.kind === "fails") throw new Error(run.why.code);
    const [stopped, , started, clear, there] = run.legEnds;
    if (!stopped || !started || !clear || !there) throw new Error("legs are wanting");
    expect(Math.abs(alongOf(crossing.line, stopped.xMetres, stopped.yMetres) - 20 * NM)).toBeLessThan(1e-5);
    expect(started.at - stopped.at).toBeCloseTo(5000, 6);
    expect(Math.abs(alongOf(crossing.line, clear.xMetres, clear.yMetres) - (way.clear?.alongMetres ?? 0))).toBeLessThan(1e-5);
    expect(Math.hypot(there.xMetres - crossing.line.toX, there.yMetres - crossing.line.toY)).toBeLessThan(1e-4);
    for (const end of [stopped, started, clear, there]) expect(run.track.atSeconds).toContain(end.at);
    // Adrift the boat goes with the water and burns nothing.
    const from = run.track.atSeconds.indexOf(stopped.at);
    const until = run.track.atSeconds.indexOf(started.at);
    expect(until).toBeGreaterThan(from + 10);
    for (let i = from; i < until; i++) {
      expect(run.track.throughWaterMps[i]).toBe(0);
      expect(run.track.engineOn[i]).toBe(0);
      expect(run.track.xMetres[i]).toBeCloseTo(stopped.xMetres, 6);
    }
  });
});

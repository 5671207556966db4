import { describe, expect, it } from "vitest";
import { acrossThenTurn, DEFAULT_STEP_SECONDS, holdTrack, lineBetween, lookAcross, oneHeading } from "../../src/core/passage/index.ts";
import { arriving, caseOf, crossingFor, crossingTo, currentOf, FLAT, HOUR, headingOf, hoursOf, KN, NM, turn, whyOf } from "./ways-cases.ts";

/** Steps that show that the method is right, seconds. */
const FINE_SECONDS = 5;

/** Hours to a place in a constant current: the lesser root of |d − wT| = ST. */
function hoursInUniform([dx, dy]: readonly [number, number], [wx, wy]: readonly [number, number], boatKn: number): number {
  const room = boatKn * boatKn - wx * wx - wy * wy;
  const with_ = dx * wx + dy * wy;
  return (Math.sqrt((dx * dx + dy * dy) * room + with_ * with_) - with_) / room;
}

const oneHours = (id: string, departHours?: number): number => {
  const one = caseOf(id);
  return hoursOf(arriving(oneHeading(crossingFor(one, FINE_SECONDS), (departHours ?? one.t0h) * HOUR)));
};
const heldHours = (id: string, departHours?: number): number => {
  const one = caseOf(id);
  return hoursOf(arriving(holdTrack(crossingFor(one, FINE_SECONDS), (departHours ?? one.t0h) * HOUR)));
};

// Source: the quadratic for the time in a constant wind or current (encyclopaedia article on Zermelo's problem); figures worked out with
// mpmath. Status: computed.
describe("a constant current, against the closed form", () => {
  it.each([
    { to: [45, 0], set: [0, 2.5], boatKn: 6, hours: 8.250286473254, heading: 114.62431835 },
    { to: [45, 0], set: [0, -2.5], boatKn: 6, hours: 8.250286473254, heading: 65.37568165 },
    { to: [30, 30], set: [1.5, 2], boatKn: 5.5, hours: 5.327609185163, heading: 48.68565351 },
    { to: [20, -10], set: [0, 3], boatKn: 5, hours: 7.771238207535, heading: 149.02135964 },
    { to: [10, 0], set: [-2, 0], boatKn: 6, hours: 2.5, heading: 90 },
    { to: [10, 0], set: [2, 0], boatKn: 6, hours: 1.25, heading: 90 },
    // The current is stronger than the boat; the earliest of two.
    { to: [10, 30], set: [0, 4], boatKn: 3, hours: 4.853821047082, heading: null },
  ] as const)("to $to in a current of $set: $hours h", ({ to, set, boatKn, hours, heading }) => {
    const current = currentOf({ kind: "uniform", eastKn: set[0], northKn: set[1] });
    const way = arriving(oneHeading(crossingTo(to, boatKn, current, DEFAULT_STEP_SECONDS), 0));
    expect(Math.abs(hoursOf(way) - hours)).toBeLessThan(1e-6);
    if (heading !== null) expect(turn(headingOf(way), heading)).toBeLessThan(1e-5);
    expect(Math.abs(hoursInUniform(to, set, boatKn) - hours)).toBeLessThan(1e-9);
  });

  // A boat of 3 kn in a current of 4 kn reaches only what lies within asin(3/4) = 48.59° of down-stream: 25 east, 30 north bears 39.8° from
  // it and is reached; 30 east, 25 north bears 50.2° and is not.
  it("tells what lies inside the cone that a weaker boat can reach from what lies outside it", () => {
    const current = currentOf({ kind: "uniform", eastKn: 0, northKn: 4 });
    expect(oneHeading(crossingTo([25, 30], 3, current, 300), 0).kind).toBe("arrives");
    expect(whyOf(oneHeading(crossingTo([30, 25], 3, current, 300), 0)).code).toBe("unreachable");
    // At 47.5° the two headings that reach it lie 80° and 100° off the bearing, at 48.63° there is none.
    const place = (bearingDeg: number) =>
      [40 * Math.sin((bearingDeg * Math.PI) / 180), 40 * Math.cos((bearingDeg * Math.PI) / 180)] as const;
    expect(oneHeading(crossingTo(place(47.5), 3, current, 300), 0).kind).toBe("arrives");
    expect(whyOf(oneHeading(crossingTo(place(48.63), 3, current, 300), 0)).code).toBe("unreachable");
  });
});

// Source: quadrature of the closed forms with mpmath, fastest by the extremal sin θ = kS/(1 − kv) and a sweep of 7200 headings. Status:
// computed.
const JETS = [
  {
    id: "J1",
    meanKn: 53.151976417 / 50,
    fastest: 8.4671525634801,
    one: 8.4672885682953,
    aboveEast: -10.205152983,
    held: 8.6363472006772,
    across: 9.1982447437575,
    drift: 8.8586627362,
  },
  {
    id: "J2",
    meanKn: 71.724210582 / 50,
    fastest: 10.038620254656,
    one: 10.038650330901,
    aboveEast: -5.0293981193,
    held: 10.923797713536,
    across: 10.152639301571,
    drift: 14.3448421163,
  },
  {
    id: "J4",
    meanKn: 77.930861507 / 45,
    fastest: 9.5824541540354,
    one: 9.5938404876436,
    aboveEast: -20.264799752,
    held: null,
    across: 10.619849261156,
    drift: 15.5861723013,
  },
  {
    id: "J5",
    meanKn: 58.886171181 / 45,
    fastest: 8.4229773149584,
    one: 8.4237153357106,
    aboveEast: -13.764041003,
    held: 8.7521328756049,
    across: 9.4280177216271,
    drift: null,
  },
] as const;

describe.each(JETS)("jet $id, against the closed forms", ({ id, meanKn, fastest, one, aboveEast, held, across, drift }) => {
  const reference = caseOf(id);
  const crossing = crossingFor(reference, FINE_SECONDS);
  const heading = arriving(oneHeading(crossing, 0));

  it("one heading", () => {
    expect(Math.abs(hoursOf(heading) - one)).toBeLessThan(1e-6);
    expect(Math.abs(90 - headingOf(heading) - aboveEast)).toBeLessThan(1e-5);
  });

  it("one heading takes as long as in a uniform current of the same mean", () => {
    expect(Math.abs(hoursOf(heading) - hoursInUniform(reference.to, [0, meanKn], reference.boatKn))).toBeLessThan(1e-6);
  });

  it("hold the track", () => {
    const way = holdTrack(crossing, 0);
    if (held === null) expect(whyOf(way).code).toBe("cannot-hold");
    else expect(Math.abs(hoursOf(arriving(way)) - held)).toBeLessThan(1e-5);
  });

  it("across until two half-widths past the axis, then the straight track to the destination", () => {
    const stream = lookAcross(crossing.around.current, crossing.line, 0, reference.boatKn * KN);
    if (stream === null) throw new Error("no stream");
    const turnWhen = { kind: "along", line: lineBetween(FLAT, 0, 0, NM, 0), metres: (reference.turnAtNm ?? 0) * NM } as const;
    const way = arriving(acrossThenTurn(crossing, 0, stream, { turnWhen, afterTurn: "holdTrack" }));
    expect(Math.abs(hoursOf(way) - across)).toBeLessThan(1e-5);
  });

  it("nothing beats the fastest, and one heading loses to it no more than 0.0114 h", () => {
    expect(hoursOf(heading)).toBeGreaterThan(fastest);
    expect(hoursOf(heading) - fastest).toBeLessThan(0.0114);
    if (held !== null && reference.to[1] === 0) expect(hoursOf(heading)).toBeLessThan(held);
    expect(hoursOf(heading)).toBeLessThan(across);
  });

  it("square to the stream it takes D/S and is carried down by the stream's total over the speed, whatever the profile", () => {
    const end = { kind: "along", line: lineBetween(FLAT, 0, 0, NM, 0), metres: reference.to[0] * NM } as const;
    const start = { xMetres: 0, yMetres: 0, at: 0, engineOn: false };
    const reached = crossing.simulator.run(crossing.boat, { kind: "heading", headingDegTrue: 90 }, end, start, FINE_SECONDS, null);
    if (reached.kind === "noAnswer") throw new Error(reached.code);
    expect(reached.at / HOUR).toBeCloseTo(reference.to[0] / reference.boatKn, 9);
    const expected = drift ?? (meanKn * reference.to[0]) / reference.boatKn;
    expect(Math.abs(reached.yMetres / NM - expected)).toBeLessThan(1e-5);
    expect(Math.abs(expected - (meanKn * reference.to[0]) / reference.boatKn)).toBeLessThan(1e-8);
  });
});

describe("how the time goes with the place of arrival", () => {
  const { field, boatKn } = caseOf("J2");
  const hoursTo = (northNm: number): number => hoursOf(arriving(oneHeading(crossingTo([50, northNm], boatKn, currentOf(field), 5), 0)));

  // Theorem for a steady stream that depends on x alone: the time has its least, D/S, where the boat lands when it heads square across.
  it("is least, D/S, down-stream by the drift of a boat that heads square across", () => {
    const least = hoursTo(14.3448421163);
    expect(Math.abs(least - 10)).toBeLessThan(1e-6);
    expect(hoursTo(14.3448421163 - 0.5)).toBeGreaterThan(least);
    expect(hoursTo(14.3448421163 + 0.5)).toBeGreaterThan(least);
  });

  // Source: shooting, dT/dy = −0.0179577442 h per nm for the fastest way; one heading's own slope differs from it by its small loss's slope.
  it("falls as the landfall moves down-stream, by about 1.08 minutes a mile at J2's", () => {
    expect((hoursTo(10.5) - hoursTo(9.5)) / 1).toBeCloseTo(-0.0179577442, 3);
  });
});

// Source: the scalar equation (S·T)² = D² + J², J the integral of the tide (a stream that is the same everywhere), worked out with mpmath;
// the least time is where the destination is abeam at equal tides. Status: computed.
describe("a tide that is the same everywhere, against the scalar equation", () => {
  it.each([
    { t0: 0, hours: 4.288082992371, heading: 111.121598, held: 4.3494397702 },
    { t0: 1.5, hours: 4.341752109587, heading: 112.885029, held: 4.3754419429 },
    { t0: 3.105, hours: 4.092978137009, heading: 102.235844, held: 4.2182212092 },
    { t0: 4.21, hours: 4, heading: 90, held: 4.1589798915 },
    { t0: 9.315, hours: 4.092978137009, heading: 77.764156, held: null },
  ])("leaving at $t0 h: $hours h on $heading", ({ t0, hours, heading, held }) => {
    const one = caseOf("C5-t0");
    const crossing = crossingFor(one, FINE_SECONDS);
    const way = arriving(oneHeading(crossing, t0 * HOUR));
    expect(Math.abs(hoursOf(way) - hours)).toBeLessThan(1e-6);
    expect(turn(headingOf(way), heading)).toBeLessThan(1e-5);
    if (held !== null) expect(Math.abs(hoursOf(arriving(holdTrack(crossing, t0 * HOUR))) - held)).toBeLessThan(1e-5);
  });

  it("is quickest when left at 6.21 − D/2S hours, slowest when left at 0.920", () => {
    const best = oneHours("C5-t0", 6.21 - 20 / 10);
    expect(Math.abs(best - 4)).toBeLessThan(1e-6);
    const worst = oneHours("C5-t0", 0.92);
    expect(Math.abs(worst - 4.372948)).toBeLessThan(1e-6);
    for (const late of [-0.3, 0.3]) {
      expect(oneHours("C5-t0", 4.21 + late)).toBeGreaterThan(best);
      expect(oneHours("C5-t0", 0.92 + late)).toBeLessThan(worst);
    }
  });

  it("heading due east from slack lands 7.103591334 nm to the north", () => {
    const crossing = crossingFor(caseOf("C5-t0"), FINE_SECONDS);
    const start = { xMetres: 0, yMetres: 0, at: 0, engineOn: false };
    const end = { kind: "along", line: crossing.line, metres: crossing.line.lengthMetres } as const;
    const reached = crossing.simulator.run(crossing.boat, { kind: "heading", headingDegTrue: 90 }, end, start, FINE_SECONDS, null);
    if (reached.kind === "noAnswer") throw new Error(reached.code);
    expect(Math.abs(reached.yMetres / NM - 7.103591334)).toBeLessThan(1e-5);
  });
});

// Source: quadrature and shooting with mpmath; C7's also by a direct method of 24 segments. Status: computed.
describe("streams that turn and die at the sides", () => {
  it("a rotating uniform stream: 3.289671278762 h on 077.079671942", () => {
    const way = arriving(oneHeading(crossingFor(caseOf("C6"), FINE_SECONDS), 0));
    expect(Math.abs(hoursOf(way) - 3.289671278762)).toBeLessThan(1e-6);
    expect(Math.abs(headingOf(way) - 77.079671942)).toBeLessThan(1e-5);
  });

  it.each([
    { t0: 0, fastest: 4.6344063363, one: 4.6353332627, held: 4.8360931126 },
    { t0: 1.5, fastest: 4.6416893862, one: 4.6425758777, held: 4.8142157858 },
    { t0: 3, fastest: 4.4601859678, one: 4.4602371539, held: 4.5271729505 },
    { t0: 4, fastest: 4.4000067117, one: 4.4000067117, held: 4.4490730261 },
    { t0: 7, fastest: 4.6784079853, one: 4.6796065818, held: 4.9005680144 },
  ])("a tide under a bell, leaving at $t0 h", ({ t0, fastest, one, held }) => {
    const hours = oneHours("C7-t0", t0);
    expect(Math.abs(hours - one)).toBeLessThan(5e-6);
    expect(hours).toBeGreaterThan(fastest - 1e-6);
    expect(Math.abs(heldHours("C7-t0", t0) - held)).toBeLessThan(5e-6);
  });

  it.each([
    { t0: 0, fastest: 8.8642440884, one: 8.8644939349, held: 9.4839438474 },
    { t0: 3.105, fastest: 8.8304367079, one: 8.8307249649, held: 9.4621832166 },
  ])("a steady jet and a tidal far shore, leaving at $t0 h", ({ t0, fastest, one, held }) => {
    const hours = oneHours("C8-t0", t0);
    expect(Math.abs(hours - one)).toBeLessThan(9e-6);
    expect(hours).toBeGreaterThan(fastest);
    expect(Math.abs(heldHours("C8-t0", t0) - held)).toBeLessThan(9e-6);
  });
});

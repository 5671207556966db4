import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, geodesicFrom, planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { COVERED, NO_PLACE, NO_TIME } from "../../../src/core/fields/index.ts";
import { epochSeconds, turnDeg } from "../../../src/core/units/index.ts";
import { SHARPEST_SKETCHED_TURN_DEG, type StreamSketch, sketchCurrent } from "../../../src/core/water/index.ts";

const DEG = Math.PI / 180;
const NM = 1852;
const plane = flatPlane(positionOf(-20, 60), 100 * NM);
const sketch = (section: StreamSketch["section"], more: Partial<StreamSketch> = {}): StreamSketch => ({
  name: "the stream",
  at: plane.centre,
  axisTowardDegTrue: 0,
  from: null,
  until: null,
  section,
  ...more,
});
const point = (acrossNm: number, rateMps: number, setDegTrue: number | null = null) => ({
  acrossMetres: acrossNm * NM,
  rateMps,
  setDegTrue,
});
const out = new Float64Array(2);
const at = (given: StreamSketch, xNm: number, yNm: number, when = 0, on = plane) => {
  const coverage = sketchCurrent(given)
    .onPlane(on)
    .sampleInto(out, xNm * NM, yNm * NM, when);
  if (coverage !== COVERED) return coverage;
  return { rate: Math.hypot(out[0]!, out[1]!), setDeg: (Math.atan2(out[0]!, out[1]!) / DEG + 360) % 360, east: out[0]!, north: out[1]! };
};
const covered = (...asked: Parameters<typeof at>) => {
  const got = at(...asked);
  if (typeof got === "number") throw new Error(`not covered: ${got}`);
  return got;
};

describe("a sketched stream", () => {
  const jet = sketch([point(-20, 0.2), point(0, 2), point(10, 1), point(30, 0)]);

  it("has its rate joined by straight lines across, positive to the right of its axis", () => {
    expect(covered(jet, -20, 0).rate).toBeCloseTo(0.2, 12);
    expect(covered(jet, -10, 0).rate).toBeCloseTo(1.1, 12);
    expect(covered(jet, 0, 0).rate).toBeCloseTo(2, 12);
    expect(covered(jet, 5, 0).rate).toBeCloseTo(1.5, 12);
    expect(covered(jet, 20, 0).rate).toBeCloseTo(0.5, 12);
    expect(covered(jet, 30, 0).rate).toBe(0);
  });

  it.each([0, 45, 90, 180, 270, 333])("set toward %d°, its right is at that bearing plus 90", (axisTowardDegTrue) => {
    const turned = { ...jet, axisTowardDegTrue };
    const right = (axisTowardDegTrue + 90) * DEG;
    expect(covered(turned, 10 * Math.sin(right), 10 * Math.cos(right)).rate).toBeCloseTo(1, 9);
    expect(covered(turned, -10 * Math.sin(right), -10 * Math.cos(right)).rate).toBeCloseTo(1.1, 9);
    expect(Math.abs(turnDeg(covered(turned, 0, 0).setDeg, axisTowardDegTrue))).toBeLessThan(1e-9);
  });

  it("is the same all along the axis, and covers nothing beyond its outermost points or the plane", () => {
    for (const y of [-90, -1, 40, 100]) expect(covered(jet, 5, y).rate).toBeCloseTo(1.5, 12);
    expect(at(jet, -20.0001, 0)).toBe(NO_PLACE);
    expect(at(jet, 30.0001, 0)).toBe(NO_PLACE);
    expect(at(jet, 0, 100.1)).toBe(NO_PLACE);
    expect(at(jet, Number.NaN, 0)).toBe(NO_PLACE);
    expect(at(jet, 0, 100.1, 0, planeAround(plane.centre, 100 * NM))).toBe(NO_PLACE);
  });

  it("turns its set by the shorter way, across north too", () => {
    const bent = sketch([point(0, 1, 350), point(10, 2, 30), point(20, 2, 300), point(30, 1)]);
    expect(covered(bent, 5, 0)).toMatchObject({ rate: expect.closeTo(1.5, 9), setDeg: expect.closeTo(10, 9) });
    expect(covered(bent, 2.5, 0).setDeg).toBeCloseTo(0, 9);
    expect(covered(bent, 15, 0).setDeg).toBeCloseTo(345, 9);
    // A point without a set goes along the axis.
    expect(covered(bent, 25, 0).setDeg).toBeCloseTo(330, 9);
  });

  it("a stream and its counter-current have still water between them, not a stream that runs across", () => {
    const counter = sketch([point(0, 1, 180), point(10, 2, 0)]);
    expect(covered(counter, 0, 0).north).toBeCloseTo(-1, 12);
    expect(covered(counter, 10 / 3, 0).rate).toBeCloseTo(0, 12);
    expect(covered(counter, 5, 0).north).toBeCloseTo(0.5, 12);
    for (let x = 0; x <= 10; x += 0.5) expect(covered(counter, x, 0).east).toBeCloseTo(0, 12);
    // All but opposite sets read all but the same: nothing jumps at 180°.
    const nearly = sketch([point(0, 1, 180.5), point(10, 2, 0)]);
    for (let x = 0; x <= 10; x += 0.5) expect(Math.abs(covered(nearly, x, 0).north - covered(counter, x, 0).north)).toBeLessThan(1e-3);
  });

  it("bends as one stream up to a right angle, and is joined by components beyond", () => {
    expect(SHARPEST_SKETCHED_TURN_DEG).toBe(90);
    expect(covered(sketch([point(0, 2, 0), point(10, 2, 90)]), 5, 0)).toMatchObject({
      rate: expect.closeTo(2, 9),
      setDeg: expect.closeTo(45, 9),
    });
    expect(covered(sketch([point(0, 2, 0), point(10, 2, 120)]), 5, 0)).toMatchObject({
      rate: expect.closeTo(1, 9),
      setDeg: expect.closeTo(60, 9),
    });
  });

  it("still water takes its neighbour's set", () => {
    const edge = sketch([point(0, 0), point(10, 2, 60), point(20, 0, 240), point(30, 1, 240)]);
    expect(covered(edge, 2, 0)).toMatchObject({ rate: expect.closeTo(0.4, 9), setDeg: expect.closeTo(60, 9) });
    expect(covered(edge, 15, 0)).toMatchObject({ rate: expect.closeTo(1, 9), setDeg: expect.closeTo(60, 9) });
    expect(covered(edge, 25, 0)).toMatchObject({ rate: expect.closeTo(0.5, 9), setDeg: expect.closeTo(240, 9) });
  });

  it("holds from its first date until its last, both included; without dates it is held steady and says so", () => {
    const dated = sketch(jet.section, { from: epochSeconds(1000), until: epochSeconds(2000) });
    expect([at(dated, 0, 0, 999), at(dated, 0, 0, 2001), at(dated, 99, 0, 2001)]).toEqual([NO_TIME, NO_TIME, NO_TIME]);
    for (const when of [1000, 1500, 2000]) expect(covered(dated, 0, 0, when).rate).toBeCloseTo(2, 12);
    expect(at(dated, 99, 0, 1500)).toBe(NO_PLACE);
    expect(at(dated, 0, 0, Number.NaN)).toBe(NO_TIME);
    expect(sketchCurrent(dated)).toMatchObject({
      covers: { from: 1000, until: 2000 },
      heldSteady: false,
      // From when it holds is not when it was issued.
      issuedAt: null,
      name: "the stream",
    });
    expect(sketchCurrent(jet)).toMatchObject({ covers: null, heldSteady: true, issuedAt: null });
    const open = sketch(jet.section, { from: epochSeconds(1000) });
    expect(at(open, 0, 0, 999)).toBe(NO_TIME);
    expect(covered(open, 0, 0, 1e9).rate).toBeCloseTo(2, 12);
    expect(sketchCurrent(open)).toMatchObject({ heldSteady: true });
  });

  it("tells a place that it never reached from one for which it has run out", () => {
    const sampler = sketchCurrent(sketch(jet.section, { until: epochSeconds(10) })).onPlane(plane);
    expect(sampler.reachesPlace(0, 0, 99)).toBe(true);
    expect(sampler.reachesPlace(31 * NM, 0, 99)).toBe(false);
    expect(sampler.nearestInto(out, 0, 0, 5, 1e6)).toBe(false);
  });

  it("refuses a section that does not ascend", () => {
    expect(() => sketchCurrent(sketch([point(3, 1), point(2, 1)])).onPlane(plane)).toThrow(/ascending/);
  });
});

describe("a sketch on a real plane", () => {
  const centre = positionOf(58, -7);
  const real = planeAround(centre, 50 * NM);

  it("with its axis drawn beyond the plane's edge is laid where the axis is", () => {
    // 80 miles west of the centre; the plane reaches 50.
    const away = geodesicFrom(centre, 270, 80 * NM);
    const wide = sketch([point(0, 2), point(100, 1)], { at: away.position, axisTowardDegTrue: away.finalBearingDegTrue - 270 });
    const got = covered(wide, 0, 0, 0, real);
    expect(got.rate).toBeCloseTo(1.2, 6);
    // Near enough to the edge that the plane answers itself, the same formula agrees with it.
    const inside = geodesicFrom(centre, 270, 49.9 * NM);
    const near = { ...wide, at: inside.position, axisTowardDegTrue: inside.finalBearingDegTrue - 270 };
    expect(covered(near, 0, 0, 0, real).rate).toBeCloseTo(2 - 0.499, 5);
  });

  it("sets true: the bearing on the sheet less the convergence", () => {
    const set = sketch([point(-60, 1, 40), point(60, 1, 40)], { at: centre });
    for (const [x, y] of [
      [-45, 30],
      [45, 30],
      [10, -49],
    ] as const) {
      expect(covered(set, x, y, 0, real).setDeg + real.convergenceDegAt(x * NM, y * NM)).toBeCloseTo(40, 9);
    }
  });
});

describe("any sketch", () => {
  const mps = fc.double({ min: 0, max: 4, noNaN: true });
  const set = fc.option(fc.double({ min: 0, max: 360, noNaN: true }), { nil: null });
  const section = fc.array(fc.tuple(fc.integer({ min: 1, max: 20 }), mps, set), { minLength: 2, maxLength: 6 }).map((points) => {
    let acrossNm = -30;
    return points.map(([gap, rateMps, setDegTrue]) => {
      acrossNm += gap;
      return point(acrossNm, rateMps, setDegTrue);
    });
  });

  it("never gives NaN and never runs faster than the faster of the two points beside", () => {
    fc.assert(
      fc.property(
        section,
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -95, max: 95, noNaN: true }),
        fc.double({ min: -95, max: 95, noNaN: true }),
        (points, axis, x, y) => {
          const got = at(sketch(points, { axisTowardDegTrue: axis }), x, y);
          if (typeof got === "number") return;
          expect(Number.isFinite(got.east) && Number.isFinite(got.north)).toBe(true);
          expect(got.rate).toBeLessThanOrEqual(Math.max(...points.map((one) => one.rateMps)) + 1e-12);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("mirrored in its axis reads mirrored, and turned with its axis reads turned", () => {
    fc.assert(
      fc.property(
        section,
        fc.double({ min: -95, max: 95, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (points, x, turn) => {
          const here = at(sketch(points), x, 0);
          const mirrored = [...points].reverse().map(({ acrossMetres, rateMps, setDegTrue }) => ({
            acrossMetres: -acrossMetres,
            rateMps,
            setDegTrue: setDegTrue === null ? null : 360 - setDegTrue,
          }));
          const there = at(sketch(mirrored), -x, 0);
          const turned = points.map((one) => ({ ...one, setDegTrue: one.setDegTrue === null ? null : one.setDegTrue + turn }));
          const round = at(sketch(turned, { axisTowardDegTrue: turn }), x * Math.cos(turn * DEG), -x * Math.sin(turn * DEG));
          if (typeof here === "number" || typeof there === "number" || typeof round === "number") return;
          expect(there.east).toBeCloseTo(-here.east, 6);
          expect(there.north).toBeCloseTo(here.north, 6);
          expect(round.east).toBeCloseTo(here.east * Math.cos(turn * DEG) + here.north * Math.sin(turn * DEG), 6);
          expect(round.north).toBeCloseTo(here.north * Math.cos(turn * DEG) - here.east * Math.sin(turn * DEG), 6);
        },
      ),
      { numRuns: 200 },
    );
  });
});

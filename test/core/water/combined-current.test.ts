import { describe, expect, it } from "vitest";
import { flatPlane, planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { COVERED, NO_PLACE, NO_TIME, NO_VARIABLE } from "../../../src/core/fields/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import {
  ASSUMED_STILL,
  analyticCurrent,
  CURRENT_QUANTITIES,
  type CurrentSource,
  firstThatCovers,
  gaussianJet,
  gridCurrent,
  NEAREST_KNOWN,
  scaledCurrent,
  sketchCurrent,
  sumOfCurrents,
  turningTide,
  uniformCurrent,
} from "../../../src/core/water/index.ts";
import { gridOf } from "../fields/grids.ts";

const DEGREE = 60 * 1852;
const plane = flatPlane(positionOf(0, 0), 2 * DEGREE);
/** Covers a square degree east of `westDeg` and north of the equator from `times[0]` until its last step; east component `rate`. */
const square = (
  westDeg: number,
  rate: number,
  times: readonly number[],
  more: { readonly source?: string; readonly issuedAt?: number } = {},
): CurrentSource =>
  gridCurrent(
    gridOf({
      latitudesDeg: [0, 1],
      longitudesDeg: [westDeg, westDeg + 1],
      times,
      values: ({ j, i }) => [rate + 0.1 * i, 0.01 * j],
      ...more,
    }),
  );
const out = new Float64Array(2);
const ask = (source: CurrentSource, lonDeg: number, latDeg: number, at: number) => {
  const sampler = source.onPlane(plane);
  out.fill(7);
  const coverage = sampler.sampleInto(out, lonDeg * DEGREE, latDeg * DEGREE, at);
  if (coverage !== COVERED) expect([...out]).toEqual([7, 7]);
  return { coverage, east: out[0]!, north: out[1]!, by: sampler.answeredBy };
};
const REFUSE = { kind: "refuse" } as const;
const STILL = { kind: "still" } as const;
const nearest = (degrees: number) => ({ kind: "nearest", withinMetres: degrees * DEGREE }) as const;

describe("a grid of current", () => {
  it("tells its name, its times and when it was issued; one step holds at all times and says so", () => {
    expect(square(0, 1, [100, 200], { source: "a model", issuedAt: 50 })).toMatchObject({
      name: "a model",
      covers: { from: 100, until: 200 },
      issuedAt: 50,
      heldSteady: false,
    });
    const steady = square(0, 1, [100]);
    expect(steady).toMatchObject({ covers: null, heldSteady: true });
    expect(ask(steady, 0, 0, 1e9)).toMatchObject({ coverage: COVERED, east: 1, by: 0 });
  });

  it("is refused where it holds something else, or north before east", () => {
    const wind = gridOf({ quantities: ["windEastMps", "windNorthMps"], latitudesDeg: [0], longitudesDeg: [0], values: () => [0, 0] });
    const swapped = gridOf({
      quantities: ["currentNorthMps", "currentEastMps"],
      latitudesDeg: [0],
      longitudesDeg: [0],
      values: () => [0, 0],
    });
    for (const grid of [wind, swapped]) expect(() => gridCurrent(grid)).toThrow(`not a grid of current: ${grid.quantities.join(", ")}`);
  });
});

describe("the first source that covers", () => {
  const west = square(-1, 1, [0, 100]);
  const wide = square(-0.5, 2, [50, 300]);
  const both = firstThatCovers([west, wide], REFUSE);

  it("answers, and says which it was", () => {
    expect(ask(both, -0.7, 0.5, 60)).toMatchObject({ coverage: COVERED, by: 0, east: expect.closeTo(1.03, 6) });
    expect(ask(both, -0.4, 0.5, 60)).toMatchObject({ coverage: COVERED, by: 0 });
    expect(ask(both, 0.2, 0.5, 60)).toMatchObject({ coverage: COVERED, by: 1, east: expect.closeTo(2.07, 6) });
    expect(ask(both, -0.4, 0.5, 150)).toMatchObject({ coverage: COVERED, by: 1 });
    expect(ask(firstThatCovers([wide, west], REFUSE), -0.4, 0.5, 60)).toMatchObject({ by: 0, east: expect.closeTo(2.01, 6) });
  });

  it("covers from the first beginning to the last end, and always where one of them does", () => {
    expect(both).toMatchObject({ covers: { from: 0, until: 300 }, heldSteady: false, name: "test grid, then test grid" });
    expect(firstThatCovers([west, uniformCurrent(90, 1)], REFUSE)).toMatchObject({ covers: null, heldSteady: true });
  });

  it("where none does, tells the time if a source knows the place but has run out, else the place", () => {
    // West of -0.5 only the first knows the place, and ends at 100.
    expect(ask(both, -0.7, 0.5, 150).coverage).toBe(NO_TIME);
    // East of 0 only the second knows it, and begins at 50.
    expect(ask(both, 0.2, 0.5, 20).coverage).toBe(NO_TIME);
    // Neither has ever reached this place, whether or not one of them has run out.
    expect(ask(both, 0.9, 0.5, 60).coverage).toBe(NO_PLACE);
    expect(ask(both, 0.9, 0.5, 150).coverage).toBe(NO_PLACE);
    // All have run out: the time, wherever it is.
    expect(ask(both, 0.9, 0.5, 301).coverage).toBe(NO_TIME);
    expect(ask(both, 0.2, 0.5, 301).coverage).toBe(NO_TIME);
  });

  it("without any source the variable is what is wanting", () => {
    for (const unknown of [REFUSE, STILL, nearest(9)]) {
      const none = firstThatCovers([], unknown);
      expect(none.covers).toBeNull();
      expect(ask(none, 0, 0, 0).coverage).toBe(NO_VARIABLE);
    }
  });
});

describe("where the current is unknown", () => {
  const sources = [square(-1, 1, [0, 100]), square(-0.5, 2, [50, 300])];

  it("`still` gives still water, and says that it is assumed", () => {
    expect(ask(firstThatCovers(sources, STILL), 0.9, 0.5, 60)).toEqual({ coverage: COVERED, east: 0, north: 0, by: ASSUMED_STILL });
    expect(ask(firstThatCovers(sources, STILL), -0.7, 0.5, 60)).toMatchObject({ east: expect.closeTo(1.03, 6), by: 0 });
  });

  it("`nearest` gives the nearest known node's own value, within the metres and no further", () => {
    // At 0.9 E the second grid's eastern nodes, at 0.5 E, are 0.4° off; the first one's, at 0 E, are 0.9° off.
    expect(ask(firstThatCovers([sources[1]!], nearest(0.41)), 0.9, 0, 60)).toMatchObject({
      coverage: COVERED,
      by: NEAREST_KNOWN,
      east: expect.closeTo(2.1, 6),
      north: 0,
    });
    expect(ask(firstThatCovers([sources[1]!], nearest(0.41)), 0.9, 1, 60)).toMatchObject({ north: expect.closeTo(0.01, 6) });
    expect(ask(firstThatCovers([sources[1]!], nearest(0.39)), 0.9, 0, 60).coverage).toBe(NO_PLACE);
    // Precedence holds here too.
    expect(ask(firstThatCovers(sources, nearest(0.95)), 0.9, 0, 60)).toMatchObject({ by: NEAREST_KNOWN, east: expect.closeTo(1.1, 6) });
    expect(ask(firstThatCovers(sources, nearest(0.41)), 0.9, 0, 60)).toMatchObject({ by: NEAREST_KNOWN, east: expect.closeTo(2.1, 6) });
  });

  it("neither is used where a source knows the place but has run out: water does not stop because a forecast ends", () => {
    for (const unknown of [STILL, nearest(9)]) {
      expect(ask(firstThatCovers(sources, unknown), -0.7, 0.5, 150).coverage).toBe(NO_TIME);
      expect(ask(firstThatCovers(sources, unknown), 0.9, 0.5, 301).coverage).toBe(NO_TIME);
    }
    // A source that never reached the place and has run out does not stand in the way.
    expect(ask(firstThatCovers(sources, STILL), 0.9, 0.5, 150)).toMatchObject({ coverage: COVERED, by: ASSUMED_STILL });
  });

  it("a sketch has no nearest place", () => {
    const sketch = sketchCurrent({
      name: "s",
      at: plane.centre,
      axisTowardDegTrue: 0,
      from: null,
      until: epochSeconds(100),
      section: [
        { acrossMetres: -1000, rateMps: 1, setDegTrue: null },
        { acrossMetres: 1000, rateMps: 1, setDegTrue: null },
      ],
    });
    expect(ask(firstThatCovers([sketch], nearest(9)), 0.9, 0, 0).coverage).toBe(NO_PLACE);
    expect(ask(firstThatCovers([sketch], STILL), 0.9, 0, 0)).toMatchObject({ by: ASSUMED_STILL });
    expect(ask(firstThatCovers([sketch], STILL), 0, 0, 101).coverage).toBe(NO_TIME);
  });
});

describe("currents added together", () => {
  const jet = gaussianJet({ rateMps: 2, axisMetres: 0, halfWidthMetres: 1000, halfWidthEastMetres: 500 });
  const tide = turningTide({ rateMps: 1, periodSeconds: 400, epochAt: 0 });

  it("add east to east and north to north", () => {
    const sum = sumOfCurrents([jet, tide, uniformCurrent(90, 0.5)]);
    expect(ask(sum, 0, 0, 100)).toMatchObject({ coverage: COVERED, east: expect.closeTo(0.5, 12), north: expect.closeTo(3, 12), by: 0 });
    expect(ask(sum, 1000 / DEGREE, 0, 300).north).toBeCloseTo(2 * Math.exp(-4) - 1, 9);
    expect(ask(sum, -1000 / DEGREE, 0, 0).north).toBeCloseTo(2 * Math.exp(-1), 9);
    expect(sum.name).toBe("Gaussian jet + Turning tide + uniform current");
  });

  it("cover where and while every part does; the time is told before the place", () => {
    const sum = sumOfCurrents([square(-1, 1, [0, 100]), square(-0.5, 2, [50, 300])]);
    expect(sum.covers).toEqual({ from: 50, until: 100 });
    expect(ask(sum, -0.25, 0.5, 75)).toMatchObject({ coverage: COVERED, east: expect.closeTo(3.1, 6) });
    expect(ask(sum, 0.25, 0.5, 75).coverage).toBe(NO_PLACE);
    expect(ask(sum, -0.75, 0.5, 75).coverage).toBe(NO_PLACE);
    expect(ask(sum, -0.25, 0.5, 150).coverage).toBe(NO_TIME);
    expect(ask(sum, 0.25, 0.5, 150).coverage).toBe(NO_TIME);
    expect(ask(sum, -0.75, 0.5, 20).coverage).toBe(NO_TIME);
    expect(sumOfCurrents([jet, tide]).covers).toBeNull();
  });

  it("are assumed where a part is", () => {
    const sum = sumOfCurrents([tide, firstThatCovers([square(-1, 1, [0, 100])], STILL)]);
    expect(ask(sum, 0.5, 0.5, 60).by).toBe(ASSUMED_STILL);
    expect(ask(sum, -0.5, 0.5, 60).by).toBe(0);
  });

  it("are at least one", () => {
    expect(() => sumOfCurrents([])).toThrow("no currents");
  });
});

describe("a current at a factor of its rate", () => {
  it("sets the same way, covers the same and is answered by the same source", () => {
    const whole = firstThatCovers([square(-1, 1, [0, 100]), square(-0.5, 2, [50, 300])], nearest(0.7)).onPlane(plane);
    const part = scaledCurrent(whole, 0.8);
    expect(part.quantities).toEqual(CURRENT_QUANTITIES);
    const full = new Float64Array(2);
    for (const [lon, lat, at] of [
      [-0.7, 0.5, 60],
      [0.2, 0.3, 60],
      [0.9, 0.5, 60],
    ] as const) {
      expect(whole.sampleInto(full, lon * DEGREE, lat * DEGREE, at)).toBe(COVERED);
      const by = whole.answeredBy;
      expect(part.sampleInto(out, lon * DEGREE, lat * DEGREE, at)).toBe(COVERED);
      expect([...out]).toEqual([0.8 * full[0]!, 0.8 * full[1]!]);
      expect(part.answeredBy).toBe(by);
    }
    out.fill(7);
    expect(part.sampleInto(out, 0, 0, 1e6)).toBe(NO_TIME);
    expect(part.sampleInto(out, 1.5 * DEGREE, 0, 60)).toBe(NO_PLACE);
    expect([...out]).toEqual([7, 7]);
    expect(part.nearestInto(out, 0.9 * DEGREE, 0, 60, 0.41 * DEGREE)).toBe(true);
    expect(out[0]).toBeCloseTo(0.8 * 2.1, 6);
    expect(part.reachesPlace(0, 0, 1e6)).toBe(true);
    expect(part.reachesPlace(1.5 * DEGREE, 0, 60)).toBe(false);
  });
});

describe("currents by formula", () => {
  it("a uniform current sets the same true way everywhere on a real plane, and nowhere beyond it", () => {
    const real = planeAround(positionOf(61, 4), 150_000);
    const sampler = uniformCurrent(210, 1.2).onPlane(real);
    for (const [x, y] of [
      [0, 0],
      [150_000, 150_000],
      [-149_000, 20_000],
    ] as const) {
      expect(sampler.sampleInto(out, x, y, 0)).toBe(COVERED);
      const setDeg = (Math.atan2(out[0]!, out[1]!) * 180) / Math.PI + real.convergenceDegAt(x, y);
      expect((setDeg + 360) % 360).toBeCloseTo(210, 9);
      expect(Math.hypot(out[0]!, out[1]!)).toBeCloseTo(1.2, 12);
    }
    expect(sampler.sampleInto(out, 150_100, 0, 0)).toBe(NO_PLACE);
    expect(sampler.reachesPlace(150_100, 0, 0)).toBe(false);
    expect(sampler.sampleInto(out, Number.NaN, 0, 0)).toBe(NO_PLACE);
  });

  it("a tide turns with its period, under a bell where it has one", () => {
    const tide = turningTide({ rateMps: 1.5, periodSeconds: 44_712, epochAt: 1000, bell: { axisMetres: 500, halfWidthMetres: 2000 } });
    expect(ask(tide, 500 / DEGREE, 0, 1000 + 44_712 / 4).north).toBeCloseTo(1.5, 9);
    expect(ask(tide, 2500 / DEGREE, 0, 1000 + (3 * 44_712) / 4).north).toBeCloseTo(-1.5 / Math.E, 9);
    expect(ask(tide, 0, 0, 1000 + 44_712).north).toBeCloseTo(0, 9);
  });

  it("any formula is read as written", () => {
    const eddy = analyticCurrent("an eddy", (to, x, y) => {
      to[0] = -y;
      to[1] = x;
    });
    expect(ask(eddy, 2 / DEGREE, 3 / DEGREE, 0)).toMatchObject({
      coverage: COVERED,
      east: expect.closeTo(-3, 9),
      north: expect.closeTo(2, 9),
    });
    expect(eddy.onPlane(plane).nearestInto(out, 0, 0, 0, 1e9)).toBe(false);
  });
});

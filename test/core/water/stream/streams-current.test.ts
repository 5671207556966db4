import { describe, expect, it } from "vitest";
import { flatPlane, planeAround, positionOf } from "../../../../src/core/earth/index.ts";
import { COVERED, NO_PLACE } from "../../../../src/core/fields/index.ts";
import { knotsFromMps, metresFromNm, mpsFromKnots } from "../../../../src/core/units/index.ts";
import {
  analyticCurrent,
  type CurrentFit,
  firstThatCovers,
  heldAgainst,
  LEAST_HELD_AGAINST_SECONDS,
  NOT_FIT_HERE,
  NOT_FIT_WITHIN_METRES,
  streamsCurrent,
  sumOfCurrents,
  unfitNear,
  uniformCurrent,
} from "../../../../src/core/water/index.ts";
import { at, statedStream, streamOf, streamsOf, subordinate, tideOf } from "./made-streams.ts";

const turning = { S2: [2, 90] } as const;
const flood = at("2027-05-10T03:00Z");
const centre = positionOf(41, -33);
const plane = planeAround(centre, metresFromNm(60));
const out = new Float64Array(2);

describe("streams as a source of current", () => {
  const near = statedStream(turning, { name: "near", position: centre, withinMetres: 8000, floodTowardDegTrue: 90, ebbTowardDegTrue: 270 });
  const far = statedStream(
    { S2: [4, 90] },
    { name: "far", position: plane.toPosition(10_000, 0), withinMetres: 6000, floodTowardDegTrue: 90, ebbTowardDegTrue: 270 },
  );
  const sampler = streamsCurrent(streamsOf([near, far])).onPlane(plane);
  const eastKn = (x: number): number => {
    expect(sampler.sampleInto(out, x, 0, flood)).toBe(COVERED);
    return knotsFromMps(out[0]!);
  };

  it("holds within each radius, at all times, and nowhere else", () => {
    const source = streamsCurrent(streamsOf([near, far]));
    expect(source.covers).toBeNull();
    expect(source.heldSteady).toBe(false);
    expect(eastKn(-7999)).toBeCloseTo(2, 5);
    expect(sampler.sampleInto(out, -8001, 0, flood)).toBe(NO_PLACE);
    expect(sampler.reachesPlace(-8001, 0, flood)).toBe(false);
    expect(eastKn(15_999)).toBeCloseTo(4, 4);
    expect(sampler.sampleInto(out, 16_001, 0, flood)).toBe(NO_PLACE);
    expect(sampler.sampleInto(out, 0, 8001, flood)).toBe(NO_PLACE);
  });

  it("at a station tells its own, between two by ((R − d)/(R d))², without a step at either edge", () => {
    expect(eastKn(0)).toBeCloseTo(2, 6);
    expect(eastKn(10_000)).toBeCloseTo(4, 4);
    const [a, b] = [(1 / 6000 - 1 / 8000) ** 2, (1 / 4000 - 1 / 6000) ** 2];
    expect(eastKn(6000)).toBeCloseTo((2 * a + 4 * b) / (a + b), 4);
    expect(eastKn(4001)).toBeCloseTo(2, 3);
    expect(eastKn(7999)).toBeCloseTo(4, 3);
    let before = eastKn(-7000);
    for (let x = -7000; x <= 15_900; x += 25) {
      const now = eastKn(x);
      expect(Math.abs(now - before)).toBeLessThan(0.08);
      before = now;
    }
  });

  it("turns true sets to the plane's own north", () => {
    const place = plane.toPosition(metresFromNm(50), metresFromNm(10));
    const { xMetres, yMetres } = plane.toPlane(place);
    const leanDeg = plane.convergenceDegAt(xMetres, yMetres);
    expect(Math.abs(leanDeg)).toBeGreaterThan(0.5);
    const north = streamOf(statedStream(turning, { position: place, floodTowardDegTrue: 0, ebbTowardDegTrue: 180 }));
    expect(streamsCurrent([north]).onPlane(plane).sampleInto(out, xMetres, yMetres, flood)).toBe(COVERED);
    expect((Math.atan2(out[0]!, out[1]!) * 180) / Math.PI).toBeCloseTo(-leanDeg, 6);
  });

  it("the nearest known is that at the edge of the nearest disc", () => {
    expect(sampler.nearestInto(out, -9000, 0, flood, 999)).toBe(false);
    expect(sampler.nearestInto(out, -9000, 0, flood, 1001)).toBe(true);
    expect(knotsFromMps(out[0]!)).toBeCloseTo(2, 6);
  });

  it("streams without a radius are no source", () => {
    const source = streamsCurrent(streamsOf([near, { ...far, withinMetres: null }]));
    expect(source.name).toBe("tidal stream: near");
    expect(source.onPlane(plane).sampleInto(out, 10_000, 0, flood)).toBe(NO_PLACE);
  });

  it("adds to another source where both cover", () => {
    const sum = sumOfCurrents([uniformCurrent(90, mpsFromKnots(0.5)), streamsCurrent(streamsOf([near]))]).onPlane(plane);
    expect(sum.sampleInto(out, 100, 0, flood)).toBe(COVERED);
    expect(knotsFromMps(out[0]!)).toBeCloseTo(2.5, 4);
    expect(sum.sampleInto(out, 9000, 0, flood)).toBe(NO_PLACE);
  });

  it("is read from nodes within 0.005 kn, also where sets and quarters are uneven, at 8 kn", () => {
    const fast = { S2: [6, 90], M4: [2, 40] } as const;
    const uneven = {
      slackBeforeFloodLaterSeconds: -1500,
      greatestFloodLaterSeconds: 900,
      slackBeforeEbbLaterSeconds: 1800,
      floodRatio: 1.1,
      ebbRatio: 0.8,
    };
    const stated = [
      statedStream(fast, { position: centre, ebbTowardDegTrue: 215 }),
      { ...subordinate(uneven), position: centre, ebbTowardDegTrue: 260 },
      statedStream(turning, { name: "table", position: centre, told: { kind: "byHours" as const, table: hourly() } }),
    ];
    const flat = flatPlane(centre, metresFromNm(20));
    for (const stream of streamsOf(stated, tideOf({ M2: [2, 10], S2: [0.6, 50] }))) {
      const own = streamsCurrent([stream]).onPlane(flat);
      let worst = 0;
      for (let k = 0; k < 20_000; k++) {
        const when = at("2027-05-01T00:00Z") + k * 37.3;
        expect(own.sampleInto(out, 0, 0, when)).toBe(COVERED);
        const { eastMps, northMps } = stream.vectorAt(when);
        worst = Math.max(worst, Math.hypot(out[0]! - eastMps, out[1]! - northMps));
      }
      expect(knotsFromMps(worst)).toBeLessThan(0.005);
      expect(worst).toBeGreaterThan(0);
    }
  });

  it("is quick: half a million questions of two streams in well under a second", () => {
    const [a, b] = [sampler, out];
    a.sampleInto(b, 5000, 100, flood);
    const began = performance.now();
    for (let k = 0; k < 500_000; k++) a.sampleInto(b, 5000, 100, flood + (k % 86_400));
    expect(performance.now() - began).toBeLessThan(1000);
  });
});

/** Eight knots at springs, turning two hours before high water and four after, as a narrow may. */
function hourly() {
  const hours = Array.from({ length: 13 }, (_, i) => {
    const along = 8 * Math.sin(((i - 4) * Math.PI) / 6.2);
    const rate = mpsFromKnots(Math.abs(along));
    return { hour: i - 6, setDegTrue: along >= 0 ? 60 : 225, springsMps: rate, neapsMps: 0.5 * rate };
  });
  return { of: "the Port", springRangeMetres: null, neapRangeMetres: null, hours };
}

describe("a forecast held against a tidal station", () => {
  const station = streamOf(
    statedStream({ S2: [2, 90] }, { position: centre, floodTowardDegTrue: 90, ebbTowardDegTrue: 270, withinMetres: 3000 }),
  );
  const day = 86400;
  const [from, until] = [at("2027-05-10T00:00Z"), at("2027-05-12T00:00Z")];
  /** East at `share` of the station's own stream and an error, known until some time. */
  const forecast = (share: number, errorKn: number, seconds = until - from) => ({
    ...analyticCurrent("a forecast", (to, _x, _y, when) => {
      to[0] = share * station.alongAt(when) + mpsFromKnots(errorKn);
      to[1] = mpsFromKnots(3);
    }),
    covers: { from, until: from + seconds },
  });
  const held = (...of: Parameters<typeof forecast>): CurrentFit => {
    const fit = heldAgainst(forecast(...of), station, plane);
    if (fit === null) throw new Error("not held");
    return fit;
  };

  it("differs along the axis only: what runs across it is no matter", () => {
    const fit = held(1, 0);
    expect(fit.fits).toBe(true);
    expect(fit.rmsDifferenceMps).toBeLessThan(1e-6);
    expect(fit.isShort).toBe(false);
  });

  it("is not fit past the greater of 0.3 kn and 30 % of the station's own: here 0.42 kn, of 2 kn", () => {
    // Root mean square of 2 sin: √2 = 1.414 kn, of which 30 % are 0.424.
    expect(knotsFromMps(held(1, 0.42).boundMps)).toBeCloseTo(0.3 * Math.SQRT2, 2);
    expect(held(1, 0.42).fits).toBe(true);
    expect(held(1, 0.43).fits).toBe(false);
    const still = held(0, 0);
    expect(still.fits).toBe(false);
    expect(knotsFromMps(still.rmsDifferenceMps)).toBeCloseTo(Math.SQRT2, 2);
    expect(Math.max(...[still.model.leastMps, still.model.greatestMps].map(Math.abs))).toBeLessThan(1e-12);
    expect([still.station.leastMps, still.station.greatestMps].map(knotsFromMps).map((one) => Math.round(one * 1000))).toEqual([
      -2000, 2000,
    ]);
  });

  it("says when it was held against for less than a tidal day", () => {
    expect(LEAST_HELD_AGAINST_SECONDS).toBe(89_400);
    expect(held(1, 0, 89_400).isShort).toBe(false);
    expect(held(1, 0, 88_800).isShort).toBe(true);
  });

  it("is not held against a station that it doesn't reach, or where it covers no time of its own", () => {
    expect(heldAgainst({ ...forecast(1, 0), covers: null }, station, plane)).toBeNull();
    expect(heldAgainst(streamsCurrent([station]), station, plane)).toBeNull();
    const elsewhere = { ...station, position: positionOf(50, -33) };
    expect(heldAgainst(forecast(1, 0), elsewhere, plane)).toBeNull();
  });

  it("counts around the station: within its radius, or 5 nm where it has none", () => {
    expect(held(0, 0).withinMetres).toBe(3000);
    expect(heldAgainst(forecast(0, 0), { ...station, withinMetres: null }, plane)?.withinMetres).toBe(NOT_FIT_WITHIN_METRES);
    expect(NOT_FIT_WITHIN_METRES).toBe(5 * 1852);
  });

  it("found not fit it still answers, and says that it is not to be relied on there: also behind another source and in a list", () => {
    const unfit = unfitNear(forecast(0, 0), [held(0, 0)]);
    const by = (source: typeof unfit, x: number, when = from + day): number => {
      const sampler = source.onPlane(plane);
      expect(sampler.sampleInto(out, x, 0, when)).toBe(COVERED);
      return sampler.answeredBy;
    };
    expect(by(unfit, 2999)).toBe(NOT_FIT_HERE);
    expect(by(unfit, 3001)).toBe(0);
    const listed = firstThatCovers([unfit, uniformCurrent(90, 1)], { kind: "refuse" });
    expect(by(listed, 0)).toBe(NOT_FIT_HERE);
    expect(by(listed, 3001)).toBe(0);
    expect(by(sumOfCurrents([unfit, uniformCurrent(90, 1)]), 0)).toBe(NOT_FIT_HERE);
    // The tidal stream before it answers where it holds, and nothing is in doubt there.
    expect(by(firstThatCovers([streamsCurrent([station]), unfit], { kind: "refuse" }), 0)).toBe(0);
    expect(unfitNear(forecast(1, 0), [held(1, 0)]).onPlane(plane).answeredBy).toBe(0);
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lightOver, sunAltitudeDeg } from "../../../src/core/earth/index.ts";
import { COVERED, type GridData, NO_PLACE, NO_TIME, NO_VARIABLE } from "../../../src/core/fields/index.ts";
import { oneHeading, runPilotage } from "../../../src/core/passage/index.ts";
import { epochSeconds, metresFromNm } from "../../../src/core/units/index.ts";
import { gaussianJet } from "../../../src/core/water/index.ts";
import { gridWind } from "../../../src/core/weather/index.ts";
import { ARRIVAL, type Exposure, feel, judge, OPEN_WATER, OUT_OF_HARBOUR, type Passed } from "../../../src/core/window/index.ts";
import { clock, HOUR, kn, kn2, limit, plane, seas, trackOf, trial, winds } from "./setup.ts";

/** From 36 nm east to x = 0 at 6 kn, an hour a node, in still water or a stream to north. */
function plainTrack(departAt: number, stream = 0) {
  return trackOf(Array.from({ length: 7 }, (_, k) => ({ at: departAt + k * HOUR, nm: 36 - 6 * k, north: stream })));
}

const passedOf = (open: Passed["open"]): Passed => ({ out: null, open, into: null });

/** The nodes of one quantity in knots (or SI), [time, low, high]. */
function nodesOf(exposure: Exposure, felt: keyof Exposure["columns"], unit = kn(1)): [number, number, number][] {
  const column = exposure.columns[felt];
  return Array.from(exposure.atSeconds, (at, i) => [at, (column.low[i] as number) / unit, (column.high[i] as number) / unit]);
}

const covers = { from: clock(0), until: clock(24) };

describe("wind periods that step at 0630", () => {
  const wind = winds(
    { from: 0, until: 6.5, dir: 180, low: 8, high: 12, gust: 15 },
    { from: 6.5, until: 24, dir: 200, arc: 40, low: 14, high: 20 },
  );
  const exposure = feel(passedOf(plainTrack(clock(5))), wind.onPlane(plane, 0), null);

  it("stand on both sides of the step, a second apart, at the place where the boat is then", () => {
    expect(Array.from(exposure.atSeconds)).toEqual([
      clock(5),
      clock(6),
      clock(6, 29, 59),
      clock(6, 30),
      clock(6, 30, 1),
      ...[7, 8, 9, 10, 11].map((hour) => clock(hour)),
      // The arrival point closes the open water and opens the arrival.
      clock(11),
    ]);
    expect(exposure.xMetres[3]).toBeCloseTo(metresFromNm(27), 6);
    expect(nodesOf(exposure, "windMps").slice(1, 6)).toEqual(
      [
        [clock(6), 8, 12],
        [clock(6, 29, 59), 8, 12],
        [clock(6, 30), 14, 20],
        [clock(6, 30, 1), 14, 20],
        [clock(7), 14, 20],
      ].map((row) => row.map((value) => expect.closeTo(value as number, 9))),
    );
  });

  it("close a passage at 0630 to the second: 12 to 20 kn, never 16, is past it in the middle of the second's step", () => {
    const margin = judge(exposure, limit("windMps", 12, 16), covers);
    expect(margin).toMatchObject({
      kind: "judged",
      margin: expect.closeTo(-1, 9),
      firstPastNeverAt: expect.closeTo(clock(6, 29, 59) + 0.5, 3),
    });
  });

  it("give the gust that is stated, else the stated factor on the high end, and say so", () => {
    const gusts = nodesOf(exposure, "gustMps");
    expect(gusts[2]?.[2]).toBeCloseTo(15, 9);
    expect(gusts[3]?.[2]).toBeCloseTo(20 * 1.4, 9);
    expect(exposure.gustAssumed).toBe(true);
    const stated = winds({ from: 0, until: 24, dir: 0, low: 10, gust: 15 });
    expect(feel(passedOf(plainTrack(clock(5))), stated.onPlane(plane, 0), null).gustAssumed).toBe(false);
  });

  it("are seen where the step falls just on the arrival", () => {
    // Arrives at 0630 just as the wind steps: until a second before it is the old wind.
    const just = feel(passedOf(plainTrack(clock(0, 30))), wind.onPlane(plane, 0), null);
    expect(
      nodesOf(just, "windMps")
        .slice(-3)
        .map(([at, , high]) => [at, Math.round(high)]),
    ).toEqual([
      [clock(6, 29, 59), 12],
      [clock(6, 30), 20],
      [clock(6, 30), 20],
    ]);
  });
});

describe("the nodes of a passage", () => {
  it("are in time order with both sides of every step, whatever the steps of wind and sea and the legs of the passage", () => {
    const minutes = fc.uniqueArray(fc.integer({ min: 1, max: 12 * 60 * 4 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(minutes, minutes, fc.boolean(), fc.boolean(), (windSteps, seaSteps, hasOut, hasInto) => {
        const edges = (steps: number[]): number[] => [0, ...steps.sort((a, b) => a - b).map((quarter) => quarter / 240), 24];
        const spans = (steps: number[]): [number, number][] =>
          edges(steps)
            .slice(1)
            .map((until, i) => [edges(steps)[i] as number, until]);
        const wind = winds(...spans(windSteps).map(([from, until], i) => ({ from, until, dir: 0, low: 5 + i })));
        const sea = seas(...spans(seaSteps).map(([from, until], i) => [from, until, 1 + i, 1 + i, null, null] as const));
        const track = plainTrack(clock(2));
        const east = { latitudeDeg: 34, longitudeDeg: -40.27 };
        const out = hasOut ? runPilotage(plane, [{ ...east, longitudeDeg: -40.2 }, east], kn(5), clock(1)) : null;
        const into = hasInto ? runPilotage(plane, [plane.centre, { ...east, longitudeDeg: -41.1 }], kn(5), clock(8)) : null;
        const exposure = feel({ out, open: track, into }, wind.onPlane(plane, 0), sea.onPlane(plane));
        for (let i = 1; i < exposure.count; i++) {
          const [before, now] = [exposure.atSeconds[i - 1] as number, exposure.atSeconds[i] as number];
          expect(now).toBeGreaterThanOrEqual(before);
          expect(exposure.part[i] as number).toBeGreaterThanOrEqual(exposure.part[i - 1] as number);
          // Inside one part no two nodes a second or less apart differ but where a step lies between them, and none that far apart do.
          if (exposure.part[i] !== exposure.part[i - 1]) continue;
          const jumped = exposure.columns.windMps.high[i] !== exposure.columns.windMps.high[i - 1];
          const jumpedSea = exposure.columns.seaHeightMetres.high[i] !== exposure.columns.seaHeightMetres.high[i - 1];
          if (jumped || jumpedSea) expect(now - before).toBeLessThanOrEqual(1 + 1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe("a passage from berth to berth", () => {
  const berth = { latitudeDeg: 34.02, longitudeDeg: plane.toPosition(metresFromNm(36), 0).longitudeDeg };
  const out = runPilotage(plane, [berth, { ...berth, latitudeDeg: 34 }], kn(2.4), clock(5));
  const open = plainTrack(clock(5, 30), 3);
  const into = runPilotage(plane, [plane.centre, { latitudeDeg: 34, longitudeDeg: -41.05 }], kn(5), clock(11, 30));
  const wind = winds({ from: 0, until: 24, dir: 0, low: 10, gust: 14 });
  const exposure = feel({ out, open, into }, wind.onPlane(plane, 0), null);

  it("goes out, over and in, in order of time", () => {
    expect([...new Set(exposure.part)]).toEqual([OUT_OF_HARBOUR, OPEN_WATER, ARRIVAL]);
    expect(exposure.atSeconds[0]).toBe(clock(5));
    const times = Array.from(exposure.atSeconds);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  it("knows the current in open water only: 10 kn of northerly against 3 kn to north", () => {
    const column = exposure.columns.windAgainstCurrentMps2;
    for (let i = 0; i < exposure.count; i++) {
      if (exposure.part[i] === OPEN_WATER) {
        expect(column.coverage[i]).toBe(COVERED);
        expect((column.high[i] as number) / kn2(1)).toBeCloseTo(30, 9);
      } else expect(column.coverage[i]).toBe(NO_PLACE);
    }
    expect(judge(exposure, limit("windAgainstCurrentMps2", 0, 40, { during: "openWater" }), covers)).toMatchObject({
      kind: "judged",
      margin: expect.closeTo(0.25, 9),
    });
    const whole = judge(exposure, limit("windAgainstCurrentMps2", 0, 40), covers);
    expect(whole).toMatchObject({ kind: "notJudged", knownPart: { margin: expect.closeTo(0.25, 9) } });
  });
});

describe("water that is assumed", () => {
  it("leaves wind against current not judged there, with what is known of the rest; wind and gusts stay judged", () => {
    const track = trackOf(
      [36, 30, 24, 18, 12, 6, 0].map((nm, k) => ({ at: clock(5 + k), nm, north: nm >= 12 ? 2 : 0, answeredBy: nm >= 12 ? 0 : -1 })),
    );
    const wind = winds({ from: 0, until: 8.5, dir: 0, low: 10 }, { from: 8.5, until: 24, dir: 0, low: 12 });
    const exposure = feel(passedOf(track), wind.onPlane(plane, 0), null);
    const margin = judge(exposure, limit("windAgainstCurrentMps2", 0, 40), covers);
    expect(margin).toMatchObject({
      kind: "notJudged",
      why: { code: "not-covered-place", at: clock(10), where: { longitudeDeg: plane.toPosition(metresFromNm(6), 0).longitudeDeg } },
      knownPart: { margin: expect.closeTo((40 - 24) / 40, 9), at: clock(8, 30) },
    });
    expect(judge(exposure, limit("windMps", 10, 20), covers)).toMatchObject({ kind: "judged", margin: expect.closeTo(0.8, 9) });
  });

  it("begins where the last known node ends: a step of the wind in between is not judged", () => {
    const track = trackOf([24, 12, 0].map((nm, k) => ({ at: clock(8 + k), nm, north: k < 2 ? 2 : 0, answeredBy: k < 2 ? 0 : -2 })));
    const wind = winds({ from: 0, until: 9.5, dir: 0, low: 10 }, { from: 9.5, until: 24, dir: 0, low: 40 });
    const margin = judge(feel(passedOf(track), wind.onPlane(plane, 0), null), limit("windAgainstCurrentMps2", 0, 40), covers);
    expect(margin).toMatchObject({
      kind: "notJudged",
      why: { at: clock(9, 29, 59) },
      knownPart: { margin: expect.closeTo(0.5, 9), firstPastNeverAt: null },
    });
  });
});

describe("the sea", () => {
  const track = plainTrack(clock(5));
  const wind = winds({ from: 0, until: 24, dir: 0, low: 10 });

  it("is felt from periods, height and period each at its worse end", () => {
    const sea = seas([0, 8, 0.5, 1, 6, 8], [8, 24, 1, 1.5, 4, 6]);
    const exposure = feel(passedOf(track), wind.onPlane(plane, 0), sea.onPlane(plane));
    // (2.5 − 1.5)/(2.5 − 1) and (3 − 4)/(3 − 6).
    expect(judge(exposure, limit("seaHeightMetres", 1, 2.5), covers)).toMatchObject({
      kind: "judged",
      margin: expect.closeTo(2 / 3, 9),
      at: clock(8),
    });
    expect(judge(exposure, limit("seaPeriodSeconds", 6, 3), covers)).toMatchObject({
      kind: "judged",
      margin: expect.closeTo(1 / 3, 9),
      at: clock(8),
    });
  });

  it("has a height but no period where the letter gives none: no source gives it", () => {
    const exposure = feel(passedOf(track), wind.onPlane(plane, 0), seas([0, 24, 1, 1, null, null]).onPlane(plane));
    expect(judge(exposure, limit("seaHeightMetres", 1, 2.5), covers).kind).toBe("judged");
    expect(judge(exposure, limit("seaPeriodSeconds", 6, 3), covers)).toMatchObject({
      kind: "notJudged",
      why: { code: "not-covered-variable" },
      knownPart: null,
    });
  });

  it("is not judged without a source", () => {
    const exposure = feel(passedOf(track), wind.onPlane(plane, 0), null);
    expect(exposure.columns.seaHeightMetres.coverage[0]).toBe(NO_VARIABLE);
    expect(judge(exposure, limit("seaHeightMetres", 1, 2.5), null)).toMatchObject({
      kind: "notJudged",
      why: { code: "not-covered-variable" },
    });
  });
});

describe("a forecast that ends, or has a gap, before the passage does", () => {
  it("leaves the wind not judged from then on, and says until when it is covered", () => {
    const wind = winds({ from: 0, until: 8, dir: 0, low: 10 });
    const exposure = feel(passedOf(plainTrack(clock(5))), wind.onPlane(plane, 0), null);
    expect(exposure.columns.windMps.coverage[exposure.count - 1]).toBe(NO_TIME);
    const margin = judge(exposure, limit("windMps", 10, 20), wind.covers);
    expect(margin).toMatchObject({
      kind: "notJudged",
      why: { code: "not-covered-time", quantity: "windMps", at: clock(8, 0, 1), coveredFrom: clock(0), coveredUntil: clock(8) },
      knownPart: { margin: expect.closeTo(1, 9) },
    });
  });

  it("finds a gap between two periods from its first moment", () => {
    const wind = winds({ from: 0, until: 7.25, dir: 0, low: 10 }, { from: 7.5, until: 24, dir: 0, low: 10 });
    const exposure = feel(passedOf(plainTrack(clock(5))), wind.onPlane(plane, 0), null);
    const margin = judge(exposure, limit("windMps", 10, 20), wind.covers);
    expect(margin).toMatchObject({ kind: "notJudged", why: { code: "not-covered-time", at: clock(7, 15), coveredUntil: clock(24) } });
  });
});

describe("light at arrival", () => {
  const day = lightOver({ from: epochSeconds(clock(0)), until: epochSeconds(clock(24)) }, plane.centre);
  if (day.civil.kind !== "crosses" || day.civil.upAt === null || day.civil.downAt === null) throw new Error("a day without twilight");
  const dawn = day.civil.upAt;
  const dusk = day.civil.downAt;
  // Happy with the sun up, never darker than civil twilight (Nautical Almanac: −6°).
  const light = limit("sunAltitudeDeg", 0, -6, { during: "arrival" });
  const wind = winds({ from: -24, until: 48, dir: 0, low: 10 });
  const arriving = (at: number) => judge(feel(passedOf(plainTrack(at - 6 * HOUR)), wind.onPlane(plane, 0), null), light, null);

  it("is wanting before dawn and after dusk, enough just inside, plenty at noon", () => {
    for (const [at, sign] of [
      [dawn - 600, -1],
      [dawn + 600, 1],
      [dusk - 600, 1],
      [dusk + 600, -1],
    ] as const) {
      const margin = arriving(at);
      if (margin.kind !== "judged") throw new Error("light not judged");
      expect(Math.sign(margin.margin)).toBe(sign);
      expect(margin.value).toBeCloseTo(sunAltitudeDeg(epochSeconds(at), plane.centre), 6);
      expect(margin.at).toBe(at);
    }
    // The noon altitude is 90 − latitude + declination; on 4 June the sun's declination is 22.4° north (any almanac; from memory).
    const noon = arriving((dawn + dusk) / 2);
    expect(noon).toMatchObject({ kind: "judged" });
    expect(noon.kind === "judged" && noon.value).toBeCloseTo(90 - 34 + 22.4, 0);
  });

  it("is judged all the way in to the berth: light enough at the entrance, too dark an hour later", () => {
    const at = dusk - 600;
    const into = runPilotage(plane, [plane.centre, { latitudeDeg: 34, longitudeDeg: -41.1 }], kn(5), at);
    const exposure = feel({ out: null, open: plainTrack(at - 6 * HOUR), into }, wind.onPlane(plane, 0), null);
    const margin = judge(exposure, light, null);
    if (margin.kind !== "judged") throw new Error("light not judged");
    expect(margin.margin).toBeLessThan(0);
    expect(margin.at).toBe(into.atSeconds[into.count - 1]);
    // Civil dusk a little further west is a little later.
    expect(Math.abs((margin.firstPastNeverAt as number) - dusk)).toBeLessThan(30);
  });
});

describe("a wind of 18 kn that turns by 180° inside a six-hour step", () => {
  /** South at 0600, north at 1200, 18 kn at both, over the whole piece of ocean. */
  function shiftGrid(): GridData {
    const steps = [18, -18, -18, -18];
    const values = new Float32Array(4 * 9 * 2);
    steps.forEach((north, t) => {
      for (let k = 0; k < 9; k++) values[(t * 9 + k) * 2 + 1] = kn(north);
    });
    return {
      quantities: ["windEastMps", "windNorthMps"],
      mesh: { kind: "latLon", latitudesDeg: Float64Array.of(32, 34, 36), longitudesDeg: Float64Array.of(-43, -41, -39) },
      times: Float64Array.of(clock(6), clock(12), clock(18), clock(24)),
      values,
      missing: new Uint8Array(36),
      nature: "instant",
      source: "made by hand",
      issuedAt: clock(0),
      member: 0,
    };
  }

  const wind = gridWind([{ wind: shiftGrid(), gust: null }], 1.4);
  const crossing = trial({
    current: gaussianJet({ rateMps: kn(3), axisMetres: metresFromNm(18), halfWidthMetres: metresFromNm(8) }),
  }).crossing;

  it("never reads calm along a passage, and the step is told", () => {
    for (let minutes = 0; minutes <= 600; minutes += 7) {
      const way = oneHeading(crossing, clock(6, minutes));
      if (way.kind !== "arrives") throw new Error(way.why.code);
      const exposure = feel(passedOf(way.track), wind.onPlane(plane, 0), null);
      for (let i = 0; i < exposure.count; i++) {
        // Float32 holds 18 kn to 1e-6.
        expect((exposure.columns.windMps.low[i] as number) / kn(1)).toBeGreaterThan(18 - 1e-5);
        expect((exposure.columns.windMps.high[i] as number) / kn(1)).toBeLessThan(18 + 1e-5);
      }
      expect(exposure.shiftSteps).toBe(minutes < 360 ? 1 : 0);
      const margin = judge(exposure, limit("windMps", 8, 12), wind.covers);
      expect(margin).toMatchObject({ kind: "judged", margin: expect.closeTo(-1.5, 4) });
    }
  });

  it("counts against the stream with its worse end from the step's beginning to its end", () => {
    // Leaves at 0800 and crosses the axis about three hours later, still within the step. The wind's end from the north blows against 3 kn.
    const way = oneHeading(crossing, clock(8));
    if (way.kind !== "arrives") throw new Error(way.why.code);
    expect(way.axis.at).toBeLessThan(clock(12));
    const margin = judge(feel(passedOf(way.track), wind.onPlane(plane, 0), null), limit("windAgainstCurrentMps2", 0, 40), wind.covers);
    expect(margin).toMatchObject({ kind: "judged", margin: expect.closeTo((40 - 54) / 40, 2) });
  });
});

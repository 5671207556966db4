import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { NO_PLACE, NO_TIME } from "../../../src/core/fields/index.ts";
import { ARRIVAL, judge, marginOf, OPEN_WATER, OUT_OF_HARBOUR, passesNever } from "../../../src/core/window/index.ts";
import { clock, exposureOf, type HandNode, kn, limit } from "./setup.ts";

/** Gusts in knots at times of the clock. */
const gusts = (...nodes: readonly (readonly [number, number, number])[]) =>
  exposureOf(
    "gustMps",
    nodes.map(([hours, minutes, knots]) => ({ at: clock(hours, minutes), low: kn(knots) })),
  );
/** Happy at 20 kn, never at 30: each knot is a tenth of the margin. */
const gustLimit = limit("gustMps", 20, 30);
const covers = { from: clock(0), until: clock(24) };

function judged(...args: Parameters<typeof judge>) {
  const margin = judge(...args);
  if (margin.kind !== "judged") throw new Error(`not judged: ${margin.why.code}`);
  return margin;
}

function notJudged(...args: Parameters<typeof judge>) {
  const margin = judge(...args);
  if (margin.kind !== "notJudged") throw new Error("judged");
  return margin;
}

describe("a margin", () => {
  it("is (never − value)/(never − happy), for limits that must not be passed upward", () => {
    for (const [knots, margin] of [
      [10, 2],
      [20, 1],
      [25, 0.5],
      [28.5, 0.15],
      [30, 0],
      [34, -0.4],
    ] as const) {
      expect(marginOf(gustLimit, kn(knots))).toBeCloseTo(margin, 12);
    }
  });

  it("has the same form for limits that must not be passed downward: a sea of 8 s is easy, of 4 s not to be met", () => {
    const period = limit("seaPeriodSeconds", 8, 4);
    for (const [seconds, margin] of [
      [10, 1.5],
      [8, 1],
      [6, 0.5],
      [4, 0],
      [3, -0.25],
    ] as const) {
      expect(marginOf(period, seconds)).toBeCloseTo(margin, 12);
    }
  });

  it("does not exist where happy and never are one figure", () => {
    expect(() => marginOf(limit("windMps", 20, 20), kn(10))).toThrow(/without room/);
  });
});

describe("the worse end of a range", () => {
  it("is the high one for a most, the low one for a least", () => {
    const wind = exposureOf("windMps", [{ at: clock(6), low: kn(12), high: kn(16) }]);
    expect(judged(wind, limit("windMps", 14, 24), covers).margin).toBeCloseTo(0.8, 12);
    // 5 to 7 s against happy 8, never 4: the short end, (4 − 5)/(4 − 8) = 0.25.
    const sea = exposureOf("seaPeriodSeconds", [{ at: clock(6), low: 5, high: 7 }]);
    expect(judged(sea, limit("seaPeriodSeconds", 8, 4), covers).margin).toBeCloseTo(0.25, 12);
  });
});

describe("the worst place of a passage", () => {
  it("is told with its value, time and place", () => {
    // A mile a node westward to eastward on the plane: the 27 kn stand two miles along.
    const exposure = gusts([6, 0, 18], [7, 0, 22], [8, 0, 27], [9, 0, 21]);
    const margin = judged(exposure, gustLimit, covers);
    expect(margin.margin).toBeCloseTo(0.3, 12);
    expect(margin.value).toBeCloseTo(kn(27), 12);
    expect(margin.at).toBe(clock(8));
    expect(margin.where.longitudeDeg).toBeCloseTo(-41 + 2 / 60 / Math.cos((34 * Math.PI) / 180), 9);
    expect(margin.firstPastNeverAt).toBeNull();
  });

  it("says when never is first passed, to the second, by the straight line between nodes", () => {
    // 26 kn at 0700, 36 kn at 0800: a knot every 6 minutes, so 30 kn at 0724. The second time over does not count.
    const exposure = gusts([6, 0, 20], [7, 0, 26], [8, 0, 36], [9, 0, 24], [10, 0, 40]);
    const margin = judged(exposure, gustLimit, covers);
    expect(margin.firstPastNeverAt).toBeCloseTo(clock(7, 24), 3);
    expect(margin.at).toBe(clock(10));
    expect(margin.margin).toBeCloseTo(-1, 12);
  });

  it("is past never from the first moment where it begins so", () => {
    expect(judged(gusts([6, 0, 33], [7, 0, 20]), gustLimit, covers).firstPastNeverAt).toBe(clock(6));
    expect(judged(gusts([6, 0, 33]), gustLimit, covers).firstPastNeverAt).toBe(clock(6));
  });

  it("touching never is not past it", () => {
    const margin = judged(gusts([6, 0, 20], [7, 0, 30], [8, 0, 20]), gustLimit, covers);
    expect(margin.margin).toBe(0);
    expect(margin.firstPastNeverAt).toBeNull();
  });
});

describe("an exceedance that is tolerated for 20 minutes", () => {
  const tolerant = { ...gustLimit, toleratedSeconds: 1200 };
  /** 25 kn but for a squall of 35 kn that begins at 0800, with sides of a second. */
  const squall = (minutes: number) =>
    exposureOf("gustMps", [
      { at: clock(6), low: kn(25) },
      { at: clock(8) - 1, low: kn(25) },
      { at: clock(8), low: kn(35) },
      { at: clock(8, minutes), low: kn(35) },
      { at: clock(8, minutes) + 1, low: kn(25) },
      { at: clock(12), low: kn(25) },
    ]);

  it("of 19 minutes does not count: the 25 kn that last do", () => {
    const margin = judged(squall(19), tolerant, covers);
    expect(margin.margin).toBeCloseTo(0.5, 6);
    expect(margin.value).toBeCloseTo(kn(25), 6);
    // What is met at all is told beside it.
    expect(margin.peakValue).toBe(kn(35));
    expect(margin.firstPastNeverAt).toBeNull();
  });

  it("of 21 minutes counts whole: closed, from the moment it begins", () => {
    const margin = judged(squall(21), tolerant, covers);
    expect(margin.margin).toBeCloseTo(-0.5, 6);
    // From 25 to 35 kn in the second before 0800: 30 kn half-way through it.
    expect(margin.firstPastNeverAt).toBeCloseTo(clock(8) - 0.5, 3);
  });

  it("of both lengths counts where nothing is tolerated", () => {
    const margin = judged(squall(19), gustLimit, covers);
    expect(margin.margin).toBeCloseTo(-0.5, 12);
    expect([margin.value, margin.peakValue]).toEqual([kn(35), kn(35)]);
    expect(judged(squall(1), gustLimit, covers).margin).toBeCloseTo(-0.5, 12);
  });

  it("counts with what lasts longer than that of a peak that comes and goes evenly", () => {
    // 20 kn to 40 and back in an hour each way: 20 kn an hour. For 20 minutes on end it blows 40 − 20/6 = 36.67 kn or more: margin −0.667.
    // Past 30 kn from 0630 on.
    const peak = gusts([6, 0, 20], [7, 0, 40], [8, 0, 20]);
    const margin = judged(peak, tolerant, covers);
    expect(margin.margin).toBeCloseTo(-2 / 3, 9);
    expect(margin.value).toBeCloseTo(kn(40 - 20 / 6), 8);
    expect(margin.peakValue).toBe(kn(40));
    expect(margin.at).toBe(clock(7));
    expect(margin.firstPastNeverAt).toBeCloseTo(clock(6, 30), 3);
  });

  it("overlooks a short squall before the one that counts", () => {
    const two = gusts([6, 0, 20], [6, 30, 29], [6, 40, 35], [6, 50, 29], [8, 0, 20], [8, 1, 40], [9, 0, 40], [9, 1, 20]);
    // 20 to 40 kn in the minute from 0800: 30 kn at 08:00:30.
    expect(judged(two, tolerant, covers).firstPastNeverAt).toBeCloseTo(clock(8, 0, 30), 3);
  });

  it("is not excused by a passage shorter than that: past never all the way is closed", () => {
    const margin = judged(gusts([6, 0, 33], [6, 10, 36]), tolerant, covers);
    expect(margin.margin).toBeCloseTo(-0.3, 9);
    expect(margin.firstPastNeverAt).toBe(clock(6));
  });
});

describe("what lasts", () => {
  const node = fc.record({ minutes: fc.integer({ min: 1, max: 12 }), knots: fc.integer({ min: 15, max: 40 }) });

  it("is the least, over all stretches as long as is tolerated, of the best moment in them: found so by trying every ten seconds", () => {
    fc.assert(
      fc.property(fc.array(node, { minLength: 2, maxLength: 8 }), fc.integer({ min: 1, max: 12 }), (rows, tolerated) => {
        let at = clock(6);
        const nodes = rows.map(({ minutes, knots }, i) => {
          if (i > 0) at += minutes * 60;
          return { at, low: kn(knots) };
        });
        const marginAt = (time: number): number => {
          let k = 1;
          while (k < nodes.length - 1 && (nodes[k] as HandNode).at < time) k++;
          const [a, b] = [nodes[k - 1] as HandNode, nodes[k] as HandNode];
          return marginOf(gustLimit, a.low + ((b.low - a.low) * (time - a.at)) / (b.at - a.at));
        };
        const margins: number[] = [];
        for (let time = clock(6); time <= at; time += 10) margins.push(marginAt(time));
        const long = tolerated * 6;
        let tried = Number.POSITIVE_INFINITY;
        for (let i = 0; i + long < margins.length; i++) tried = Math.min(tried, Math.max(...margins.slice(i, i + long + 1)));
        if (margins.length <= long) tried = Math.max(...margins);
        const tolerant = { ...gustLimit, toleratedSeconds: tolerated * 60 };
        const exposure = exposureOf("gustMps", nodes);
        const { margin } = judged(exposure, tolerant, covers);
        // Trying finds no less than there is, and misses by no more than five seconds of the steepest slope: 25 kn, 2.5, a minute. A
        // number of seconds since 1970 is told apart to 2.4e-7: 1e-8 of margin at that slope.
        expect(margin).toBeLessThan(tried + 2e-8);
        expect(margin).toBeGreaterThan(tried - (2.5 * 5) / 60 - 2e-8);
        if (Math.abs(margin) > 1e-9) expect(passesNever(exposure, tolerant)).toBe(margin < 0);
        expect(passesNever(exposure, gustLimit)).toBe(Math.min(...nodes.map((one) => marginOf(gustLimit, one.low))) < 0);
      }),
      { numRuns: 200 },
    );
  });
});

describe("a limit on part of a passage", () => {
  const nodes: readonly HandNode[] = [
    { at: clock(6), low: kn(33), part: OUT_OF_HARBOUR },
    { at: clock(7), low: kn(24), part: OPEN_WATER },
    { at: clock(8), low: kn(26), part: OPEN_WATER },
    { at: clock(8), low: kn(22), part: ARRIVAL },
    { at: clock(9), low: kn(29), part: ARRIVAL },
  ];
  const exposure = exposureOf("gustMps", nodes);

  it("counts there only", () => {
    expect(judged(exposure, gustLimit, covers).margin).toBeCloseTo(-0.3, 12);
    expect(judged(exposure, { ...gustLimit, during: "openWater" }, covers).margin).toBeCloseTo(0.4, 12);
    expect(judged(exposure, { ...gustLimit, during: "arrival" }, covers).margin).toBeCloseTo(0.1, 12);
  });
});

describe("what is not covered", () => {
  it("makes the limit not judged, with the first moment, how far the forecast reaches, and what is known of the rest", () => {
    const exposure = exposureOf("gustMps", [
      { at: clock(20), low: kn(24) },
      { at: clock(22), low: kn(27) },
      { at: clock(25), low: 0, coverage: NO_TIME },
      { at: clock(26), low: 0, coverage: NO_TIME },
    ]);
    const margin = notJudged(exposure, gustLimit, covers);
    expect(margin.why).toMatchObject({
      code: "not-covered-time",
      quantity: "gustMps",
      at: clock(25),
      coveredFrom: clock(0),
      coveredUntil: clock(24),
    });
    expect(margin.knownPart?.margin).toBeCloseTo(0.3, 12);
    expect(margin.knownPart?.at).toBe(clock(22));
  });

  it("tells a gap in time from a place that is not known, whatever the clock says", () => {
    const gap = (coverage: 1 | 2) =>
      exposureOf("gustMps", [
        { at: clock(6), low: kn(20) },
        { at: clock(7), low: 0, coverage },
        { at: clock(8), low: kn(20) },
      ]);
    expect(notJudged(gap(NO_TIME), gustLimit, covers).why.code).toBe("not-covered-time");
    expect(notJudged(gap(NO_PLACE), gustLimit, covers).why.code).toBe("not-covered-place");
  });

  it("says so when no source gives the quantity at all", () => {
    const exposure = exposureOf("gustMps", [{ at: clock(6), low: kn(20) }]);
    const margin = notJudged(exposure, limit("seaHeightMetres", 1, 2.5), null);
    expect(margin.why).toMatchObject({ code: "not-covered-variable", quantity: "seaHeightMetres", coveredUntil: null });
    expect(margin.knownPart).toBeNull();
  });
});

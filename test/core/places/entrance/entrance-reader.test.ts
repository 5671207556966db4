import { describe, expect, it } from "vitest";
import { sunPlace } from "../../../../src/core/earth/index.ts";
import { isOpen, mayBeOpen } from "../../../../src/core/places/index.ts";
import { waveOnCurrent } from "../../../../src/core/sea/index.ts";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import { CYCLE, cut, depth, HOUR, kinds, kn, reader, START, seaAsked, states, stream, surroundings } from "./setup.ts";

const day = { from: START, until: START + 24 * HOUR };
const openOf = (one: ReturnType<typeof states>, wanted = isOpen) => one.within(day).filter(({ state }) => wanted(state));
const hours = (at: number): number => (at - START) / HOUR;

describe("water over a bar", () => {
  it("is charted depth and tide less draught; open from and until the instant at which it is enough", () => {
    // 1 m charted, 2 m of draught, 0.5 m wanted: 1.5 m of tide, reached where 2 + 1.5 cos = 1.5.
    const half = (Math.acos(-1 / 3) / (2 * Math.PI)) * CYCLE;
    const open = openOf(states({ depth: depth() }));
    expect(open).toHaveLength(3);
    expect(open[0]?.from).toBe(START);
    expect(Math.abs((open[0]?.until ?? 0) - (START + half))).toBeLessThan(0.6);
    expect(Math.abs((open[1]?.from ?? 0) - (START + CYCLE - half))).toBeLessThan(0.6);
    expect(Math.abs((open[1]?.until ?? 0) - (START + CYCLE + half))).toBeLessThan(0.6);
    expect(reader({ depth: depth() }).at(START).underKeelMetres).toBeCloseTo(1 + 3.5 - 2, 12);
  });

  it("has what is stated taken off for the waves, or the sea on the bar", () => {
    const around = surroundings({ seas: [[0, 24, 0.8, 9]] });
    const left = (waves: ReturnType<typeof depth>["waves"]) => reader({ depth: depth({ waves }), sea: seaAsked() }, around).at(START);
    expect(left({ kind: "none" }).underKeelMetres).toBeCloseTo(2.5, 12);
    expect(left({ kind: "stated", metres: 0.3 }).underKeelMetres).toBeCloseTo(2.2, 12);
    const bar = left({ kind: "seaOnBar" });
    const wave = waveOnCurrent({ heightMetres: 0.8, periodSeconds: 9, fromDegTrue: 270 }, { alongWaveMps: 0 }, 4.5);
    if (wave.kind !== "runs" || bar.sea?.kind !== "runs") throw new Error("no sea");
    expect(bar.sea.heightMetres).toBeCloseTo(wave.heightMetres, 12);
    expect(bar.underKeelMetres).toBeCloseTo(2.5 - wave.heightMetres, 12);
  });

  it("shuts where it is too little even without waves that are not known; else it is not judged", () => {
    const one = reader({ depth: depth({ waves: { kind: "seaOnBar" } }), sea: seaAsked() });
    expect(kinds(one, 6)).toEqual(["depth", "notJudged"]);
    expect(kinds(one, 0)).toEqual(["notJudged"]);
    const unknown = states({ depth: depth({ waves: { kind: "seaOnBar" } }), sea: seaAsked() });
    expect(openOf(unknown)).toEqual([]);
    expect(openOf(unknown, mayBeOpen).length).toBeGreaterThan(0);
  });
});

describe("the stream in a cut", () => {
  it("shuts while it runs harder than what is never passed, ebb and flood each by its own", () => {
    // 3 kn sin: 2 kn and less until asin(2/3) of a quarter.
    const edge = (Math.asin(2 / 3) / (2 * Math.PI)) * CYCLE;
    const shut = states({ stream: stream({ ebbNeverMps: kn(2) }) })
      .within({ from: START, until: START + CYCLE })
      .filter(({ state }) => !isOpen(state));
    expect(shut).toHaveLength(1);
    expect(Math.abs((shut[0]?.from ?? 0) - (START + edge))).toBeLessThan(0.6);
    expect(Math.abs((shut[0]?.until ?? 0) - (START + CYCLE / 2 - edge))).toBeLessThan(0.6);
    const one = reader({ stream: stream({ ebbNeverMps: kn(2), floodNeverMps: kn(2.5) }) });
    expect([kinds(one, 3), kinds(one, 9)]).toEqual([["ebb"], ["flood"]]);
    expect(kinds(reader({ stream: stream({ ebbNeverMps: kn(2) }) }), 9)).toEqual([]);
  });

  it("counts whole where it turns round, not its part along the cut alone", () => {
    const round = { ...cut(), vectorAt: (at: number) => ({ eastMps: cut().alongAt(at), northMps: kn(2.4) }) };
    const one = reader({ stream: stream({ ebbNeverMps: kn(2), floodNeverMps: kn(2.5) }) }, surroundings({ inCut: round }));
    expect([kinds(one, 0.1), kinds(one, 5.99), kinds(one, 6.1), kinds(one, 9)]).toEqual([["ebb"], ["ebb"], [], ["flood"]]);
  });

  it("is passed around its own slack, and never where it doesn't turn", () => {
    const open = openOf(states({ stream: stream({ slackWithinSeconds: 1200 }) }));
    expect(open.map(({ from, until }) => [hours(from), hours(until)].map((value) => Math.round(value * 60)))).toEqual([
      [0, 20],
      [340, 380],
      [700, 740],
      [1060, 1100],
      [1420, 1440],
    ]);
    const always = reader({ stream: stream({ slackWithinSeconds: 1200 }) }, surroundings({ inCut: cut(-3.5) }));
    expect(always.at(START).reasons).toEqual([{ kind: "notSlack", nearestAt: null, withinSeconds: 1200 }]);
  });

  it("has slack away from high and low water where a mean flow runs", () => {
    const slack = (Math.asin(-1 / 3) / (2 * Math.PI)) * CYCLE;
    const one = reader({ stream: stream({ slackWithinSeconds: 600 }) }, surroundings({ inCut: cut(-1) }));
    expect(one.at(START + CYCLE + slack).reasons).toEqual([]);
    expect(one.at(START + CYCLE).reasons.map(({ kind }) => kind)).toEqual(["notSlack"]);
  });
});

describe("the sea on a bar", () => {
  const swell = surroundings({ seas: [[0, 24, 1, 12]] });

  it("stands higher and steeper the harder the ebb, and lower on the flood", () => {
    const one = reader({ stream: stream(), sea: seaAsked() }, swell);
    const heights = [0, 1, 2, 3, 9].map((hour) => {
      const { sea } = one.at(START + hour * HOUR);
      return sea?.kind === "runs" ? sea.heightMetres : Number.NaN;
    });
    const [slack, first, second, ebb, flood] = heights as [number, number, number, number, number];
    expect(slack).toBeCloseTo(1, 9);
    expect(first).toBeGreaterThan(slack);
    expect(second).toBeGreaterThan(first);
    expect(ebb).toBeGreaterThan(second);
    expect(flood).toBeLessThan(slack);
  });

  it("is blocked where it is short, whatever its height; a popple is passed over", () => {
    const short = (metres: number) => reader({ stream: stream(), sea: seaAsked() }, surroundings({ seas: [[0, 24, metres, 3.5]] }));
    expect(kinds(short(0.4), 3)).toEqual(["blocked"]);
    expect(kinds(short(0.4), 9)).toEqual([]);
    expect(kinds(short(0.15), 3)).toEqual([]);
  });

  it("comes from where it is stated to: across the ebb it is not heightened", () => {
    const across = reader({ stream: stream(), sea: seaAsked({ fromDegTrue: 180 }) }, swell).at(START + 3 * HOUR).sea;
    expect(across?.kind === "runs" && across.heightMetres).toBeCloseTo(1, 9);
  });

  // Common practice: swell and wind sea are judged apart on a current. Both as one sea at the swell's period would hide the short sea that breaks.
  it("is run system by system where the source tells them apart", () => {
    const ebbTo = cut().ebbTowardDegTrue;
    const told = (...systems: readonly (readonly [number, number, number | null])[]) => {
      const whole = surroundings({ seas: [[0, 24, 1.3, 12]] });
      const systemsInto = (out: Float64Array): number => {
        systems.forEach(([metres, seconds, fromDeg], k) => {
          const rad = ((fromDeg ?? 0) * Math.PI) / 180;
          out.set([metres, seconds, fromDeg === null ? 0 : -Math.sin(rad), fromDeg === null ? 0 : -Math.cos(rad)], 4 * k);
        });
        return systems.length;
      };
      return { ...whole, sea: whole.sea === null ? null : { ...whole.sea, systemsInto } };
    };
    const onEbb = (around: ReturnType<typeof surroundings>, changes: Parameters<typeof seaAsked>[0] = {}) =>
      reader({ stream: stream(), sea: seaAsked(changes) }, around).at(START + 3 * HOUR).sea;
    const runs = (sea: ReturnType<typeof onEbb>) => {
      if (sea?.kind !== "runs") throw new Error(`not a sea that runs: ${sea?.kind}`);
      return sea;
    };
    expect(onEbb(told([1.2, 12, ebbTo], [0.5, 3.5, ebbTo]))?.kind).toBe("blocked");
    expect(runs(onEbb(surroundings({ seas: [[0, 24, 1.3, 12]] }))).breaking).toBe("no");
    // From where a file says they come is not asked: they are turned in; from where the skipper says it is.
    expect(onEbb(told([1.2, 12, ebbTo + 90], [0.5, 3.5, ebbTo + 90]))?.kind).toBe("blocked");
    expect(runs(onEbb(told([1.2, 12, ebbTo], [0.5, 3.5, ebbTo]), { fromDegTrue: ebbTo + 90 })).heightMetres).toBeCloseTo(1.3, 9);
    expect(onEbb(told([1.2, 12, null], [0.5, 3.5, null]))?.kind).toBe("blocked");
    // Parts that fall short of the whole are made up to it.
    expect(runs(onEbb(told([0.65, 12, ebbTo]), { fromDegTrue: ebbTo + 90 })).heightMetres).toBeCloseTo(1.3, 9);
  });

  it("is judged by a period that is stated where the forecast has none, else not at all", () => {
    const noPeriod = surroundings({ seas: [[0, 24, 1, null]] });
    expect(reader({ sea: seaAsked() }, noPeriod).at(START).reasons).toEqual([{ kind: "notJudged", lacks: "seaPeriod" }]);
    expect(kinds(reader({ sea: seaAsked({ periodSeconds: 9 }) }, noPeriod), 0)).toEqual([]);
    expect(reader({ sea: seaAsked() }, surroundings({ seas: [[0, 6, 1, 9]] })).at(START + 7 * HOUR).reasons).toEqual([
      { kind: "notJudged", lacks: "sea" },
    ]);
  });

  it("has limits on height and steepness, and breaks in too little water", () => {
    const asked = (changes: Parameters<typeof seaAsked>[0]) =>
      kinds(reader({ sea: seaAsked(changes) }, surroundings({ seas: [[0, 24, 1, 5]] })), 0);
    expect(asked({})).toEqual([]);
    expect(asked({ neverHeightMetres: 0.9 })).toEqual(["seaHeight"]);
    // 5 s: 39 m long, 1/39.
    expect(asked({ neverSteepness: 1 / 45 })).toEqual(["steep"]);
    expect(asked({ neverSteepness: 1 / 35 })).toEqual([]);
    const shallow = reader(
      { depth: depth({ chartedDepthMetres: 0.5, draughtMetres: 0.2, underKeelMetres: 0 }), sea: seaAsked() },
      surroundings({ seas: [[0, 24, 1, 9]] }),
    );
    expect(shallow.at(START + 6 * HOUR).reasons).toEqual([{ kind: "breaking", heightMetres: expect.any(Number), by: "depth" }]);
  });

  it("has the wind's own beside it over a stated fetch, from seaward alone", () => {
    const withWind = (deg: number) =>
      reader(
        { stream: stream(), sea: seaAsked({ fetchMetres: 20_000 }) },
        surroundings({ seas: [[0, 24, 0.5, 12]], winds: [[0, 24, deg, 18]] }),
      ).at(START).sea;
    const [onshore, offshore] = [withWind(270), withWind(90)];
    if (onshore?.kind !== "runs" || offshore?.kind !== "runs") throw new Error("blocked at slack");
    expect(offshore.heightMetres).toBeCloseTo(0.5, 9);
    // By squares: more than either, less than their sum.
    expect(onshore.heightMetres).toBeGreaterThan(0.7);
    expect(onshore.steepness).toBeGreaterThan(2 * offshore.steepness);
    const blind = reader({ stream: stream(), sea: seaAsked({ fetchMetres: 20_000 }) }, surroundings({ seas: [[0, 24, 0.5, 12]] }));
    expect(blind.at(START).reasons).toEqual([{ kind: "notJudged", lacks: "wind" }]);
  });
});

describe("wind against the ebb", () => {
  it("is its component against the set times the rate, and nothing on the flood", () => {
    const one = reader({ stream: stream(), windAgainstEbbNeverMps2: kn(1) * kn(30) }, surroundings({ winds: [[0, 24, 240, 15]] }));
    expect(one.at(START + 3 * HOUR).windAgainstEbbMps2).toBeCloseTo(kn(15) * Math.cos(Math.PI / 6) * kn(3), 9);
    expect(kinds(one, 3)).toEqual(["windAgainstEbb"]);
    expect(one.at(START + 9 * HOUR).windAgainstEbbMps2).toBe(0);
    const unknown = reader({ stream: stream(), windAgainstEbbNeverMps2: 1 }, surroundings({ winds: [[0, 1, 240, 15]] }));
    expect([kinds(unknown, 3), kinds(unknown, 9)]).toEqual([["notJudged"], []]);
  });
});

describe("an entrance read by eye", () => {
  it("wants the sun high, and off the bow", () => {
    const where = { latitudeDeg: 40, longitudeDeg: -30 };
    const at = START + 10 * HOUR;
    const { altitudeDeg, azimuthDegTrue } = sunPlace(epochSeconds(at), where);
    const asked = (above: number, course: number) =>
      reader({ eye: { sunAboveDeg: above, offBow: { courseDegTrue: course, leastDeg: 40 } } })
        .at(at)
        .reasons.map(({ kind }) => kind);
    expect(asked(altitudeDeg - 0.1, azimuthDegTrue + 41)).toEqual([]);
    expect(asked(altitudeDeg + 0.1, azimuthDegTrue + 41)).toEqual(["sunLow"]);
    expect(asked(altitudeDeg - 0.1, azimuthDegTrue + 39)).toEqual(["sunAhead"]);
  });
});

it("an entrance names a tide and a stream that there are", () => {
  expect(() => reader({ depth: depth({ tide: "none" }) })).toThrow("no tide called none");
  expect(() => reader({ stream: stream({ of: "none" }) })).toThrow("no stream called none");
});

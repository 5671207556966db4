import { describe, expect, it } from "vitest";
import { COVERED, NO_PLACE, NO_VARIABLE } from "../../../src/core/fields/index.ts";
import {
  AGAINST_HEIGHT_METRES,
  AGAINST_SLOTS,
  AGAINST_STEEPNESS,
  growingSea,
  seaGrownInto,
  waveOnCurrent,
} from "../../../src/core/sea/index.ts";
import { MPS_PER_KNOT } from "../../../src/core/units/index.ts";
import { type Exposure, feel, judge, OPEN_WATER, type Passed } from "../../../src/core/window/index.ts";
import { clock, HOUR, limit, plane, seas, trackOf, winds } from "./setup.ts";

const covers = { from: clock(0), until: clock(24) };
const wind = winds({ from: 0, until: 24, dir: 0, low: 10 }).onPlane(plane, 0);
const calm = winds({ from: 0, until: 24, dir: 0, low: 0 }).onPlane(plane, 0);
const passedOf = (open: Passed["open"]): Passed => ({ out: null, open, into: null });

/** Over 36 nm at 6 kn, an hour a node, in streams to north, knots; without a wind unless told, that nothing grows by. */
function over(
  streamsKn: readonly number[],
  sea: readonly [number, number, number | null, number | null] | null,
  answeredBy = 0,
  wind = calm,
): Exposure {
  const track = trackOf(streamsKn.map((north, k) => ({ at: clock(5) + k * HOUR, nm: 36 - 6 * k, north, answeredBy })));
  const source = sea === null ? null : seas([0, 24, ...sea]).onPlane(plane);
  return feel(passedOf(track), wind, source);
}
const open = { during: "openWater" } as const;
const STREAM = [0, 1, 2, 3, 2, 1, 0];

describe("the sea on the stream", () => {
  // Common practice: a 3 ft sea at 10 s is calm. Waves of 1 m and 6 s against 3 kn: 1.653 m, steepness 0.0469 (computed; the sea's own tests).
  it("is run dead against the set at every node, by the same sums as one wave alone", () => {
    const exposure = over(STREAM, [1, 1, 6, 6]);
    const { seaSteepness, seaOnCurrentMetres } = exposure.columns;
    for (let i = 0; i < exposure.count; i++) {
      const rate = Math.hypot(exposure.currentEastMps[i] as number, exposure.currentNorthMps[i] as number);
      const alone = waveOnCurrent({ heightMetres: 1, periodSeconds: 6, fromDegTrue: 0 }, { alongWaveMps: -rate }, null);
      if (alone.kind !== "runs") throw new Error("blocked");
      expect(seaSteepness.high[i]).toBeCloseTo(alone.steepness, 12);
      expect(seaOnCurrentMetres.high[i]).toBeCloseTo(alone.heightMetres, 12);
    }
    expect(judge(exposure, limit("seaSteepness", 1 / 25, 1 / 13, open), covers)).toMatchObject({
      kind: "judged",
      value: expect.closeTo(0.046909, 6),
      at: clock(8),
    });
    expect(judge(exposure, limit("seaOnCurrentMetres", 1.2, 2.1, open), covers)).toMatchObject({ value: expect.closeTo(1.65279, 5) });
  });

  // Both physics by the core's own reckoning of a wind and its fetch: the worse of each counts.
  it("tells a wind sea by both physics, the worse of each, and one that the wind doesn't raise by the first alone", () => {
    // 12 m/s over 60 km, from dead ahead of the set.
    const strong = winds({ from: 0, until: 24, dir: 0, low: 12 / MPS_PER_KNOT }).onPlane(plane, 0);
    const rate = 1.5 * MPS_PER_KNOT;
    const both = growingSea({
      wind: { eastMps: 0, northMps: -12 },
      current: { eastMps: 0, northMps: rate },
      fetchMetres: 60e3,
      durationSeconds: null,
      depthMetres: null,
    });
    const { heightMetres, periodSeconds } = both.still;
    const sea = [heightMetres, heightMetres, periodSeconds, periodSeconds] as const;
    const { seaOnCurrentMetres, seaSteepness } = over(Array(7).fill(1.5), sea, 0, strong).columns;
    if (both.meeting?.kind !== "runs") throw new Error("blocked");
    expect(seaOnCurrentMetres.high[3]).toBeCloseTo(Math.max(both.meeting.heightMetres, both.growing.heightMetres), 9);
    expect(seaSteepness.high[3]).toBeCloseTo(Math.max(both.meeting.steepness, both.growing.steepness ?? 0), 9);
    const grown = new Float64Array(AGAINST_SLOTS);
    seaGrownInto(grown, heightMetres, periodSeconds ?? 0, { windMps: 12, relativeMps: 12 + rate, alongMps: -rate });
    expect(grown[AGAINST_HEIGHT_METRES]).toBeCloseTo(both.growing.heightMetres, 9);
    expect(grown[AGAINST_STEEPNESS]).toBeCloseTo(both.growing.steepness ?? 0, 9);
    // A long swell is none of this wind's.
    const swell = over(Array(7).fill(1.5), [1, 1, 11, 11], 0, strong).columns.seaOnCurrentMetres.high[3];
    expect(swell).toBe(over(Array(7).fill(1.5), [1, 1, 11, 11]).columns.seaOnCurrentMetres.high[3]);
  });

  // Common practice: at a second to the foot a sea is square; a 3 ft sea at 10 s is calm. On the stream by the period met drifting with it.
  it("tells the period over the height on the stream, of the worst system and of the whole", () => {
    const low = (exposure: Exposure) => exposure.columns.seaSecondsPerMetre.low[3] as number;
    const foot = 0.3048;
    expect(low(over(Array(7).fill(0), [7 * foot, 7 * foot, 7, 7])) * foot).toBeCloseTo(1, 9);
    expect(low(over(Array(7).fill(0), [3 * foot, 3 * foot, 10, 10])) * foot).toBeCloseTo(10 / 3, 9);
    const alone = waveOnCurrent({ heightMetres: 1, periodSeconds: 6, fromDegTrue: 0 }, { alongWaveMps: -1.5 * MPS_PER_KNOT }, null);
    if (alone.kind !== "runs") throw new Error("blocked");
    expect(low(over(Array(7).fill(1.5), [1, 1, 6, 6]))).toBeCloseTo(alone.relativePeriodSeconds / alone.heightMetres, 9);
    expect(low(over(STREAM, [0.1, 0.1, 3, 3]))).toBe(60);
    expect(low(over(Array(7).fill(0), [0.6, 1, 4, 6]))).toBeCloseTo(4, 9);
    expect(judge(over(Array(7).fill(1.5), [1, 1, 6, 6]), limit("seaSecondsPerMetre", 5, 3, open), covers)).toMatchObject({
      kind: "judged",
      value: expect.closeTo(alone.relativePeriodSeconds / alone.heightMetres, 6),
    });
  });

  it("is easy, and no number is lost, where the wind goes with the water or there is no sea at all", () => {
    const north = winds({ from: 0, until: 24, dir: 180, low: 3 / MPS_PER_KNOT }).onPlane(plane, 0);
    const carried = over(Array(7).fill(3 / MPS_PER_KNOT), [0.22, 0.22, 2.2, 2.2], 0, north).columns;
    for (const column of [carried.seaSecondsPerMetre, carried.seaSteepness, carried.seaOnCurrentMetres])
      expect([...column.low, ...column.high].every((value) => Number.isFinite(value))).toBe(true);
    const none = over(STREAM, [0, 0, null, null]).columns;
    expect([none.seaPeriodSeconds.coverage[3], none.seaPeriodSeconds.low[3]]).toEqual([COVERED, 60]);
    expect([none.seaSteepness.high[3], none.seaSecondsPerMetre.low[3]]).toEqual([0, 60]);
  });

  it("no stream changes no sea, by either physics", () => {
    const still = over(Array(7).fill(0), [1, 1, 5, 5], 0, wind).columns;
    expect(still.seaOnCurrentMetres.high[3]).toBe(1);
    const grown = new Float64Array(AGAINST_SLOTS);
    for (const height of [0.3, 1, 3, 8]) {
      seaGrownInto(grown, height, 7, { windMps: 9, relativeMps: 9, alongMps: 0 });
      expect(grown[AGAINST_HEIGHT_METRES]).toBeCloseTo(Math.min(height, (9.80665 * 49) / (2 * Math.PI) / 13), 9);
    }
  });

  it("a short sea that the forecast's own height lets by shuts the passage where the stream runs", () => {
    const chop = over(STREAM, [0.9, 0.9, 4, 4]);
    expect(judge(chop, limit("seaHeightMetres", 1.2, 2.1, open), covers)).toMatchObject({
      kind: "judged",
      margin: expect.closeTo(4 / 3, 9),
    });
    const steep = judge(chop, limit("seaSteepness", 1 / 25, 1 / 13, open), covers);
    expect(steep).toMatchObject({ kind: "judged", value: expect.closeTo(1 / 7, 9), at: clock(8) });
    if (steep.kind === "judged") {
      expect(steep.margin).toBeLessThan(0);
      // By 2 kn it is not yet past 1/13, so the door shuts between that hour and the next.
      expect(steep.firstPastNeverAt).toBeGreaterThan(clock(6));
      expect(steep.firstPastNeverAt).toBeLessThan(clock(8));
    }
    expect(judge(over([0, 0, 0, 0, 0, 0, 0], [0.9, 0.9, 4, 4]), limit("seaSteepness", 1 / 25, 1 / 13, open), covers)).toMatchObject({
      kind: "judged",
      margin: expect.closeTo((1 / 13 - 0.9 / 24.972429) / (1 / 13 - 1 / 25), 6),
    });
  });

  it("takes of ranges the higher and the shorter, and never less than the forecast's height", () => {
    const ranged = over(STREAM, [0.6, 0.9, 4, 6]);
    const [low, high] = [ranged.columns.seaSteepness.low[3] as number, ranged.columns.seaSteepness.high[3] as number];
    expect(low).toBeCloseTo(0.6 * 0.046909, 4);
    expect(high).toBeCloseTo(1 / 7, 9);
    for (let i = 0; i < ranged.count; i++) expect(ranged.columns.seaOnCurrentMetres.high[i]).toBeGreaterThanOrEqual(0.9);
  });

  it("passes over a popple, and blocks what is more", () => {
    expect(over(STREAM, [0.1, 0.1, 3, 3]).columns.seaSteepness.high[3]).toBe(0);
    expect(over(STREAM, [0.3, 0.3, 3, 3]).columns.seaSteepness.high[3]).toBeCloseTo(1 / 7, 9);
  });

  // Common practice: swell and wind sea are judged apart; both as one sea at the swell's period would hide what breaks.
  it("judges the systems a source tells apart each by itself and its own way", () => {
    const asOne = seas([0, 24, 1.3, 1.3, 10, 10]).onPlane(plane);
    /** Height, period, toward (null: not told). */
    const apart = (...systems: readonly (readonly [number, number, number | null])[]) => ({
      ...asOne,
      systemsInto(out: Float64Array): number {
        systems.forEach(([height, seconds, toward], k) => {
          const rad = ((toward ?? 0) * Math.PI) / 180;
          out.set([height, seconds, toward === null ? 0 : Math.sin(rad), toward === null ? 0 : Math.cos(rad)], 4 * k);
        });
        return systems.length;
      },
    });
    const track = trackOf(STREAM.map((north, k) => ({ at: clock(5) + k * HOUR, nm: 36 - 6 * k, north, answeredBy: 0 })));
    const at3Kn = (sea: typeof asOne) => {
      const { seaSteepness, seaOnCurrentMetres } = feel(passedOf(track), wind, sea).columns;
      return { steepness: seaSteepness.high[3] as number, height: seaOnCurrentMetres.high[3] as number };
    };
    expect(at3Kn(asOne).steepness).toBeLessThan(1 / 25);
    // A wind sea running south meets the north-going stream; running north it is eased, and dead across it is left alone.
    expect(at3Kn(apart([0.9, 10, 180], [0.9, 4, 180])).steepness).toBeCloseTo(1 / 7, 9);
    const fair = at3Kn(apart([0.9, 10, 180], [0.9, 4, 0]));
    expect(fair.steepness).toBeLessThan(1 / 25);
    expect(at3Kn(apart([0.9, 4, 90])).steepness).toBeCloseTo(0.9 / 24.972429, 6);
    expect(at3Kn(apart([0.9, 4, null])).steepness).toBeCloseTo(1 / 7, 9);
    // By squares: the swell stands 1.2766 times as high, the eased sea is counted as before; the whole 1.3 m grows as they do together.
    expect(fair.height).toBeCloseTo(1.3 * Math.sqrt((1.27609 ** 2 + 1) / 2), 3);
  });

  it("is not judged without a period, without a sea, or where the current is not known", () => {
    const asked = limit("seaSteepness", 1 / 25, 1 / 13, open);
    expect(judge(over(STREAM, [1, 1, null, null]), asked, covers)).toMatchObject({
      kind: "notJudged",
      why: { code: "not-covered-variable" },
    });
    expect(judge(over(STREAM, null), asked, null)).toMatchObject({ kind: "notJudged", why: { code: "not-covered-variable" } });
    const assumed = over(STREAM, [1, 1, 6, 6], -1);
    expect(judge(assumed, asked, covers)).toMatchObject({ kind: "notJudged", why: { code: "not-covered-place" } });
    expect(judge(assumed, limit("seaHeightMetres", 1.2, 2.1, open), covers)).toMatchObject({ kind: "judged" });
    const nodes = Array.from(assumed.part, (part, i) => (part === OPEN_WATER ? assumed.columns.seaOnCurrentMetres.coverage[i] : null));
    expect(nodes.filter((one) => one !== null)).toEqual(Array(7).fill(NO_PLACE));
    expect(over(STREAM, [1, 1, null, null]).columns.seaHeightMetres.coverage[0]).toBe(COVERED);
    expect(over(STREAM, [1, 1, null, null]).columns.seaOnCurrentMetres.coverage[0]).toBe(NO_VARIABLE);
  });
});

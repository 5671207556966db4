/**
 * Waves on currents and wind seas, held against the world outside. As a skipper sums it up: a sea of 3 ft at 10 s is nothing, in three
 * knots against it nothing still (4 ft, but 400 ft long). A wind sea of 3 ft at 4 s is hardly worth a word in still water; in the
 * same three knots it stands up and breaks, and anything shorter is stopped altogether. With the stream both lie down.
 *
 * Independent sums: references/make_sea.py → sea.json (scipy; wavelengths by Brent, energies, edges followed step by step). Status: computed.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { GRAVITY_MPS2 } from "../../src/core/boat/index.ts";
import {
  alongWaveMps,
  BREAKING_STEEPNESS,
  beaufortOf,
  blockingBy,
  COASTAL_MANUAL_GROWTH,
  combinedHeightMetres,
  deepFactors,
  encounterOf,
  groupShare,
  growingSea,
  highestOf,
  notesForShips,
  PERIOD_OVER_PEAK,
  rollPeriodSeconds,
  seaComfortOf,
  seaFeelOf,
  seaStateOf,
  shoalingFactor,
  splitSea,
  stillWaterWave,
  surfRidingFromMps,
  swellWordsOf,
  type WaveSystem,
  waveNumber,
  waveOnCurrent,
  waveOverEdge,
  windOverWater,
  windSea,
} from "../../src/core/sea/index.ts";
import { METRES_PER_FOOT as FT, MPS_PER_KNOT as KN, motionToward, speedOf, towardOf } from "../../src/core/units/index.ts";

interface System {
  readonly name: string;
  readonly givenHeight: number;
  readonly periodSeconds: number;
  readonly rateKn: number;
  readonly offDeg: number;
  readonly depthMetres: number | null;
  readonly givenInDepthMetres: number | null;
  readonly blocked: boolean;
  readonly gotHeightMetres: number | null;
  readonly gotLengthMetres: number | null;
}
interface Edge {
  readonly name: string;
  readonly periodSeconds: number;
  readonly fromDegTrue: number;
  readonly setDegTrue: number;
  readonly rateKn: number;
  readonly edgeAlongDegTrue: number;
  readonly depthMetres: number | null;
  readonly heightRatio: number;
  readonly lengthMetres: number;
  readonly insideFromDegTrue: number;
}
const reference: {
  readonly systems: readonly System[];
  readonly edges: readonly Edge[];
  readonly blocking: readonly { rateKn: number; depthMetres: number | null; periodSeconds: number; lengthMetres: number }[];
  readonly periodOverPeak: Readonly<Record<"growing" | "full", Readonly<Record<"energy" | "mean" | "zeroCrossing", number>>>>;
} = JSON.parse(readFileSync(new URL("./references/sea.json", import.meta.url), "utf8"));

const near = (value: number | null | undefined, wanted: number, share: number): void =>
  expect(Math.abs((value ?? Number.NaN) / wanted - 1), `${value} against ${wanted}`).toBeLessThan(share);

/** Waves of a period against a current along them, deep, knots. */
const deep = (heightMetres: number, periodSeconds: number, alongKn: number) =>
  waveOnCurrent({ heightMetres, periodSeconds, fromDegTrue: 0 }, { alongWaveMps: alongKn * KN }, null);

describe("waves in still water", () => {
  // Source: σ² = g k tanh kd at 9.80665 m/s², computed; tolerance of the table 1e-5.
  it.each([
    [4, null, 24.972429, 6.243107, 0.5],
    [6, null, 56.187966, 9.364661, 0.5],
    [8, null, 99.889717, 12.486215, 0.5],
    [10, null, 156.077682, 15.607768, 0.5],
    [6, 10, 48.394304, 8.065717, 0.694589],
    [8, 10, 70.883408, 8.860426, 0.810064],
    [10, 10, 92.355817, 9.235582, 0.873576],
    [8, 5, 53.07145, 6.633931, 0.899828],
    [10, 3, 53.146413, 5.314641, 0.960406],
    [10, 2, 43.691877, 4.369188, 0.973455],
  ])("%s s in %s m", (period, depth, length, speed, share) => {
    const wave = stillWaterWave(period, depth);
    expect(Math.abs(wave.lengthMetres - length)).toBeLessThan(1e-5);
    expect(Math.abs(wave.speedMps - speed)).toBeLessThan(1e-5);
    expect(Math.abs(wave.groupSpeedMps / wave.speedMps - share)).toBeLessThan(1e-5);
  });

  // Source: Shore Protection Manual (1984), table C-1: d/L0 → d/L, tanh, n, H/H0'; computed anew, tolerance 1e-4.
  it.each([
    [0.01, 0.040317, 0.248035, 0.979234, 1.43478],
    [0.02, 0.057628, 0.347052, 0.958831, 1.22579],
    [0.05, 0.094155, 0.53104, 0.899934, 1.02286],
    [0.1, 0.140981, 0.709317, 0.81025, 0.93273],
    [0.15, 0.183302, 0.818323, 0.732468, 0.91333],
    [0.2, 0.225115, 0.888434, 0.667712, 0.91807],
    [0.5, 0.501828, 0.996357, 0.511509, 0.99049],
  ])("shoaling at d/L0 %s", (share, overLength, tanh, n, height) => {
    const period = 10;
    const depth = (share * GRAVITY_MPS2 * period * period) / (2 * Math.PI);
    const k = waveNumber((2 * Math.PI) / period, depth);
    expect(Math.abs((depth * k) / (2 * Math.PI) - overLength)).toBeLessThan(1e-4);
    expect(Math.abs(Math.tanh(k * depth) - tanh)).toBeLessThan(1e-4);
    expect(Math.abs(groupShare(k, depth) - n)).toBeLessThan(1e-4);
    expect(Math.abs(shoalingFactor(period, depth, null) - height)).toBeLessThan(1e-4);
    const onCurrent = waveOnCurrent({ heightMetres: 1, periodSeconds: period, fromDegTrue: 0 }, { alongWaveMps: 0 }, depth);
    expect(onCurrent.kind === "runs" && Math.abs(onCurrent.heightMetres - height)).toBeLessThan(1e-4);
  });
});

describe("waves meeting a current in deep water", () => {
  // Source: Longuet-Higgins & Stewart (1961), both cases; formulas from memory, derived again.
  it.each([
    [-0.05, 0.947214, 0.897214, 1.116297, 1.057371, 1.244181],
    [-0.1, 0.887298, 0.787298, 1.280538, 1.136219, 1.626497],
    [-0.15, 0.816228, 0.666228, 1.540542, 1.257433, 2.312336],
    [-0.2, 0.723607, 0.523607, 2.066521, 1.495349, 3.946704],
    [0.1, 1.091608, 1.191608, 0.842173, 0.919323, 0.706753],
    [0.2, 1.17082, 1.37082, 0.73738, 0.86334, 0.537912],
  ])("U/c0 %s", (share, speed, length, action, lateral, steepness) => {
    const factors = deepFactors(share);
    near(factors?.speed, speed, 1e-6);
    near(factors?.length, length, 2e-6);
    near(factors?.heightByUpwelling, action, 1e-6);
    near(factors?.heightByInflow, lateral, 1e-6);
    const still = stillWaterWave(7, null);
    const wave = { heightMetres: 0.5, periodSeconds: 7, fromDegTrue: 0 };
    const got = waveOnCurrent(wave, { alongWaveMps: share * still.speedMps }, null);
    if (got.kind !== "runs") throw new Error("blocked");
    near(got.heightRatio, action, 1e-6);
    near(got.lengthMetres / still.lengthMetres, length, 2e-6);
    near(got.steepnessRatio, steepness, 2e-6);
    // A metre of water under a very deep sea is no different.
    const deepDown = waveOnCurrent(wave, { alongWaveMps: share * still.speedMps }, 2000);
    near(deepDown.kind === "runs" ? deepDown.heightMetres : null, got.heightMetres, 1e-9);
  });

  it("1 m of 6 s against 3 kn: 1.653 m on 35.2 m, steepness 0.047 where it was 0.018 (computed)", () => {
    const got = deep(1, 6, -3);
    if (got.kind !== "runs") throw new Error("blocked");
    near(got.heightMetres, 1.65279, 1e-5);
    near(got.lengthMetres, 35.234, 1e-4);
    near(got.steepness, 0.046909, 1e-4);
    near(got.steepness / got.steepnessRatio, 0.017797, 1e-4);
  });

  // Source: USACE ERDC/CHL TR-02-22, eqs 19–26. The trap: by the phase speed a knot would block a quarter of this period.
  it.each([
    [1, 1.3184],
    [2, 2.6369],
    [3, 3.9553],
    [4, 5.2737],
    [5, 6.5922],
  ])("%s kn blocks what is shorter than %s s, by group speed and not by phase speed", (rate, period) => {
    const at = blockingBy(rate * KN, null);
    expect(Math.abs((at?.periodSeconds ?? 0) - period)).toBeLessThan(1e-4);
    expect(deep(0.1, period - 1e-3, -rate)).toMatchObject({ kind: "blocked", breaking: true });
    expect(deep(0.1, period + 1e-3, -rate).kind).toBe("runs");
    near(at?.lengthMetres, stillWaterWave(at?.periodSeconds ?? 0, null).lengthMetres / 4, 1e-9);
    // At blocking the phase speed in still water is four times the current's, so "phase speed equals current" lets by what is blocked.
    near(stillWaterWave(at?.periodSeconds ?? 0, null).speedMps, 4 * rate * KN, 1e-9);
  });

  it("in shallow water nothing gets against √(g d)", () => {
    expect(blockingBy(Math.sqrt(GRAVITY_MPS2 * 2) * 1.0001, 2)).toBeNull();
    expect(blockingBy(Math.sqrt(GRAVITY_MPS2 * 2) * 0.99, 2)?.periodSeconds).toBeGreaterThan(30);
  });

  // Source: Coastal Engineering Manual, example problem II-6-4, p. II-6-42: 1.35 m, read from a chart, so within 6 %; by action 1.4137.
  it("5 s, 1 m in 5 m against 1 m/s", () => {
    const wave = { heightMetres: 1, periodSeconds: 5, fromDegTrue: 0 };
    const got = waveOnCurrent(wave, { alongWaveMps: -1 }, 5, { givenInDepthMetres: 5 });
    if (got.kind !== "runs") throw new Error("blocked");
    near(got.heightMetres, 1.35, 0.06);
    near(got.heightMetres, 1.4137, 5e-4);
  });
});

describe("against independent sums", () => {
  it.each(reference.systems)("$name", (one) => {
    const wave = { heightMetres: one.givenHeight, periodSeconds: one.periodSeconds, fromDegTrue: 210 };
    const current = motionToward(one.rateKn * KN, 210 + one.offDeg);
    const got = waveOnCurrent(wave, current, one.depthMetres, { givenInDepthMetres: one.givenInDepthMetres });
    expect(got.kind).toBe(one.blocked ? "blocked" : "runs");
    if (got.kind !== "runs" || one.gotHeightMetres === null || one.gotLengthMetres === null) return;
    near(got.heightMetres, one.gotHeightMetres, 1e-7);
    near(got.lengthMetres, one.gotLengthMetres, 1e-9);
  });

  it.each(reference.edges)("bent over an edge: $name", (one) => {
    const wave = { heightMetres: 1, periodSeconds: one.periodSeconds, fromDegTrue: one.fromDegTrue };
    const edge = one.edgeAlongDegTrue === one.setDegTrue ? undefined : one.edgeAlongDegTrue;
    const got = waveOverEdge(wave, motionToward(one.rateKn * KN, one.setDegTrue), one.depthMetres, edge);
    if (got.kind !== "runs") throw new Error(got.kind);
    near(got.heightRatio, one.heightRatio, 1e-8);
    near(got.lengthMetres, one.lengthMetres, 1e-9);
    expect(Math.abs(got.fromDegTrue - one.insideFromDegTrue)).toBeLessThan(1e-6);
  });

  // Source: Longuet-Higgins & Stewart (1961), shear current: H/H0 = √(sin 2θ0 / sin 2θ), cos θ = cos θ0 (σ0/σ)² (from memory).
  it.each([20, 45, 70])("the shear current's own formula at %s° to the edge", (angle) => {
    const rad = (angle * Math.PI) / 180;
    const still = stillWaterWave(6, null);
    const along = (-3 * KN * Math.cos(rad)) / still.speedMps;
    const inside = Math.acos(Math.cos(rad) / (1 - along) ** 2);
    const got = waveOverEdge({ heightMetres: 1, periodSeconds: 6, fromDegTrue: angle }, motionToward(3 * KN, 0), null);
    near(got.kind === "runs" ? got.heightRatio : null, Math.sqrt(Math.sin(2 * rad) / Math.sin(2 * inside)), 1e-9);
  });

  it.each(reference.blocking)("the shortest period that gets on against $rateKn kn in $depthMetres m", (one) => {
    const at = blockingBy(one.rateKn * KN, one.depthMetres);
    near(at?.periodSeconds, one.periodSeconds, 1e-9);
    near(at?.lengthMetres, one.lengthMetres, 1e-4);
  });

  it.each(["growing", "full"] as const)("periods over the peak's, spectrum %s, by numerical integration", (shape) => {
    for (const period of ["energy", "mean", "zeroCrossing"] as const)
      expect(Math.abs(PERIOD_OVER_PEAK[shape][period] - reference.periodOverPeak[shape][period])).toBeLessThan(1e-4);
  });
});

describe("swell and wind sea are judged apart", () => {
  const swell: WaveSystem = { heightMetres: 3 * FT, periodSeconds: 10, fromDegTrue: 0 };
  const chop: WaveSystem = { heightMetres: 3 * FT, periodSeconds: 4, fromDegTrue: 0 };
  const on = (wave: WaveSystem, alongKn: number) => waveOnCurrent(wave, { alongWaveMps: alongKn * KN }, null);

  it("against 3 kn the swell stays harmless, the wind sea breaks; with 2 kn both are harmless", () => {
    expect(seaFeelOf(on(swell, -3))).toBe("harmless");
    expect(seaFeelOf(on(chop, -3))).toBe("breaking");
    expect(seaFeelOf(on({ ...chop, periodSeconds: 3.5 }, -3))).toBe("blocked");
    expect(seaFeelOf(on(swell, 2))).toBe("harmless");
    expect(seaFeelOf(on(chop, 2))).toBe("harmless");
    expect(seaFeelOf(on({ ...chop, periodSeconds: 6 }, 2))).toBe("harmless");
  });

  it("combined by squares into one sea at the swell's period, the breaking would be missed", () => {
    const total = { ...swell, heightMetres: combinedHeightMetres(swell.heightMetres, chop.heightMetres) };
    expect(seaFeelOf(on(total, -3))).toBe("harmless");
    expect(seaFeelOf(on(chop, -3))).toBe("breaking");
  });

  // Common practice: seas add by squares, 3 and 4 make 5; 10–11 s is swell, under 9 s wind sea.
  it("a total is told apart by the wind sea known, or not at all", () => {
    expect(combinedHeightMetres(3, 4)).toBe(5);
    const total = { heightMetres: 2.5, periodSeconds: 11, fromDegTrue: 300 };
    const raised = { heightMetres: 1.5, periodSeconds: 4.5, fromDegTrue: 20 };
    expect(splitSea(total, raised)).toEqual({ kind: "split", swell: { ...total, heightMetres: 2 }, windSea: raised });
    expect(splitSea(total, "notKnown")).toEqual({ kind: "notToldApart", why: "wind-not-known" });
    expect(splitSea({ ...total, periodSeconds: 9.5 }, raised)).toEqual({ kind: "notToldApart", why: "period-between" });
    expect(splitSea({ ...total, periodSeconds: 6 }, raised)).toMatchObject({ kind: "allWindSea", windSea: { heightMetres: 2.5 } });
  });
});

describe("steepness and height in a train of waves", () => {
  // Source: Rayleigh, √(ln N / 2); a boating-safety page rounds 10 ft to "1 in 10 over 11, 1 in 100 over 16, 1 in 1000 over 19" (16 is high).
  it.each([
    [10, 1.073, 11],
    [100, 1.5174, 16],
    [1000, 1.8585, 19],
  ])("one in %s is %s of the significant height", (n, ratio, printedOfTen) => {
    expect(Math.abs(highestOf(n) - ratio)).toBeLessThan(5e-5);
    expect(Math.abs(10 * highestOf(n) - printedOfTen)).toBeLessThan(1);
  });

  // Source: waves break at H/L = 1/7 (an ocean-information centre's note on wave steepness); 1.86 Hs = L/7 at Hs/L = 1/13.
  it("at a significant steepness of 1/13 the highest in a thousand reaches 1/7", () => {
    near(BREAKING_STEEPNESS * highestOf(1000), 1 / 7, 2e-3);
  });

  // Common practice: waves break in a depth of 1.3 times their height (0.78).
  it("over a bar of 3 m seas of 1.26 m break, of 1.25 m don't yet", () => {
    const over = (heightMetres: number) =>
      waveOnCurrent({ heightMetres, periodSeconds: 9, fromDegTrue: 0 }, { alongWaveMps: 0 }, 3, { givenInDepthMetres: 3 });
    expect(over(1.26)).toMatchObject({ breaking: true, breakingBy: ["depth"] });
    expect(over(1.25)).toMatchObject({ breaking: false, breakingBy: [] });
  });

  // Computed from the deep-water length; the pairs of feet and seconds are skippers' own (common practice).
  it.each([
    [5, 11, 0.00807, "easy"],
    [5, 6, 0.02712, "uncomfortable"],
    [3, 3, 0.0651, "square"],
    [7, 7, 0.0279, "square"],
    [6, 6, 0.03255, "square"],
    [10, 8, 0.03051, "square"],
    [4.5, 11, undefined, "easy"],
    [2.5, 3, undefined, "uncomfortable"],
    [3, 10, undefined, "easy"],
  ] as const)("%s ft at %s s", (feet, seconds, steepness, comfort) => {
    const got = deep(feet * FT, seconds, 0);
    if (got.kind !== "runs") throw new Error("blocked");
    if (steepness !== undefined) expect(Math.abs(got.steepness - steepness)).toBeLessThan(1e-5);
    expect(seaComfortOf(feet * FT, seconds)).toBe(comfort);
  });
});

describe("a wind sea", () => {
  const over = (windMps: number, km: number | null, hours: number | null) => ({
    windMps,
    fetchMetres: km === null ? null : km * 1000,
    durationSeconds: hours === null ? null : hours * 3600,
    depthMetres: null,
  });

  // The handbooks' figures are at 9.81 m/s², ours at 9.80665: heights and periods part by 2e-4.
  const BY_GRAVITY = 3e-4;

  // Source: a coastal-engineering course's exercise (Shore Protection Manual's form): 15 m/s, full 5.573 m and 12.43 s; 200 km 3.42 m, 9.0 s.
  it("grows with fetch as the exercise has it", () => {
    const fetched = windSea(over(15, 200, null));
    near(fetched.heightMetres, 3.4268, BY_GRAVITY);
    near(fetched.periodSeconds, 9, 0.01);
    expect(fetched.limitedBy).toBe("fetch");
    const full = windSea(over(15, null, null));
    near(full.heightMetres, 5.573, 1e-3);
    near(full.periodSeconds, 12.43, 1e-3);
    expect(full.limitedBy).toBe("full");
    expect(windSea(over(15, 520, null)).limitedBy).toBe("fetch");
    expect(windSea(over(15, 540, null)).limitedBy).toBe("full");
  });

  // The trap: the exercise gives ten hours and its key forgets them. Duration by 68.8 F^⅔ (from memory).
  it("is held down by ten hours to 2.92 m and 8.09 s", () => {
    const got = windSea(over(15, 200, 10));
    near(got.heightMetres, 2.92, 1e-3);
    near(got.periodSeconds, 8.09, 1e-3);
    expect(got.limitedBy).toBe("duration");
  });

  // Source: Coastal Engineering Manual, part II-2, pp. 36–46; 0.0413, 0.651 and the drag from memory.
  it.each([
    [15, 200, null, 3.56573, 7.02507],
    [15, 200, 6, 1.60332, 4.12319],
    [7.5, 90, null, 1.09513, 4.14915],
  ])("by the second handbook: %s m/s over %s km for %s h", (wind, km, hours, height, period) => {
    const got = windSea(over(wind, km, hours), COASTAL_MANUAL_GROWTH);
    near(got.heightMetres, height, BY_GRAVITY);
    near(got.periodSeconds, period, BY_GRAVITY);
  });

  // Common practice: 4–5 nm off a weather shore with 20–25 kn off the land, 1–3 ft.
  it("under a weather shore it is what skippers report", () => {
    for (const [kn, nm] of [
      [20, 4],
      [25, 5],
    ] as const) {
      const feet = windSea({ windMps: kn * KN, fetchMetres: nm * 1852, durationSeconds: null, depthMetres: null }).heightMetres / FT;
      expect(feet).toBeGreaterThan(1);
      expect(feet).toBeLessThan(3);
    }
  });

  it("in 3 m of water stops at what the depth lets grow", () => {
    const got = windSea({ windMps: 15, fetchMetres: 100e3, durationSeconds: null, depthMetres: 3 });
    expect(got).toMatchObject({ limitedBy: "depth" });
    // Source: Coastal Engineering Manual, eq. II-2-39 (from memory).
    near(got.periodSeconds, 9.78 * Math.sqrt(3 / GRAVITY_MPS2), 1e-9);
  });

  // Source: wind − current by vectors, computed; stress by the square of the speed.
  it.each([
    [15, 0, 3.5, 0, 18.5, 0, 1.52111],
    [15, 180, 3.5, 0, 11.5, 180, 0.58778],
    [20, 45, 3, 0, 22.2228, 39.522, undefined],
  ])("%s kn from %s over %s kn to %s", (wind, from, rate, set, relative, relativeFrom, stress) => {
    const got = windOverWater(motionToward(wind * KN, from + 180), motionToward(rate * KN, set));
    near(speedOf(got) / KN, relative, 1e-5);
    expect(Math.abs((((towardOf(got) ?? 0) + 180) % 360) - relativeFrom)).toBeLessThan(1e-3);
    if (stress !== undefined) near((speedOf(got) / (wind * KN)) ** 2, stress, 1e-5);
  });

  it("on a stream both physics are told, the worse governs", () => {
    const on = (setDeg: number) =>
      growingSea({
        wind: motionToward(20 * KN, 180),
        current: motionToward(3 * KN, setDeg),
        fetchMetres: 60e3,
        durationSeconds: null,
        depthMetres: null,
      });
    const against = on(0);
    near(against.growing.relativeWindMps, 23 * KN, 1e-9);
    expect(against.governs).toBe("meeting");
    expect(against.meeting).toMatchObject({ kind: "runs", breaking: true });
    expect(against.growing.heightMetres).toBeGreaterThan(against.still.heightMetres);
    expect(against.growing.fetchThroughWaterMetres).toBeGreaterThan(60e3);
    const fair = on(180);
    expect(fair.growing.heightMetres).toBeLessThan(fair.still.heightMetres);
    expect(fair.growing.fetchThroughWaterMetres).toBeLessThan(60e3);
    expect(fair.governs).toBe("growing");
  });
});

describe("words of the sea", () => {
  // Source: Beaufort scale as a national weather office prints it.
  it.each([
    [0, 0, 0],
    [3, 1, 0.1],
    [10, 3, 0.6],
    [16, 4, 1],
    [21, 5, 2],
    [27, 6, 3],
    [33, 7, 4],
    [34, 8, 5.5],
    [47, 9, 7],
    [48, 10, 9],
    [63, 11, 11.5],
    [64, 12, 14],
  ])("%s kn is force %s", (kn, force, probable) => {
    expect(beaufortOf(kn * KN)).toMatchObject({ force, probableHeightMetres: probable });
  });

  // Source: WMO code table 3700: the exact bounding height goes to the lower code, 4 m is rough.
  it.each([
    [0, 0, "calm (glassy)"],
    [0.1, 1, "calm (rippled)"],
    [0.5, 2, "smooth"],
    [1.25, 3, "slight"],
    [1.2500001, 4, "moderate"],
    [2.5, 4, "moderate"],
    [4, 5, "rough"],
    [4.01, 6, "very rough"],
    [9, 7, "high"],
    [14, 8, "very high"],
    [14.1, 9, "phenomenal"],
  ])("%s m is code %s", (height, code, words) => {
    expect(seaStateOf(height)).toEqual({ code, words });
  });

  // Source: the same organisation's words for swell.
  it("a swell is low, moderate or heavy, short, average or long", () => {
    expect(swellWordsOf(2, 100)).toEqual({ height: "low", length: "short" });
    expect(swellWordsOf(4, 200)).toEqual({ height: "moderate", length: "average" });
    expect(swellWordsOf(4.1, 201)).toEqual({ height: "heavy", length: "long" });
  });
});

describe("what the boat feels", () => {
  const wave = (period: number) => ({ lengthMetres: stillWaterWave(period, null).lengthMetres, relativePeriodSeconds: period });
  const met = (period: number, kn: number, offBow: number) => encounterOf(wave(period), offBow, { headingDegTrue: 0, speedMps: kn * KN });

  // Source: IMO MSC.1/Circ.1228 (formula from memory) with 3 for g/2π, within 0.7 %; exact figures computed.
  it.each([
    [6, 6, 180, 9, 8.95, "following"],
    [6, 6, 0, 4.5, 4.5126, "head"],
    [6, 6, 90, 6, 6, "beam"],
    [8, 7, 150, 10.7036, 10.6634, "following"],
  ])("waves of %s s at %s kn, %s° off the bow", (period, kn, offBow, circular, exact, sector) => {
    const got = met(period, kn, offBow);
    near(got.periodSeconds, exact, 1e-5);
    near(got.periodSeconds, circular, 7e-3);
    expect(got).toMatchObject({ sector, overtaking: false });
  });

  it("as fast as the waves, before a dead following sea, she meets none; faster she overtakes them", () => {
    const own = wave(3).lengthMetres / 3 / KN;
    expect(met(3, own, 180)).toMatchObject({ periodSeconds: null, overtaking: false });
    expect(met(3, own * 1.5, 180)).toMatchObject({ overtaking: true });
    near(met(3, own * 1.5, 180).periodSeconds, 6, 1e-9);
  });

  // Source: the same circular and the 2008 IS Code, A 2.3; both written for ships.
  it("the circular's figures for 10.06 m", () => {
    near((surfRidingFromMps(10.06, 180) ?? 0) / KN, 5.709, 1e-3);
    near((surfRidingFromMps(10.06, 150) ?? 0) / KN, 6.592, 1e-3);
    near((surfRidingFromMps(10.06, 135) ?? 0) / KN, 8.074, 1e-3);
    expect(surfRidingFromMps(10.06, 134)).toBeNull();
    near(rollPeriodSeconds({ beamMetres: 3.8, draughtMetres: 1.7, waterlineMetres: 10.06, metacentricMetres: 1.1 }), 3.044, 1e-3);
  });

  it("notes a boat caught by following seas, and one rolled in her own period", () => {
    const ship = { lengthMetres: 10.06, speedMps: 6.5 * KN, rollPeriodSeconds: 3.044 };
    const astern = encounterOf(wave(4), 180, { headingDegTrue: 0, speedMps: 6.5 * KN });
    expect(astern.periodSeconds).toBeGreaterThan(1.8 * 4);
    const kinds = notesForShips(ship, { heightMetres: 1, lengthMetres: wave(4).lengthMetres }, astern).map((one) => one.kind);
    expect(kinds).toEqual(["surf-riding", "successive-high-waves"]);
    const abeam = encounterOf(wave(3.1), 90, { headingDegTrue: 0, speedMps: 6.5 * KN });
    const rolling = notesForShips(ship, { heightMetres: 0.3, lengthMetres: wave(3.1).lengthMetres }, abeam).map((one) => one.kind);
    expect(rolling).toEqual(["synchronous-rolling", "parametric-rolling"]);
  });
});

it("a current's part along the waves: what runs toward where they come from is against them", () => {
  expect(alongWaveMps(45, motionToward(2, 45))).toBeCloseTo(-2, 12);
  expect(alongWaveMps(45, motionToward(2, 225))).toBeCloseTo(2, 12);
  expect(alongWaveMps(45, motionToward(2, 135))).toBeCloseTo(0, 12);
});

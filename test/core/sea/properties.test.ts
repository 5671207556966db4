import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { GRAVITY_MPS2 } from "../../../src/core/boat/index.ts";
import {
  encounterOf,
  growingSea,
  growthLaws,
  seaAfterBlowMetres,
  seaLeftMetres,
  stillWaterWave,
  type WaveOnCurrent,
  waveNumber,
  waveOnCurrent,
  waveOverEdge,
  windSea,
} from "../../../src/core/sea/index.ts";
import { motionToward } from "../../../src/core/units/index.ts";

const wave = fc.record({
  heightMetres: fc.double({ min: 0.01, max: 15, noNaN: true }),
  periodSeconds: fc.double({ min: 0.5, max: 30, noNaN: true }),
  fromDegTrue: fc.double({ min: 0, max: 360, noNaN: true }),
});
const depth = fc.option(fc.double({ min: 0.2, max: 5000, noNaN: true }), { nil: null });
const rate = fc.double({ min: 0, max: 8, noNaN: true });
const bearing = fc.double({ min: 0, max: 360, noNaN: true });

/** Every number found in an answer. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/** Flux of wave action over ρg/8, by its own sums from the length alone. */
function actionFlux(heightMetres: number, lengthMetres: number, along: number, depthMetres: number | null): number {
  const k = (2 * Math.PI) / lengthMetres;
  const kd = depthMetres === null ? Number.POSITIVE_INFINITY : k * depthMetres;
  const sigma = Math.sqrt(GRAVITY_MPS2 * k * (kd > 50 ? 1 : Math.sinh(kd) / Math.cosh(kd)));
  const share = kd > 50 ? 0.5 : 0.5 + kd / (2 * Math.sinh(kd) * Math.cosh(kd));
  return (heightMetres ** 2 / sigma) * ((share * sigma) / k + along);
}

describe("waves on a current", () => {
  it("settle σ² = g k tanh kd to 1e-12", () => {
    fc.assert(
      fc.property(wave, depth, ({ periodSeconds }, d) => {
        const sigma = (2 * Math.PI) / periodSeconds;
        const k = waveNumber(sigma, d);
        expect(Math.abs((GRAVITY_MPS2 * k * (d === null ? 1 : Math.tanh(k * d))) / sigma ** 2 - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it("are left as they are by none, and by one dead across", () => {
    fc.assert(
      fc.property(wave, depth, rate, (one, d, mps) => {
        const still = waveOnCurrent(one, { alongWaveMps: 0 }, d, { givenInDepthMetres: d });
        if (still.kind !== "runs") throw new Error("blocked");
        expect(Math.abs(still.heightMetres - one.heightMetres)).toBeLessThanOrEqual(1e-12 * one.heightMetres);
        expect(still.heightRatio).toBeCloseTo(1, 12);
        expect(still.lengthMetres).toBeCloseTo(stillWaterWave(one.periodSeconds, d).lengthMetres, 9);
        const across = waveOnCurrent({ ...one, periodSeconds: Math.max(2, one.periodSeconds) }, motionToward(mps, one.fromDegTrue + 90), d);
        expect(across.kind === "runs" && across.heightRatio).toBeCloseTo(1, 9);
      }),
    );
  });

  it("stand higher and steeper the harder it runs against them, until they break or are blocked", () => {
    fc.assert(
      fc.property(wave, depth, rate, rate, (one, d, a, b) => {
        fc.pre(one.heightMetres > 0 && Math.abs(a - b) > 1e-6);
        const on = (mps: number): WaveOnCurrent => waveOnCurrent(one, { alongWaveMps: -mps }, d);
        const [less, more] = [on(Math.min(a, b)), on(Math.max(a, b))];
        if (less.kind === "blocked") return expect(more.kind).toBe("blocked");
        if (more.kind === "blocked") return;
        expect(more.heightMetres).toBeGreaterThan(less.heightMetres);
        expect(more.lengthMetres).toBeLessThan(less.lengthMetres);
        if (less.breaking) expect(more.breaking).toBe(true);
      }),
    );
  });

  it("keep the flux of wave action to 1e-9 outside breaking", () => {
    let held = 0;
    fc.assert(
      fc.property(wave, depth, fc.double({ min: -8, max: 8, noNaN: true }), (one, d, along) => {
        const still = stillWaterWave(one.periodSeconds, d);
        const got = waveOnCurrent({ ...one, heightMetres: 0.2 }, { alongWaveMps: along }, d, { givenInDepthMetres: d });
        if (got.kind !== "runs" || got.breaking) return;
        held++;
        const before = actionFlux(0.2, still.lengthMetres, 0, d);
        expect(Math.abs(actionFlux(got.heightMetres, got.lengthMetres, along, d) / before - 1)).toBeLessThan(1e-9);
        // And the crests keep their period at a fixed place.
        expect(Math.abs(got.lengthMetres / (got.lengthMetres / got.relativePeriodSeconds + along) / one.periodSeconds - 1)).toBeLessThan(
          1e-9,
        );
      }),
      { numRuns: 400 },
    );
    expect(held).toBeGreaterThan(100);
  });

  it("change in length alone where the source already has the current in its height", () => {
    const one = { heightMetres: 1, periodSeconds: 7, fromDegTrue: 0 };
    const included = waveOnCurrent(one, { alongWaveMps: -1 }, null, { heightIncludesCurrent: true });
    const apart = waveOnCurrent(one, { alongWaveMps: -1 }, null);
    if (included.kind !== "runs" || apart.kind !== "runs") throw new Error("blocked");
    expect(included.heightMetres).toBe(1);
    expect(included.lengthMetres).toBe(apart.lengthMetres);
  });

  it("over an edge met square on are as waves meeting the current head on", () => {
    fc.assert(
      fc.property(wave, depth, rate, fc.boolean(), (one, d, mps, against) => {
        const set = one.fromDegTrue + (against ? 0 : 180);
        const meeting = waveOnCurrent(one, motionToward(mps, set), d, { givenInDepthMetres: d });
        const over = waveOverEdge(one, motionToward(mps, set), d, one.fromDegTrue + 90);
        // A hair from blocking either may call it blocked before the other does.
        const atBlocking = [meeting, over].map((one) => one.kind === "blocked" || (one.kind === "runs" && one.heightRatio > 100));
        if (atBlocking.includes(true)) {
          expect(atBlocking).toEqual([true, true]);
          return;
        }
        if (meeting.kind === "blocked") return;
        if (over.kind !== "runs") throw new Error(`${over.kind} at ${mps}`);
        expect(Math.abs(over.heightRatio / meeting.heightRatio - 1)).toBeLessThan(1e-6);
      }),
    );
  });

  it("over a stream's edge never stand higher against it than meeting it head on", () => {
    fc.assert(
      fc.property(wave, rate, fc.double({ min: 1, max: 89, noNaN: true }), (one, mps, off) => {
        const current = motionToward(mps, one.fromDegTrue + off);
        const meeting = waveOnCurrent(one, current, null);
        const over = waveOverEdge(one, current, null);
        if (meeting.kind === "blocked") return;
        expect(over.kind).toBe("runs");
        if (over.kind === "runs") expect(over.heightMetres).toBeLessThanOrEqual(meeting.heightMetres * (1 + 1e-9));
      }),
    );
  });
});

describe("a wind sea", () => {
  const fetch = fc.option(fc.double({ min: 0, max: 3e6, noNaN: true }), { nil: null });
  const duration = fc.option(fc.double({ min: 0, max: 1e6, noNaN: true }), { nil: null });

  it("never falls as wind, fetch, time or depth grow", () => {
    const more = (value: number | null): number | null => (value === null ? null : value * 1.1);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fetch,
        duration,
        depth,
        (windMps, fetchMetres, durationSeconds, depthMetres) => {
          for (const law of growthLaws) {
            const over = { windMps, fetchMetres, durationSeconds, depthMetres };
            const { heightMetres } = windSea(over, law);
            for (const grown of [
              { ...over, windMps: windMps * 1.1 },
              { ...over, fetchMetres: more(fetchMetres) },
              { ...over, durationSeconds: more(durationSeconds) },
              { ...over, depthMetres: more(depthMetres) },
            ])
              expect(windSea(grown, law).heightMetres).toBeGreaterThanOrEqual(heightMetres * (1 - 1e-12));
          }
        },
      ),
    );
  });

  it("on a stream that stands still is the same by both physics", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 40, noNaN: true }),
        fetch,
        duration,
        depth,
        (mps, fetchMetres, durationSeconds, depthMetres) => {
          const over = { wind: motionToward(mps, 30), current: motionToward(0, 0), fetchMetres, durationSeconds, depthMetres };
          const { still, growing } = growingSea(over);
          expect(growing.heightMetres).toBeCloseTo(still.heightMetres, 9);
          expect(growing.relativePeriodSeconds ?? 0).toBeCloseTo(still.periodSeconds ?? 0, 9);
        },
      ),
    );
  });

  it("lies down by half in twelve hours, and adds to the next by squares", () => {
    expect(seaLeftMetres(2, 24 * 3600)).toBeCloseTo(0.5, 12);
    expect(seaAfterBlowMetres(0.3, 1.6, 24 * 3600)).toBeCloseTo(0.5, 12);
    expect(() => seaLeftMetres(2, -1)).toThrow("-1");
  });
});

describe("whatever is asked within the range of seas", () => {
  it("no answer holds a number that is none", () => {
    fc.assert(
      fc.property(wave, depth, depth, rate, bearing, bearing, (one, d, givenInDepthMetres, mps, set, edge) => {
        const current = motionToward(mps, set);
        const answers = [
          waveOnCurrent(one, current, d, { givenInDepthMetres }),
          waveOverEdge(one, current, d),
          waveOverEdge(one, current, d, edge),
          growingSea({
            wind: motionToward(mps * 4, edge),
            current,
            fetchMetres: mps * 1e5,
            durationSeconds: one.periodSeconds * 3600,
            depthMetres: d,
          }),
          encounterOf({ lengthMetres: 20, relativePeriodSeconds: one.periodSeconds }, set, { headingDegTrue: edge, speedMps: mps }),
        ];
        for (const value of numbersIn(answers)) expect(Number.isFinite(value)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  it("what is no wave is our own mistake, quoted", () => {
    const one = { heightMetres: 1, periodSeconds: 6, fromDegTrue: 0 };
    expect(() => waveOnCurrent({ ...one, periodSeconds: 0 }, { alongWaveMps: 0 }, null)).toThrow("wave period 0");
    expect(() => waveOnCurrent({ ...one, heightMetres: Number.NaN }, { alongWaveMps: 0 }, null)).toThrow("NaN");
    expect(() => waveOnCurrent(one, { alongWaveMps: 0 }, 0)).toThrow("depth 0");
    expect(() => windSea({ windMps: -1, fetchMetres: 1, durationSeconds: null, depthMetres: null })).toThrow("wind -1");
  });
});

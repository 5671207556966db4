import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { epochSeconds } from "../../../../src/core/units/index.ts";
import { highsAndLows, levelCrossings, type TideCurve, withoutRipples } from "../../../../src/core/water/index.ts";
import { curveOf, madeStation } from "./made-station.ts";

const DAY = 86_400;
const start = Date.UTC(2027, 3, 1) / 1000;
const span = (days: number, from = start) => [epochSeconds(from), epochSeconds(from + days * DAY)] as const;

/** Turns by brute force: the rate at every minute, changes of its sign. */
function turnsByMinutes(curve: TideCurve, from: number, until: number): readonly { readonly at: number; readonly kind: string }[] {
  const turns: { at: number; kind: string }[] = [];
  let before = curve.rateAt(epochSeconds(from));
  for (let at = from + 60; at <= until; at += 60) {
    const rate = curve.rateAt(epochSeconds(at));
    if (before < 0 !== rate < 0) turns.push({ at: at - 60, kind: before < 0 ? "low" : "high" });
    before = rate;
  }
  return turns;
}

const amplitude = (max: number) => fc.double({ min: 0, max, noNaN: true });
const phase = fc.double({ min: 0, max: 360, noNaN: true });
/** Tides of every form: semidiurnal, diurnal, with shallow-water constituents as large as they come and larger. */
const station = fc
  .record({
    M2: fc.tuple(amplitude(3), phase),
    S2: fc.tuple(amplitude(1.2), phase),
    N2: fc.tuple(amplitude(0.6), phase),
    K1: fc.tuple(amplitude(1), phase),
    O1: fc.tuple(amplitude(1), phase),
    M4: fc.tuple(amplitude(0.5), phase),
    M6: fc.tuple(amplitude(0.25), phase),
    M8: fc.tuple(amplitude(0.1), phase),
    M12: fc.tuple(amplitude(0.02), phase),
    SA: fc.tuple(amplitude(0.3), phase),
  })
  .filter((constants) => Object.values(constants).some(([metres]) => metres > 0.01))
  .map((constants) => curveOf(madeStation(constants, 1)));

describe("high and low waters", () => {
  it("come in turn; each is above or below its neighbours a minute away; none that a minute's scan sees is missed", () => {
    fc.assert(
      fc.property(station, fc.integer({ min: 0, max: 3000 }), (curve, day) => {
        const [from, until] = span(15, start + day * DAY);
        const turns = highsAndLows(curve, from, until);
        turns.forEach(({ at, kind, heightMetres }, i) => {
          expect(at).toBeGreaterThanOrEqual(from);
          expect(at).toBeLessThan(until);
          const next = turns[i + 1];
          if (next !== undefined) {
            expect(next.kind).not.toBe(kind);
            expect(next.at).toBeGreaterThan(at);
            expect((next.heightMetres - heightMetres) * (kind === "low" ? 1 : -1)).toBeGreaterThan(-1e-9);
          }
          expect(heightMetres).toBeCloseTo(curve.heightAt(at), 12);
          // A second turn may come within the minute; then the neighbour is the nearer of the two.
          const reach = Math.min(60, ((next?.at ?? until) - at) / 2, (at - (turns[i - 1]?.at ?? from)) / 2);
          for (const side of [-reach, reach]) {
            const beside = curve.heightAt(epochSeconds(at + side));
            expect((heightMetres - beside) * (kind === "high" ? 1 : -1)).toBeGreaterThan(-1e-9);
          }
        });
        for (const seen of turnsByMinutes(curve, from, until)) {
          expect(turns.some(({ at, kind }) => kind === seen.kind && at >= seen.at - 0.1 && at <= seen.at + 60.1)).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("finds both highs of a double tide, and the ripple of a stand that a half hour's scan passes over", () => {
    // M4 more than a quarter of M2 makes two highs where its crest meets theirs.
    const double = curveOf(madeStation({ M2: [1, 0], M4: [0.4, 180] }));
    const [from, until] = span(2);
    expect(highsAndLows(double, from, until).filter(({ kind }) => kind === "high").length).toBeGreaterThanOrEqual(7);
    // At just a quarter the top is flat: slightly above it (0.258 by that year's node factor, 0.975) the two highs stand close together.
    const barely = curveOf(madeStation({ M2: [1, 0], M4: [0.258, 180] }));
    const turns = highsAndLows(barely, from, epochSeconds(from + 60 * DAY));
    const gaps = turns.flatMap(({ at }, i) => (i > 0 ? [at - (turns[i - 1]?.at ?? 0)] : []));
    const brute = turnsByMinutes(barely, from, from + 60 * DAY);
    expect(turns.length).toBe(brute.length);
    expect(Math.min(...gaps)).toBeLessThan(3600);
  });

  it("has one high on most days of a diurnal tide", () => {
    const diurnal = curveOf(madeStation({ K1: [0.4, 20], O1: [0.35, 300], M2: [0.02, 0] }));
    const highs = highsAndLows(diurnal, ...span(28)).filter(({ kind }) => kind === "high");
    expect(highs.length).toBeGreaterThanOrEqual(27);
    expect(highs.length).toBeLessThanOrEqual(31);
  });

  it("gives instants to a second: the rate changes its sign within half a second of each", () => {
    const curve = curveOf(madeStation({ M2: [1.4, 33], S2: [0.5, 80], K1: [0.3, 200], M4: [0.1, 9] }));
    for (const { at, kind } of highsAndLows(curve, ...span(40))) {
      const before = curve.rateAt(epochSeconds(at - 0.5));
      const after = curve.rateAt(epochSeconds(at + 0.5));
      expect(kind === "high" ? before > 0 && after < 0 : before < 0 && after > 0).toBe(true);
    }
  });

  it("is the same in pieces as in one", () => {
    const curve = curveOf(madeStation({ M2: [1.4, 33], K1: [0.6, 200], M4: [0.5, 9], M6: [0.2, 70] }));
    const [from, until] = span(60);
    const whole = highsAndLows(curve, from, until);
    const pieces = Array.from({ length: 60 }, (_, day) => highsAndLows(curve, ...span(1, from + day * DAY))).flat();
    expect(pieces.length).toBe(whole.length);
    pieces.forEach(({ at }, i) => {
      expect(Math.abs(at - (whole[i]?.at ?? 0))).toBeLessThan(0.1);
    });
  });

  it("can be told without ripples, highs and lows still in turn, the highest and the lowest kept", () => {
    const rippled = curveOf(madeStation({ M2: [0.6, 0], M4: [0.25, 180], M6: [0.01, 20] }));
    const turns = highsAndLows(rippled, ...span(20));
    const plain = withoutRipples(turns, 0.1);
    expect(plain.length).toBeLessThan(turns.length);
    plain.forEach(({ kind, heightMetres }, i) => {
      const next = plain[i + 1];
      if (next === undefined) return;
      expect(next.kind).not.toBe(kind);
      expect(Math.abs(next.heightMetres - heightMetres)).toBeGreaterThanOrEqual(0.1);
    });
    const heights = (of: typeof turns) => of.map(({ heightMetres }) => heightMetres);
    expect(Math.max(...heights(plain))).toBe(Math.max(...heights(turns)));
    expect(Math.min(...heights(plain))).toBe(Math.min(...heights(turns)));
    expect(withoutRipples(turns, 0)).toEqual(turns);
  });
});

describe("crossings of a level", () => {
  it("are all there, rising and falling in turn, and the water stands at the level there", () => {
    fc.assert(
      fc.property(station, fc.double({ min: -3, max: 5, noNaN: true }), (curve, level) => {
        const [from, until] = span(12);
        const crossings = levelCrossings(curve, level, from, until);
        crossings.forEach(({ at, rising }, i) => {
          expect(curve.heightAt(at)).toBeCloseTo(level, 4);
          if (i > 0) expect(rising).not.toBe(crossings[i - 1]?.rising);
        });
        let seen = 0;
        let above = curve.heightAt(from) > level;
        for (let at = from + 60; at < until; at = epochSeconds(at + 60)) {
          const now = curve.heightAt(epochSeconds(at)) > level;
          if (now !== above) seen++;
          above = now;
        }
        expect(crossings.length).toBeGreaterThanOrEqual(seen);
        expect((crossings.length - seen) % 2).toBe(0);
      }),
      { numRuns: 60 },
    );
  });
});

import { describe, expect, it } from "vitest";
import { addedBySea, boatModel, GRAVITY_MPS2, headSeaRule, speedLeftInSea } from "../../../src/core/boat/index.ts";
import { COVERED, NO_TIME } from "../../../src/core/fields/index.ts";
import {
  bowOnDestination,
  type Crossing,
  carriedOutAt,
  carryOut,
  crossingOf,
  holdTrack,
  lineBetween,
  oneHeading,
  waysAndBest,
} from "../../../src/core/passage/index.ts";
import { waveOnCurrent } from "../../../src/core/sea/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import { uniformCurrent } from "../../../src/core/water/index.ts";
import { periodSea, periodWind, type SeaSampler } from "../../../src/core/weather/index.ts";
import { boat, kn, sail } from "../boat/boats.ts";
import { arriving, FLAT, HOUR, NM } from "./waters.ts";

const LOSS = 0.2;
const spec = boat({ headSeaLossShare: LOSS, waterlineLengthMetres: 10 });
const rule = headSeaRule(LOSS, 10);
if (rule === null) throw new Error("no rule");
const lengthOf = (seconds: number): number => (GRAVITY_MPS2 * seconds * seconds) / (2 * Math.PI);
const leftIn = (height: number, seconds: number, cosOffBow = 1): number =>
  speedLeftInSea(rule, cosOffBow * addedBySea(rule, height, lengthOf(seconds)));

/** Systems that run toward a bearing, the same everywhere: height, period, toward. */
function systems(...ones: readonly (readonly [number, number, number])[]): SeaSampler {
  return {
    readInto: (out) => {
      out.fill(0);
      return COVERED;
    },
    systemsInto: (out) => {
      ones.forEach(([height, seconds, towardDeg], k) => {
        const rad = (towardDeg * Math.PI) / 180;
        out.set([height, seconds, Math.sin(rad), Math.cos(rad)], 4 * k);
      });
      return ones.length;
    },
    breaksWithin: () => [],
  };
}

/** Thirty miles east; the wind, knots, from a bearing; the current, knots, toward another. */
function over(
  sea: SeaSampler | null,
  {
    windKn = 0,
    windFrom = 0,
    setDeg = 0,
    rateKn = 0,
    of = spec,
  }: { windKn?: number; windFrom?: number; setDeg?: number; rateKn?: number; of?: typeof spec } = {},
): Crossing {
  const model = boatModel(of);
  if (!model.ok) throw new Error(JSON.stringify(model.issues));
  const period = { from: epochSeconds(0), until: epochSeconds(72 * HOUR), fromDegTrue: windFrom, arcDeg: 0, gustMps: null };
  const wind = periodWind("letter", null, [{ ...period, speedLowMps: kn(windKn), speedHighMps: kn(windKn) }], 1.4);
  const current = uniformCurrent(setDeg, kn(rateKn));
  const around = {
    plane: FLAT,
    current: current.onPlane(FLAT),
    currentCovers: null,
    wind: wind.onPlane(FLAT, 0),
    windCovers: wind.covers,
    sea,
  };
  return crossingOf(lineBetween(FLAT, 0, 0, 30 * NM, 0), around, model.value);
}

const ways = (one: Crossing) => [oneHeading(one, 0), holdTrack(one, 0), bowOnDestination(one, 0)].map(arriving);
const speedKn = 5.5;

describe("a boat in head seas", () => {
  it.each([
    [1, 5],
    [0.5, 4],
    [2, 7],
    [2, 12],
  ])("is slowed by %d m at %d s from dead ahead by the rule, whatever way she is steered", (height, seconds) => {
    for (const way of ways(over(systems([height, seconds, 270]))))
      expect(way.arrivalAt / HOUR).toBeCloseTo(30 / (speedKn * leftIn(height, seconds)), 3);
  });

  it("is slowed by the cosine off the bow, and neither slowed nor helped from the beam and abaft", () => {
    for (const way of ways(over(systems([1, 5, 210]))))
      expect(way.arrivalAt / HOUR).toBeCloseTo(30 / (speedKn * leftIn(1, 5, Math.cos(Math.PI / 3))), 3);
    for (const toward of [0, 45, 90, 135, 180])
      for (const way of ways(over(systems([1, 5, toward])))) expect(way.arrivalAt / HOUR).toBeCloseTo(30 / speedKn, 3);
  });

  it("meets every system by itself, and adds what they add", () => {
    const added = addedBySea(rule, 1, lengthOf(5)) + addedBySea(rule, 1.5, lengthOf(11));
    for (const way of ways(over(systems([1, 5, 270], [1.5, 11, 270], [1, 5, 90]))))
      expect(way.arrivalAt / HOUR).toBeCloseTo(30 / (speedKn * speedLeftInSea(rule, added)), 3);
  });

  it("meets the seas as they stand on the stream, steeper against it and longer with it", () => {
    for (const [setDeg, along] of [
      [90, -1],
      [270, 1],
    ] as const) {
      const onStream = waveOnCurrent({ heightMetres: 0.7, periodSeconds: 5, fromDegTrue: 90 }, { alongWaveMps: along * kn(1.5) }, null);
      if (onStream.kind !== "runs" || onStream.breaking) throw new Error("not a plain sea");
      // No less than in still water where the stream eases it.
      const height = Math.max(0.7, onStream.heightMetres);
      const left = speedLeftInSea(rule, addedBySea(rule, height, onStream.lengthMetres));
      for (const way of ways(over(systems([0.7, 5, 270]), { setDeg, rateKn: 1.5 })))
        expect(way.arrivalAt / HOUR).toBeCloseTo(30 / (speedKn * left - along * 1.5), 3);
    }
  });

  it("takes a sea of which only height and period are told from where the wind comes, from ahead where there is none", () => {
    const told = periodSea("letter", null, [
      {
        from: epochSeconds(0),
        until: epochSeconds(72 * HOUR),
        heightLowMetres: 0.8,
        heightHighMetres: 1.2,
        periodLowSeconds: 4,
        periodHighSeconds: 6,
      },
    ]).onPlane(FLAT);
    const slowed = 30 / (speedKn * leftIn(1, 5));
    for (const way of ways(over(told))) expect(way.arrivalAt / HOUR).toBeCloseTo(slowed, 3);
    for (const way of ways(over(told, { windKn: 12, windFrom: 90 }))) expect(way.arrivalAt / HOUR).toBeCloseTo(slowed, 3);
    for (const way of ways(over(told, { windKn: 12, windFrom: 270 }))) expect(way.arrivalAt / HOUR).toBeCloseTo(30 / speedKn, 3);
  });

  it("loses nothing where no sea is known, and nothing when none is stated of her", () => {
    const unknown: SeaSampler = { readInto: () => NO_TIME, breaksWithin: () => [] };
    for (const sea of [null, unknown]) for (const way of ways(over(sea))) expect(way.arrivalAt / HOUR).toBeCloseTo(30 / speedKn, 3);
    for (const way of ways(over(systems([2, 5, 270]), { of: boat({}) }))) expect(way.arrivalAt / HOUR).toBeCloseTo(30 / speedKn, 3);
  });

  it("keeps the loss when she is run slower, and under sail", () => {
    const one = over(systems([1, 5, 270]));
    const half = carryOut(one, arriving(oneHeading(one, 0)), { speedFactor: 0.8 }).run;
    if (half.kind === "fails") throw new Error("no passage");
    expect(half.track.throughWaterMps[3]).toBeCloseTo(kn(speedKn) * 0.8 * leftIn(1, 5), 9);
    const sails = (loss: number) =>
      arriving(
        oneHeading(
          over(systems([1, 5, 270]), {
            windKn: 12,
            windFrom: 0,
            of: boat({ goes: "sail", sail, headSeaLossShare: loss, waterlineLengthMetres: 10 }),
          }),
          0,
        ),
      );
    // The stated sea by the very length that it has: the share that is stated.
    expect(sails(LOSS).track.throughWaterMps[3]).toBeCloseTo((1 - LOSS) * (sails(0).track.throughWaterMps[3] as number), 3);
  });

  it("under sail plans with the loss in it, on a course as in boards; the bound goes without", () => {
    const reach = (loss: number) => {
      const of = boat({ goes: "sail", sail, headSeaLossShare: loss, waterlineLengthMetres: 10 });
      const { fastest } = waysAndBest(over(systems([1, 5, 270]), { windKn: 12, windFrom: 0, of }), 0, { closely: true });
      if (fastest?.kind !== "arrives" || fastest.underSail?.plan.kind !== "arrives") throw new Error("no plan");
      return { bound: fastest.arrivalAt, plan: fastest.underSail.plan.arrivalAt };
    };
    const [without, slowed] = [reach(0), reach(LOSS)];
    expect(slowed.bound).toBeCloseTo(without.bound, 3);
    expect(slowed.plan / without.plan).toBeGreaterThan(1.15);
  });

  it("is crossed the fastest way with the loss in it: no later than any way, and in even seas no sooner than straight across", () => {
    const one = over(systems([1, 5, 240]), { setDeg: 0, rateKn: 1 });
    const found = waysAndBest(one, 0, { closely: true });
    if (found.fastest?.kind !== "arrives") throw new Error("no fastest");
    const earliest = Math.min(...found.ways.filter((way) => way.kind === "arrives").map((way) => arriving(way).arrivalAt));
    expect(carriedOutAt(found.fastest)).toBeLessThanOrEqual(earliest + 1);
    expect(carriedOutAt(found.fastest)).toBeGreaterThan(earliest * 0.98);
  });
});

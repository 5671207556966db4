import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { metresFromNm } from "../../../../src/core/units/index.ts";
import { gaussianJet, uniformCurrent } from "../../../../src/core/water/index.ts";
import { SeededRandom } from "../../../../src/core/window/chance/seeded-random.ts";
import {
  CHANCE_DEFAULTS,
  type ChanceErrors,
  chanceOf,
  DepartureKeeper,
  type Limit,
  orderToTry,
  shareOf,
  tryCrossings,
  type WeatherToFeel,
} from "../../../../src/core/window/index.ts";
import { clock, kn, limit, memberWinds, SteadyBoat, seas, trial, winds } from "../setup.ts";
import { below, chanceWith, NO_ERRORS, tryOne } from "./setup.ts";

const jet = gaussianJet({ rateMps: kn(2.5), axisMetres: metresFromNm(18), halfWidthMetres: metresFromNm(8) });
const weather: WeatherToFeel = {
  wind: winds({ from: 0, until: 10, dir: 190, low: 8, high: 10, gust: 13 }, { from: 10, until: 72, dir: 350, arc: 20, low: 12, high: 17 }),
  sea: seas([0, 12, 0.5, 1, 6, 7], [12, 72, 1.5, 2.2, 4, 5]),
};
const limits: readonly Limit[] = [
  limit("windMps", 15, 22),
  limit("gustMps", 20, 32, { toleratedSeconds: 1800 }),
  limit("windAgainstCurrentMps2", 0, 40, { during: "openWater" }),
  limit("seaHeightMetres", 1, 2.5),
  limit("sunAltitudeDeg", 0, -6, { during: "arrival" }),
];
const errors: ChanceErrors = { ...CHANCE_DEFAULTS, samples: 60 };
const hours = [3, 5, 8, 11];

function keeperOf(current = jet) {
  const setup = trial({ current });
  return new DepartureKeeper(() => setup, weather);
}

function crossings(keeper: DepartureKeeper, hour: number, by: ChanceErrors = errors) {
  const order = orderToTry(keeper.keep(clock(hour)));
  if (order === null) throw new Error("no way arrives");
  return tryCrossings(order, keeper.surroundings.over({ from: order.departAt, until: order.arrivalAt }), weather, by, limits);
}

describe("crossings that are tried", () => {
  it("come out the same to the bit in any order, and with nothing tried before them", () => {
    const alone = new Map(hours.map((hour) => [hour, crossings(keeperOf(), hour)]));
    fc.assert(
      fc.property(fc.shuffledSubarray(hours, { minLength: 2 }), (some) => {
        const keeper = keeperOf();
        for (const hour of some) expect(crossings(keeper, hour)).toEqual(alone.get(hour));
      }),
      { numRuns: 4 },
    );
  });

  it("are the first of a longer row of them", () => {
    const [few, many] = [crossings(keeperOf(), 5), crossings(keeperOf(), 5, { ...errors, samples: 90 })];
    expect([...many.samples.arrivalAt.slice(0, 60)]).toEqual([...few.samples.arrivalAt]);
  });

  it("are others for another seed and another departure, and tell the same chance within their errors", () => {
    const of = (seed: number, hour = 5) =>
      chanceWith(() => trial({ current: jet }), clock(hour), weather, { ...errors, seed, samples: 300 }, limits).good;
    const [one, other] = [of(1), of(2)];
    expect(one.count === other.count && of(3).count === one.count).toBe(false);
    expect(Math.abs(one.share - other.share)).toBeLessThan(3 * Math.hypot(one.standardError, other.standardError));
    const arrivals = (hour: number) => [...crossings(keeperOf(uniformCurrent(0, 0)), hour).samples.arrivalAt].map((at) => at - clock(hour));
    expect(arrivals(3)[0]).not.toBeCloseTo(arrivals(5)[0] as number, 3);
  });

  it("go as planned where nothing may turn out otherwise", () => {
    const kept = tryOne(() => trial({ current: jet }), clock(5), weather, { samples: 12 }, limits);
    const keeper = keeperOf();
    const { run } = keeper.keep(clock(5));
    const plannedAt = run.planned.kind === "arrives" ? run.planned.run.arrivalAt : 0;
    // The last fifth of the way on the straight track and longer steps: seconds.
    for (const at of kept.samples.arrivalAt) expect(Math.abs(at - plannedAt)).toBeLessThan(60);
  });

  // Each kind of error by itself and all together, so much of it and then more, drawn by the same numbers.
  it.each<[string, readonly (keyof ChanceErrors)[]]>([
    ["speed", ["speedShare"]],
    ["start", ["latestStartSeconds"]],
    ["heading", ["headingDeg"]],
    ["current", ["currentRmsMps"]],
    ["all", ["speedShare", "latestStartSeconds", "headingDeg", "currentRmsMps"]],
  ])("never arrive within a narrower stretch for more error: %s", (_name, keys) => {
    const setup = trial();
    const spread = (times: number): number => {
      const more = Object.fromEntries(keys.map((key) => [key, times * CHANCE_DEFAULTS[key]]));
      const { arrival } = chanceWith(() => setup, clock(5), weather, { ...NO_ERRORS, ...more, samples: 400 }, limits);
      return (arrival.lateAt ?? 0) - (arrival.earlyAt ?? 0);
    };
    const spreads = [0, 0.25, 0.5, 1, 1.5, 2].map(spread);
    expect(spreads[0]).toBeCloseTo(0, 6);
    for (let k = 1; k < spreads.length; k++) expect(spreads[k] as number).toBeGreaterThan(spreads[k - 1] as number);
  });

  it("meet a stream that is moved and of another total where there is one, and an error along the path where there is none", () => {
    expect(crossings(keeperOf(), 5).current).toBe("stream");
    expect(crossings(keeperOf(uniformCurrent(0, kn(0.3))), 5).current).toBe("alongPath");
    // The same total, moved by half a width: the one heading brings her to the destination all the same, as it rests on the total alone.
    const moved = chanceWith(() => trial({ current: jet }), clock(5), weather, { streamPlaceMetres: 7000, samples: 100 }, limits);
    const scaled = chanceWith(() => trial({ current: jet }), clock(5), weather, { streamTotalShare: 0.25, samples: 100 }, limits);
    const spreadOf = ({ arrival }: typeof moved) => (arrival.lateAt ?? 0) - (arrival.earlyAt ?? 0);
    expect(spreadOf(scaled)).toBeGreaterThan(3 * spreadOf(moved));
  });
});

describe("a chance", () => {
  it("is judged anew by other limits without running anything, as if they had been there from the start", () => {
    const boat = new SteadyBoat(6);
    const setup = trial({ current: jet, boat });
    const kept = tryOne(() => setup, clock(5), weather, errors, limits);
    boat.broken = true;
    expect(() => tryOne(() => setup, clock(5), weather, errors, limits)).toThrow("a passage was run again");
    const { runs } = boat;
    const shifted = limits.map((one) => ({ ...one, never: one.never + 0.4 * (one.never - one.happy) }));
    const again = chanceOf(kept, shifted);
    expect(boat.runs).toBe(runs);
    boat.broken = false;
    expect(again).toEqual(
      chanceOf(
        tryOne(() => setup, clock(5), weather, errors, shifted),
        shifted,
      ),
    );
    expect(again.good.count).toBeGreaterThan(chanceOf(kept, limits).good.count);
  });

  it("counts a toleration that was not kept as none, and says so", () => {
    const kept = tryOne(() => trial({ current: jet }), clock(5), weather, errors, limits);
    const other = limits.map((one) => (one.felt === "gustMps" ? limit("gustMps", 20, 32, { toleratedSeconds: 3600 }) : one));
    const none = limits.map((one) => (one.felt === "gustMps" ? limit("gustMps", 20, 32) : one));
    expect(chanceOf(kept, other).good).toEqual(chanceOf(kept, none).good);
    expect(chanceOf(kept, other).toleratedAsNone.map((one) => one.felt)).toEqual(["gustMps"]);
    expect(chanceOf(kept, limits).toleratedAsNone).toEqual([]);
    expect(chanceOf(kept, limits).good.count).toBeGreaterThanOrEqual(chanceOf(kept, none).good.count);
  });

  it("never counts as good what is not judged: no source, a forecast that ends on the way, no limit at all", () => {
    const judged = (felt: WeatherToFeel, by: readonly Limit[], hour = 5) =>
      chanceWith(() => trial(), clock(hour), felt, { speedShare: 0.1, samples: 200 }, by);
    const without = judged({ wind: winds({ from: 0, until: 72, dir: 0, low: 5 }), sea: null }, [limit("seaHeightMetres", 1, 2)]);
    expect(without).toMatchObject({ good: { count: 0 }, notJudged: 200 });
    expect(judged(weather, [])).toMatchObject({ good: { count: 0 }, notJudged: 200 });
    // The wind is told until just when she is planned to arrive: of the faster half all is known.
    const short = judged({ wind: winds({ from: 0, until: 11, dir: 0, low: 5 }), sea: null }, [limit("windMps", 15, 25)]);
    expect(short.past).toBe(0);
    expect(Math.abs(short.good.share - 0.5)).toBeLessThan(3 * Math.sqrt(0.25 / 200));
    // What is past never where it is known is past, whatever is not known.
    expect(judged({ wind: winds({ from: 0, until: 11, dir: 0, low: 30 }), sea: null }, [limit("windMps", 15, 25)]).past).toBe(200);
  });

  it("of a crossing that the water forbids is none", () => {
    // 5.8 kn of stream against 6 kn of boat, its total uncertain by a quarter: about half never get there.
    const ahead = trial({ nm: 2, current: uniformCurrent(90, kn(5.7)) });
    const chance = chanceWith(() => ahead, clock(1), weather, { streamTotalShare: 0.25, samples: 200 }, limits.slice(0, 1));
    expect(chance.noPassage).toBeGreaterThan(50);
    expect(chance.good.count + chance.past + chance.noPassage + chance.notJudged).toBe(200);
    expect(chance.arrival.lateAt).toBeNull();
    expect(chance.arrival.earlyAt).not.toBeNull();
  });
});

describe("the share of forecasts", () => {
  const setup = trial();

  it("is counted as it stands, with an error that is never nothing", () => {
    const members = memberWinds([
      [12, 180],
      [20, 180],
      [26, 180],
      [30, 180],
    ]);
    const chance = chanceWith(() => setup, clock(6), { wind: members, sea: null }, { samples: 40 }, [limit("windMps", 15, 25)]);
    expect(chance.forecasts).toEqual(shareOf(2, 4));
    // The crossings take the forecasts in turn.
    expect(chance.good).toMatchObject({ count: 20, of: 40 });
    expect(chance.wind).toBe("members");
    expect(shareOf(10, 10).standardError).toBeCloseTo(Math.sqrt(((11 / 12) * (1 / 12)) / 12), 12);
    expect(shareOf(10, 10).share).toBe(1);
  });

  it("agrees with the law that the forecasts are drawn by, within three of its standard errors", () => {
    const random = SeededRandom.from(77);
    const drawn = Array.from({ length: 400 }, (): [number, number] => [15 * Math.exp(0.2 * random.normal()), 180]);
    for (const never of [12, 15, 18]) {
      const felt = { wind: memberWinds(drawn), sea: null };
      const { forecasts } = chanceWith(() => setup, clock(6), felt, { samples: 10 }, [limit("windMps", 5, never)]);
      expect(Math.abs((forecasts?.share ?? 0) - below(Math.log(never / 15) / 0.2))).toBeLessThan(3 * (forecasts?.standardError ?? 0));
    }
  });
});

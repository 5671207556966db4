import { describe, expect, it } from "vitest";
import { COVERED, NO_PLACE, NO_TIME } from "../../../src/core/fields/index.ts";
import { epochSeconds } from "../../../src/core/units/index.ts";
import {
  firstSeaThatCovers,
  gridSea,
  periodSea,
  SEA_HAS_PERIOD,
  SEA_HEIGHT_HIGH_METRES,
  SEA_HEIGHT_LOW_METRES,
  SEA_PERIOD_HIGH_SECONDS,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SLOTS,
  SEA_SOURCE,
  type SeaPeriod,
  type SeaSource,
} from "../../../src/core/weather/index.ts";
import { gridOf } from "../fields/grids.ts";
import { plane } from "./readings.ts";

const period = (from: number, until: number, low: number, high: number, seconds: readonly [number, number] | null): SeaPeriod => ({
  from: epochSeconds(from),
  until: epochSeconds(until),
  heightLowMetres: low,
  heightHighMetres: high,
  periodLowSeconds: seconds?.[0] ?? null,
  periodHighSeconds: seconds?.[1] ?? null,
});
const read = (source: SeaSource, at: number, xMetres = 0) => {
  const out = new Float64Array(SEA_SLOTS).fill(-7);
  const coverage = source.onPlane(plane).readInto(out, xMetres, 0, at);
  if (coverage !== COVERED) {
    expect([...out]).toEqual(Array(SEA_SLOTS).fill(-7));
    return coverage;
  }
  return {
    height: [out[SEA_HEIGHT_LOW_METRES], out[SEA_HEIGHT_HIGH_METRES]],
    period: out[SEA_HAS_PERIOD] === 1 ? [out[SEA_PERIOD_LOW_SECONDS], out[SEA_PERIOD_HIGH_SECONDS]] : null,
    source: out[SEA_SOURCE],
  };
};
const grid = (quantity: "seaHeightMetres" | "seaPeriodSeconds", times: readonly number[], values: readonly (number | null)[]) =>
  gridOf({
    quantities: [quantity],
    latitudesDeg: [-1, 1],
    longitudesDeg: [-1, 2],
    times,
    source: "waves",
    values: ({ t }) => {
      const value = values[t];
      return value === null || value === undefined ? null : [value];
    },
  });

describe("the sea from periods", () => {
  const source = periodSea("letter", 3, [period(0, 100, 0.6, 0.9, [8, 9]), period(100, 200, 1, 1.5, null), period(300, 400, 2, 2, [6, 6])]);

  it("keeps both ranges; without a period it says so", () => {
    expect(read(source, 0)).toEqual({ height: [0.6, 0.9], period: [8, 9], source: 0 });
    expect(read(source, 100)).toEqual({ height: [1, 1.5], period: null, source: 0 });
    expect([read(source, -1), read(source, 200), read(source, 299), read(source, 401)]).toEqual([NO_TIME, NO_TIME, NO_TIME, NO_TIME]);
    expect(read(source, 400, 1e9)).toEqual({ height: [2, 2], period: [6, 6], source: 0 });
    expect(source).toMatchObject({ name: "letter", issuedAt: 3, covers: { from: 0, until: 400 } });
    expect(source.onPlane(plane).breaksWithin(0, 400)).toEqual([100, 200, 300]);
    expect(() => periodSea("none", null, [])).toThrow("at least one period");
  });

  it("where periods overlap has the widest range of both", () => {
    const overlapping = periodSea("letter", null, [
      period(50, 150, 1.2, 2, [5, 7]),
      period(0, 100, 0.5, 1.5, [6, 9]),
      period(80, 90, 0.1, 0.2, null),
    ]);
    expect(read(overlapping, 49)).toEqual({ height: [0.5, 1.5], period: [6, 9], source: 0 });
    expect(read(overlapping, 60)).toEqual({ height: [0.5, 2], period: [5, 9], source: 0 });
    expect(read(overlapping, 85)).toEqual({ height: [0.1, 2], period: [5, 9], source: 0 });
    expect(read(overlapping, 100)).toEqual({ height: [1.2, 2], period: [5, 7], source: 0 });
    expect(overlapping.covers).toEqual({ from: 0, until: 150 });
  });
});

describe("the sea from grids", () => {
  it("goes straight from step to step and never below none, and breaks at the steps of both grids", () => {
    const source = gridSea(grid("seaHeightMetres", [0, 100, 200, 300], [4, 0, 0, 4]), grid("seaPeriodSeconds", [0, 150], [4, 10]));
    expect(read(source, 50)).toMatchObject({ height: [2, 2], period: [6, 6] });
    for (let at = 100; at <= 200; at += 10) expect(read(source, at)).toMatchObject({ height: [0, 0] });
    expect(read(source, 300)).toMatchObject({ height: [4, 4], period: null });
    expect(read(source, 301)).toBe(NO_TIME);
    expect(read(source, 300, 1e9)).toBe(NO_PLACE);
    expect(source.onPlane(plane).breaksWithin(0, 300)).toEqual([100, 150, 200]);
  });

  it("without periods says so, and a single step of them is not held for ever", () => {
    expect(read(gridSea(grid("seaHeightMetres", [0, 100], [1, 1]), null), 50)).toMatchObject({ period: null });
    const once = gridSea(grid("seaHeightMetres", [0, 100], [1, 1]), grid("seaPeriodSeconds", [0], [8]));
    expect(read(once, 0)).toMatchObject({ period: [8, 8] });
    expect(read(once, 50)).toMatchObject({ height: [1, 1], period: null });
  });

  it("one step holds at that instant only", () => {
    const source = gridSea(grid("seaHeightMetres", [70], [1]), null);
    expect(read(source, 70)).toMatchObject({ height: [1, 1] });
    expect([read(source, 69), read(source, 71)]).toEqual([NO_TIME, NO_TIME]);
  });
});

describe("seas in order of precedence", () => {
  const waves = gridSea(grid("seaHeightMetres", [0, 100], [1, 1]), null);
  const letter = periodSea("letter", null, [period(50, 200, 2, 3, null)]);
  const both = firstSeaThatCovers([waves, letter])!;

  it("the first that covers answers and says which; none at all is null", () => {
    expect(read(both, 60)).toMatchObject({ height: [1, 1], source: 0 });
    expect(read(both, 150)).toMatchObject({ height: [2, 3], source: 1 });
    expect(read(both, 60, 1e9)).toMatchObject({ source: 1 });
    expect(read(both, 20, 1e9)).toBe(NO_PLACE);
    expect(read(both, 201)).toBe(NO_TIME);
    expect(both).toMatchObject({ name: "waves, then letter", covers: { from: 0, until: 200 } });
    expect(both.onPlane(plane).breaksWithin(-1, 300)).toEqual([0, 50, 100, 200]);
    expect(firstSeaThatCovers([])).toBeNull();
  });
});

import { describe, expect, it } from "vitest";
import { COVERED, type GridQuantity } from "../../../src/core/fields/index.ts";
import { firstSeaThatCovers, gridSea, SEA_SLOTS, type SeaSource, SYSTEM_STRIDE, SYSTEMS_SLOTS } from "../../../src/core/weather/index.ts";
import { gridOf } from "../fields/grids.ts";
import { plane } from "./readings.ts";

const grid = (quantities: readonly GridQuantity[], values: readonly (readonly number[] | null)[], longitudesDeg = [-1, 2]) =>
  gridOf({ quantities, latitudesDeg: [-1, 1], longitudesDeg, times: values.map((_, t) => 100 * t), values: ({ t }) => values[t] ?? null });
const toward = (deg: number): readonly number[] => [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];

function systemsOf(source: SeaSource, at: number): readonly (readonly number[])[] | null {
  const sampler = source.onPlane(plane);
  if (sampler.systemsInto === undefined) return null;
  expect(sampler.readInto(new Float64Array(SEA_SLOTS), 0, 0, at)).toBe(COVERED);
  const out = new Float64Array(SYSTEMS_SLOTS);
  const count = sampler.systemsInto(out, 0, 0, at);
  return Array.from({ length: count }, (_, k) => [...out.slice(k * SYSTEM_STRIDE, (k + 1) * SYSTEM_STRIDE)]);
}

const total = grid(["seaHeightMetres"], [[2], [2]]);
const chop = {
  height: grid(["windSeaHeightMetres"], [[1], [1.2]]),
  period: grid(["windSeaPeriodSeconds"], [[4], [5]]),
  toward: grid(["windSeaTowardEast", "windSeaTowardNorth"], [toward(350), toward(10)]),
};
const swell = { height: grid(["swellHeightMetres"], [[1.7], [1.6]]), period: grid(["swellPeriodSeconds"], [[11], [11]]), toward: null };

describe("the systems a sea is made of", () => {
  it("are read each with its period and way; joined over the circle's end; without a way where none is given", () => {
    const source = gridSea(total, null, [chop, swell]);
    const near = (rows: readonly (readonly number[])[]) => rows.map((row) => row.map((value) => expect.closeTo(value, 6)));
    expect(systemsOf(source, 50)).toEqual(
      near([
        [1.1, 4.5, 0, 1],
        [1.65, 11, 0, 0],
      ]),
    );
  });

  it("have no way where two steps point apart, and are none where a height lacks its period", () => {
    const turning = { ...chop, toward: grid(["windSeaTowardEast", "windSeaTowardNorth"], [toward(0), toward(180)]) };
    expect(systemsOf(gridSea(total, null, [turning]), 50)?.[0]?.slice(2)).toEqual([0, 0]);
    const lacking = { ...swell, period: grid(["swellPeriodSeconds"], [null, null]) };
    expect(systemsOf(gridSea(total, null, [chop, lacking]), 50)).toEqual([]);
  });

  it("leave out one that is not there, as where there is no wind sea", () => {
    const calm = { ...chop, height: grid(["windSeaHeightMetres"], [null, null]) };
    expect(systemsOf(gridSea(total, null, [calm, swell]), 0)?.map((row) => row[1])).toEqual([11]);
  });

  it("are those of the source that answered", () => {
    const first = gridSea(grid(["seaHeightMetres"], [[3]]), null);
    const both = firstSeaThatCovers([first, gridSea(total, null, [swell])]);
    if (both === null) throw new Error("none");
    expect(systemsOf(both, 0)).toEqual([]);
    expect(systemsOf(both, 50)?.length).toBe(1);
    expect(systemsOf(first, 0)).toBeNull();
  });
});

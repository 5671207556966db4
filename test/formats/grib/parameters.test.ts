import { describe, expect, test } from "vitest";
import type { Grib2Message } from "../../../src/formats/grib/index.ts";
import { gridQuantityOf, natureOf, seaPeriodKindOf } from "../../../src/formats/grib/index.ts";
import { hoursOn, oneField, patched, signed4, written } from "./sample-message.ts";

const tenMetres = { type: 103, value: 10 };
const surface = { type: 1, value: 0 };
const meanSeaLevel = { type: 101, value: null };
const depth = (value: number) => ({ type: 160, value });
const over = (processCode: number) => ({ validUntil: hoursOn(9), processCode });

async function quantity(
  discipline: number,
  category: number,
  number: number,
  level: Grib2Message["level"],
  interval: NonNullable<Grib2Message["interval"]> | null = null,
) {
  return gridQuantityOf(await oneField(written({ discipline, category, number, level, interval })));
}

// WMO code tables 4.2 (parameters), 4.5 (levels) and 4.10 (statistics), Manual on Codes I.2.
describe("which parameter is which quantity", () => {
  test("wind at 10 m above ground, and no other height", async () => {
    expect(await quantity(0, 2, 2, tenMetres)).toBe("windEastMps");
    expect(await quantity(0, 2, 3, tenMetres)).toBe("windNorthMps");
    for (const level of [
      { type: 103, value: 100 },
      { type: 103, value: 2 },
      { type: 100, value: 10 },
      surface,
      { type: 103, value: null },
    ]) {
      expect([level, await quantity(0, 2, 2, level)]).toEqual([level, null]);
    }
  });

  test("gust at 10 m or at the surface, as an instant or the greatest of an interval, never a mean", async () => {
    expect(await quantity(0, 2, 22, tenMetres)).toBe("gustMps");
    expect(await quantity(0, 2, 22, surface)).toBe("gustMps");
    expect(await quantity(0, 2, 22, tenMetres, over(2))).toBe("gustMps");
    expect(await quantity(0, 2, 22, tenMetres, over(0))).toBeNull();
    expect(await quantity(0, 2, 22, tenMetres, over(3))).toBeNull();
    expect(await quantity(0, 2, 22, { type: 103, value: 80 })).toBeNull();
  });

  test("current at the surface, and not below it", async () => {
    for (const level of [surface, depth(0), { type: 161, value: 0 }]) {
      expect(await quantity(10, 1, 2, level)).toBe("currentEastMps");
      expect(await quantity(10, 1, 3, level)).toBe("currentNorthMps");
    }
    expect(await quantity(10, 1, 2, depth(15))).toBeNull();
    expect(await quantity(10, 1, 2, tenMetres)).toBeNull();
  });

  test("sea height and period, and which period", async () => {
    for (const level of [surface, meanSeaLevel]) expect(await quantity(10, 0, 3, level)).toBe("seaHeightMetres");
    for (const [number, kind] of [
      [11, "primaryMean"],
      [15, "mean"],
      [34, "peak"],
    ] as const) {
      const field = await oneField(written({ discipline: 10, category: 0, number, level: surface }));
      expect([gridQuantityOf(field), seaPeriodKindOf(field)]).toEqual(["seaPeriodSeconds", kind]);
    }
    expect(await quantity(10, 0, 8, surface)).toBeNull();
    expect(seaPeriodKindOf(await oneField(written()))).toBeNull();
  });

  test("the same numbers in another discipline, in a layer, or as a greatest component are something else", async () => {
    expect(await quantity(2, 2, 2, tenMetres)).toBeNull();
    expect(await quantity(0, 2, 2, tenMetres, over(2))).toBeNull();
    expect(await quantity(0, 2, 2, tenMetres, over(0))).toBe("windEastMps");
    expect(gridQuantityOf(await oneField(patched(written(), 4, 29, 103, 0, ...signed4(80))))).toBeNull();
  });

  test("what the values mean over time", async () => {
    const nature = async (interval: NonNullable<Grib2Message["interval"]> | null) => natureOf(await oneField(written({ interval })));
    expect(await nature(null)).toBe("instant");
    expect(await nature(over(2))).toBe("maximumSincePrevious");
    expect(await nature(over(0))).toBe("meanSincePrevious");
    expect(await nature(over(1))).toBeNull();
    expect(await nature(over(3))).toBeNull();
  });
});

import { describe, expect, test } from "vitest";
import { natureOf, roleOf } from "../../../src/formats/forecast/grib-roles.ts";
import type { Grib2Message } from "../../../src/formats/grib/index.ts";
import { hoursOn, oneField, patched, signed4, written } from "../grib/sample-message.ts";

const tenMetres = { type: 103, value: 10 };
const surface = { type: 1, value: 0 };
const meanSeaLevel = { type: 101, value: null };
const depth = (value: number) => ({ type: 160, value });
const nth = (value: number) => ({ type: 241, value });
const over = (processCode: number) => ({ validUntil: hoursOn(9), processCode });

async function role(
  discipline: number,
  category: number,
  number: number,
  level: Grib2Message["level"],
  interval: NonNullable<Grib2Message["interval"]> | null = null,
) {
  return roleOf(await oneField(written({ discipline, category, number, level, interval })));
}

// WMO code tables 4.2 (parameters), 4.5 (levels) and 4.10 (statistics), Manual on Codes I.2.
describe("which parameter serves as what", () => {
  test("wind at 10 m above ground, else at the surface, as wave models give it; at no other height", async () => {
    expect(await role(0, 2, 2, tenMetres)).toEqual({ role: "windEastMps", rank: 0 });
    expect(await role(0, 2, 3, tenMetres)).toEqual({ role: "windNorthMps", rank: 0 });
    expect(await role(0, 2, 1, tenMetres)).toEqual({ role: "windSpeedMps", rank: 0 });
    expect(await role(0, 2, 0, surface)).toEqual({ role: "windFromDeg", rank: 1 });
    expect(await role(0, 2, 2, surface)).toEqual({ role: "windEastMps", rank: 1 });
    for (const level of [
      { type: 103, value: 100 },
      { type: 103, value: 2 },
      { type: 100, value: 10 },
      { type: 103, value: null },
    ]) {
      expect([level, await role(0, 2, 2, level)]).toEqual([level, null]);
    }
  });

  test("gust at 10 m or at the surface, as an instant or the greatest of an interval, never a mean", async () => {
    expect(await role(0, 2, 22, tenMetres)).toEqual({ role: "gustMps", rank: 0 });
    expect(await role(0, 2, 22, surface)).toEqual({ role: "gustMps", rank: 1 });
    expect(await role(0, 2, 22, tenMetres, over(2))).toEqual({ role: "gustMps", rank: 0 });
    expect(await role(0, 2, 22, tenMetres, over(0))).toBeNull();
    expect(await role(0, 2, 22, tenMetres, over(3))).toBeNull();
    expect(await role(0, 2, 22, { type: 103, value: 80 })).toBeNull();
  });

  test("current at the surface, and not below it", async () => {
    for (const level of [surface, depth(0), { type: 161, value: 0 }]) {
      expect((await role(10, 1, 2, level))?.role).toBe("currentEastMps");
      expect((await role(10, 1, 3, level))?.role).toBe("currentNorthMps");
      expect((await role(10, 1, 0, level))?.role).toBe("currentTowardDeg");
      expect((await role(10, 1, 1, level))?.role).toBe("currentSpeedMps");
    }
    expect(await role(10, 1, 2, depth(15))).toBeNull();
    expect(await role(10, 1, 2, tenMetres)).toBeNull();
  });

  test("the sea as a whole: height, direction, and of its periods the mean before the peak", async () => {
    for (const level of [surface, meanSeaLevel]) expect((await role(10, 0, 3, level))?.role).toBe("seaHeightMetres");
    const ranks = [];
    for (const number of [15, 28, 11, 34]) ranks.push(await role(10, 0, number, surface));
    expect(ranks).toEqual([0, 1, 2, 3].map((rank) => ({ role: "seaPeriodSeconds", rank })));
    expect(await role(10, 0, 14, surface)).toEqual({ role: "seaFromDeg", rank: 0 });
    expect(await role(10, 0, 10, surface)).toEqual({ role: "seaFromDeg", rank: 1 });
    expect(await role(10, 0, 14, surface, over(2))).toBeNull();
  });

  test("wind sea and swells: by the sequence's number where a model gives several", async () => {
    expect((await role(10, 0, 5, surface))?.role).toBe("windSeaHeightMetres");
    expect((await role(10, 0, 6, surface))?.role).toBe("windSeaPeriodSeconds");
    expect((await role(10, 0, 4, surface))?.role).toBe("windSeaFromDeg");
    expect(await role(10, 0, 8, surface)).toEqual({ role: "swellHeightMetres", rank: 0 });
    expect(await role(10, 0, 8, nth(1))).toEqual({ role: "swellHeightMetres", rank: 2 });
    expect((await role(10, 0, 9, nth(2)))?.role).toBe("secondSwellPeriodSeconds");
    expect((await role(10, 0, 7, nth(3)))?.role).toBe("thirdSwellFromDeg");
    expect(await role(10, 0, 8, nth(4))).toBeNull();
  });

  test("the same numbers in another discipline, in a layer, or as a greatest component are something else", async () => {
    expect(await role(2, 2, 2, tenMetres)).toBeNull();
    expect(await role(0, 2, 2, tenMetres, over(2))).toBeNull();
    expect((await role(0, 2, 2, tenMetres, over(0)))?.role).toBe("windEastMps");
    expect(roleOf(await oneField(patched(written(), 4, 29, 103, 0, ...signed4(80))))).toBeNull();
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

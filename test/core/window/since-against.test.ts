import { describe, expect, it } from "vitest";
import { oneHeading } from "../../../src/core/passage/index.ts";
import { metresFromNm } from "../../../src/core/units/index.ts";
import { gaussianJet } from "../../../src/core/water/index.ts";
import type { WindSource } from "../../../src/core/weather/index.ts";
import { sinceWindAgainst } from "../../../src/core/window/index.ts";
import { clock, HOUR, kn, plane, trial, winds } from "./setup.ts";

/** A jet of 3 kn to north, its axis half-way: a boat of 6 kn that leaves at 2400 is there at about 0300 on Friday. */
const { crossing } = trial({ current: gaussianJet({ rateMps: kn(3), axisMetres: metresFromNm(18), halfWidthMetres: metresFromNm(8) }) });
const way = oneHeading(crossing, clock(24));
if (way.kind !== "arrives") throw new Error(way.why.code);
const { axis } = way;
const since = (wind: WindSource) => sinceWindAgainst(crossing, way, wind.onPlane(plane, 0), wind.covers.from);

describe("the hours since the wind last blew against the stream", () => {
  it("are counted back by the hour from when the boat crosses the axis", () => {
    expect(axis.at).toBeGreaterThan(clock(26.5));
    expect(axis.at).toBeLessThan(clock(27.5));
    // 15 kn of northerly until 1800, then southerly: the last whole hour back that is before 1800.
    const back = Math.floor((axis.at - clock(18)) / HOUR) + 1;
    const wind = winds({ from: 0, until: 18, dir: 0, low: 15 }, { from: 18, until: 48, dir: 180, low: 15 });
    expect(since(wind)).toEqual({ kind: "blew", seconds: back * HOUR });
  });

  it("are none while it still blows so", () => {
    expect(since(winds({ from: 0, until: 48, dir: 0, low: 15 }))).toEqual({ kind: "blew", seconds: 0 });
  });

  it("count the part of the wind that blows against the set: 15 kn at 60° off is 7.5 kn and raises no sea, 25 kn is 12.5 and does", () => {
    expect(since(winds({ from: 0, until: 48, dir: 60, low: 15 }))).toMatchObject({ kind: "notSince" });
    expect(since(winds({ from: 0, until: 48, dir: 60, low: 25 }))).toEqual({ kind: "blew", seconds: 0 });
  });

  it("are more than the forecast reaches back where it never blew so", () => {
    const wind = winds({ from: 12, until: 48, dir: 180, low: 15 });
    expect(since(wind)).toEqual({ kind: "notSince", seconds: Math.floor((axis.at - clock(12)) / HOUR) * HOUR });
  });

  it("are not told where the wind at the axis is not known", () => {
    expect(since(winds({ from: 0, until: 12, dir: 0, low: 15 }))).toBeNull();
  });
});

import { describe, expect, it } from "vitest";
import { knotsFromMps, metresFromFeet, parseSea, parseWindRange } from "../../../src/core/units/index.ts";

const codes = (parsed: { ok: boolean; issues?: readonly { code: string }[] }): string =>
  (parsed.issues ?? []).map((one) => one.code).join(" ");

function windOf(text: string): string {
  const parsed = parseWindRange(text, "x");
  if (!parsed.ok) return codes(parsed);
  const { fromDegTrue, arcDeg, speedLowMps, speedHighMps, gustMps } = parsed.value;
  const knots = (mps: number) => Math.round(knotsFromMps(mps) * 100) / 100;
  return `${fromDegTrue}+${arcDeg} ${knots(speedLowMps)}-${knots(speedHighMps)} ${gustMps === null ? "no gust" : knots(gustMps)}`;
}

describe("winds as a forecaster writes them", () => {
  it.each([
    ["NE 12-16 G20", "45+0 12-16 20"],
    ["SE 8-12 G18", "135+0 8-12 18"],
    ["NE-E 10-15", "45+45 10-15 no gust"],
    ["E-NE 10-15", "45+45 10-15 no gust"],
    ["NW-NE 10", "315+90 10-10 no gust"],
    ["N to NE 12 to 16 gusting 20", "0+45 12-16 20"],
    ["NE 12 to 16 gusting to 20", "45+0 12-16 20"],
    ["E 20-25G32", "90+0 20-25 32"],
    ["E 20–25 G 32", "90+0 20-25 32"],
    ["E 20-25, gusts 30-35", "90+0 20-25 35"],
    ["N 15kn", "0+0 15-15 no gust"],
    ["NNW 15KT", "337.5+0 15-15 no gust"],
    ["VRB 5", "0+360 5-5 no gust"],
    ["variable 0-5", "0+360 0-5 no gust"],
    ["calm", "0+360 0-0 no gust"],
    ["225 15", "225+0 15-15 no gust"],
    ["200-240 12-16 G20", "200+40 12-16 20"],
    ["350-010 12", "350+20 12-12 no gust"],
    ["north-east 12-16", "45+0 12-16 no gust"],
    ["ne 12.5-16", "45+0 12.5-16 no gust"],
    ["NE10-15", "45+0 10-15 no gust"],
    ["NE 16 G16", "45+0 16-16 16"],
  ])("reads %s", (text, expected) => expect(windOf(text)).toBe(expected));

  it("takes another unit where one is written, once or apiece", () => {
    expect(parseWindRange("NE 6-8 m/s G10", "x")).toMatchObject({ value: { speedLowMps: 6, speedHighMps: 8, gustMps: 10 } });
    expect(parseWindRange("NE 6-8 G10 m/s", "x")).toMatchObject({ value: { speedLowMps: 6, speedHighMps: 8, gustMps: 10 } });
    expect(windOf("NE 18.52-37.04 km/h")).toBe("45+0 10-20 no gust");
    expect(windOf("NE 10 kn G 10.288889 m/s")).toBe("45+0 10-10 20");
  });

  it.each([
    ["NE", "wind-speed-missing"],
    ["NE G20", "wind-speed-missing"],
    ["12-16", "wind-direction-missing"],
    ["12-16 G20", "wind-direction-missing"],
    ["NE 16-12", "range-upside-down"],
    ["NE 12-16 G14", "gust-below-wind"],
    ["NE 16-12 G10", "range-upside-down gust-below-wind"],
    ["N-S 10", "arc-doubtful"],
    ["400 10", "out-of-range"],
    ["NE 1216", "out-of-range"],
    ["NE 12 furlongs", "unit-unknown"],
    ["NE 12,5", "comma-in-number"],
    ["NEE 12", "quantity-not-understood"],
    ["NE-E-SE 12", "quantity-not-understood"],
    ["NE 12-16 becoming E", "quantity-not-understood"],
    ["NE 12-16 G20 or more", "quantity-not-understood"],
    ["fresh", "quantity-not-understood"],
    ["", "quantity-not-understood"],
  ])("asks about %s (%s)", (text, expected) => expect(windOf(text)).toBe(expected));
});

describe("seas as a forecaster writes them", () => {
  const ft = (low: number, high: number, periodLowSeconds: number | null, periodHighSeconds: number | null) => ({
    ok: true,
    value: { heightLowMetres: metresFromFeet(low), heightHighMetres: metresFromFeet(high), periodLowSeconds, periodHighSeconds },
  });
  it("reads ranges of height and period", () => {
    expect(parseSea("2-3 ft @ 9 s", "x")).toEqual(ft(2, 3, 9, 9));
    expect(parseSea("2 to 3 feet at 9 seconds", "x")).toEqual(ft(2, 3, 9, 9));
    expect(parseSea("2-3ft 6-8 s", "x")).toEqual(ft(2, 3, 6, 8));
    expect(parseSea("2 ft - 3 ft, 9 s", "x")).toEqual(ft(2, 3, 9, 9));
    expect(parseSea("2-3' @ 9s", "x")).toEqual(ft(2, 3, 9, 9));
    expect(parseSea("3 FT", "x")).toEqual(ft(3, 3, null, null));
    const metres = { heightLowMetres: 1.2, heightHighMetres: 1.2, periodLowSeconds: 7, periodHighSeconds: 7 };
    expect(parseSea("1.2 m 7s", "x")).toEqual({ ok: true, value: metres });
    expect(parseSea("1.2 M 7 S", "x")).toEqual({ ok: true, value: metres });
    expect(parseSea("1 m", "x")).toMatchObject({ value: { heightLowMetres: 1, periodLowSeconds: null } });
  });

  it.each([
    ["2-3", "unit-missing"],
    ["2", "unit-missing"],
    ["2-3 @ 9 s", "unit-missing"],
    ["2-3 ft @ 9", "unit-missing"],
    ["2-3 @ 9", "unit-missing unit-missing"],
    ["3-2 ft", "range-upside-down"],
    ["2-3 ft @ 9-6 s", "range-upside-down"],
    ["200 ft", "out-of-range"],
    ["3-4 ft @ 70 s", "out-of-range"],
    ["2 ft @ 0 s", "out-of-range"],
    ["23 s", "unit-unknown"],
    ["2 kn", "unit-unknown"],
    ["1,2 m", "comma-in-number"],
    ["2-3 ft @ 9 s, swell 1 m", "quantity-not-understood"],
    ["moderate", "quantity-not-understood"],
  ])("asks about %s (%s)", (text, expected) => expect(codes(parseSea(text, "x"))).toBe(expected));
});

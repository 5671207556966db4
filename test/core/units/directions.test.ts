import { describe, expect, it } from "vitest";
import { COMPASS_POINTS, compassPointFromDeg, degFromCompassPoint, parseBearing, parsePosition } from "../../../src/core/units/index.ts";

const codes = (parsed: { ok: boolean; issues?: readonly { code: string }[] }): string =>
  (parsed.issues ?? []).map((one) => one.code).join(" ");

describe("points of the compass", () => {
  // "Boxing the compass": the table of thirty-two points with degrees as bushwalking and seamanship pages print it
  // (wildwalks.com, "Points of a compass"; reference.com, "Boxing the compass").
  it.each([
    ["N", 0],
    ["N by E", 11.25],
    ["NNE", 22.5],
    ["NE by N", 33.75],
    ["NE", 45],
    ["NE by E", 56.25],
    ["ENE", 67.5],
    ["E by N", 78.75],
    ["E by S", 101.25],
    ["SE by E", 123.75],
    ["SSE", 157.5],
    ["S by W", 191.25],
    ["SW by S", 213.75],
    ["WSW", 247.5],
    ["W by N", 281.25],
    ["NW by W", 303.75],
    ["NW by N", 326.25],
    ["N by W", 348.75],
    ["North by east", 11.25],
    ["North north east", 22.5],
    ["North east by north", 33.75],
    ["south-southwest", 202.5],
    ["nebn", 33.75],
  ])("reads %s", (text, degrees) => {
    expect(degFromCompassPoint(text)).toBe(degrees);
    expect(parseBearing(text, "x")).toEqual({ ok: true, value: degrees });
  });

  it("names every point it reads, and the nearest one of fewer", () => {
    expect(COMPASS_POINTS).toHaveLength(32);
    for (const point of COMPASS_POINTS) expect(compassPointFromDeg(degFromCompassPoint(point)!, 32)).toBe(point);
    // The same source: 75° is nearest to east by north.
    expect(compassPointFromDeg(75, 32)).toBe("EbN");
    expect(compassPointFromDeg(75, 16)).toBe("ENE");
    expect(compassPointFromDeg(359, 8)).toBe("N");
    expect(compassPointFromDeg(-90, 4)).toBe("W");
    expect(() => compassPointFromDeg(Number.NaN)).toThrow("NaN");
  });

  it("refuses what is no point", () => {
    for (const word of ["NEE", "N-NE", "NS", "north by", "NbS", "EN", "", "Nothing"]) expect(degFromCompassPoint(word)).toBeNull();
  });
});

describe("bearings", () => {
  it.each([
    ["215", 215],
    ["215 T", 215],
    ["215°T", 215],
    ["007", 7],
    ["360", 0],
    ["0", 0],
    ["215.5 true", 215.5],
    ["215 deg", 215],
  ])("reads %s", (text, degrees) => expect(parseBearing(text, "x")).toEqual({ ok: true, value: degrees }));

  it.each([
    ["361", "out-of-range"],
    ["-10", "out-of-range"],
    ["215 M", "bearing-other-north"],
    ["215 C", "bearing-other-north"],
    ["NEE", "quantity-not-understood"],
    ["215 kn", "quantity-not-understood"],
    ["215,5", "comma-in-number"],
  ])("asks about %s (%s)", (text, code) => expect(codes(parseBearing(text, "x"))).toBe(code));

  it("takes another north when asked for it", () => {
    expect(parseBearing("215 M", "x", { north: "magnetic" })).toEqual({ ok: true, value: 215 });
    expect(codes(parseBearing("215 T", "x", { north: "magnetic" }))).toBe("bearing-other-north");
  });
});

describe("positions", () => {
  it.each([
    ["26 46.2N 079 20W", 26.77, -79 - 20 / 60],
    ["17°32.4'S, 149°50.2'W", -17.54, -149 - 50.2 / 60],
    ["17° 32.4′ S  149° 50.2′ W", -17.54, -149 - 50.2 / 60],
    ["17 32.4S 149 50.2W", -17.54, -149 - 50.2 / 60],
    ["17 32 24 S 149 50 12 W", -17.54, -149 - 50.2 / 60],
    ["17°32'24\"S 149°50'12\"W", -17.54, -149 - 50.2 / 60],
    ["S17 32.4 W149 50.2", -17.54, -149 - 50.2 / 60],
    ["N 17 32.4, E 149 50.2", 17.54, 149 + 50.2 / 60],
    ["149 50.2W 17 32.4S", -17.54, -149 - 50.2 / 60],
    ["17.54S 149.84W", -17.54, -149.84],
    ["-17.54, -149.84", -17.54, -149.84],
    ["−17.54,−149.84", -17.54, -149.84],
    ["17.54,149.84", 17.54, 149.84],
    ["17 deg 32.4 min S 149 deg 50.2 min W", -17.54, -149 - 50.2 / 60],
    ["0N 180W", 0, -180],
    ["0N 180E", 0, -180],
    ["90S 0E", -90, 0],
  ])("reads %s", (text, latitudeDeg, longitudeDeg) => {
    const parsed = parsePosition(text, "x");
    expect(parsed.ok).toBe(true);
    if (!parsed.ok) return;
    expect(parsed.value.latitudeDeg).toBeCloseTo(latitudeDeg, 10);
    expect(parsed.value.longitudeDeg).toBeCloseTo(longitudeDeg, 10);
  });

  it.each([
    ["17 72.4S 149 50.2W", "out-of-range"],
    ["17 32 61 S 149 50 12 W", "out-of-range"],
    ["97 32.4S 149 50.2W", "out-of-range"],
    ["17 32.4S 189 50.2W", "out-of-range"],
    ["97 62.4S 189 50.2W", "out-of-range"],
    ["97.1, 190.5", "out-of-range out-of-range"],
    ["17 32.4 149 50.2", "hemisphere-missing"],
    ["17, 149", "hemisphere-missing"],
    ["17 32.4S 149 50.2", "quantity-not-understood"],
    ["17 32.4S 18 50.2N", "hemisphere-missing"],
    ["-17 32.4S 149 50.2W", "quantity-not-understood"],
    ["17,54 149,84", "comma-in-number"],
    ["17 32,4S 149 50,2W", "comma-in-number"],
    ["0832.4S 14950.2W", "quantity-not-understood"],
    ["17.5 32.4S 149 50.2W", "quantity-not-understood"],
    ['17°32"S 149°50"W', "quantity-not-understood"],
    ["17 32.4S", "quantity-not-understood"],
    ["Port Ansa", "quantity-not-understood"],
    ["", "quantity-not-understood"],
  ])("asks about %s (%s)", (text, code) => expect(codes(parsePosition(text, "route.from"))).toBe(code));
});

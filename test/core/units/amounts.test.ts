import { describe, expect, it } from "vitest";
import type { Parsed } from "../../../src/core/answers/index.ts";
import {
  nearestWord,
  parseAngle,
  parseBurn,
  parseDuration,
  parseLength,
  parseNumber,
  parseShare,
  parseSpeed,
  parseSpeedProduct,
  parseVolume,
} from "../../../src/core/units/index.ts";

const value = (parsed: Parsed<number>): number | string => (parsed.ok ? parsed.value : parsed.issues.map((one) => one.code).join(" "));
const message = (parsed: Parsed<unknown>): string => (parsed.ok ? "" : parsed.issues.map((one) => one.message).join("\n"));

describe("conversion factors", () => {
  // NIST Special Publication 811 (2008), appendix B.8: knot 0.5144444 m/s, mile an hour 0.44704, foot 0.3048, inch 0.0254, nautical mile
  // 1852, mile 1609.344 m, US gallon 3.785412 L, imperial gallon 4.54609 L (as printed: seven figures, or exact). MEMORY of the table; the
  // definitions (231 cubic inches, 4.54609 L, 1852 m) were looked up and agree.
  it.each([
    ["1 kn", parseSpeed, 0.5144444],
    ["1 mph", parseSpeed, 0.44704],
    ["1 km/h", parseSpeed, 0.2777778],
    ["1 ft", parseLength, 0.3048],
    ["1 in", parseLength, 0.0254],
    ["1 nm", parseLength, 1852],
    ["1 US gal", parseVolume, 3.785412],
    ["1 imp gal", parseVolume, 4.54609],
  ] as const)("reads %s as in the table", (text, parse, expected) => {
    expect(Math.abs((value(parse(text, "x")) as number) / expected - 1)).toBeLessThan(1.5e-7);
  });

  it("takes a fathom as six feet and a cable as a tenth of a nautical mile (common practice)", () => {
    expect(value(parseLength("12 fm", "x"))).toBeCloseTo(12 * 6 * 0.3048, 12);
    expect(value(parseLength("3 cables", "x"))).toBeCloseTo(555.6, 12);
  });
});

describe("lengths", () => {
  it.each([
    ["6'1\"", 1.8542],
    ["6′1″", 1.8542],
    ["6 ft 1 in", 1.8542],
    ["6’ 1”", 1.8542],
    ["6ft 1.5in", 1.8669],
    ["73 in", 1.8542],
    ["1.85 m", 1.85],
    ["11.6\u00a0m", 11.6],
    ["5½ ft", 1.6764],
    ["−15 nm", -27780],
    ["-15 nm", -27780],
    ["0", 0],
    ["32 feet", 9.7536],
    ["2 nautical miles", 3704],
  ])("reads %s", (text, metres) => expect(value(parseLength(text, "x"))).toBeCloseTo(metres, 9));

  it.each([
    ["1.85", "unit-missing"],
    ["1,85 m", "comma-in-number"],
    ["1,200 m", "comma-in-number"],
    ["5 M", "unit-doubtful"],
    ["5 miles", "unit-doubtful"],
    ["5 feets", "unit-unknown"],
    ["6 ft 13 in", "out-of-range"],
    ["6.5 ft 1 in", "quantity-not-understood"],
    ["6'1", "quantity-not-understood"],
    ["5 m 20", "quantity-not-understood"],
    ["deep", "quantity-not-understood"],
    ["", "quantity-not-understood"],
    ["1.2.3 m", "quantity-not-understood"],
    ["--5 m", "quantity-not-understood"],
    [`${"9".repeat(190)}${"9".repeat(150)} m`, "quantity-not-understood"],
  ])("asks about %s (%s)", (text, code) => expect(value(parseLength(text, "boat.draught"))).toBe(code));

  it("says what was typed, what is read, and the nearest unit", () => {
    const parsed = parseLength("5 feets", "boat.draught");
    expect(parsed).toMatchObject({ ok: false, issues: [{ path: "boat.draught", code: "unit-unknown" }] });
    expect(message(parsed)).toContain("“5 feets”");
    expect(message(parsed)).toContain("did you mean feet?");
    expect(message(parseLength("1.85", "x"))).toContain("m, cm, km, ft");
    expect(message(parseLength("1,85 m", "x"))).toContain("1.85");
    expect(message(parseLength("1,200 m", "x"))).toContain("1.200 or 1200");
  });

  it("holds the caller's bounds", () => {
    expect(value(parseLength("-1.7 m", "x", { positive: true }))).toBe("out-of-range");
    expect(value(parseLength("0 m", "x", { positive: true }))).toBe("out-of-range");
    expect(value(parseLength("0 m", "x", { min: 0 }))).toBe(0);
    expect(Object.is(value(parseLength("-0 m", "x")), 0)).toBe(true);
    expect(value(parseLength("200 ft", "x", { max: 60 }))).toBe("out-of-range");
    expect(message(parseLength("200 ft", "x", { max: 60 }))).toContain("at most 60 m");
  });
});

describe("volumes and burns", () => {
  it.each([
    ["180 L", 180],
    ["180 litres", 180],
    ["75 US gal", 283.9058838],
    ["75 imp gal", 340.95675],
    ["75 U.S. gallons", 283.9058838],
  ])("reads %s", (text, litres) => expect(value(parseVolume(text, "x"))).toBeCloseTo(litres, 9));

  it("asks about a bare gallon and lists both readings in litres", () => {
    for (const text of ["75 gal", "75 gallons", "75gal"]) {
      const parsed = parseVolume(text, "x");
      expect(value(parsed)).toBe("bare-gallon");
      expect(message(parsed)).toContain("283.91 L (US gal) or 340.96 L (imp gal)");
    }
    expect(value(parseBurn("0.7 gal/h", "x"))).toBe("bare-gallon");
    expect(value(parseBurn("0.7 gph", "x"))).toBe("bare-gallon");
    expect(message(parseBurn("0.7 gal/h", "x"))).toContain("2.6498 L/h (US gal) or 3.1823 L/h (imp gal)");
  });

  it.each([
    ["2.6 L/h", 2.6],
    ["2.6 litres per hour", 2.6],
    ["0.7 US gal/h", 2.6497882488],
    ["0.7 US gal / h", 2.6497882488],
    ["0.5 imp gal/hr", 2.273045],
  ])("reads %s", (text, litresPerHour) => expect(value(parseBurn(text, "x"))).toBeCloseTo(litresPerHour, 9));

  it("does not take a volume for a burn or a burn for a volume", () => {
    expect(value(parseBurn("2.6 L", "x"))).toBe("unit-unknown");
    expect(value(parseVolume("2.6 L/h", "x"))).toBe("unit-unknown");
  });
});

describe("speeds, shares, products, plain numbers", () => {
  it.each([
    ["5.6 kn", 2.880888889],
    ["5.6kts", 2.880888889],
    ["5.6 KN", 2.880888889],
    ["3 m/s", 3],
    ["3 M/S", 3],
    ["10 km/h", 2.777777778],
    ["10 mph", 4.4704],
  ])("reads %s", (text, mps) => expect(value(parseSpeed(text, "x"))).toBeCloseTo(mps, 8));

  it("reads the rest", () => {
    expect(value(parseShare("4 %", "x"))).toBeCloseTo(0.04, 12);
    expect(value(parseShare("4", "x"))).toBe("unit-missing");
    for (const text of ["40 kn2", "40 kn²", "40 kn^2"]) expect(value(parseSpeedProduct(text, "x"))).toBeCloseTo(40 * 0.264653, 4);
    expect(value(parseSpeedProduct("0 kn2", "x"))).toBe(0);
    expect(value(parseSpeedProduct("40 kn", "x"))).toBe("unit-unknown");
    expect(value(parseNumber("1.3", "x"))).toBe(1.3);
    expect(value(parseNumber("1.3 kn", "x"))).toBe("quantity-not-understood");
    expect(value(parseNumber("NaN", "x"))).toBe("quantity-not-understood");
    expect(value(parseNumber("Infinity", "x"))).toBe("quantity-not-understood");
    expect(value(parseSpeed("5 constructor", "x"))).toBe("unit-unknown");
  });
});

describe("durations", () => {
  it.each([
    ["1 h 30", 5400],
    ["1 h 30 min", 5400],
    ["1h30m", 5400],
    ["1h30", 5400],
    ["90 min", 5400],
    ["1:30", 5400],
    ["1:30:15", 5415],
    ["1.5 h", 5400],
    ["45 s", 45],
    ["2 d 6 h", 194400],
    ["2 days", 172800],
    ["0", 0],
  ])("reads %s", (text, seconds) => expect(value(parseDuration(text, "x"))).toBe(seconds));

  it.each([
    ["90", "unit-missing"],
    ["1:75", "out-of-range"],
    ["1 h 75 min", "out-of-range"],
    ["30 min 1 h", "quantity-not-understood"],
    ["1.5 h 10 min", "quantity-not-understood"],
    ["1 h h", "quantity-not-understood"],
    ["1 fortnight", "unit-unknown"],
    ["1,5 h", "comma-in-number"],
    ["-1 h", "out-of-range"],
  ])("asks about %s (%s)", (text, code) => expect(value(parseDuration(text, "x", { min: 0 }))).toBe(code));
});

describe("angles", () => {
  it.each([
    ["52 deg", 52],
    ["52°", 52],
    ["-6 deg", -6],
    ["−6°", -6],
    ["12 E", 12],
    ["12 W", -12],
    ["12° W", -12],
    ["12°30'W", -12.5],
    ["1.5 East", 1.5],
    ["0", 0],
  ])("reads %s, east positive", (text, degrees) => expect(value(parseAngle(text, "x"))).toBe(degrees));

  it.each([
    ["12", {}, "unit-missing"],
    ["12 deg", { sense: "eastWest" }, "sense-missing"],
    ["12", { sense: "eastWest" }, "sense-missing"],
    ["12 E", { sense: "plain" }, "quantity-not-understood"],
    ["-12 E", {}, "quantity-not-understood"],
    ["12°75'W", {}, "out-of-range"],
    ["12 N", {}, "quantity-not-understood"],
    ["200 deg", { max: 180 }, "out-of-range"],
  ] as const)("asks about %s", (text, options, code) => expect(value(parseAngle(text, "x", options))).toBe(code));
});

describe("the nearest word", () => {
  it("counts a swap of neighbours as one slip", () => {
    expect(nearestWord("draugth", ["draught", "airDraught", "boat"])).toBe("draught");
    expect(nearestWord("acb", ["abc"], 1)).toBe("abc");
  });
  // The restricted distance of Damerau and Levenshtein: "ca" to "abc" is 3 (2 in the unrestricted one), as the documentation of several libraries shows.
  it("is the restricted distance", () => {
    expect(nearestWord("ca", ["abc"], 3)).toBe("abc");
    expect(nearestWord("ca", ["abc"], 2)).toBeNull();
  });
  it("is silent when nothing is near", () => {
    expect(nearestWord("keel", ["draught", "airDraught"])).toBeNull();
    expect(nearestWord("x", ["m", "ft"])).toBeNull();
    expect(nearestWord("", [])).toBeNull();
  });
});

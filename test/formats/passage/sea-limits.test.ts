import { describe, expect, it } from "vitest";
import type { Limit } from "../../../src/core/window/index.ts";
import { limitInWords, worstInWords } from "../../../src/words/index.ts";
import { EXAMPLE } from "./example.ts";
import { changed, good, issuesOf } from "./fixture.ts";

const line = "  seaPeriod: {happy: 7 s, never: 4 s}";
const withLimits = (limits: string): string => changed(EXAMPLE, line, `${line}\n${limits}`);

describe("limits on the sea on the stream", () => {
  const { limits } = good(
    withLimits(
      "  seaSteepness: {happy: 1/25, never: 1/13, tolerated: 10 min}\n  seaOnCurrent: {happy: 4 ft, never: 2.1 m}\n  seaPeriodToHeight: {happy: 1.5 s/ft, never: 3.5 s/m}",
    ),
  ).passage;
  const of = (felt: Limit["felt"]): Limit => limits.find((one) => one.felt === felt) as Limit;

  it("are typed as a ratio and a height, and judged in open water", () => {
    expect(of("seaSteepness")).toEqual({ felt: "seaSteepness", happy: 1 / 25, never: 1 / 13, during: "openWater", toleratedSeconds: 600 });
    expect(of("seaOnCurrentMetres")).toMatchObject({ never: 2.1, during: "openWater" });
    expect(of("seaOnCurrentMetres").happy).toBeCloseTo(1.2192, 9);
    expect(of("seaSecondsPerMetre")).toMatchObject({ never: 3.5, during: "openWater" });
    expect(of("seaSecondsPerMetre").happy).toBeCloseTo(1.5 / 0.3048, 9);
  });

  it("are said as sailors say them", () => {
    const worst = (value: number) => ({
      margin: 0,
      value,
      peakValue: value,
      at: 0,
      where: { latitudeDeg: 0, longitudeDeg: 0 },
      firstPastNeverAt: null,
    });
    expect(limitInWords(of("seaSteepness")).replace(/\s/g, " ")).toBe("steepness on the stream 1/25 to 1/13, 10 min tolerated");
    expect(worstInWords(of("seaSteepness"), worst(1 / 34), null)).toBe("seas of 1/34 on the stream");
    expect(worstInWords(of("seaSteepness"), worst(1 / 12), null)).toBe("breaking seas of 1/12 on the stream");
    expect(worstInWords(of("seaSteepness"), worst(1 / 7), null)).toBe("seas stopped or broken by the stream");
    expect(limitInWords(of("seaSecondsPerMetre")).replace(/\s/g, " ")).toBe("period to height on the stream 1.5 to 1.1 s/ft");
    expect(worstInWords(of("seaSecondsPerMetre"), worst(4), null)).toBe("sea of 1.2 s/ft on the stream");
    expect(worstInWords(of("seaSecondsPerMetre"), worst(60), null)).toBe("no sea to speak of on the stream");
    expect(worstInWords(of("seaOnCurrentMetres"), worst(1.65), null)).toBe("sea 1.6 m on the stream");
  });

  it.each([
    ["  seaSteepness: {happy: 1/13, never: 1/25}", "limits.seaSteepness.never", "limit-upside-down"],
    ["  seaSteepness: {happy: 1/25, never: 1/25}", "limits.seaSteepness.never", "limit-without-margin"],
    ["  seaSteepness: {happy: 25, never: 1/13}", "limits.seaSteepness.happy", "quantity-not-understood"],
    ["  seaPeriodToHeight: {happy: 1 s/ft, never: 1.5 s/ft}", "limits.seaPeriodToHeight.never", "limit-upside-down"],
    ["  seaPeriodToHeight: {happy: 20 s/ft, never: 1 s/ft}", "limits.seaPeriodToHeight.happy", "quantity-not-understood"],
    ["  seaPeriodToHeight: {happy: 1.5 s, never: 1 s/ft}", "limits.seaPeriodToHeight.happy", "quantity-not-understood"],
    ["  seaOnCurrent: {happy: 4, never: 2.1 m}", "limits.seaOnCurrent.happy", "unit-missing"],
  ])("asks about %s", (text, path, code) => {
    expect(issuesOf(withLimits(text)).map((one) => [one.path, one.code])).toEqual([[path, code]]);
  });
});

describe("a swell that is stated", () => {
  const withSwell = (swell: string): string => changed(EXAMPLE, "weather:\n", `weather:\n  swell: ${swell}\n`);

  it("is a height with its period, of ranges the higher and the shorter, or none", () => {
    expect(good(withSwell("0.8-1.2 m @ 9-11 s")).passage.swell).toEqual({ heightMetres: 1.2, periodSeconds: 9 });
    expect(good(withSwell("none")).passage.swell).toBe("none");
    expect(good(EXAMPLE).passage.swell).toBeUndefined();
  });

  it.each([
    ["foo", "unknown-word"],
    ["1.2 m", "unknown-word"],
    ["1.2 @ 9 s", "unit-missing"],
  ])("asks about %s", (text, code) => {
    expect(issuesOf(withSwell(text)).map((one) => [one.path, one.code])).toEqual([["weather.swell", code]]);
  });
});

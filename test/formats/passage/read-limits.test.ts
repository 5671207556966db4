import { describe, expect, it } from "vitest";
import { readPassage } from "../../../src/formats/passage/index.ts";
import { EXAMPLE } from "./example.ts";

/** The example with other limits, and more before them. */
function withLimits(limits: string, more = "") {
  const at = EXAMPLE.indexOf("\nlimits:");
  const rest = EXAMPLE.slice(at + 1).split("\n");
  const end = rest.findIndex((line, i) => i > 0 && /^\S/.test(line));
  const after = end < 0 ? "" : rest.slice(end).join("\n");
  return readPassage(`${EXAMPLE.slice(0, at)}\n${more}\nlimits:\n${limits}\n${after}`, { name: "passage.yaml" });
}
const limitsOf = (limits: string, more = "") => {
  const read = withLimits(limits, more);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value.passage.limits;
};
const codesOf = (limits: string, more = "") => {
  const read = withLimits(limits, more);
  return read.ok ? [] : read.issues.map((one) => `${one.path} ${one.code}`);
};

describe("limits as they are typed", () => {
  it.each([
    ["visibility: {happy: 5 nm, never: 1 nm}", { felt: "visibilityMetres", happy: 9260, never: 1852, during: "wholePassage" }],
    ["thunderstorms: {happy: 10 %, never: 40 %}", { felt: "thunderstormShare", happy: 0.1, never: 0.4, during: "wholePassage" }],
    ["sinceAgainst: {happy: 24 h, never: 6 h}", { felt: "sinceAgainstSeconds", happy: 86400, never: 21600, during: "once" }],
    ["underKeel: {happy: 1.5 m, never: 2 ft}", { felt: "underKeelMetres", happy: 1.5, never: 0.6096, during: "once" }],
    ["hoursAwake: {happy: 16 h, never: 24 h}", { felt: "awakeSeconds", happy: 57600, never: 86400, during: "once" }],
    ["bedtime: {happy: 2000, never: 0030}", { felt: "arrivalClockSeconds", happy: 72000, never: 88200, during: "once" }],
    ["fuelLeft: {happy: 100 L, never: 10 US gal}", { felt: "fuelLeftLitres", happy: 100, never: 37.85411784, during: "once" }],
  ])("%s", (typed, expected) => {
    const [one] = limitsOf(`  ${typed}`);
    expect(one).toMatchObject({ ...expected, happy: expect.closeTo(expected.happy, 6), never: expect.closeTo(expected.never, 6) });
  });

  it("takes a share of the usable fuel, a wind that is calm, and an entrance read by eye", () => {
    const usable = 180;
    expect(limitsOf("  fuelLeft: {happy: 50 %, never: 25 %}")[0]).toMatchObject({ happy: usable / 2, never: usable / 4 });
    const [calm] = limitsOf("  calmBefore: {wind: 10 kn, happy: 48 h, never: 12 h}");
    expect(calm).toMatchObject({ felt: "calmBeforeSeconds", calmMps: expect.closeTo(5.1444, 4) });
    const eye = limitsOf("  eyeball:\n    sunAltitude: {happy: 30 deg, never: 15 deg}\n    sunOffBow: {happy: 60 deg, never: 30 deg}");
    expect(eye.map((one) => [one.felt, one.happy, one.never, one.during])).toEqual([
      ["eyeballSunAltitudeDeg", 30, 15, "arrival"],
      ["sunOffBowDeg", 60, 30, "arrival"],
    ]);
  });

  it("refuses what stands upside down, and what goes with nothing", () => {
    expect(codesOf("  visibility: {happy: 1 nm, never: 5 nm}")).toEqual(["limits.visibility.never limit-upside-down"]);
    expect(codesOf("  hoursAwake: {happy: 24 h, never: 16 h}")).toEqual(["limits.hoursAwake.never limit-upside-down"]);
    expect(codesOf("  fuelLeft: {happy: 30 L, never: 30 L}")).toEqual(["limits.fuelLeft.never limit-without-margin"]);
    expect(codesOf("  bedtime: {happy: 2561, never: 2330}")).toEqual(["limits.bedtime.happy date-not-real"]);
    expect(codesOf("  bedtime: {happy: evening, never: 2330}")).toEqual(["limits.bedtime.happy time-not-understood"]);
    expect(codesOf("  underKeel: {happy: 1.5 m, never: 0.6 m, tolerated: 20 min}")).toEqual(["limits.underKeel.tolerated unknown-key"]);
    expect(codesOf("  wind: {happy: 14 kn, never: 22 kn}", "crew: {watchkeepers: 2, awakeAtDeparture: 4 h, inBedAt: 2200}")).toEqual([
      "crew.inBedAt key-out-of-place",
    ]);
    expect(codesOf("  wind: {happy: 14 kn, never: 22 kn}", "crew: {watchkeepers: 1.5, upAt: 0700}")).toEqual([
      "crew.watchkeepers unknown-word",
    ]);
  });
});

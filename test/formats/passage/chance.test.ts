import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { chanceErrorsOf } from "../../../src/core/plan/index.ts";
import { CHANCE_DEFAULTS } from "../../../src/core/window/index.ts";
import { editPassage } from "../../../src/formats/passage/index.ts";
import { changed, good, issuesOf } from "./fixture.ts";

const EXAMPLE = readFileSync(new URL("../../../examples/traffic-lanes/passage.yaml", import.meta.url), "utf8");
const CHANCE = `chance:                               # how far things may turn out otherwise
  seed: 7
  samples: 250
  speed: 8 %
  heading: 2.5 deg
  lateStart: 1 h 15
  currentRms: 0.6 kn
  streamTotal: 20 %
  streamPlace: 3 nm
  wind: {speed: 12 %, speedPerDay: 5 %, direction: 10 deg, directionPerDay: 4 deg}
limits:`;
const WITH = changed(EXAMPLE, "limits:", CHANCE);

describe("the chance in a passage file", () => {
  it("is read in SI, shares of one", () => {
    const { passage } = good(WITH);
    expect(passage.chance).toEqual({
      seed: 7,
      samples: 250,
      speedShare: expect.closeTo(0.08, 12),
      headingDeg: 2.5,
      latestStartSeconds: 4500,
      currentRmsMps: expect.closeTo((0.6 * 1852) / 3600, 12),
      streamTotalShare: expect.closeTo(0.2, 12),
      streamPlaceMetres: 5556,
      windSpeedShare: expect.closeTo(0.12, 12),
      windSpeedSharePerDay: expect.closeTo(0.05, 12),
      windDirectionDeg: 10,
      windDirectionDegPerDay: 4,
    });
  });

  it("may be left out, whole or in part: then the program's own figures stand", () => {
    expect(chanceErrorsOf(good(EXAMPLE).passage)).toEqual(CHANCE_DEFAULTS);
    const part = good(changed(EXAMPLE, "limits:", "chance: {heading: 5 deg, wind: {speed: 20 %}}\nlimits:")).passage;
    expect(part.chance).toEqual({ headingDeg: 5, windSpeedShare: expect.closeTo(0.2, 12) });
    expect(chanceErrorsOf(part)).toEqual({ ...CHANCE_DEFAULTS, headingDeg: 5, windSpeedShare: expect.closeTo(0.2, 12) });
  });

  it("is edited entry by entry, the rest staying letter for letter", () => {
    const edited = editPassage(good(WITH), "chance.streamTotal", "30 %");
    if (!edited.ok) throw new Error(JSON.stringify(edited.issues));
    expect(edited.value.text).toBe(changed(WITH, "streamTotal: 20 %", "streamTotal: 30 %"));
    expect(edited.value.passage.chance?.streamTotalShare).toBeCloseTo(0.3, 12);
  });

  it.each<readonly [string, string, string, string]>([
    ["seed: 7", "seed: seven", "chance.seed", "quantity-not-understood"],
    ["seed: 7", "seed: 7.5", "chance.seed", "out-of-range"],
    ["samples: 250", "samples: 5", "chance.samples", "out-of-range"],
    ["samples: 250", "samples: 100000", "chance.samples", "out-of-range"],
    ["speed: 8 %", "speed: 8", "chance.speed", "unit-missing"],
    ["speed: 8 %", "speed: 0.5 kn", "chance.speed", "unit-unknown"],
    ["speed: 8 %", "speed: 180 %", "chance.speed", "out-of-range"],
    ["speed: 8 %", "speed: -8 %", "chance.speed", "out-of-range"],
    ["heading: 2.5 deg", "heading: 90 deg", "chance.heading", "out-of-range"],
    ["lateStart: 1 h 15", "lateStart: 30 h", "chance.lateStart", "out-of-range"],
    ["currentRms: 0.6 kn", "currentRms: 20 kn", "chance.currentRms", "out-of-range"],
    ["streamPlace: 3 nm", "streamPlace: 3 kn", "chance.streamPlace", "unit-unknown"],
    ["wind: {speed: 12 %,", "wind: {sped: 12 %,", "chance.wind.sped", "unknown-key"],
    ["streamTotal: 20 %", "total: 20 %", "chance.total", "unknown-key"],
  ])("%j as %j: %s is %s", (from, to, path, code) => {
    expect(issuesOf(changed(WITH, from, to)).map((one) => [one.path, one.code])).toEqual([[path, code]]);
  });
});

import { describe, expect, it } from "vitest";
import { changed, good, issuesOf, REFERENCE_YAML } from "./fixture.ts";

const OPEN = "  openTo: [{from: 200, until: 290}]   # wind and sea come in from there\n";
const FROM_OPEN = "  neverFromOpen: {wind: 14 kn, gust: 20 kn}\n";
const kn = (knots: number) => expect.closeTo((knots * 1852) / 3600, 9);

describe("the anchorage in a passage file", () => {
  it("is read in SI, its sectors clockwise", () => {
    expect(good(REFERENCE_YAML).passage.anchorage).toMatchObject({
      name: "the pool inside Port Ansa",
      openTo: [{ fromDegTrue: 200, arcDeg: 90 }],
      neverWindMps: kn(32),
      neverGustMps: kn(40),
      neverSeaMetres: 2,
      neverOpenWindMps: kn(14),
      neverOpenGustMps: kn(20),
    });
    const across = good(changed(REFERENCE_YAML, OPEN, "  openTo: [{from: 330, until: 020}, {from: 090, until: 100}]\n")).passage.anchorage;
    expect(across?.openTo).toEqual([
      { fromDegTrue: 330, arcDeg: 50 },
      { fromDegTrue: 90, arcDeg: 10 },
    ]);
  });

  it.each<readonly [string, string, string, string]>([
    ["  name: the pool inside Port Ansa\n", "", "anchorage.name", "missing-key"],
    [OPEN, "", "anchorage.neverFromOpen", "key-out-of-place"],
    ["{from: 200, until: 290}", "{from: 200, until: 200}", "anchorage.openTo[0]", "empty-value"],
    ["{from: 200, until: 290}", "{from: 200, until: 390}", "anchorage.openTo[0].until", "out-of-range"],
    ["{from: 200, until: 290}", "{from: 200}", "anchorage.openTo[0].until", "missing-key"],
    ["{wind: 14 kn, gust: 20 kn}", "{}", "anchorage.neverFromOpen", "empty-value"],
    ["{wind: 14 kn, gust: 20 kn}", "{wind: 14}", "anchorage.neverFromOpen.wind", "unit-missing"],
    ["17 58.1S 149 00.9W", "27 58.1S 149 00.9W", "anchorage.position", "place-far-off"],
  ])("%j as %j: %s is %s", (from, to, path, code) => {
    expect(issuesOf(changed(REFERENCE_YAML, from, to)).map((one) => [one.path, one.code])).toEqual([[path, code]]);
  });

  it("must say what makes it untenable", () => {
    const bare = changed(changed(changed(REFERENCE_YAML, FROM_OPEN, ""), OPEN, ""), "  never: {wind: 32 kn, gust: 40 kn, sea: 2 m}\n", "");
    expect(issuesOf(bare).map((one) => [one.path, one.code])).toEqual([["anchorage", "missing-key"]]);
  });
});

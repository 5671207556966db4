import { describe, expect, it } from "vitest";
import { changed, good, issuesOf, REFERENCE_YAML } from "./fixture.ts";

const kn = (knots: number) => expect.closeTo((knots * 1852) / 3600, 9);
const HEIGHTS = "    heights: {lowest: 0.2 m, highest: 1.1 m}   # or `tide: Morrel Bar`, a name in `tides`\n";
const ENTRY = /anchorages:[\s\S]*?\n\n/;

describe("anchorages in a passage file", () => {
  it("are read in SI, with what the boat anchors with", () => {
    const { passage } = good(REFERENCE_YAML);
    expect(passage.anchorages).toEqual([
      {
        name: "Shoal Bay Road",
        position: { latitudeDeg: expect.closeTo(-17 - 29 / 60, 9), longitudeDeg: expect.closeTo(-149 - 50.5 / 60, 9) },
        night: "before",
        depthMetres: 4.2,
        tide: { kind: "stated", lowestMetres: 0.2, highestMetres: 1.1 },
        bottom: "sand over coral",
        rodeOutMetres: 35,
        scope: null,
        openTo: [{ fromDegTrue: 300, arcDeg: 80 }],
        fetchMetres: expect.closeTo(0.4 * 1852, 9),
        roomMetres: 60,
        toInlet: { kind: "seconds", seconds: 2400 },
        underKeelMetres: 0.8,
        wavesMetres: 0.3,
        neverWindMps: kn(28),
        neverGustMps: kn(36),
        neverSeaMetres: 0.6,
        notes: "A foul patch to the north.",
      },
    ]);
    expect(passage.boat).toMatchObject({
      beamMetres: 3.8,
      bowHeightMetres: 1.3,
      groundTackle: { chainMetres: 40, chainDiameterMetres: expect.closeTo(0.01, 12), ropeMetres: 30 },
    });
  });

  it("may state as little as a name, a place and a night; what is left out is null", () => {
    const bare = REFERENCE_YAML.replace(ENTRY, "anchorages:\n  - {name: A, position: 17 29.0S 149 50.5W, night: both}\n\n");
    expect(good(bare).passage.anchorages).toMatchObject([
      {
        name: "A",
        night: "both",
        depthMetres: null,
        tide: null,
        rodeOutMetres: null,
        scope: null,
        openTo: [],
        fetchMetres: null,
        underKeelMetres: 1,
      },
    ]);
    expect(good(REFERENCE_YAML.replace(ENTRY, "")).passage.anchorages).toEqual([]);
  });

  it("have the way to the inlet as a length too, where there is a speed to go it at", () => {
    const way = (text: string) => good(changed(REFERENCE_YAML, "toInlet: 40 min ", `toInlet: ${text} `)).passage.anchorages?.[0]?.toInlet;
    expect(way("3 nm")).toEqual({ kind: "metres", metres: 5556 });
    expect(way("1 h 10 min")).toEqual({ kind: "seconds", seconds: 4200 });
  });

  it.each<readonly [string, string, string, string]>([
    ["  - name: Shoal Bay Road\n    position", "  - position", "anchorages[0].name", "missing-key"],
    ["night: before                     #", "night: tonight #", "anchorages[0].night", "unknown-word"],
    ["depth: 4.2 m                      #", "depth: 420 m #", "anchorages[0].depth", "out-of-range"],
    [HEIGHTS, "    heights: {lowest: 1.2 m, highest: 1.1 m}\n", "anchorages[0].heights", "limit-upside-down"],
    [HEIGHTS, "    heights: {lowest: 0.2 m}\n", "anchorages[0].heights.highest", "missing-key"],
    [HEIGHTS, "    tide: Nowhere Bar\n", "anchorages[0].tide", "name-unknown"],
    ["rodeOut: 35 m ", "rodeOut: 75 m ", "anchorages[0].rodeOut", "boat-contradiction"],
    ["rodeOut: 35 m ", "rodeOut: 35 ", "anchorages[0].rodeOut", "unit-missing"],
    ["{from: 300, until: 020}", "{from: 300, until: 300}", "anchorages[0].openTo[0]", "empty-value"],
    ["toInlet: 40 min ", "toInlet: far ", "anchorages[0].toInlet", "quantity-not-understood"],
    ["never: {wind: 28 kn, gust: 36 kn, sea: 0.6 m}", "never: {}", "anchorages[0].never", "empty-value"],
    ["position: 17 29.0S 149 50.5W\n    night", "position: 27 29.0S 149 50.5W\n    night", "anchorages[0].position", "place-far-off"],
    ["room: 60 m ", "roam: 60 m ", "anchorages[0].roam", "unknown-key"],
    ["{chain: 40 m, chainDiameter: 10 mm, rope: 30 m}", "{chain: 40 m, rope: 30 m}", "boat.groundTackle", "missing-key"],
    [
      "{chain: 40 m, chainDiameter: 10 mm, rope: 30 m}",
      "{chainDiameter: 10 mm, rope: 40 m}",
      "boat.groundTackle.chainDiameter",
      "key-out-of-place",
    ],
    [
      "{chain: 40 m, chainDiameter: 10 mm, rope: 30 m}",
      "{chain: 40 m, chainDiameter: 10 cm, rope: 30 m}",
      "boat.groundTackle.chainDiameter",
      "out-of-range",
    ],
    ["{chain: 40 m, chainDiameter: 10 mm, rope: 30 m}", "{}", "boat.groundTackle", "empty-value"],
    ["bowHeight: 1.3 m ", "bowHeight: 13 m ", "boat.bowHeight", "out-of-range"],
    ["beam: 3.8 m ", "beam: 38 m ", "boat.beam", "out-of-range"],
  ])("%j as %j: %s is %s", (from, to, path, code) => {
    expect(issuesOf(changed(REFERENCE_YAML, from, to)).map((one) => [one.path, one.code])).toEqual([[path, code]]);
  });

  it("can't have both a rode and a scope, a tide without a depth, or two of one name", () => {
    const both = changed(REFERENCE_YAML, "rodeOut: 35 m ", "scope: 5\n    rodeOut: 35 m ");
    expect(issuesOf(both).map((one) => [one.path, one.code])).toEqual([["anchorages[0]", "choose-one"]]);
    const undeep = changed(REFERENCE_YAML, "    depth: 4.2 m                      # charted\n", "");
    expect(issuesOf(undeep).map((one) => [one.path, one.code])).toEqual([
      ["anchorages[0].heights", "key-out-of-place"],
      ["anchorages[0].underKeel", "key-out-of-place"],
      ["anchorages[0].waves", "key-out-of-place"],
    ]);
    const entry = "  - {name: A, position: 17 29.0S 149 50.5W, night: both}\n";
    const twice = REFERENCE_YAML.replace(ENTRY, `anchorages:\n${entry}${entry}\n`);
    expect(issuesOf(twice).map((one) => [one.path, one.code])).toEqual([["anchorages[1].name", "name-twice"]]);
  });

  it("want the boat's draught where a depth is stated, and her speed where the way is a length", () => {
    const wants = issuesOf(changed(REFERENCE_YAML, "  draught: 1.7 m\n", "")).filter((one) => one.path.startsWith("anchorages"));
    expect(wants.map((one) => [one.path, one.code])).toEqual([["anchorages[0].depth", "missing-key"]]);
    const estimated = changed(changed(REFERENCE_YAML, "speed: 5.6 kn  ", "speed: estimate  "), "toInlet: 40 min ", "toInlet: 3 nm ");
    expect(issuesOf(estimated).map((one) => [one.path, one.code])).toContainEqual(["anchorages[0].toInlet", "missing-key"]);
  });
});

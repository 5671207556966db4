import { describe, expect, it } from "vitest";
import { readPassage } from "../../../src/formats/passage/index.ts";

const HEAD = `athwart: passage/1
name: T
zones: {ship: UTC+0}
boat: {name: B, goes: power, power: {speed: 5 kn}}
route:
  from: {name: A, position: 41 00N 33 20W}
  to: {name: Z, position: 41 15N 33 06W}
weather: {sources: [{periods: [{from: 2027-05-10 0000, until: 2027-05-12 0000, wind: W 8-12}]}]}
limits: {wind: {happy: 14 kn, never: 22 kn}}
`;
const UNIFORM = "water: {sources: [{uniform: {set: 215, rate: 1 kn}}]}\n";

const PORT =
  "{name: Port, position: 41 00N 33 20W, datum: LAT, meanLevel: 2.4 m, constants: [{name: M2, amplitude: 4.5 ft, phase: 132}, {name: S2, amplitude: 0.5 m, phase: 168°}]}";
const MAIN =
  "{name: Main, position: 41 05N 33 10W, within: 2 nm, flood: 065, ebb: 240, mean: -0.2 kn, constants: [{name: M2, rate: 1.9 kn, phase: 96}]}";
const HOURS = Array.from({ length: 13 }, (_, i) => `{hour: ${i - 6}, set: ${i < 6 ? "060" : "240"}, springs: 2 kn, neaps: 1 kn}`).join(
  ", ",
);

const read = (text: string) => readPassage(HEAD + text, { name: "p" });
function passageOf(text: string) {
  const document = read(text);
  if (!document.ok) throw new Error(document.issues.map((one) => `${one.path}: ${one.message}`).join("\n"));
  return document.value.passage;
}
function issuesOf(text: string): string[] {
  const document = read(text);
  return document.ok ? [] : document.issues.map((one) => `${one.path} ${one.code}`);
}

describe("tides", () => {
  it("of constants, in SI; a station that ships is left to be filled in", () => {
    const { tides } = passageOf(`${UNIFORM}tides: [${PORT}, {name: Far, station: "noaa/9413450"}]\n`);
    expect(tides).toHaveLength(2);
    expect(tides?.[0]).toMatchObject({
      name: "Port",
      told: {
        kind: "constants",
        station: {
          id: "Port",
          datum: "LAT",
          meanLevelMetres: 2.4,
          constants: [
            { name: "M2", amplitudeMetres: 4.5 * 0.3048, phaseDeg: 132 },
            { name: "S2", amplitudeMetres: 0.5, phaseDeg: 168 },
          ],
        },
      },
    });
    expect(tides?.[1]).toEqual({ name: "Far", told: { kind: "shipped", stationId: "noaa/9413450" } });
  });

  it("of differences from another of the list, which may stand after it, or from a station that ships", () => {
    const secondary = (of: string) =>
      `{name: Cove, position: 41 02N 33 18W, datum: LAT, secondary: {of: ${of}, highWater: {later: 25 min, lower: 0.3 m}, lowWater: {earlier: 10 min, ratio: 0.9}}}`;
    const { tides } = passageOf(`${UNIFORM}tides: [${secondary("Port")}, ${PORT}]\n`);
    expect(tides?.[0]?.told).toMatchObject({
      kind: "secondary",
      station: {
        name: "Cove",
        referenceId: "Port",
        high: { laterSeconds: 1500, height: { kind: "metres", by: -0.3 } },
        low: { laterSeconds: -600, height: { kind: "ratio", by: 0.9 } },
      },
      reference: { kind: "constants" },
    });
    expect(passageOf(`${UNIFORM}tides: [${secondary("noaa/9413450")}]\n`).tides?.[0]?.told).toMatchObject({
      reference: { kind: "shipped", stationId: "noaa/9413450" },
    });
  });

  it("of differences at two heights of the reference, as at springs and neaps", () => {
    const secondary = (high: string) =>
      `tides: [${PORT}, {name: Cove, position: 41 02N 33 18W, datum: LAT, secondary: {of: Port, highWater: ${high}, lowWater: {lower: 0.1 m}}}]\n`;
    const two = "{atHeights: [{reference: 4.2 m, later: 20 min, lower: 0.4 m}, {reference: 3.1 m, earlier: 5 min, lower: 0.2 m}]}";
    expect(passageOf(UNIFORM + secondary(two)).tides?.[1]?.told).toMatchObject({
      station: {
        high: {
          laterSeconds: {
            levels: [
              { referenceHeightMetres: 4.2, value: 1200 },
              { referenceHeightMetres: 3.1, value: -300 },
            ],
          },
          height: { kind: "metres", by: { levels: [{ value: -0.4 }, { value: -0.2 }] } },
        },
        low: { laterSeconds: 0, height: { by: -0.1 } },
      },
    });
    const codes = (high: string) =>
      issuesOf(UNIFORM + secondary(high)).map((one) => one.replace(/^tides\[1\]\.secondary\.highWater\.?/, ""));
    expect(codes(two.replace("3.1", "4.2"))).toEqual(["atHeights choose-one"]);
    expect(codes(two.replace("lower: 0.2 m", "ratio: 0.9"))).toEqual(["atHeights choose-one"]);
    expect(codes(two.replace("atHeights", "later: 1 min, atHeights"))).toEqual(["later key-out-of-place"]);
    expect(codes("{atHeights: [{reference: 4.2 m, lower: 0.4 m}]}")).toEqual(["atHeights list-too-short"]);
  });

  it.each([
    ["two of one name", `[${PORT}, ${PORT}]`, ["tides[1].name name-twice"]],
    ["of nothing", "[{name: X}]", ["tides[0] choose-one"]],
    [
      "of a station and constants",
      `[{name: X, station: Y, constants: [{name: M2, amplitude: 1 m, phase: 0}], position: 41 00N 33 20W, datum: LAT, meanLevel: 1 m}]`,
      [
        "tides[0] choose-one",
        "tides[0].position key-out-of-place",
        "tides[0].datum key-out-of-place",
        "tides[0].meanLevel key-out-of-place",
      ],
    ],
    [
      "of constants without what they need",
      "[{name: X, constants: [{name: M2, amplitude: 1 m, phase: 0}]}]",
      ["tides[0] missing-key", "tides[0] missing-key", "tides[0] missing-key"],
    ],
    [
      "of constituents that aren't any",
      PORT.replace("S2", "SX9").replace(/^/, "[").concat("]"),
      ["tides[0].constants[1] tide-constituent-unknown"],
    ],
    ["of a constituent twice", `[${PORT.replace("S2", "m2")}]`, ["tides[0].constants[1] tide-constituent-repeated"]],
    ["without a unit", `[${PORT.replace("4.5 ft", "4.5")}]`, ["tides[0].constants[0].amplitude unit-missing"]],
    [
      "told from one that is itself told",
      `[${PORT}, {name: A, position: 41 00N 33 20W, datum: LAT, secondary: {of: Port, highWater: {higher: 0 m}, lowWater: {higher: 0 m}}}, {name: B, position: 41 00N 33 20W, datum: LAT, secondary: {of: A, highWater: {higher: 0 m}, lowWater: {higher: 0 m}}}]`,
      ["tides[2].secondary.of tide-reference-differs"],
    ],
    [
      "both later and earlier, higher and lower",
      `[${PORT}, {name: A, position: 41 00N 33 20W, datum: LAT, secondary: {of: Port, highWater: {later: 1 min, earlier: 1 min, higher: 0 m}, lowWater: {higher: 0 m, lower: 1 m}}}]`,
      ["tides[1].secondary.highWater choose-one", "tides[1].secondary.lowWater choose-one"],
    ],
  ])("%s", (_, tides, wanted) => {
    expect(issuesOf(`${UNIFORM}tides: ${tides}\n`).sort()).toEqual([...wanted].sort());
  });
});

describe("streams", () => {
  it("of constants, differences and a table by hours; the ebb turned about where it is left out", () => {
    const { streams } = passageOf(
      `${UNIFORM}tides: [${PORT}]
streams:
  - ${MAIN}
  - {name: Side, position: 41 06N 33 09W, flood: 050, subordinate: {of: Main, slackBeforeFlood: {earlier: 35 min}, greatestEbb: {later: 1:10}, floodRatio: 1.2, ebbRatio: 0.9}}
  - {name: Table, position: 41 07N 33 08W, flood: 060, byHours: {of: Port, springRange: 4 m, table: [${HOURS}]}}
  - {name: Round, position: 41 07N 33 08W, flood: 020, axis: 0, acrossMean: 0.1 kn, constants: [{name: M2, rate: 1 kn, phase: 10, acrossRate: 0.5 kn, acrossPhase: 100}]}
`,
    );
    expect(
      streams?.map(({ name, floodTowardDegTrue, ebbTowardDegTrue, told }) => [name, floodTowardDegTrue, ebbTowardDegTrue, told.kind]),
    ).toEqual([
      ["Main", 65, 240, "constants"],
      ["Side", 50, 230, "subordinate"],
      ["Table", 60, 240, "byHours"],
      ["Round", 20, 200, "constants"],
    ]);
    expect(streams?.[0]).toMatchObject({
      withinMetres: 3704,
      told: { across: null, along: { constants: [{ name: "M2", phaseDeg: 96 }] } },
    });
    expect(streams?.[1]).toMatchObject({
      withinMetres: null,
      told: {
        of: "Main",
        differences: {
          slackBeforeFloodLaterSeconds: -2100,
          greatestFloodLaterSeconds: 0,
          slackBeforeEbbLaterSeconds: 0,
          greatestEbbLaterSeconds: 4200,
          floodRatio: 1.2,
          ebbRatio: 0.9,
        },
      },
    });
    expect(streams?.[2]?.told).toMatchObject({ table: { of: "Port", springRangeMetres: 4, neapRangeMetres: null } });
    expect(streams?.[3]?.told).toMatchObject({ axisTowardDegTrue: 0, across: { constants: [{ phaseDeg: 100 }] } });
  });

  it.each([
    ["two of one name", `[${MAIN}, ${MAIN}]`, ["streams[1].name name-twice"]],
    ["of nothing", "[{name: X, position: 41 05N 33 10W, flood: 060}]", ["streams[0] choose-one"]],
    ["an ebb beside the flood", `[${MAIN.replace("240", "100")}]`, ["streams[0].ebb out-of-range"]],
    ["an unknown constituent", `[${MAIN.replace("M2", "MQX")}]`, ["streams[0].constants[0] tide-constituent-unknown"]],
    ["a bare number", `[${MAIN.replace("1.9 kn", "1.9")}]`, ["streams[0].constants[0].rate unit-missing"]],
    ["far from the route, as water", `[${MAIN.replace("33 10W", "53 10W")}]`, ["streams[0].position place-far-off"]],
    ["half of a component", `[${MAIN.replace("phase: 96", "phase: 96, acrossRate: 1 kn")}]`, ["streams[0].constants[0] missing-key"]],
    ["an axis of nothing", `[${MAIN.replace("mean:", "axis: 0, mean:")}]`, ["streams[0].axis key-out-of-place"]],
    [
      "a mean without constants",
      "[{name: X, position: 41 05N 33 10W, flood: 060, mean: 1 kn, subordinate: {of: Main, floodRatio: 1, ebbRatio: 1}}]",
      ["streams[0].mean key-out-of-place"],
    ],
    [
      "a reference that isn't there",
      "[{name: X, position: 41 05N 33 10W, flood: 060, subordinate: {of: Main, floodRatio: 1, ebbRatio: 1}}]",
      ["streams[0].subordinate.of stream-reference-unknown"],
    ],
    [
      "a ratio of nought",
      `[${MAIN}, {name: X, position: 41 05N 33 10W, flood: 060, subordinate: {of: Main, floodRatio: 0, ebbRatio: 1}}]`,
      ["streams[1].subordinate.floodRatio out-of-range"],
    ],
    [
      "a tide that isn't there",
      `[{name: X, position: 41 05N 33 10W, flood: 060, byHours: {of: Nowhere, table: [${HOURS}]}}]`,
      ["streams[0].byHours.of name-unknown"],
    ],
    [
      "a table too short",
      "[{name: X, position: 41 05N 33 10W, flood: 060, byHours: {of: Port, table: [{hour: 0, set: 0, springs: 1 kn, neaps: 1 kn}]}}]",
      ["streams[0].byHours.table list-too-short"],
    ],
  ])("%s", (_, streams, wanted) => {
    expect(issuesOf(`${UNIFORM}tides: [${PORT}]\nstreams: ${streams}\n`).sort()).toEqual([...wanted].sort());
  });
});

describe("streams as water, and sums", () => {
  const STREAMS = `streams: [${MAIN}]\n`;
  it("all, by name, and added to a file or a sketch", () => {
    const { waterSources } = passageOf(
      `${STREAMS}water: {sources: [{streams: [all]}, {streams: [Main]}, {sum: [{file: ocean.nc}, {streams: [all]}]}, {uniform: {set: 90, rate: 1 kn}}]}\n`,
    );
    expect(waterSources).toEqual([
      { kind: "streams", names: null },
      { kind: "streams", names: ["Main"] },
      {
        kind: "sum",
        parts: [
          { kind: "files", files: ["ocean.nc"] },
          { kind: "streams", names: null },
        ],
      },
      { kind: "uniform", setDegTrue: 90, rateMps: expect.closeTo(0.5144, 4) },
    ]);
  });

  it.each([
    ["a name that isn't there", "{streams: [Man]}", ["water.sources[0].streams[0] name-unknown"]],
    ["two kinds in one", "{streams: [all], file: a.nc}", ["water.sources[0] choose-one"]],
    ["a sum of one", "{sum: [{file: a.nc}]}", ["water.sources[0].sum list-too-short"]],
    ["a part of nothing", "{sum: [{file: a.nc}, {}]}", ["water.sources[0].sum[1] choose-one"]],
    ["a sum in a sum", "{sum: [{file: a.nc}, {sum: [{file: a.nc}, {file: b.nc}]}]}", ["water.sources[0].sum[1].sum unknown-key"]],
  ])("%s", (_, source, wanted) => {
    expect(issuesOf(`${STREAMS}water: {sources: [${source}]}\n`)).toEqual(wanted);
  });

  it("all of none", () => {
    expect(issuesOf("water: {sources: [{streams: [all]}]}\n")).toEqual(["water.sources[0].streams name-unknown"]);
  });

  it("offers the nearest name", () => {
    const document = read(`${STREAMS}water: {sources: [{streams: [Man]}]}\n`);
    expect(document.ok ? "" : document.issues[0]?.message).toContain("did you mean Main?");
  });
});

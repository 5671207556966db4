import { describe, expect, it } from "vitest";
import { EXAMPLE } from "./example.ts";
import { changed, good, issuesOf, lineOf, REFERENCE_YAML } from "./fixture.ts";

/** One thing wrong in an otherwise sound file: what is changed, and the one issue that must come of it. */
type Case = readonly [from: string, to: string, path: string, code: string];

const sketchAxis = "        axis: 215                     # bearing along which the axis runs\n";
const firstLimit = "  wind: {happy: 14 kn, never: 22 kn}";
const periodLine = "        - {from: 2027-04-08 0600, until: 2027-04-08 1200, wind: NE 12-16 G20, sea: 2-3 ft @ 9 s}";

const inVersion1: readonly Case[] = [
  // keys
  ["  draught: 1.7 m", "  drauhgt: 1.7 m", "boat.drauhgt", "unknown-key"],
  ["  draught: 1.7 m", "  __proto__: 1.7 m", "boat.__proto__", "unknown-key"],
  ["  draught: 1.7 m", "  constructor: 1.7 m", "boat.constructor", "unknown-key"],
  ["  draught: 1.7 m", '  "my draught": 1.7 m', 'boat["my draught"]', "unknown-key"],
  [firstLimit, "  fog: {happy: 3 nm, never: 1 nm}", "limits.fog", "unknown-key"],
  [firstLimit, "  wind: {happy: 14 kn, never: 22 kn, toleratedMinutes: 20}", "limits.wind.toleratedMinutes", "unknown-key"],
  ["  name: Tansy\n", "", "boat.name", "missing-key"],
  ["  goes: power ", "  # goes: power ", "boat.goes", "missing-key"],
  [sketchAxis, "", "water.sources[1].sketch.axis", "missing-key"],
  [firstLimit, "  wind: {happy: 14 kn}", "limits.wind.never", "missing-key"],
  ["  draught: 1.7 m", "  draught:", "boat.draught", "empty-value"],
  ["  draught: 1.7 m", "  draught: null", "boat.draught", "empty-value"],
  ["name: Pelu Road to Port Ansa", 'name: "  "', "name", "empty-value"],
  ["    - file: current.nc", '    - file: ""', "water.sources[0].file", "empty-value"],
  ["  draught: 1.7 m", "  draught: [1.7 m]", "boat.draught", "wrong-shape"],
  ["  draught: 1.7 m", "  draught: {loaded: 1.7 m}", "boat.draught", "wrong-shape"],
  [firstLimit, "  wind: 14 kn to 22 kn", "limits.wind", "wrong-shape"],
  ["  goes: power ", "  goes: Powr ", "boat.goes", "unknown-word"],
  ["invented: true", "invented: maybe", "invented", "unknown-word"],
  ["whereUnknown: refuse", "whereUnknown: refues", "water.whereUnknown", "unknown-word"],
  ["whereUnknown: refuse", "whereUnknown: nearest within 5", "water.whereUnknown", "unit-missing"],
  ["      # strikeOut: [7, 9]", "      strikeOut: [7, 0]", "weather.sources[1].strikeOut[1]", "unknown-word"],
  ["    - file: wind.grib2", "    - {file: wind.grib2, zone: UTC}", "weather.sources[0].zone", "key-out-of-place"],
  ["    - file: current.nc", "    - {file: current.nc, uniform: {set: 215, rate: 1 kn}}", "water.sources[0]", "choose-one"],
  ["    - file: current.nc", "    - {}", "water.sources[0]", "choose-one"],
  [periodLine, "        - {from: 2027-04-08 0600, until: 2027-04-08 1200}", "weather.sources[2].periods[0]", "choose-one"],
  // quantities, by the units' own parsers
  ["  draught: 1.7 m", "  draught: 1.7", "boat.draught", "unit-missing"],
  ["  draught: 1.7 m", "  draught: -1.7 m", "boat.draught", "out-of-range"],
  ["  draught: 1.7 m", "  draught: 1,7 m", "boat.draught", "comma-in-number"],
  ["  draught: 1.7 m", "  draught: 1.7 kn", "boat.draught", "unit-unknown"],
  ["  draught: 1.7 m", "  draught: .inf", "boat.draught", "quantity-not-understood"],
  ["  draught: 1.7 m", "  draught: 17 m", "boat.draught", "boat-out-of-range"],
  ["  lengthOverall: 11.6 m", "  lengthOverall: 8 m", "boat.waterlineLength", "boat-contradiction"],
  ["usableFuel: 180 L", "usableFuel: 48 gal", "boat.power.usableFuel", "bare-gallon"],
  ["headwindLoss: 4 %", "headwindLoss: 104 %", "boat.power.headwindLoss", "out-of-range"],
  ["deviation: 1 E", "deviation: 1", "boat.compass.deviation[0].deviation", "sense-missing"],
  ["heading: 90,", "heading: 400,", "boat.compass.deviation[1].heading", "out-of-range"],
  ["heading: 90,", "heading: 180,", "boat.compass.deviation", "deviation-heading-repeated"],
  ["17 57.0S 149 02.1W", "17 57.0 149 02.1", "route.to.position", "hemisphere-missing"],
  ["points: [17 58.1S 149 00.0W]", "points: [17 58.1S 149 71.0W]", "route.pilotageIn.points[0]", "out-of-range"],
  ["wind: NE 12-16 G20", "wind: NE 16-12", "weather.sources[2].periods[0].wind", "range-upside-down"],
  ["sea: 2-3 ft @ 9 s", "sea: 2-3 @ 9 s", "weather.sources[2].periods[0].sea", "unit-missing"],
  ["gustFactor: 1.3", "gustFactor: 0.8", "weather.gustFactor", "out-of-range"],
  ["rate: 3.2 kn", "rate: 32 kn", "water.sources[1].sketch.section[1].rate", "out-of-range"],
  ["  ship: UTC-10 ", "  ship: EST ", "zones.ship", "zone-unknown"],
  ["2027-04-07 0700", "2027-04-07", "leave.from", "time-missing"],
  ["2027-04-07 0700", "04/07/2027 0700", "leave.from", "date-ambiguous"],
  ["2027-04-07 0700", "2027-02-30 0700", "leave.from", "date-not-real"],
  // what does not fit together
  ["17 57.0S 149 02.1W}\n", "17 32.4S 149 50.15W}\n", "route.to.position", "same-place"],
  ["17 57.0S 149 02.1W}\n", "17 57.0S 149 02.1E}\n", "route.to.position", "route-too-long"],
  ["points: [17 31.0S 149 51.0W]", "points: [17 31.0N 149 51.0W]", "route.pilotageOut.points[0]", "place-far-off"],
  ["points: [17 31.0S 149 51.0W]", "points: [17 31.0S 149 51.0W, 17 32.4S 149 50.2W]", "route.pilotageOut.points[1]", "point-repeated"],
  ["points: [17 58.1S 149 00.0W]", "points: [17 57.0S 149 02.1W, 17 58.1S 149 00.0W]", "route.pilotageIn.points[0]", "point-repeated"],
  ["points: [17 58.1S 149 00.0W]", "points: [17 58.1S 149 00.0W, 17 58.1S 149 00.0W]", "route.pilotageIn.points[1]", "point-repeated"],
  ["points: [17 58.1S 149 00.0W]", "points: []", "route.pilotageIn.points", "list-too-short"],
  ["        at: 17 45S 149 30W", "        at: 17 45S 149 30E", "water.sources[1].sketch.at", "place-far-off"],
  ["across: 0 nm", "across: 20 nm", "water.sources[1].sketch.section[2].across", "section-not-ascending"],
  ["        until: 2027-04-12 0000", "        until: 2027-04-05 0000", "water.sources[1].sketch.until", "times-upside-down"],
  ["until: 2027-04-08 1200", "until: 2027-04-08 0600", "weather.sources[2].periods[0].until", "times-upside-down"],
  ["  until: 2027-04-12 1200", "  until: 2027-04-06 1200", "leave.until", "times-upside-down"],
  ["  until: 2027-04-12 1200", "  until: 2028-04-12 1200", "leave.until", "leave-too-long"],
  [
    periodLine,
    `${periodLine}\n        - {from: 2027-04-08 1100, until: 2027-04-08 1800, wind: E 10}`,
    "weather.sources[2].periods[1].from",
    "periods-overlap",
  ],
  [firstLimit, "  wind: {happy: 14 kn, never: 14 kn}", "limits.wind.never", "limit-without-margin"],
  [firstLimit, "  wind: {happy: 22 kn, never: 14 kn}", "limits.wind.never", "limit-upside-down"],
  ["seaPeriod: {happy: 7 s, never: 4 s}", "seaPeriod: {happy: 4 s, never: 7 s}", "limits.seaPeriod.never", "limit-upside-down"],
  ["  goes: power ", "  goes: sail ", "boat.sail", "boat-incomplete"],
  ["    speed: 5.6 kn ", "    speed: estimated ", "boat.power.speed", "quantity-not-understood"],
  // the head
  ["athwart: passage/1\n", "", "athwart", "not-a-passage"],
  ["athwart: passage/1", "athwart: passage/one", "athwart", "not-a-passage"],
  ["athwart: passage/1", "athwart: log/1", "athwart", "not-a-passage"],
  ["athwart: passage/1", "athwart: passage/2", "athwart", "passage-too-new"],
];

describe("one thing wrong", () => {
  it("stands on a sound file", () => {
    expect(issuesOf(EXAMPLE)).toEqual([]);
  });

  for (const [from, to, path, code] of inVersion1) {
    it(`${path}: ${code} (${to.trim().slice(0, 60)})`, () => {
      const issues = issuesOf(changed(EXAMPLE, from, to));
      expect(issues.map((one) => [one.path, one.code])).toEqual([[path, code]]);
      expect(issues[0]?.message).toMatch(/^line \d+: /);
      expect(issues[0]?.whatToDo).not.toBe("");
    });
  }

  const inReference: readonly Case[] = [
    [
      "{trueWindAngle: 52 deg, trueWindSpeed: 16 kn, speed: 6.2 kn}",
      "{trueWindAngle: 53 deg, trueWindSpeed: 16 kn, speed: 6.2 kn}",
      "boat.sail.rows",
      "sail-table-hole",
    ],
    [
      "{trueWindAngle: 52 deg, trueWindSpeed: 16 kn, speed: 6.2 kn}",
      "{trueWindAngle: 52 deg, trueWindSpeed: 16 kn, speed: 62 kn}",
      "boat.sail.rows[3].speed",
      "sail-table-speed",
    ],
    ["    leeway: {", "    table: tansy.txt\n    leeway: {", "boat.sail", "choose-one"],
    [
      "engineRule: {onBelow: 3.5 kn, offAbove: 4.5 kn}",
      "engineRule: {onBelow: 4.5 kn, offAbove: 3.5 kn}",
      "boat.engineRule.offAbove",
      "boat-contradiction",
    ],
    ["{exponent: 2,", "{exponent: 7,", "boat.motorSail.exponent", "boat-out-of-range"],
    ["variation: 12 E", "variation: 12", "boat.compass.variation", "sense-missing"],
    ["issued: 2027-04-06 1910", "issued: yesterday", "weather.sources[1].issued", "time-not-understood"],
    ["      zone: UTC-10", "      zone: HST", "weather.sources[1].zone", "zone-unknown"],
    ["tolerated: 20 min", "tolerated: 20", "limits.wind.tolerated", "unit-missing"],
    ["tolerated: 20 min", "tolerated: 20 h", "limits.wind.tolerated", "out-of-range"],
  ];
  for (const [from, to, path, code] of inReference) {
    it(`${path}: ${code}`, () => {
      const issues = issuesOf(changed(REFERENCE_YAML, from, to));
      expect(new Set(issues.map((one) => `${one.path} ${one.code}`))).toEqual(new Set([`${path} ${code}`]));
    });
  }
});

describe("messages", () => {
  const message = (from: string, to: string) => issuesOf(changed(EXAMPLE, from, to))[0];

  it("name the line", () => {
    expect(message("  draught: 1.7 m", "  draught: 1.7")?.message).toMatch(
      new RegExp(`^line ${lineOf(EXAMPLE, "  draught")}: “1.7” has no unit`),
    );
    expect(message("rate: 3.2 kn", "rate: 3.2")?.message).toMatch(new RegExp(`^line ${lineOf(EXAMPLE, "rate: 3.2 kn")}: `));
    const crlf = changed(EXAMPLE, "  draught: 1.7 m", "  draught: 1.7").replaceAll("\n", "\r\n");
    expect(issuesOf(crlf)[0]?.message).toMatch(new RegExp(`^line ${lineOf(EXAMPLE, "  draught")}: `));
  });

  it("name the nearest right key, also for other words of the trade, or where the key belongs", () => {
    expect(message("  draught: 1.7 m", "  drauhgt: 1.7 m")?.message).toContain("did you mean `draught`?");
    expect(message("  draught: 1.7 m", "  draft: 1.7 m")?.message).toContain("did you mean `draught`?");
    expect(message("  draught: 1.7 m", "  Draught: 1.7 m")?.message).toContain("did you mean `draught`?");
    expect(message("  airDraught: 16.5 m", "  air-draught: 16.5 m")?.message).toContain("did you mean `airDraught`?");
    expect(message("  draught: 1.7 m", "  usableFuel: 180 L")?.message).toContain("belongs at `boat.power.usableFuel`");
    expect(message("  draught: 1.7 m", "  colour: red")?.message).toContain("it takes name, lengthOverall");
    expect(message("  draught: 1.7 m", "  draft: 1.7 m")?.whatToDo).toBe("Write `draught`, or strike the key out.");
  });

  it("say what a missing key is for", () => {
    expect(message("  goes: power ", "  # goes: power ")?.message).toContain("`boat` lacks the key `goes`: how the crossing is made");
  });

  it("know a comma that broke a value in braces", () => {
    const issues = issuesOf(changed(EXAMPLE, "position: 17 57.0S 149 02.1W}", "position: 17 57.0S, 149 02.1W}"));
    expect(issues.find((one) => one.code === "unknown-key")).toMatchObject({ whatToDo: expect.stringContaining("quotes") });
  });
});

describe("several things wrong", () => {
  it("come all at once, in the order of the file, and one fault has one issue", () => {
    const text = [
      ["name: Pelu Road to Port Ansa\n", ""],
      ["  draught: 1.7 m", "  drauhgt: 1,7 m"],
      ["    speed: 5.6 kn ", "    speed: 5.6 "],
      ["heading: 90,", "heading: ninety,"],
      ["17 57.0S 149 02.1W", "17 57.0S"],
      ["rate: 3.2 kn", "rate: fast"],
      ["wind: NE 12-16 G20", "wind: NE"],
      [firstLimit, "  wind: {happy: 22 kn, never: 14 kn}"],
      ["  until: 2027-04-12 1200", "  until: then"],
    ].reduce((before, [from, to]) => changed(before, from ?? "", to ?? ""), EXAMPLE);
    expect(issuesOf(text).map((one) => one.path)).toEqual([
      "name",
      "boat.drauhgt",
      "boat.power.speed",
      "boat.compass.deviation[1].heading",
      "route.to.position",
      "water.sources[1].sketch.section[1].rate",
      "weather.sources[2].periods[0].wind",
      "limits.wind.never",
      "leave.until",
    ]);
  });

  it("a file of another program is told once, not key by key", () => {
    expect(issuesOf("version: 3\nservices:\n  web: {image: x}\n").map((one) => one.code)).toEqual(["not-a-passage"]);
  });

  it("sources and limits may not be empty", () => {
    const text = REFERENCE_YAML.replace(/water:[\s\S]*?weather:/, "water: {sources: []}\n\nweather:").replace(
      /limits:[\s\S]*?leave:/,
      "limits: {}\n\nleave:",
    );
    expect(issuesOf(text).map((one) => [one.path, one.code])).toEqual([
      ["water.sources", "list-too-short"],
      ["limits", "no-limits"],
    ]);
  });
});

describe("a speed that is to be estimated", () => {
  it("names the waterline that it needs", () => {
    const text = EXAMPLE.replace("    speed: 5.6 kn ", "    speed: estimate ").replace(/ {2}waterlineLength:.*\n/, "");
    expect(issuesOf(text).map((one) => [one.path, one.code])).toEqual([["boat.power.speed", "boat-speed-unknown"]]);
    expect(issuesOf(text)[0]!.message).toContain("needs `boat.waterlineLength`");
  });
});

describe("a time without a zone", () => {
  it("is told once where the file names no ship's time, with the key and how many times want it", () => {
    const text = EXAMPLE.replace(/zones:\n {2}ship:.*\n/, "zones:\n");
    const issues = issuesOf(text);
    expect(issues.map((one) => [one.path, one.code])).toEqual([["zones.ship", "zone-missing"]]);
    expect(issues[0]!.message).toContain("and 5 other times name no zone");
    expect(issues[0]!.whatToDo).toContain("zones: {ship: UTC-10}");
    expect(issuesOf(text.replace(/(2027-04-\d\d \d{4})/g, "$1 UTC-10").replace("0700 UTC-10", "0700"))[0]!.message).toContain(
      "the time at `leave.from` names no zone",
    );
  });

  it("is none where every time names its zone", () => {
    const text = EXAMPLE.replace(/zones:\n {2}ship:.*\n/, "zones:\n").replace(/(2027-04-\d\d \d{4})/g, "$1 UTC-10");
    expect(good(text).passage).toEqual({ ...good(EXAMPLE).passage, shipZone: "UTC" });
  });

  it("is not told again where ship's time itself is wrong", () => {
    expect(issuesOf(changed(EXAMPLE, "  ship: UTC-10 ", "  ship: Pacific/Atlantis ")).map((one) => one.path)).toEqual(["zones.ship"]);
  });
});

import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const sum = (speed: string, set: string, rate: string): string[] => ["--speed", speed, "--set", set, "--rate", rate];

describe("steer", () => {
  // Source: "Answers to Practice Chart" (a sailing school's answer sheet), plotted by hand: ±3° and ±0.1 kn.
  it.each([
    ["090", "5 kn", "210", "2 kn", 70, 3.7],
    ["045", "6.55 kn", "135", "2 kn", 25, 6.2],
    ["235", "6.2 kn", "315", "3.5 kn", 200, 5.8],
  ])("to make good %s at %s in a current %s at %s", async (track, speed, set, rate, heading, made) => {
    const answer = await runJson("steer", "--track", track, ...sum(speed, set, rate));
    expect(Math.abs(Number(answer["headingDegTrue"]) - heading)).toBeLessThan(3);
    expect(Math.abs(Number(answer["speedMadeGoodKn"]) - made)).toBeLessThan(0.1);
    expect(answer["headingDegCompass"]).toBeNull();
  });

  // Bowditch, "The American Practical Navigator", dead reckoning, current sailing, example 1 (from memory), recomputed by hand.
  it("the other way about: heading 080 at 10 kn in 140 at 2 kn makes good 089 at 11.1 kn", async () => {
    const answer = await runJson("steer", "--heading", "080", ...sum("10 kn", "140", "2 kn"));
    expect(answer["courseMadeGoodDegTrue"]).toBeCloseTo(88.95, 2);
    expect(answer["speedMadeGoodKn"]).toBeCloseTo(11.136, 3);
    const { out } = await run("steer", "--heading", "080", ...sum("10 kn", "140", "2 kn"));
    expect(out).toMatch(/^Steering 080 true: 089 true is made good at 11\.1 kn/);
  });

  // Common practice, "C = T + W": westerly is added from true to compass. 070 true, 10 W, 4 W is 084 by compass.
  it("goes from true to compass and back", async () => {
    const still = sum("5 kn", "000", "0");
    const out = await runJson("steer", "--track", "070", ...still, "--variation", "10W", "--deviation", "4W");
    expect(out).toMatchObject({ headingDegTrue: 70, headingDegMag: 80, headingDegCompass: 84, variationFrom: "typed", deviationDeg: -4 });
    const back = await runJson("steer", "--heading", "084 C", ...still, "--variation", "10W", "--deviation", "4W");
    expect(back).toMatchObject({ headingDegTrue: 70, courseMadeGoodDegTrue: 70 });
    const magnetic = await runJson("steer", "--heading", "080 M", ...still, "--variation", "10W");
    expect(magnetic).toMatchObject({ headingDegTrue: 70, headingDegMag: 80 });
  });

  it("tells the time a distance takes at the speed made good", async () => {
    const answer = await runJson("steer", "--track", "000", ...sum("6 kn", "000", "3 kn"), "--distance", "45 nm");
    expect(answer).toMatchObject({ speedMadeGoodKn: 9, distanceNm: 45, durationSeconds: 5 * 3600 });
    expect((await run("steer", "--track", "000", ...sum("6 kn", "000", "3 kn"), "--distance", "45 nm")).out.replace(/\s+/g, " ")).toContain(
      "45.0 nm in 5 h 00",
    );
  });

  it.each([
    ["across", "180", "Across the track the current runs at 3.0 kn"],
    ["ahead", "270", "Along the track the current runs at 3.0 kn against the boat"],
  ])("a current stronger than the boat, %s: the track can't be held, exit 1", async (_, set, words) => {
    const { code, out } = await run("steer", "--track", "090", ...sum("2 kn", set, "3 kn"));
    expect(code).toBe(1);
    expect(out).toMatch(/^The track can't be held/);
    expect(out.replace(/\s+/g, " ")).toContain(words);
    expect(await runJson("steer", "--track", "090", ...sum("2 kn", set, "3 kn"))).toMatchObject({
      held: false,
      headingDegTrue: null,
      speedMadeGoodKn: null,
      why: { code: "cannot-hold" },
    });
  });

  it("outside the years of the model headings are true, and it says why", async () => {
    const words = ["steer", "--track", "090", ...sum("6 kn", "210", "2 kn"), "--near", "33S 118W", "--at", "2031-01-01 0000 UTC"];
    const { code, out } = await run(...words);
    expect(code).toBe(0);
    expect(out).toMatch(/^Steer 073 true/);
    expect(out.replace(/\s+/g, " ")).toContain("Headings are true: The magnetic model does not hold in this year");
  });

  it.each([
    ["a speed without its unit", ["--track", "090", ...sum("6", "210", "2 kn")], "unit-missing"],
    ["a magnetic track", ["--track", "090 M", ...sum("6 kn", "210", "2 kn")], "bearing-other-north"],
    ["both ways about", ["--track", "090", "--heading", "080", ...sum("6 kn", "210", "2 kn")], "options-clash"],
    ["neither", sum("6 kn", "210", "2 kn"), "argument-missing"],
    ["a compass heading without a variation", ["--heading", "080 C", ...sum("6 kn", "210", "2 kn")], "argument-missing"],
    ["a variation without its side", ["--track", "090", ...sum("6 kn", "210", "2 kn"), "--variation", "10"], "sense-missing"],
    ["a place without a time", ["--track", "090", ...sum("6 kn", "210", "2 kn"), "--near", "33S 118W"], "argument-missing"],
    [
      "a time without a zone",
      ["--track", "090", ...sum("6 kn", "210", "2 kn"), "--near", "33S 118W", "--at", "2027-04-08 0600"],
      "zone-missing",
    ],
    ["a deviation alone", ["--track", "090", ...sum("6 kn", "210", "2 kn"), "--deviation", "2E"], "argument-missing"],
    ["a boat that lies still", ["--track", "090", ...sum("0 kn", "210", "2 kn")], "out-of-range"],
    ["a distance in miles of two kinds", ["--track", "090", ...sum("6 kn", "210", "2 kn"), "--distance", "45 miles"], "unit-doubtful"],
  ])("asks about %s, exit 2", async (_, words, code) => {
    const outcome = await run("steer", ...words);
    expect(outcome).toMatchObject({ code: 2, out: "" });
    expect(outcome.err).toContain(`(${code})`);
  });

  it("tells everything that is wrong at once", async () => {
    const { err } = await run("steer", "--track", "400", "--speed", "6", "--set", "x");
    expect(err).toMatch(/^4 things stand in the way/);
  });
});

describe("sky", () => {
  const place = "22 25.3N 75 15.3E";

  // Source: an almanac exercise for 16 January 2019, 22°25.3'N 75°15.3'E, zone −5 (UTC+5): civil twilight 06:17, sunrise 06:41.
  it("agrees with an almanac exercise to the minute", async () => {
    const { code, out } = await run("sky", "--near", place, "--on", "2019-01-16", "--zone", "UTC+5");
    expect(code).toBe(0);
    expect(out).toMatch(/civil twilight +06:17 UTC\+5/);
    expect(out).toMatch(/\n {2}sun +06:41 UTC\+5/);
  });

  it("takes place, zone and day from a passage, and each may be typed", async () => {
    const demo = await runJson("sky", "--demo");
    expect(demo).toMatchObject({ date: "2027-04-06", zone: "UTC-8", place: { name: "the fairway buoy off Port Ansa" } });
    const typed = await runJson("sky", "--demo", "--on", "2027-04-13", "--zone", "UTC", "--near", "10N 20W");
    expect(typed).toMatchObject({ date: "2027-04-13", zone: "UTC", place: { name: null, latitudeDeg: 10, longitudeDeg: -20 } });
  });

  it("takes the first departure that the forecasts cover where the passage names none", async () => {
    const folder = await mkdtemp(join(tmpdir(), "athwart-sky-"));
    await cp("demo/morrel", folder, { recursive: true });
    const path = join(folder, "passage.yaml");
    await writeFile(path, (await readFile(path, "utf8")).replace(/^leave:\n(?: .*\n?)+/m, ""));
    // The demo's forecast and current begin on Tue 6 Apr 2027 at 04:00 UTC-8.
    expect(await runJson("sky", path)).toMatchObject({ date: "2027-04-06", zone: "UTC-8" });
    await rm(join(folder, "wind.grib2"));
    const { code, err } = await run("sky", path, "--zone", "UTC-8");
    expect(code).toBe(2);
    expect(err).toContain("--on was not typed");
    await rm(folder, { recursive: true });
  });

  it("tells midnight sun and polar night as such", async () => {
    const arctic = ["--near", "69 39N 018 57E", "--zone", "Europe/Oslo"];
    expect((await run("sky", ...arctic, "--on", "2027-06-21")).out).toContain("the sun does not set");
    expect((await run("sky", ...arctic, "--on", "2027-12-21")).out).toContain("the sun does not rise");
    expect(at(await runJson("sky", ...arctic, "--on", "2027-06-21"), "sun", "kind")).toBe("aboveThroughout");
    expect(at(await runJson("sky", ...arctic, "--on", "2027-12-21"), "sun", "kind")).toBe("belowThroughout");
  });

  it("a day on which the clocks change is as long as it is, and each time has its own offset", async () => {
    const words = ["--near", "50 45N 001 20W", "--on", "2027-03-28", "--zone", "Europe/London"];
    const answer = await runJson("sky", ...words);
    expect(answer).toMatchObject({ from: "2027-03-28T00:00Z", until: "2027-03-28T23:00Z" });
    expect((await run("sky", ...words)).out).toMatch(/sun +\d\d:\d\d UTC\+1/);
  });

  it.each([
    [["--near", place, "--on", "2027-04-08"], "argument-missing", "--zone"],
    [["--near", place, "--zone", "UTC-8"], "argument-missing", "--on"],
    [["--near", "33 48.7 118 02.2", "--on", "2027-04-08", "--zone", "UTC"], "hemisphere-missing", "--near"],
    [["--near", place, "--on", "2027-02-30", "--zone", "UTC"], "date-not-real", "--on"],
    [["--near", place, "--on", "2027-04-08", "--zone", "EST"], "zone-unknown", "--zone"],
    [["no-such-file.yaml"], "file-not-opened", "no-such-file.yaml"],
  ])("asks about %j", async (words, code, where) => {
    const outcome = await run("sky", ...words);
    expect(outcome).toMatchObject({ code: 2, out: "" });
    expect(outcome.err).toContain(`(${code})`);
    expect(outcome.err).toContain(where);
  });
});

describe("variation", () => {
  // Source: World Magnetic Model 2025, test values of NCEI and BGS: 2027.5 at 80 N 0 E, at sea level.
  it("agrees with the model's own test value", async () => {
    const answer = await runJson("variation", "--near", "80N 0E", "--at", "2027-07-02");
    expect(Math.abs(Number(answer["variationDeg"]) - 2.59)).toBeLessThan(0.02);
  });

  it("is refused outside the model's years, with the reason and the years, exit 1", async () => {
    for (const date of ["2024-12-31", "2030-01-01"]) {
      const { code, out } = await run("variation", "--near", "33S 118W", "--at", date);
      expect(code).toBe(1);
      const plain = out.replace(/\s+/g, " ");
      expect(plain).toContain("The magnetic model does not hold in this year");
      expect(plain).toContain("from Wed 1 Jan 2025, 00:00 UTC to Tue 1 Jan 2030, 00:00 UTC");
    }
    for (const date of ["2025-01-01", "2029-12-31"]) expect((await run("variation", "--near", "33S 118W", "--at", date)).code).toBe(0);
  });

  it("warns where the field is weak, and refuses where it is too weak to steer by", async () => {
    const caution = await run("variation", "--near", "76N 110W", "--at", "2027-04-08");
    expect(caution.code).toBe(0);
    expect(caution.out.replace(/\s+/g, " ")).toContain("with caution");
    const black = await runJson("variation", "--near", "86N 150E", "--at", "2027-04-08");
    expect(black).toMatchObject({ variationDeg: null, why: { code: "variation-field-weak" } });
  });

  it("asks for a zone with a time", async () => {
    const { code, err } = await run("variation", "--near", "33S 118W", "--at", "2027-04-08 0600");
    expect(code).toBe(2);
    expect(err).toContain("(zone-missing)");
    expect(err.replace(/\s+/g, " ")).toContain("a date alone is taken at 12:00 UTC");
  });

  it.each(["2027", "2027-04"])("asks %s for its day, not for a zone", async (text) => {
    const { code, err } = await run("variation", "--near", "33S 118W", "--at", text);
    expect(code).toBe(2);
    const plain = err.replace(/\s+/g, " ");
    expect(plain).toContain("names no day");
    expect(plain).not.toContain("zone");
    expect(plain).toContain("Write the whole date, as 2027-04-08; a date alone is taken at 12:00 UTC.");
  });
});

import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const PASSAGE = "examples/tidal-streams/passage.yaml";
const tide = (...words: readonly string[]) => run("tide", PASSAGE, ...words);
const plain = (text: string): string => text.replace(/\s+/g, " ");

describe("tide PASSAGE --stream", () => {
  it("tells slacks and greatest rates in ship's time, the set of each, when it is slack, and every hour", async () => {
    const { code, out, err } = await tide("--stream", "Middle Deep", "--on", "2027-05-10");
    expect([code, err]).toEqual([0, ""]);
    expect(plain(out)).toMatch(/^Monday 10 May 2027, Middle Deep, .* from its harmonic constants: flood 065°, ebb 240°, degrees true\./);
    const turns = out.split("\n").filter((line) => /^ {2}\d\d:\d\d UTC +(?:slack|greatest)/.test(line));
    expect(turns.map((line) => line.slice(17).trim().replace(/ {2,}/g, " "))).toEqual([
      "slack before flood",
      "greatest flood 065° 2.1 kn",
      "slack before ebb",
      "greatest ebb 240° 2.6 kn",
      "slack before flood",
      "greatest flood 065° 2.4 kn",
      "slack before ebb",
    ]);
    expect(out.split("\n").filter((line) => /^ {2}\d\d:\d\d {2}(?:\d{3}°| -- ) {2}\d+\.\d kn$/.test(line))).toHaveLength(25);
    expect(plain(out)).toContain("0.5 kn or less: ");
    expect(plain(out)).toContain("which is not the time of high or low water");
    expect(plain(out)).toContain("not for navigation");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("is in the zone that is asked for, the day of that zone", async () => {
    const answer = await runJson("tide", PASSAGE, "--stream", "Middle Deep", "--on", "2027-05-10", "--zone", "UTC+8");
    expect(answer["from"]).toBe("2027-05-09T16:00Z");
    expect(at(answer, "hours", 0, "at")).toBe("2027-05-09T16:00Z");
    expect(answer["hasSlack"]).toBe(true);
  });

  it("says where a table is run beyond springs", async () => {
    const { out } = await tide("--stream", "off Sallow Head", "--on", "2027-05-10");
    expect(plain(out)).toContain("by its table of hours from high water at Sallow Harbour");
    expect(plain(out)).toMatch(
      /the range at Sallow Harbour is beyond springs from Sun 9 May 2027, .* at the most 4\.1 m where the table goes to 3\.9 m/,
    );
  });

  it("tells a tide of the passage as it tells a station's", async () => {
    const { code, out } = await tide("--tide", "Sallow Harbour", "--on", "2027-05-10");
    expect(code).toBe(0);
    expect(out.split("\n").filter((line) => / (high|low) water /.test(line))).toHaveLength(4);
    expect(plain(out)).toContain("Heights above LAT, lowest astronomical tide.");
    expect(plain(out)).toContain("Constants: as stated in the passage file.");
  });

  it.each([
    ["no name", ["--on", "2027-05-10"], "argument-missing"],
    ["both", ["--tide", "x", "--stream", "y", "--on", "2027-05-10"], "options-clash"],
    ["a station beside it", ["--stream", "Middle Deep", "--near", "41N 33W", "--on", "2027-05-10"], "options-clash"],
    ["no day", ["--stream", "Middle Deep"], "argument-missing"],
    ["another name, with the one that is meant", ["--stream", "Midle Deep", "--on", "2027-05-10"], "name-unknown"],
  ])("%s is bad input", async (_, words, code) => {
    const outcome = await tide(...words, "--json");
    expect(outcome.code).toBe(2);
    expect(outcome.out).toContain(`"${code}"`);
    if (code === "name-unknown") expect(outcome.out).toContain("did you mean Middle Deep?");
  });

  it("without a passage it asks for one", async () => {
    const outcome = await run("tide", "--stream", "x", "--on", "2027-05-10", "--json");
    expect([outcome.code, outcome.out.includes('"PASSAGE"')]).toEqual([2, true]);
  });
});

describe("leave and inspect with tidal streams", () => {
  it("run through them, and say what they rest on", async () => {
    const leave = await run("leave", PASSAGE);
    expect(leave.code).toBe(0);
    expect(plain(leave.out)).toContain("Water: tidal streams: Middle Deep, off Wether Point, off Sallow Head, reckoned for any time");
    expect(plain(leave.out)).toContain(
      "Each tidal stream is taken to run alike all around its station, as the passage file says: Middle Deep within 6.0 nm",
    );
    const inspect = await runJson("inspect", PASSAGE);
    expect(at(inspect, "files", 0, "passage", "sources", "streams", 1)).toMatchObject({
      name: "off Wether Point",
      told: "subordinate",
      of: "Middle Deep",
      withinNm: 5,
    });
    expect(at(inspect, "files", 0, "passage", "sources", "heldAgainst")).toEqual([]);
  });
});

import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { at, DEMO, run, runJson } from "./run.ts";

const list = (value: unknown): readonly unknown[] => {
  if (!Array.isArray(value)) throw new Error(`no list: ${JSON.stringify(value)}`);
  return value;
};

describe("inspect", () => {
  it("tells a forecast's kind, issue, area, times, members, units and what each field is used for", async () => {
    const { code, out } = await run("inspect", `${DEMO}/wind.grib2`);
    expect(code).toBe(0);
    const plain = out.replace(/\s+/g, " ");
    expect(plain).toContain("GRIB edition 2, 640 kB. Issued Tue 6 Apr 2027, 12:00 UTC.");
    expect(plain).toContain("34°45.0'S to 32°15.0'S, 120°00.0'W to 117°00.0'W, 13 × 11 points");
    expect(plain).toContain("65 steps at most 3 h 00 apart; 10 members");
    expect(plain).toContain("u-component of wind (m/s, 10 m above ground); used as wind, east part");
  });

  it("gives times in the passage's zone when held against one, else in UTC", async () => {
    expect((await run("inspect", `${DEMO}/current.nc`)).out).toContain("12:00 UTC.");
    expect((await run("inspect", `${DEMO}/current.nc`, "--demo")).out).toContain("04:00 UTC-8.");
  });

  it("the demo's files serve its passage whole, and nothing is missing", async () => {
    const answer = await runJson("inspect", `${DEMO}/wind.grib2`, `${DEMO}/current.nc`, `${DEMO}/letter.txt`, "--demo");
    for (let i = 0; i < 3; i++) expect(at(answer, "files", i, "serves", "verdict")).toBe("serves");
    expect(at(answer, "for", "missing")).toEqual([]);
    expect(at(answer, "for", "alsoNamed")).toEqual([]);
  });

  it("lists what one file alone leaves missing, and what the passage names beside it", async () => {
    const answer = await runJson("inspect", `${DEMO}/current.nc`, "--demo");
    expect(at(answer, "for", "missing")).toEqual(["wind", "gust", "seaHeight", "seaPeriod"]);
    expect(at(answer, "for", "alsoNamed")).toEqual(["wind.grib2", "letter.txt"]);
  });

  // 52.0 nm at 5.6 kn and two stretches of pilotage: by hand some 10 h 50 from berth to berth.
  it("reckons how long the passage takes in still water, berth to berth", async () => {
    const answer = await runJson("inspect", `${DEMO}/current.nc`, "--demo");
    expect(Math.abs(Number(at(answer, "for", "stillWaterSeconds")) - 10.83 * 3600)).toBeLessThan(600);
  });

  it("a letter's remark stops it until it is struck out, by flag or by the passage that names the letter", async () => {
    const stopped = await run("inspect", `${DEMO}/letter.txt`);
    expect(stopped).toMatchObject({ code: 2, out: "" });
    expect(stopped.err).toContain("letter.txt line 5");
    for (const words of [["--strike-out", "5"], ["--demo"]]) {
      const { code, out } = await run("inspect", `${DEMO}/letter.txt`, ...words);
      expect(code).toBe(0);
      expect(out).toContain("Struck out: line 5");
      expect(out.replace(/\s+/g, " ")).toContain("20 periods of wind up to 28 kn, all with gusts");
    }
    const answer = await runJson("inspect", `${DEMO}/letter.txt`, "--strike-out", "5");
    expect(list(at(answer, "files", 0, "letter", "wind")).length).toBe(20);
  });

  it("lists a letter's periods as they were read, a line each, no wider than a screen", async () => {
    const { out } = await run("inspect", `${DEMO}/letter.txt`, "--strike-out", "5");
    const { out: mixed } = await run("inspect", "examples/letter-only/letter.txt", "--strike-out", "1,14");
    for (const line of `${out}${mixed}`.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    expect(out.match(/^ +\d+ {2}\w{3} \d+ Apr \d{4}/gm)).toHaveLength(20);
    // Line 10: TUE 0600-1200 E-NE 5-8 SEA 2-3 ft @ 9 s, no gust; 2 and 3 ft are 0.6 and 0.9 m. Line 11 runs to midnight.
    expect(mixed).toMatch(/^ +10 {2}Tue 13 Apr 0600 +Tue 13 Apr 1200 +045-090 5-8 +- +0\.6-0\.9 @ 9 s$/m);
    expect(mixed).toMatch(/^ +11 {2}Tue 13 Apr 1200 +Wed 14 Apr 0000 +090 8-10 +13 +0\.6-0\.9 @ 9 s$/m);
  });

  it("tells what stops a letter once, though a passage file names it too, with one line to copy", async () => {
    const folder = await mkdtemp(join(tmpdir(), "athwart-inspect-"));
    await cp("examples/letter-only", folder, { recursive: true });
    const path = join(folder, "passage.yaml");
    await writeFile(path, (await readFile(path, "utf8")).replace(/ +strikeOut: .*\n/, ""));
    const { code, err } = await run("inspect", path, join(folder, "letter.txt"));
    expect(code).toBe(2);
    expect(err).toMatch(/^2 things stand in the way/);
    expect(err.match(/strikeOut: \[1, 14\]/g)).toHaveLength(1);
    expect((await run("inspect", join(folder, "letter.txt"))).err.replace(/\s+/g, " ")).toContain("Here type --strike-out 1,14.");
    await rm(folder, { recursive: true });
  });

  it("says of another text what it is not, and nothing of its columns", async () => {
    const folder = await mkdtemp(join(tmpdir(), "athwart-inspect-"));
    const path = join(folder, "places.csv");
    await writeFile(path, "name,latitude,longitude\nPelu Road,-33.4,-118.95\nPort Ansa,-33.81,-118.04\n");
    const { code, err } = await run("inspect", path);
    expect(code).toBe(2);
    expect(err).toMatch(/^One thing/);
    expect(err.replace(/\s+/g, " ")).toContain("neither a passage, a letter, a sail table nor GeoJSON");
    await rm(folder, { recursive: true });
  });

  it("tells a passage file with all it names, and what can't be held against a passage has no verdict", async () => {
    const { code, out } = await run("inspect", `${DEMO}/passage.yaml`, "--demo");
    expect(code).toBe(0);
    expect(out).toContain("A passage file");
    expect(at(await runJson("inspect", `${DEMO}/passage.yaml`, "--demo"), "files", 0, "serves")).toBeNull();
  });

  it("tells the files that can be read and what is wrong with the others, exit 2", async () => {
    const { code, out, err } = await run("inspect", `${DEMO}/current.nc`, "no-such-file.nc", DEMO);
    expect(code).toBe(2);
    expect(out).toContain("NetCDF classic");
    expect(err).toMatch(/^2 things stand in the way/);
    expect(err).toContain("there is no such file");
    expect(err).toContain("Name a file, not a folder.");
  });

  it.each([
    [["--strike-out", "five"], "argument-not-understood"],
    [["--demo", "--for", `${DEMO}/passage.yaml`], "options-clash"],
    [["--for", "no-such-file.yaml"], "file-not-opened"],
    [["--for", DEMO], "file-not-opened"],
    [["--for", `${DEMO}/wind.grib2`], "file-not-recognised"],
  ])("asks about %j", async (words, code) => {
    const outcome = await run("inspect", `${DEMO}/letter.txt`, ...words);
    expect(outcome).toMatchObject({ code: 2, out: "" });
    expect(outcome.err).toContain(code);
  });
});

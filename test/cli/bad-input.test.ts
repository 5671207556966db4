import { cp, mkdtemp, readFile, rm, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DEMO, run } from "./run.ts";

let parent = "";
let count = 0;
beforeAll(async () => {
  parent = await mkdtemp(join(tmpdir(), "athwart-bad-input-"));
});
afterAll(async () => {
  await rm(parent, { recursive: true });
});

/** A copy of the demo with one of its texts changed; the text must hold what is replaced. */
async function demoWith(file: string, from: string | RegExp, to: string): Promise<string> {
  const folder = await freshDemo();
  const text = await readFile(join(folder, file), "utf8");
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`${file} has no ${String(from)}`);
  await writeFile(join(folder, file), changed);
  return join(folder, "passage.yaml");
}

async function freshDemo(): Promise<string> {
  count += 1;
  const folder = join(parent, String(count));
  await cp(DEMO, folder, { recursive: true });
  return folder;
}

/** Bad input ends with exit 2, a message that names the place, and no trace of the program's inside. */
async function refused(words: readonly string[], ...named: readonly string[]): Promise<void> {
  const { code, out, err } = await run(...words);
  expect(code, err).toBe(2);
  expect(out).toBe("");
  const plain = err.replace(/\s+/g, " ");
  for (const one of named) expect(plain).toContain(one);
  expect(err).not.toMatch(/\n\s+at |Error:|undefined|NaN|\[object/);
  const asJson = await run(...words, "--json");
  expect(asJson).toMatchObject({ code: 2, err: "" });
  expect(JSON.parse(asJson.out)).toMatchObject({ schema: "athwart.issues/1" });
}

const leave = (passage: string): string[] => ["leave", passage];

describe("a passage file that can't be used", () => {
  it.each([
    ["a draught below nought", "draught: 1.7 m", "draught: -1.7 m", "boat.draught", "out-of-range"],
    ["a wrong key", "airDraught:", "airDraft:", "boat.airDraft", "airDraught"],
    ["a bare gallon", "usableFuel: 180 L", "usableFuel: 48 gal", "boat.power.usableFuel", "bare-gallon"],
    ["a speed without its unit", "speed: 5.6 kn", "speed: 5.6", "boat.power.speed", "unit-missing"],
    ["a word for a speed", "speed: 5.6 kn", "speed: fast", "boat.power.speed", "fast"],
    ["an end where it begins", "position: 33 48.7S 118 02.2W", "position: 33 24.0S 118 57.0W", "route", "same-place"],
    ["limits about", "wind: {happy: 14 kn, never: 22 kn}", "wind: {happy: 22 kn, never: 14 kn}", "limits.wind", "limit-upside-down"],
    ["departures that end first", "until: 2027-04-13 1200", "until: 2027-04-05 1200", "leave", "times-upside-down"],
    ["no zone for its times", /zones:\n.*\n.*\n/, "", "zones.ship", "zone-missing"],
    ["an abbreviation for a zone", "ship: UTC-8", "ship: PST", "zones.ship", "zone-unknown"],
    ["an ambiguous date", "from: 2027-04-06 0800", "from: 04/06/2027 0800", "leave.from", "date-ambiguous"],
    ["no version", "athwart: passage/1\n", "", "athwart", "not-a-passage"],
    ["a newer version", "passage/1", "passage/2", "athwart", "passage-too-new"],
    ["bad form", "limits: ", "limits: {", "passage.yaml", "passage-syntax"],
    ["a file that is not there", "file: wind.grib2", "file: winds.grib2", "weather.sources[0]", "file-not-opened"],
    ["a source for the wrong thing", "file: current.nc", "file: wind.grib2", "water.sources[0]", "source-lacks-quantity"],
  ])("%s", async (_, from, to, place, hint) => {
    await refused(leave(await demoWith("passage.yaml", from, to)), place, hint);
  });

  it("a folder, nothing, or no passage in place of a passage", async () => {
    await refused(leave(parent), "file-not-opened");
    await refused(leave(join(parent, "none.yaml")), "there is no such file");
    await refused(
      leave(join(DEMO, "wind.grib2")),
      "is a forecast or current file (GRIB), not a passage file",
      "- file: wind.grib2",
      "athwart inspect",
    );
    await refused(leave(join(DEMO, "current.nc")), "is a forecast or current file (NetCDF), not a passage file");
    await refused(
      leave(join(DEMO, "letter.txt")),
      "letter.txt is no passage file",
      "athwart: passage/1",
      "may be a letter",
      "- letter: letter.txt",
    );
    await refused(leave("tsconfig.json"), "tsconfig.json is no passage file");
    await refused(leave("LICENSE"), "LICENSE is no passage file", "athwart: passage/1");
    await refused(leave(await demoWith("passage.yaml", "letter: letter.txt", "letter: wind.grib2")), "weather.sources", "not a letter");
    await refused(["cross", parent, "--at", "2027-04-07 2200"], "file-not-opened");
  });

  it("an hour alone could be any day of the forecast, and is asked about; a weekday is counted", async () => {
    await refused(["cross", "--demo", "--at", "0930"], "date-missing");
    const { code, out } = await run("cross", "--demo", "--at", "WED 2200");
    expect(code).toBe(0);
    expect(out).toContain("Leaving Wed 7 Apr 2027, 22:00 UTC-8");
  });

  it("tells several faults at once", async () => {
    const folder = await freshDemo();
    const path = join(folder, "passage.yaml");
    const text = await readFile(path, "utf8");
    await writeFile(path, text.replace("1.7 m", "-1.7 m").replace("180 L", "48 gal").replace("airDraught", "airDraft"));
    await refused(leave(path), "3 things stand in the way", "boat.draught", "boat.airDraft", "boat.power.usableFuel");
  });
});

describe("a letter that can't be used", () => {
  it.each([
    ["nonsense", /^WED 0600-1800.*$/m, "WED the usual, more or less", "letter.txt line 9", "is not understood"],
    ["no zone", /UTC-8\nAll times UTC-8\n/, "\n\n", "letter.txt", "zone"],
    ["no issue time", /^Issued.*$/m, "", "letter.txt", "letter-issue-missing"],
    ["an end before the beginning", "THU 0600-1300", "THU 1300-0600", "line 11", "letter-until-before-from"],
    ["a gust below the wind", "NW 12-18 G24", "NW 12-18 G14", "line 11", "gust-below-wind"],
    ["a date that is none", "2027-04-13 0000-1200", "2027-04-31 0000-1200", "line", "date-not-real"],
  ])("%s", async (_, from, to, place, hint) => {
    await refused(leave(await demoWith("letter.txt", from, to)), place, hint);
  });
});

describe("a sail table that can't be used", () => {
  const table = "twa\t6\t10\t16\n52\t4.1\t5.9\t6.6\n90\t4.9\t6.6\t7.2\n150\t3.4\t5.2\t6.5\n";
  const underSail = (text: string): string =>
    text.replace("goes: power", "goes: sail").replace(/ {2}power:\n(?: {4}.*\n)+/, "  sail:\n    table: sails.txt\n");

  async function withTable(text: string): Promise<string> {
    const folder = await freshDemo();
    const path = join(folder, "passage.yaml");
    await writeFile(path, underSail(await readFile(path, "utf8")));
    await writeFile(join(folder, "sails.txt"), text);
    return path;
  }

  it("a whole one is read, by inspect and with the passage", async () => {
    const path = await withTable(table);
    const { code, out } = await run("inspect", join(path, "..", "sails.txt"), path);
    expect(code).toBe(0);
    expect(out).toContain("A table of speeds under sail");
    expect(out).toContain("9 points");
  });

  it.each([
    ["a hole", table.replace("6.6\t7.2", "-\t7.2"), "line 3 column 3", "sail-table-hole"],
    ["a short line", table.replace("\t6.5", ""), "line 4 column 4", "sail-table-hole"],
    ["an angle twice", table.replace("150", "90"), "line 4", "sail-table-duplicate"],
    ["a word for a speed", table.replace("5.9", "fast"), "line 2 column 3", "fast"],
    ["a speed no boat has", table.replace("5.9", "59"), "line 2 column 3", "59"],
  ])("%s", async (_, text, place, hint) => {
    const path = await withTable(text);
    await refused(leave(path), "sails.txt", place, hint);
    await refused(["inspect", join(path, "..", "sails.txt")], place, hint);
  });
});

describe("a forecast that can't be used", () => {
  it.each(["wind.grib2", "current.nc"])("%s cut short anywhere", async (name) => {
    for (const share of [0.001, 0.02, 0.3, 0.7, 0.999]) {
      const folder = await freshDemo();
      const whole = (await readFile(join(folder, name))).length;
      await truncate(join(folder, name), Math.floor(whole * share));
      await refused(leave(join(folder, "passage.yaml")), name);
      await refused(["inspect", join(folder, name)], name);
    }
  });

  it("an empty one, a web page, a text and a picture under a forecast's name", async () => {
    for (const [bytes, says] of [
      ["", "file is empty"],
      ["<!doctype html><title>Sign in</title>", "a web page"],
      ["The wind will be fair.\n", "a text that begins"],
      [Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0]), "a PNG picture"],
      [Uint8Array.from([0x1f, 0x8b, 8, 0, 0, 0]), "a gzip archive"],
    ] as const) {
      const folder = await freshDemo();
      const path = join(folder, "wind.grib2");
      await writeFile(path, bytes);
      await refused(leave(join(folder, "passage.yaml")), "wind.grib2", says);
      await refused(["inspect", path], "wind.grib2", says);
    }
  });

  it("one that lies of its lengths: a message longer than the file, and a header that counts more times than there are", async () => {
    const folder = await freshDemo();
    const grib = new Uint8Array(await readFile(join(folder, "wind.grib2")));
    // GRIB edition 2, section 0, octets 9 to 16: the length of the whole message.
    new DataView(grib.buffer).setBigUint64(8, 0xffff_ffff_ffffn);
    await writeFile(join(folder, "wind.grib2"), grib);
    await refused(leave(join(folder, "passage.yaml")), "wind.grib2");
    const other = await freshDemo();
    const netcdf = new Uint8Array(await readFile(join(other, "current.nc")));
    // NetCDF classic: the magic number, then the number of records.
    new DataView(netcdf.buffer).setUint32(4, 0x7fff_ffff);
    const list = new DataView(netcdf.buffer).getUint32(12);
    expect(list).toBeGreaterThan(0);
    // The first dimension's length stands after its name.
    const nameLength = new DataView(netcdf.buffer).getUint32(16);
    new DataView(netcdf.buffer).setUint32(20 + Math.ceil(nameLength / 4) * 4, 0x7fff_ffff);
    await writeFile(join(other, "current.nc"), netcdf);
    await refused(leave(join(other, "passage.yaml")), "current.nc");
  });

  it("held against a passage elsewhere it does not serve, and says so: exit 1", async () => {
    const path = await demoWith("passage.yaml", /3[34] \d\d\.\dS/g, "53 24.0S");
    const { code, out } = await run("inspect", `${DEMO}/wind.grib2`, "--for", path);
    expect(code).toBe(1);
    expect(out).toContain("It does not serve the passage.");
    expect(out).toContain("does not reach the passage's waters");
  });

  it("held against days it does not reach it does not serve; against some of them in part", async () => {
    const later = await demoWith(
      "passage.yaml",
      /from: 2027-04-06 0800.*\n +until: 2027-04-13 1200/,
      "from: 2027-05-06 0800\n  until: 2027-05-07 1200",
    );
    const none = await run("inspect", `${DEMO}/wind.grib2`, "--for", later);
    expect(none.code).toBe(1);
    expect(none.out.replace(/\s+/g, " ")).toContain("it ends Wed 14 Apr 2027, 04:00 UTC-8");
    const longer = await demoWith("passage.yaml", "until: 2027-04-13 1200", "until: 2027-04-20 1200");
    const part = await run("inspect", `${DEMO}/wind.grib2`, "--for", longer);
    expect(part.code).toBe(0);
    const plain = part.out.replace(/\s+/g, " ");
    expect(plain).toContain("It serves the passage in part.");
    expect(plain).toContain("only departures Tue 6 Apr 2027, 08:00 UTC-8 to Tue 13 Apr 2027, 17:11 UTC-8");
  });
});

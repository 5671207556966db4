import { describe, expect, it } from "vitest";
import { at, DEMO, DEPARTURE, run, runJson } from "./run.ts";

const texts: readonly (readonly string[])[] = [
  ["leave", "--demo"],
  ["leave", "--demo", "--every"],
  ["cross", "--demo", "--at", DEPARTURE],
  ["cross", "--demo", "--at", "2027-04-14 0300"],
  ["refuges", "--demo", "--at", DEPARTURE],
  ["refuges", "--demo", "--at", "2027-04-08 1600"],
  ["refuges", "--demo", "--at", "2027-04-14 0300"],
  ["inspect", `${DEMO}/wind.grib2`, `${DEMO}/current.nc`, `${DEMO}/letter.txt`, `${DEMO}/passage.yaml`, "--demo"],
  ["steer", "--track", "090", "--speed", "6 kn", "--set", "210", "--rate", "2 kn", "--variation", "10W", "--distance", "45 nm"],
  ["sky", "--demo"],
  ["variation", "--near", "33 48.7S 118 02.2W", "--at", "2027-04-08"],
];

/** Where a text prints a clock time, and its head names a zone or the time its own. */
const CLOCK = /\b\d\d:\d\d\b/;

describe("every text", () => {
  it.each(texts.map((words) => [words] as const))("%j: in 80 columns, no value left empty, no trace of the machine", async (words) => {
    const { out, err } = await run(...words);
    expect(err).toBe("");
    expect(out.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
    expect(out).not.toMatch(/NaN|undefined|null|Infinity|\[object/);
    expect(out.endsWith("\n")).toBe(true);
    expect(out).not.toMatch(/\n{3}/);
  });

  it.each(texts.map((words) => [words] as const).filter(([words]) => words[0] !== "steer"))(
    "%j: says the zone of its times",
    async (words) => {
      const { out } = await run(...words);
      expect(out).toMatch(CLOCK);
      const head = out.split("\n\n")[0]?.replace(/\s+/g, " ") ?? "";
      const isUnderHead = /Times are ship's time, UTC-8\./.test(head);
      const bare = out.replace(/\s+/g, " ").match(/\b\d\d:\d\d\b(?! UTC)(?! to \d\d:\d\d UTC)/g) ?? [];
      expect(isUnderHead || bare.length === 0, `bare times: ${bare.join(", ")}`).toBe(true);
    },
  );
});

describe("leave on the demo", () => {
  it("opens with a sentence that says when, and what shuts", async () => {
    const { code, out } = await run("leave", "--demo");
    expect(code).toBe(0);
    const sentence = out.split("\n\n")[1]?.replace(/\s+/g, " ") ?? "";
    expect(sentence).toMatch(/^Leave \w+day \d\d:\d\d to \w+day \d\d:\d\d\. At \d\d:\d\d the passage takes/);
    expect(sentence).toMatch(/From \w{3} \d\d:\d\d it is (?:shut|marginal): /);
  });

  it("tells the same departures open in text and in JSON", async () => {
    const { out } = await run("leave", "--demo", "--every");
    const departures = at(await runJson("leave", "--demo"), "departures");
    if (!Array.isArray(departures)) throw new Error("no departures");
    const open = departures.filter((one) => at(one, "verdict") === "open").length;
    expect(departures.length).toBeGreaterThan(100);
    expect(open).toBeGreaterThan(10);
    expect(out.match(/^. \d\d:\d\d {7}│█+/gm)?.length).toBe(open);
    expect(out.match(/^. \d\d:\d\d /gm)?.length).toBe(departures.length);
  });

  it("folds only what is shut", async () => {
    const { out } = await run("leave", "--demo");
    const folded = out.split("\n").filter((line) => /\d\d:\d\d to \d\d:\d\d {2}/.test(line));
    expect(folded.length).toBeGreaterThan(5);
    expect(folded.filter((line) => !line.includes("shut: "))).toEqual([]);
  });

  it("says what it rests on and the safety words", async () => {
    const { out } = await run("leave", "--demo");
    const plain = out.replace(/\s+/g, " ");
    for (const words of [
      "Water: current.nc",
      "Wind: wind.grib2",
      "Sea: letter.txt",
      "not judged",
      "A planning aid; not for navigation.",
      "invented, for demonstration",
    ])
      expect(plain).toContain(words);
  });
});

describe("cross on the demo", () => {
  it("opens with the verdict, then the order, and sets the ways side by side with their cost", async () => {
    const { code, out } = await run("cross", "--demo", "--at", DEPARTURE);
    expect(code).toBe(0);
    expect(out.split("\n\n")[1]?.replace(/\s+/g, " ")).toMatch(
      /^Leaving Wed 7 Apr 2027, 22:00 UTC-8: open, by .* In hand \d+ h \d\d before /,
    );
    expect(out.split("\n\n")[2]).toMatch(/^Steer \d{3} compass from /);
    for (const way of ["one heading", "across, then turn", "hold the track", "bow on the destination"])
      expect(out).toMatch(new RegExp(`^[→ ] ${way} +\\d+.h.\\d\\d +(?:best|[+−]?\\d)`, "m"));
    expect(out.match(/^→ (?!the order)/gm)?.length).toBe(1);
  });

  it("says first of a closed departure that it is, before any order", async () => {
    const { out } = await run("cross", "--demo", "--at", "2027-04-08 1300");
    const [, verdict = "", order = ""] = out.split("\n\n");
    expect(verdict).toMatch(/^Leaving Thu 8 Apr 2027, 13:00 UTC-8: shut, by [\s\S]*Do not leave then\.$/);
    expect(order).toMatch(/^Were it open, the order would be: Steer /);
  });

  it("never says again a heading that is steered already", async () => {
    const { out } = await run("cross", "--demo", "--at", DEPARTURE);
    const text = out.replace(/\s+/g, " ");
    const changing = /changing headings: (steer .*?)[.;]/.exec(text)?.[1] ?? "";
    const headings = [...changing.matchAll(/steer (\d{3}) compass/g)].map(([, heading]) => heading);
    expect(headings.length).toBeGreaterThan(2);
    headings.forEach((heading, i) => {
      if (i > 0) expect(heading, changing).not.toBe(headings[i - 1]);
    });
  });

  it("prints the same heading in the order, in the re-aim table and in JSON", async () => {
    const { out } = await run("cross", "--demo", "--at", DEPARTURE);
    const answer = await runJson("cross", "--demo", "--at", DEPARTURE);
    const heading = Number(at(answer, "ways", 0, "orders", 0, "steer", "headingDegCompass"));
    expect(out).toContain(`Steer ${String(Math.round(heading)).padStart(3, "0")} compass`);
    const onPath = Number(at(answer, "reAim", "tables", 1, "rows", 0, "cells", 2, "headingDegCompass"));
    expect(Math.abs(onPath - heading)).toBeLessThan(0.5);
  });

  it("a departure that outlasts the forecast has no answer, and says until when it is covered", async () => {
    for (const time of ["2027-04-14 0300", "2027-05-01T06:00Z"]) {
      const { code, out } = await run("cross", "--demo", "--at", time);
      expect(code).toBe(1);
      expect(out.replace(/\s+/g, " ")).toContain(
        "The current is covered from Tue 6 Apr 2027, 04:00 UTC-8 to Wed 14 Apr 2027, 04:00 UTC-8.",
      );
    }
    const before = await run("cross", "--demo", "--at", "2027-04-01T06:00Z");
    expect(before.code).toBe(1);
    expect(before.out).toContain("current begins Tue 04:00");
  });

  it("takes a weekday, counted from the first departure, and asks about a doubtful time", async () => {
    const byDay = await run("cross", "--demo", "--at", "WED 2200");
    const byDate = await run("cross", "--demo", "--at", DEPARTURE);
    expect(byDay.out).toBe(byDate.out);
    const doubtful = await run("cross", "--demo", "--at", "04/05/2027 0600");
    expect(doubtful).toMatchObject({ code: 2, out: "" });
    expect(doubtful.err).toContain("date-ambiguous");
  });
});

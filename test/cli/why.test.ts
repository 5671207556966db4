import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const WHEN = "2027-04-09 0200";

describe("leave --why", () => {
  it("tells every limit of one departure, the worst first, with its figure, time and place", async () => {
    const { code, out } = await run("leave", "--demo", "--why", WHEN);
    expect(code).toBe(0);
    const head = out.split("\n\n")[1]?.replace(/\s+/g, " ") ?? "";
    expect(head).toMatch(/^Leaving Fri 9 Apr 2027, 02:00 UTC-8: shut, by /);
    const limits = out.split("\n").filter((line) => line.startsWith("          limit: "));
    const margins = at(await runJson("leave", "--demo", "--why", WHEN), "departures", 0, "margins");
    if (!Array.isArray(margins)) throw new Error("no margins");
    expect(limits.length).toBe(margins.length);
    const figures = [...out.matchAll(/^ {2} *(< −1|[+−]\d\.\d\d) {2}/gm)].map(([, figure = ""]) =>
      figure.startsWith("<") ? -1.01 : Number(figure.replace("−", "-")),
    );
    expect(figures.length).toBe(margins.length);
    expect(figures.toSorted((a, b) => a - b)).toEqual(figures);
    expect(out).toMatch(/Open next: .* earlier, \w{3} \d\d:\d\d; .* later, /);
  });

  it("is the same departure as on the board", async () => {
    const one = at(await runJson("leave", "--demo", "--why", WHEN), "departures", 0);
    const board = at(await runJson("leave", "--demo"), "departures");
    if (!Array.isArray(board)) throw new Error("no departures");
    expect(board.find((row) => at(row, "departAt") === at(one, "departAt"))).toEqual(one);
  });

  it("tells the parts of the time in hand where it isn't shut, and takes any minute", async () => {
    const { out, code } = await run("leave", "--demo", "--why", "2027-04-06 2110");
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, " ")).toMatch(
      /In hand, each by itself: leave .* later .*; go at \d+ % of the speed .*; have the engine off /,
    );
    expect(out).not.toContain("Open next");
  });

  it("asks about an hour alone", async () => {
    const { code, err, out } = await run("leave", "--demo", "--why", "0200");
    expect(code).toBe(2);
    expect(err + out).toContain("--why");
  });
});

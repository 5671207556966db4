import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

/** In the demo: open whatever way is taken, and in the blow's first hours. */
const OPEN = "2027-04-06 2100";
const SHUT = "2027-04-09 0200";

describe("each way by the limits along its own path", () => {
  it.each([OPEN, SHUT])("leaving %s: the advised way is judged as the board judges it, the others by their own arrivals", async (when) => {
    const answer = await runJson("cross", "--demo", "--at", when);
    const ways = at(answer, "ways");
    if (!Array.isArray(ways)) throw new Error("no ways");
    const advised = ways.find((way) => at(way, "name") === at(answer, "advised"));
    expect(at(advised, "judged", "margins")).toEqual(at(answer, "verdict", "margins"));
    expect(at(advised, "judged", "berthAt")).toBe(at(answer, "verdict", "arrivalAt"));
    expect(at(advised, "judged", "verdict")).toBe(at(answer, "verdict", "verdict"));
    const arriving = ways.filter((way) => at(way, "arrives") === true);
    expect(arriving.length).toBeGreaterThan(3);
    expect(new Set(arriving.map((way) => at(way, "judged", "berthAt"))).size).toBeGreaterThan(2);
    for (const way of arriving)
      expect(Date.parse(String(at(way, "judged", "berthAt")))).toBeGreaterThan(Date.parse(String(at(way, "openWaterUntil"))));
  });

  it("is told in a sentence, ways of one verdict together", async () => {
    const { out } = await run("cross", "--demo", "--at", SHUT);
    expect(out.replace(/\s+/g, " ")).toMatch(/By your limits, each along its own path \(time in hand left out\): [^.]*shut, by [^;]*/);
  });
});

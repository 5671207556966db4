import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const SUM = ["anchor", "--depth", "5 m", "--rise", "0.9 m", "--bow", "1.3 m", "--loa", "12 m", "--rode", "35 m", "--chain", "10 mm"];
const TWO = "examples/two-anchorages/passage.yaml";
const flat = (text: string): string => text.replace(/\s+/g, " ");

describe("athwart anchor, the small sum", () => {
  it("tells scope, circle and pull, with what they rest on beside them", async () => {
    const { code, out } = await run(...SUM);
    const text = flat(out);
    expect(code).toBe(0);
    expect(text).toContain("35 m of rode is 4.9:1 at high water; 5:1 wants 36 m. The stern swings over 46.4 m from the anchor.");
    expect(text).toContain("circle 46.4 m at low water, 46.3 m at high");
    expect(text).toMatch(/30 kn 5\.34 kN 8\.3° up, too steep 63 m/);
    expect(text).toContain("ABYC H-40, table 1, its row of 40 ft by the length (no beam given)");
    expect(text).toContain("without surge, stretch or sheering");
    expect(text).toContain("A planning aid");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("gives the same as JSON: J3's circles and J4's rode for seven to one", async () => {
    const answer = await runJson(...SUM, "--scope", "7");
    expect(answer).toMatchObject({
      kind: "sum",
      scopeWanted: 7,
      rodeForScopeMetres: 50.4,
      swingHighWaterMetres: 46.251,
      swingLowWaterMetres: 46.428,
    });
    expect(at(answer, "winds", 1, "loadNewtons")).toBe(5337.9);
  });

  it("says that a rode does not reach, and ends with 1", async () => {
    const { code, out } = await run("anchor", "--depth", "9 m", "--bow", "1.3 m", "--loa", "12 m", "--rode", "10 m");
    expect(code).toBe(1);
    expect(flat(out)).toContain("10.0 m of rode does not serve");
  });

  it("reckons no pull for a boat beyond the table, and says so", async () => {
    const { out } = await run("anchor", "--depth", "5 m", "--bow", "1.3 m", "--loa", "21 m", "--rode", "60 m", "--chain", "13 mm");
    expect(flat(out)).toContain("longer or broader than the table of loads goes");
  });

  it.each<readonly [readonly string[], readonly (readonly [string, string])[]]>([
    [
      ["anchor"],
      [
        ["--depth", "argument-missing"],
        ["--bow", "argument-missing"],
        ["--loa", "argument-missing"],
        ["--rode", "argument-missing"],
      ],
    ],
    [[...SUM, "--wind", "25"], [["--wind", "unit-missing"]]],
    [[...SUM, "--hull", "steam"], [["--hull", "argument-not-understood"]]],
    [[...SUM, "--chain-length", "40 m"], [["--chain-length", "options-clash"]]],
    [[...SUM, "--fall", "5 m"], [["--fall", "options-clash"]]],
    [[...SUM, "--night", "2027-04-08"], [["--night", "argument-missing"]]],
    [
      ["anchor", "--depth", "5 m", "--bow", "1 m", "--loa", "12 m", "--rode", "30 m", "--chain-length", "20 m"],
      [["--chain", "argument-missing"]],
    ],
    [
      ["anchor", "--depth", "5000 m", "--bow", "30 ft", "--loa", "12 m", "--rode", "30 m"],
      [
        ["--depth", "out-of-range"],
        ["--bow", "out-of-range"],
      ],
    ],
    [["anchor", TWO, "--depth", "5 m"], [["--depth", "options-clash"]]],
    [["anchor", TWO, "--night", "soon"], [["--night", "time-not-understood"]]],
    [["anchor", "--demo", "x.yaml"], [["--demo", "options-clash"]]],
    [["anchor", "examples/letter-only/passage.yaml"], [["anchorages", "argument-missing"]]],
  ])("%j is bad input, all of it at once", async (words, issues) => {
    const answer = await run(...words, "--json");
    expect(answer.code).toBe(2);
    const told = JSON.parse(answer.out) as { readonly issues: readonly { readonly path: string; readonly code: string }[] };
    expect(told.issues.map(({ path, code }) => [path, code])).toEqual(issues);
  });
});

describe("athwart anchor PASSAGE", () => {
  it("says where to lie and why, hour by hour for the night that is named", async () => {
    const { code, out } = await run("anchor", TWO, "--night", "2027-04-08");
    const text = flat(out);
    expect(code).toBe(0);
    expect(text).toContain("Lie in Lantern Cove: it holds, and Pelu Road does not (sea 1.5 m Fri 02:00, never above 0.7 m).");
    expect(text).toContain("From Fri 02:00 the wind comes in from where it lies open.");
    expect(text).toMatch(/Fri 02:00 S 22 kn 29 kn open water 1\.5 m/);
    expect(text).toMatch(/Fri 02:00 S 22 kn 29 kn 0\.3 nm 0\.1 m/);
    expect(text).toContain("by the tide of Pelu Road");
    expect(text).toContain("invented, for demonstration");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("lets a swell in from where it is said to come, and by that names another place", async () => {
    const { code, out } = await run("anchor", TWO, "--night", "2027-04-08", "--swell-from", "045");
    expect(code).toBe(1);
    expect(flat(out)).toContain("the sea outside, let in from 045");
    expect(flat(out)).toContain("Thu 18:00 NW 15 kn 20 kn swell 045 1.0 m");
    expect(flat(out)).not.toContain("from where is not known");
  });

  it("without a night tells every one that the forecast reaches, and as JSON the same places", async () => {
    const { out } = await run("anchor", TWO);
    expect(out).not.toContain("open water  1.5 m");
    const answer = await runJson("anchor", TWO);
    expect(at(answer, "kind")).toBe("nights");
    expect(at(answer, "nights", 0)).toMatchObject({
      side: "before",
      date: "2027-04-08",
      from: "2027-04-09T02:00Z",
      lieIn: "Lantern Cove",
      becauseOf: "verdict",
    });
    expect(at(answer, "nights", 0, "anchorages", 1)).toMatchObject({
      name: "Pelu Road",
      verdict: "untenable",
      worstSeaMetres: 1.5,
      worstSeaAt: "2027-04-09T10:00Z",
    });
    expect(JSON.stringify(answer)).not.toMatch(/NaN|Infinity/);
  });
});

import { describe, expect, it } from "vitest";
import { pathGiven, typedAs, withDemosNamed } from "../../src/cli/opened.ts";
import { DEMOS } from "../../src/storage/index.ts";
import { run } from "./run.ts";

const [morrel, averil] = DEMOS;

describe("--demo", () => {
  it.each([
    [
      ["leave", "--demo"],
      ["leave", "--demo=morrel"],
    ],
    [
      ["leave", "--demo", "averil", "--json"],
      ["leave", "--demo=averil", "--json"],
    ],
    [
      ["leave", "--demo", "--every"],
      ["leave", "--demo=morrel", "--every"],
    ],
    [
      ["inspect", "--demo", "wind.grib2"],
      ["inspect", "--demo=morrel", "wind.grib2"],
    ],
    [
      ["inspect", "averil", "--demo=averil"],
      ["inspect", "averil", "--demo=averil"],
    ],
  ])("of %j takes a demo's name and nothing else", (words, named) => {
    expect(withDemosNamed(words)).toEqual(named);
  });

  it("names a path, and a path is typed by its demo's name again", () => {
    const pathOf = (file: string | undefined, demo: string | undefined) => {
      const given = pathGiven(file, demo);
      return given.ok ? given.value : given.issues.map(({ code }) => code);
    };
    expect(pathOf(undefined, "averil")).toBe(averil?.path);
    expect(pathOf("mine.yaml", undefined)).toBe("mine.yaml");
    expect(pathOf("mine.yaml", "morrel")).toEqual(["options-clash"]);
    expect(pathOf(undefined, "nowhere")).toEqual(["argument-not-understood"]);
    expect([morrel, averil].map((demo) => typedAs(demo?.path ?? ""))).toEqual(["--demo", "--demo averil"]);
    expect(typedAs("my passages/one.yaml")).toBe('"my passages/one.yaml"');
  });

  it("averil is what a command answers for; a name that is none is told with those that are", async () => {
    const { out } = await run("sky", "--demo", "averil");
    expect(out).toContain("the bar buoy off the Arl");
    expect((await run("sky", "--demo")).out).toContain("the fairway buoy off Port Ansa");
    const { code, err } = await run("leave", "--demo=nowhere");
    expect([code, err.includes("morrel and averil")]).toEqual([2, true]);
    expect((await run("sky", "--demo", "avril")).err).toContain("not both; the demos are morrel and averil");
  });
});

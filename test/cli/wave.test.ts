import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const waves = (height: string, period: string, from: string): string[] => ["--height", height, "--period", period, "--from", from];
const current = (set: string, rate: string): string[] => ["--set", set, "--rate", rate];
const plain = async (...words: string[]): Promise<string> => (await run("wave", ...words)).out.replace(/\s+/g, " ");

describe("wave", () => {
  // Common practice: a 3 ft sea at 10 s is calm; the rest by conservation of wave action, see test/outside/sea.test.ts.
  it("one current, four seas: harmless, breaking, blocked, and eased with it", async () => {
    expect(await plain(...waves("3 ft", "10 s", "045"), ...current("045", "3 kn"))).toMatch(
      /^Waves of 0\.9 m \(3 ft\) at 10 s from 045, against 3\.0 kn of current: harmless\./,
    );
    expect(await plain(...waves("3 ft", "4 s", "045"), ...current("045", "3 kn"))).toContain("breaking, for at 1/13 and more");
    const blocked = await plain(...waves("2 ft", "3.5 s", "045"), ...current("045", "3 kn"));
    expect(blocked).toContain("blocked, so breaking: 3.0 kn against them stops everything under 4.0 s");
    expect(await plain(...waves("3 ft", "6 s", "045"), ...current("225", "2 kn"))).toContain("with 2.0 kn of current: harmless.");
  });

  it("tells both physics of a wind sea, and which counts", async () => {
    const words = ["--wind", "NE 20", "--fetch", "40 nm", "--for", "6 h"];
    const against = await runJson("wave", ...words, ...current("045", "3 kn"));
    expect(at(against, "systems", 0)).toMatchObject({ governs: "meeting", feel: "breaking", growing: { relativeWindKn: 23 } });
    expect(at(against, "wind", "limitedBy")).toBe("duration");
    const fair = await runJson("wave", ...words, ...current("225", "3 kn"));
    expect(at(fair, "systems", 0)).toMatchObject({ governs: "growing", growing: { relativeWindKn: 17 } });
    expect(Number(at(fair, "systems", 0, "standsMetres"))).toBeLessThan(Number(at(fair, "wind", "raisesMetres")));
    expect(await plain(...words, ...current("045", "3 kn"))).toMatch(/run into it .*; this counts raised on it .* by 23 kn over the water/);
  });

  it("of a range of winds takes the greater speed and the direction most against the set", async () => {
    const answer = await runJson("wave", "--wind", "NE-E 15-20", "--fetch", "40 nm", ...current("060", "2 kn"));
    expect(answer).toMatchObject({ wind: { windKn: 20, windFromDegTrue: 60 } });
    const beyond = await runJson("wave", "--wind", "NE-E 15-20", "--fetch", "40 nm", ...current("180", "2 kn"));
    expect(beyond).toMatchObject({ wind: { windFromDegTrue: 90 } });
  });

  it("splits a total by the wind's own sea, and says where it can't", async () => {
    const total = [...waves("2 m", "11 s", "300"), "--total"];
    const split = await runJson("wave", ...total, "--wind", "SE 18", "--fetch", "25 nm", ...current("135", "2 kn"));
    const [swell, sea] = [Number(at(split, "systems", 0, "heightMetres")), Number(at(split, "systems", 1, "heightMetres"))];
    expect(Math.hypot(swell, sea)).toBeCloseTo(2, 2);
    expect(at(split, "systems", 1, "feel")).toBe("steep");
    const said = await plain(...total, "--wind", "SE 18", "--fetch", "25 nm", ...current("135", "2 kn"));
    expect(said).toContain("a low swell of average length");
    expect(said).toContain("force 5 (some 2.0 m (6.5 ft) far from land)");
    const { code, out } = await run("wave", ...total);
    expect(code).toBe(1);
    expect(out).toMatch(/^Swell and wind sea can't be told apart/);
    expect(await runJson("wave", ...total)).toMatchObject({ why: { code: "seas-not-told-apart" }, systems: [] });
  });

  it("shoals what is given in deep water, and leaves what holds there", async () => {
    const over = [...waves("1 m", "14 s", "300"), "--depth", "3 m"];
    expect(Number(at(await runJson("wave", ...over), "systems", 0, "meeting", "heightMetres"))).toBeCloseTo(1.441, 3);
    expect(at(await runJson("wave", ...over, "--here"), "systems", 0, "meeting", "heightMetres")).toBe(1);
  });

  it("takes the peak's period from a mean, with the factor it used", async () => {
    const answer = await runJson("wave", ...waves("1 m", "7 s", "300"), "--period-is", "zero-crossing");
    expect(answer).toMatchObject({ periodGiven: "zeroCrossing", periodFactor: 1.2863 });
    expect(at(answer, "systems", 0, "periodSeconds")).toBe(9.004);
    expect(await plain(...waves("1 m", "7 s", "300"), "--period-is", "mean")).toContain("1.20 times that given");
    expect(await plain(...waves("1 m", "7 s", "300"))).toContain("taken as the peak's");
  });

  it("a sea whose wind has dropped twelve hours ago is half as high", async () => {
    const words = ["--wind", "NE 25", "--for", "10 h"];
    const [blows, dropped] = [await runJson("wave", ...words), await runJson("wave", ...words, "--dropped", "12 h")];
    expect(Number(at(dropped, "wind", "raisesMetres"))).toBeCloseTo(Number(at(blows, "wind", "raisesMetres")) / 2, 2);
    expect(await plain(...words, "--dropped", "12 h")).toContain("half its height in 12 h 00 (common practice)");
  });

  // Source: T_E by the exact constant, 8.95 s at 6 kn before waves of 6 s.
  it("says how the boat meets them, and what is written for ships as such", async () => {
    const astern = [...waves("1 m", "6 s", "180"), "--boat-speed", "6 kn", "--course", "000", "--boat-length", "10.06 m"];
    const answer = await runJson("wave", ...astern);
    expect(at(answer, "systems", 0, "encounter")).toMatchObject({ periodSeconds: 8.95, sector: "following" });
    expect(at(answer, "systems", 0, "shipNotes")).toEqual(["surf-riding"]);
    expect(await plain(...astern)).toContain("written for ships from 5.7 kn a wave may carry her off surfing");
  });

  it.each([
    ["nothing", [], "argument-missing"],
    ["waves without where they come from", ["--height", "3 ft", "--period", "10 s"], "argument-missing"],
    ["a height without its unit", waves("3", "10 s", "045"), "unit-missing"],
    ["a period without its unit", waves("3 ft", "10", "045"), "unit-missing"],
    ["a period that is none", waves("3 ft", "10 min", "045"), "out-of-range"],
    ["a set without a rate", [...waves("3 ft", "10 s", "045"), "--set", "045"], "argument-missing"],
    ["a wind without fetch or time", ["--wind", "NE 20"], "argument-missing"],
    ["a fetch without a wind", [...waves("3 ft", "10 s", "045"), "--fetch", "3 nm"], "argument-missing"],
    ["a kind of period that is none", [...waves("3 ft", "10 s", "045"), "--period-is", "usual"], "argument-not-understood"],
    ["here without a depth", [...waves("3 ft", "10 s", "045"), "--here"], "argument-missing"],
    ["a magnetic bearing", waves("3 ft", "10 s", "045 M"), "bearing-other-north"],
    ["half of the boat's motion", [...waves("3 ft", "10 s", "045"), "--boat-speed", "6 kn"], "argument-missing"],
  ])("asks about %s, exit 2", async (_, words, code) => {
    const outcome = await run("wave", ...words);
    expect(outcome).toMatchObject({ code: 2, out: "" });
    expect(outcome.err).toContain(`(${code})`);
  });

  it("tells everything that is wrong at once", async () => {
    const { err } = await run("wave", "--height", "2", "--rate", "3 kn", "--here", "--fetch", "3 nm");
    expect(err).toMatch(/^6 things stand in the way/);
  });
});

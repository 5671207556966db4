import { describe, expect, it } from "vitest";
import { run, runJson } from "./run.ts";

describe("leave --workers", () => {
  it.each([
    ["0", "out-of-range"],
    ["-2", "out-of-range"],
    ["65", "out-of-range"],
    ["1.5", "argument-not-understood"],
    ["many", "quantity-not-understood"],
  ])("%s is no number of threads: %s", async (typed, code) => {
    const answer = await runJson("leave", "examples/traffic-lanes/passage.yaml", "--workers", typed);
    expect(answer).toMatchObject({ schema: "athwart.issues/1", issues: [{ path: "--workers", code }] });
  });

  it("gives the same answer for one and for two, a chance for each departure that is not closed", async () => {
    const words = ["leave", "examples/traffic-lanes/passage.yaml", "--workers"];
    const [one, two] = [await run(...words, "1"), await run(...words, "2")];
    expect(two).toEqual(one);
    const answer = await runJson(...words, "1");
    for (const row of answer["departures"] as { verdict: string; chance: { good: { of: number } } | null }[]) {
      expect(row.chance === null).toBe(row.verdict === "closed");
      if (row.chance !== null) expect(row.chance.good.of).toBe(50);
    }
  });
});

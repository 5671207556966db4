import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

/** In the demo: arrives about midnight, and in the dusk. */
const DARK = ["2027-04-06 1400", "2027-04-07 0900"];

const seconds = (value: unknown): number => Date.parse(String(value)) / 1000;

describe("an arrival in the dark", () => {
  it.each(DARK)("leaving %s: is told what to do, and each of it arrives in the light", async (when) => {
    const answer = await runJson("cross", "--demo", "--at", when);
    expect(at(answer, "verdict", "verdict")).toBe("closed");
    const lightAt = seconds(at(answer, "standingOff", "lightAt"));
    expect(lightAt).toBeGreaterThan(seconds(at(answer, "standingOff", "plannedAt")));
    expect(at(answer, "standingOff", "lyingTo", "serves")).toBe(true);
    for (const key of ["slower", "lyingTo"]) {
      expect(Math.abs(seconds(at(answer, "standingOff", key, "arrivalAt")) - lightAt), key).toBeLessThanOrEqual(60);
    }
    const departAt = seconds(at(answer, "standingOff", "later", "departAt"));
    const later = await runJson("cross", "--demo", "--at", new Date(departAt * 1000).toISOString());
    expect(at(later, "standingOff")).toBeNull();
    const minuteBefore = await runJson("cross", "--demo", "--at", new Date((departAt - 60) * 1000).toISOString());
    expect(at(minuteBefore, "standingOff")).not.toBeNull();
    const { out } = await run("cross", "--demo", "--at", when);
    expect(out.replace(/\s+/g, " ")).toMatch(/too dark to go in on arrival.*Slower: at \d\d %.*Later: leave.*heave to .* let draw /);
  });

  it("is not spoken of where the arrival is in the light", async () => {
    expect(at(await runJson("cross", "--demo", "--at", "2027-04-06 2100"), "standingOff")).toBeNull();
    expect((await run("cross", "--demo", "--at", "2027-04-06 2100")).out).not.toMatch(/heave to/);
  });
});

import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const PASSAGE = "examples/inlet/passage.yaml";
const GATE = "the bar of Gull Narrow";

describe("athwart inlet", () => {
  it("tells when it is open, a line for each half hour, and why it is shut between", async () => {
    const { out, code } = await run("inlet", PASSAGE, "--gate", GATE);
    expect(code).toBe(0);
    expect(out).toContain("The bar of Gull Narrow is open until 00:07, 08:08 to 11:57 and from 19:10 UTC-8.");
    expect(out).toMatch(/^– 02:30 {1}\d\.\d {2}−0\.\d {2}ebb 2\.\d.*night water, ebb, breaks, wind$/m);
    expect(out).toMatch(/^ {2}09:00 .*open$/m);
    expect(out.match(/^(?: {2}|– )\d\d:\d\d /gm)).toHaveLength(49);
    const text = out.replace(/\s+/g, " ");
    expect(text).toContain("ebb 2.7 kn, never 2.2 kn");
    expect(text).toContain("above LAT, taken as the chart's datum");
    expect(text).toContain("As noted: two dog-legs");
    expect(text).toContain("not for navigation");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("says the same as JSON", async () => {
    const answer = await runJson("inlet", PASSAGE, "--gate", GATE, "--on", "2027-04-09");
    expect(answer).toMatchObject({
      schema: "athwart.inlet/1",
      gate: GATE,
      on: "out",
      zone: "UTC-8",
      from: "2027-04-09T08:00Z",
      until: "2027-04-10T08:00Z",
    });
    const rows = at(answer, "rows") as readonly Readonly<Record<string, unknown>>[];
    const spells = at(answer, "spells") as readonly { readonly from: string; readonly until: string; readonly verdict: string }[];
    expect(rows).toHaveLength(49);
    for (const row of rows) {
      const when = Date.parse(String(row["at"]));
      const spell = spells.find(({ from, until }) => Date.parse(from) < when && when < Date.parse(until));
      if (spell !== undefined) expect(row["verdict"]).toBe(spell.verdict);
    }
    expect(JSON.stringify(answer)).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("has no answer, and says why, on a day on which it never opens for want of a forecast", async () => {
    const { out, code } = await run("inlet", PASSAGE, "--gate", GATE, "--on", "2027-04-20");
    expect(code).toBe(1);
    expect(out.replace(/\s+/g, " ")).toContain("not judged: no sea is forecast");
  });

  it("tells any gate, by the clock of the gate", async () => {
    const answer = await runJson("inlet", "examples/bar-and-bridge/passage.yaml", "--gate", "the Ansa bridge", "--on", "2027-04-09");
    expect(at(answer, "zone")).toBe("UTC-7");
    // Shut from 0730 to 0830 on weekdays.
    expect(at(answer, "rows", 16)).toMatchObject({
      at: "2027-04-09T15:00Z",
      verdict: "shut",
      underKeelMetres: null,
      reasons: [{ kind: "hours" }],
    });
  });

  it("asks which gate is meant, and which there is", async () => {
    const which = await run("inlet", PASSAGE);
    expect(which.code).toBe(2);
    expect(which.err.replace(/\s+/g, " ")).toContain("the passage has several: “the bar of Gull Narrow”, “the bar of Port Ansa”");
    const slip = await run("inlet", PASSAGE, "--gate", "the bar of Gul Narrow", "--on", "tomorrow");
    expect(slip.code).toBe(2);
    expect(slip.err).toContain("--on");
    expect(slip.err.replace(/\s+/g, " ")).toContain("did you mean “the bar of Gull Narrow”?");
    const none = await run("inlet", "--demo");
    expect(none.code).toBe(2);
    expect(none.err).toContain("inlet-none");
  });
});

import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const PASSAGE = "examples/bar-and-bridge/passage.yaml";

describe("a passage through gates", () => {
  it("tells on the board what she waits for, what she misses, by how much, and the cure", async () => {
    const { out, code } = await run("leave", PASSAGE);
    expect(code).toBe(0);
    expect(out).toContain("                        Gull Narrow 02:00 UTC-8, waits 27\u00a0min\n");
    const text = out.replace(/\s+/g, " ");
    expect(text).toContain("Gull Narrow missed 42 min too early for Gull Narrow 02:00 UTC-8; cure: leave 42 min later");
    expect(text).toContain("20:00 to 23:00 shut: Gull Narrow missed");
    expect(text).toContain("short of time: Gull Narrow shuts");
    expect(text).toMatch(
      /Gates: Gull Narrow 02:00 UTC-8, waits 27 min; .*; notice to the harbour office by Fri \d\d:\d\d UTC-7; the harbour office Sat 08:00 UTC-7/,
    );
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(line.startsWith("For the order:") ? 100 : 80);
  });

  it("tells every cure of one departure", async () => {
    const { out } = await run("cross", PASSAGE, "--at", "2027-04-09 0300");
    const text = out.replace(/\s+/g, " ");
    expect(text).toContain("shut, by 53 min late for Gull Narrow 02:40 UTC-8, open again 08:15 UTC-8. Do not leave then.");
    expect(text).toContain(
      "Missed: 53 min late for Gull Narrow 02:40 UTC-8, open again 08:15 UTC-8; cure: leave 54 min earlier; or leave 3 h 57 later.",
    );
  });

  it("says the same as JSON, and its cures pass when they are taken", async () => {
    const answer = await runJson("leave", PASSAGE, "--why", "2027-04-09 0300");
    expect(at(answer, "departures", 0)).toMatchObject({
      verdict: "closed",
      decidedBy: { kind: "gate", gate: "Gull Narrow" },
      gates: {
        passed: [],
        fault: { kind: "missed", name: "Gull Narrow", on: "out", late: { until: "2027-04-09T10:40Z" } },
        cures: [
          { kind: "leave", seconds: -54 * 60, departAt: "2027-04-09T10:06Z" },
          { kind: "leave", seconds: 237 * 60, departAt: "2027-04-09T14:57Z" },
        ],
      },
    });
    const cured = await runJson("leave", PASSAGE, "--why", "2027-04-09T10:06Z");
    expect(at(cured, "departures", 0, "gates", "fault")).toBeNull();
    expect(at(cured, "departures", 0, "gates", "passed", 0, "name")).toBe("Gull Narrow");
    const notQuite = await runJson("leave", PASSAGE, "--why", "2027-04-09T10:07Z");
    expect(at(notQuite, "departures", 0, "gates", "fault", "kind")).toBe("missed");
  });

  it("is not judged where the values given do not reach", async () => {
    const answer = await runJson("leave", PASSAGE, "--why", "2027-04-10 1400");
    expect(at(answer, "departures", 0, "verdict")).not.toBe("open");
    expect(at(answer, "departures", 0, "gates", "fault")).toMatchObject({
      kind: "notGiven",
      name: "Gull Narrow",
      why: { code: "gate-times-not-given", gate: "Gull Narrow", coveredUntil: "2027-04-10T17:45Z" },
    });
  });
});

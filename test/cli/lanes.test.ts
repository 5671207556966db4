import { describe, expect, it } from "vitest";
import { at, run, runJson } from "./run.ts";

const CROSS = ["cross", "examples/traffic-lanes/passage.yaml", "--at", "2027-05-11 0600"] as const;

describe("cross, over traffic lanes", () => {
  it("advises the way square in the lanes, three headings with times, and flags those that are not", async () => {
    const { out, code } = await run(...CROSS);
    expect(code).toBe(0);
    const text = out.replace(/\s+/g, " ");
    expect(text).toMatch(/→ square in the lanes\s+\d h \d\d/);
    expect(text).toMatch(
      /Steer \d{3} magnetic from the fairway buoy off Skarn\. At Tue \d\d:\d\d, [\d.]+ miles across, steer 252 magnetic, square to north-east lane and south-west lane\. At Tue \d\d:\d\d, [\d.]+ miles across, steer \d{3} magnetic\./,
    );
    expect(text).toMatch(/one heading: north-east lane \d\d:\d\d to \d\d:\d\d: \d\d° off square, along the traffic: NOT SQUARE/);
    expect(text).toMatch(/→ square in the lanes: north-east lane \d\d:\d\d to \d\d:\d\d: square; south-west lane/);
    expect(text).toContain("COLREGS rule 10(c)");
    expect(text).toContain("of those that are square in the traffic lanes");
    expect(text).toMatch(/Aiming up-stream of the fairway buoy off Hale costs .* from 50 % to [\d, ]+ %/);
    expect(text).toMatch(/Brim Head Tue \d\d:\d\d Tue \d\d:\d\d/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("tells the same as JSON", async () => {
    const answer = await runJson(...CROSS);
    expect(at(answer, "advised")).toBe("squareInLanes");
    expect(at(answer, "ways", 1, "name")).toBe("squareInLanes");
    expect(at(answer, "ways", 1, "laneCrossings", 0)).toMatchObject({
      lane: "north-east lane",
      offSquareWorstDeg: 0,
      headed: null,
      notSquare: false,
    });
    expect(at(answer, "ways", 1, "orders", 1, "steer", "squareTo")).toEqual(["north-east lane", "south-west lane"]);
    expect(at(answer, "ways", 1, "orders", 1, "steer", "headingDegTrue")).toBe(230);
    expect(at(answer, "ways", 0, "laneCrossings", 0, "notSquare")).toBe(true);
    expect(at(answer, "ways", 0, "laneCrossings", 1)).toMatchObject({ lane: "separation zone", offSquareWorstDeg: null, notSquare: false });
    expect(at(answer, "squareDepartures", "withinDeg")).toBe(10);
    expect(at(answer, "staging")).toHaveLength(2);
    expect(at(answer, "upStreamBias", "rows", 0)).toMatchObject({ biasNm: 0, costSeconds: 0, downStreamChance: 0.5 });
  });

  it("says nothing of lanes and staging where there are none", async () => {
    const { out } = await run("cross", "--demo", "--at", "2027-04-07 2200");
    expect(out).not.toContain("lane");
    expect(out).not.toContain("saved");
    const answer = await runJson("cross", "--demo", "--at", "2027-04-07 2200");
    expect(at(answer, "squareDepartures")).toBeNull();
    expect(at(answer, "staging")).toBeNull();
  });
});

describe("leave, over traffic lanes", () => {
  it("judges the way that is advised", async () => {
    const answer = await runJson("leave", "examples/traffic-lanes/passage.yaml");
    expect(at(answer, "departures", 4, "way")).toBe("squareInLanes");
  });
});

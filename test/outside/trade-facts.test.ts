/**
 * Facts of the trade, common practice without a source to cite. Others of them stand where their room is tried: a light wind along or
 * across a stream and any wind against it in `test/core/window/wind-against.test.ts`, the headsail under engine in
 * `test/outside/boat-speed-and-fuel.test.ts`, most of a day for a crossing in `test/house/demo.test.ts`.
 */
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { flatPlane } from "../../src/core/earth/index.ts";
import { CLEAR_RATE_MPS, crossingOf, lineBetween, runLegs, startOf } from "../../src/core/passage/index.ts";
import { tryDepartures } from "../../src/core/plan/index.ts";
import { MPS_PER_KNOT as KN, METRES_PER_NM as NM } from "../../src/core/units/index.ts";
import { gaussianJet } from "../../src/core/water/index.ts";
import { openPassage } from "../../src/storage/index.ts";

const boat = {
  dependsOnWind: false,
  propelInto(out: { speedThroughWaterMps: number; leewayDeg: number; engineOn: boolean; burnLitresPerHour: number }) {
    out.speedThroughWaterMps = 5.5 * KN;
    out.leewayDeg = 0;
    out.engineOn = true;
    out.burnLitresPerHour = 0;
  },
};

describe("steering square across the set (common practice)", () => {
  const plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 100 * NM);
  const jet = gaussianJet({ rateMps: 3.2 * KN, axisMetres: 25 * NM, halfWidthMetres: 9 * NM });
  const around = { plane, current: jet.onPlane(plane), currentCovers: null, wind: null, windCovers: null };
  const line = lineBetween(plane, 0, 0, 50 * NM, 0);
  const crossing = crossingOf(line, around, boat, 60);
  const held = (headingDegTrue: number) => {
    const run = runLegs(crossing, crossing.simulator, startOf(crossing, 0), [
      { boat, plan: () => ({ helm: { kind: "heading", headingDegTrue }, until: { kind: "along", line, metres: line.lengthMetres } }) },
    ]);
    if (run.kind === "fails") throw new Error(run.why.code);
    const { track, end } = run;
    let secondsInStream = 0;
    for (let i = 0; i + 1 < track.count; i++) {
      if ((track.currentNorthMps[i] as number) >= CLEAR_RATE_MPS)
        secondsInStream += (track.atSeconds[i + 1] as number) - (track.atSeconds[i] as number);
    }
    return { secondsInStream, carriedMetres: end.yMetres };
  };

  it("gives the least time in the current", () => {
    const square = held(90).secondsInStream;
    for (const off of [5, 10, 20, 40]) {
      expect(held(90 - off).secondsInStream).toBeGreaterThan(square);
      expect(held(90 + off).secondsInStream).toBeGreaterThan(square);
    }
  });

  it("fixes how far the current carries you: the stream's total over the boat's speed", () => {
    // ∫ 3.2·exp(−((x − 25)/9)²) dx over 0 to 50 nm = 3.2·9·√π·erf(25/9), all but 9e-5 of it inside.
    const totalKnNm = 3.2 * 9 * Math.sqrt(Math.PI) * 0.99991436;
    expect(held(90).carriedMetres / NM).toBeCloseTo(totalKnNm / 5.5, 3);
  });
});

describe("two or three calm days before leaving (common practice)", async () => {
  const opened = await openPassage(fileURLToPath(new URL("../../demo/morrel/passage.yaml", import.meta.url)));
  if (!opened.ok) throw new Error("the demo can't be opened");
  const answer = tryDepartures(opened.value.prepared);
  const sinceAt = (utc: string) => {
    const row = answer?.rows.find((one) => one.departAt === Date.parse(utc) / 1000);
    if (row?.sinceAgainst == null) throw new Error(`nothing is told for ${utc}`);
    return row.sinceAgainst;
  };

  it("are told for by the hours since the wind last blew against the stream", () => {
    // Before the blow of the demo's week it has not blown so as far back as the forecast goes, and that is not much.
    expect(sinceAt("2027-04-07T04:00:00Z").kind).toBe("notSince");
    // In the blow: none. Two nights after it less than two days; and two nights later more.
    expect(sinceAt("2027-04-10T04:00:00Z")).toEqual({ kind: "blew", seconds: 0 });
    const sunday = sinceAt("2027-04-11T10:00:00Z");
    const tuesday = sinceAt("2027-04-13T10:00:00Z");
    expect([sunday.kind, tuesday.kind]).toEqual(["blew", "blew"]);
    expect(sunday.seconds).toBeLessThan(86400);
    expect(tuesday.seconds).toBeGreaterThan(2 * 86400);
    expect(tuesday.seconds - sunday.seconds).toBeCloseTo(2 * 86400, -4);
  });
});

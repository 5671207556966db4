import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import {
  boardTold,
  boardToldOf,
  type DepartureTold,
  departureTold,
  departureToldOf,
  leaveJson,
  STALE_AFTER_SECONDS,
} from "../../src/api/index.ts";
import { closeAt, crossAt, type LeaveAnswer, refugesAt, tryDeparture } from "../../src/core/plan/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { openPassage } from "../../src/storage/index.ts";

const DEMO = fileURLToPath(new URL("../../demo/morrel/passage.yaml", import.meta.url));
const OPEN_AT = epochSeconds(Date.parse("2027-04-07T05:00Z") / 1000);
const DARK_AT = epochSeconds(Date.parse("2027-04-07T18:00Z") / 1000);
const UNKNOWN_AT = epochSeconds(Date.parse("2027-04-14T10:00Z") / 1000);
const NONE_TYPED = { limits: [], toSet: [], speed: null };

describe("what is told of the demo", () => {
  let open: LeaveAnswer;
  let told: DepartureTold;
  beforeAll(async () => {
    const opened = await openPassage(DEMO);
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    const { prepared } = opened.value;
    open = tryDeparture(prepared, OPEN_AT);
    const known = { kept: open.kept[0] as NonNullable<(typeof open.kept)[0]>, row: open.rows[0] as NonNullable<(typeof open.rows)[0]> };
    told = departureToldOf(closeAt(prepared, OPEN_AT, known), refugesAt(prepared, OPEN_AT), open);
  });

  it("fits its schemas", () => {
    expect(boardTold.parse(boardToldOf(open, NONE_TYPED, null))).toBeTruthy();
    expect(departureTold.parse(told)).toBeTruthy();
  });

  it("has the verdicts and margins of the answer as JSON", () => {
    for (const at of [OPEN_AT, DARK_AT, UNKNOWN_AT]) {
      const answer = tryDeparture(open.prepared, at);
      const json = leaveJson(answer).departures[0];
      const line = boardToldOf(answer, NONE_TYPED, null).days[0]?.lines[0];
      expect(line?.departAt).toBe(json?.departAt);
      expect(line?.verdict).toBe(at === UNKNOWN_AT ? "notJudged" : json?.verdict);
      expect(line?.margin ?? null).toBe(json?.smallestMargin ?? null);
    }
  });

  it("tells a first board while chances are still wanting", () => {
    const { chances: _chances, keptChances: _kept, ...first } = open;
    const line = boardToldOf(first, NONE_TYPED, null).days[0]?.lines[0];
    expect(line?.inTen).toBeNull();
    expect(boardToldOf(open, NONE_TYPED, null).days[0]?.lines[0]?.inTen).toBe(10);
  });

  it("gives a known departure the same answer as one that is tried anew", () => {
    const anew = crossAt(open.prepared, OPEN_AT);
    const close = closeAt(open.prepared, OPEN_AT, null);
    expect(close.advised?.arrivalAt).toBe(anew.advised?.arrivalAt);
    expect(departureToldOf(close, null, null).ways).toEqual(told.ways);
    expect(close.row.inHand).toEqual(anew.row.inHand);
    expect(close.row.inHand?.slower).toEqual(open.rows[0]?.inHand?.slower);
  });

  it("lays the section out as the passage states it: 52.0 miles on 119, the stream's set toward 215 so that up is up-stream", () => {
    const section = told.section;
    if (section === null) throw new Error("no section");
    expect(section.lengthNm).toBeCloseTo(52.0, 1);
    expect(Math.round(section.lineDegTrue)).toBe(119);
    // The stream sets to starboard of 119, so that up the drawing is 90° to port of it.
    expect(section.upDegTrue).toBeCloseTo(section.lineDegTrue - 90, 1);
    expect(section.streamMarks.filter(({ acrossNm }) => acrossNm > 15 && acrossNm < 30).every(({ upKn }) => upKn < 0)).toBe(true);
    expect(section.southern).toBe(true);
    for (const path of section.paths) {
      expect(path.points[0]).toEqual([0, 0]);
      expect(path.points.at(-1)?.[0]).toBeCloseTo(section.lengthNm, 1);
      expect(Math.abs(path.points.at(-1)?.[1] ?? 9)).toBeLessThan(0.05);
    }
    const order = section.paths.find(({ role }) => role === "order");
    const down = Math.max(...(order?.points ?? []).map(([, off]) => -off));
    expect(down.toFixed(1)).toBe(told.ways.find(({ role }) => role === "order")?.down);
  });

  it("places the land, the ports and the light where they are", () => {
    const section = told.section;
    expect(section?.places.map(({ name }) => name)).toEqual([
      "Pelu Road",
      "Port Ansa",
      "Lantern Cove",
      "lee of Gannet Stack",
      "Wick Bar",
      "Ember Haven",
    ]);
    // Lantern Cove, 33 35.8S 119 06.1W, lies 14.0 miles from Pelu Road, 33 24.0S 118 57.0W, on 213: by plane trigonometry 1 mile behind the start, 14 down-stream.
    const cove = section?.places.find(({ name }) => name === "Lantern Cove");
    expect(cove?.acrossNm).toBeCloseTo(-1.0, 1);
    expect(cove?.offNm).toBeCloseTo(-14.0, 1);
    expect(section?.light.map(({ light }) => light)).toEqual(["night", "twilight", "day"]);
    expect(section?.lightWords).toEqual([{ acrossNm: section?.light[2]?.fromNm, words: "sun up Wed 06:10" }]);
    expect(section?.hours[0]?.clock).toBe("21:45");
    expect(section?.hours.at(-1)?.clock).toBe("07:20");
    expect(section?.land.map(({ name, kind }) => `${name} ${kind}`)).toContain("Tavora land");
    expect(section?.land.some(({ kind }) => kind === "keptOut")).toBe(true);
  });

  it("tells a refuge hour with one soonest at most, and that one can be entered", () => {
    expect(told.refuges?.hours.length).toBeGreaterThan(8);
    for (const hour of told.refuges?.hours ?? []) {
      const soonest = hour.cells.filter((cell) => cell.soonest);
      expect(soonest.length).toBe(hour.wait === null ? 1 : 0);
      expect(soonest.every((cell) => cell.state === "enter")).toBe(true);
      expect(hour.cells.every((cell) => cell.state === "enter" || cell.why !== null)).toBe(true);
    }
  });

  it("says loudly what is stale, and only then", () => {
    const issuedAt = open.prepared.winds[0]?.issuedAt ?? 0;
    const loudAt = (nowAt: number) => boardToldOf(open, NONE_TYPED, nowAt).sources.find(({ words }) => words.startsWith("Wind"))?.loud;
    expect(loudAt(issuedAt + STALE_AFTER_SECONDS - 60)).toBe(false);
    expect(loudAt(issuedAt + STALE_AFTER_SECONDS + 60)).toBe(true);
    expect(boardToldOf(open, NONE_TYPED, issuedAt + 3 * 86400).sources.some(({ words }) => words.endsWith("3 d 0 h old"))).toBe(true);
  });

  it("tells a departure that is shut as shut, with what the order would be", () => {
    const dark = departureToldOf(closeAt(open.prepared, DARK_AT, null), null, null);
    expect(dark.standsOpen).toBe(false);
    expect(dark.leaving).toContain("Do not leave then.");
    expect(dark.wrong.some(({ name }) => name === "Standing off")).toBe(true);
    expect(dark.limits[0]?.margin).toBeLessThan(0);
  });
});

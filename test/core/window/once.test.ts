import { describe, expect, it } from "vitest";
import type { StatedDepth } from "../../../src/core/places/index.ts";
import { analyticCurrent, type Tide } from "../../../src/core/water/index.ts";
import { periodRanges } from "../../../src/core/weather/index.ts";
import {
  type BoardRow,
  judgeBoard,
  keepDepartures,
  type LimitOnce,
  type PassageFacts,
  type WeatherToFeel,
} from "../../../src/core/window/index.ts";
import { decidedInWords } from "../../../src/words/index.ts";
import { clock, HOUR, kn, limit, plane, seas, trial, winds } from "./setup.ts";

const facts: PassageFacts = {
  shipZone: "UTC-3",
  arrivalZone: "UTC+2",
  draughtMetres: 1.7,
  usableFuelLitres: 40,
  burnLitresPerHour: 2,
  crew: { watchkeepers: 1, up: { kind: "clock", upAtSecondOfDay: 7 * HOUR, inBedAtSecondOfDay: null }, sleptOffWatchShare: 0.5 },
  depths: [],
  approachDegTrue: null,
};
const calm = winds({ from: 0, until: 96, dir: 200, low: 8 });
const once = (felt: LimitOnce["felt"], happy: number, never: number, calmMps?: number): LimitOnce => ({
  felt,
  happy,
  never,
  during: "once",
  toleratedSeconds: 0,
  ...(calmMps === undefined ? {} : { calmMps }),
});
/** Six hours in still water, and a mile out and in at 4 kn unless told: a quarter of an hour each. */
const mile = (from: number, to: number) => ({
  points: [plane.toPosition(from * 1852, 0), plane.toPosition(to * 1852, 0)],
  speedOverGroundMps: kn(4),
});
function rowOf(one: Parameters<typeof judgeBoard>[1][number], hour: number, changes: Partial<WeatherToFeel> = {}, setup = {}): BoardRow {
  const weather = { wind: calm, sea: null, facts, ...changes };
  const made = trial({ out: mile(37, 36), into: mile(0, -1), ...setup });
  return judgeBoard(keepDepartures(() => made, [clock(hour)], weather) ?? [], [one], weather)[0] as BoardRow;
}
const judgedValue = (row: BoardRow): number => {
  const [judged] = row.margins;
  if (judged?.kind !== "judged") throw new Error(`not judged: ${JSON.stringify(judged)}`);
  return judged.value;
};

describe("limits on one figure of a passage", () => {
  it("fuel: six hours and two quarters at 2 L/h of 40 L, and not judged where the burn or the usable fuel is not stated", () => {
    const row = rowOf(once("fuelLeftLitres", 30, 20), 8);
    expect(judgedValue(row)).toBeCloseTo(40 - 13, 6);
    expect(row.verdict.smallestMargin).toBeCloseTo(0.7, 6);
    expect(rowOf(once("fuelLeftLitres", 30, 27.5), 8).verdict.kind).toBe("closed");
    for (const wants of ["burn", "usableFuel"] as const) {
      const missing = wants === "burn" ? { burnLitresPerHour: null } : { usableFuelLitres: null };
      const unknown = rowOf(once("fuelLeftLitres", 30, 20), 8, { facts: { ...facts, ...missing } });
      expect(unknown.verdict).toMatchObject({ kind: "marginal", decidedBy: { margin: { why: { code: "not-stated", wants } } } });
    }
  });

  it("hours awake: up at 0700 ship's time, left at 0900 (1200 UTC), alone for six and a half hours", () => {
    expect(judgedValue(rowOf(once("awakeSeconds", 16 * HOUR, 24 * HOUR), 12))).toBeCloseTo(8.5 * HOUR, 0);
    const none = rowOf(once("awakeSeconds", 16 * HOUR, 24 * HOUR), 12, { facts: { ...facts, crew: null } });
    expect(decidedInWords(none, "UTC").words).toBe("not judged: the crew is not stated");
  });

  it("bedtime: by the clock at the berth, running on past midnight until 0500, when a new day begins", () => {
    const bedtime = once("arrivalClockSeconds", 22 * HOUR, 24.5 * HOUR);
    // Berthed at 1830 UTC, 2030 there; at 2330 UTC, 0130 there; at 0306 UTC, 0506 there.
    expect(judgedValue(rowOf(bedtime, 12))).toBeCloseTo(20.5 * HOUR, 0);
    const late = rowOf(bedtime, 17);
    expect(judgedValue(late)).toBeCloseTo(25.5 * HOUR, 0);
    expect(late.verdict.kind).toBe("closed");
    // The clock strikes half past midnight at 2230 UTC.
    expect(late.margins[0]).toMatchObject({ firstPastNeverAt: expect.closeTo(clock(22.5), -1) });
    expect(judgedValue(rowOf(bedtime, 20.6))).toBeCloseTo(5.1 * HOUR, 0);
    expect(rowOf(bedtime, 16.5).verdict.smallestMargin).toBeCloseTo(-0.2, 3);
  });

  it("under the keel: the least of the shallows, each with the highest sea on its leg, at the tide that is stated", () => {
    const shallow = (changes: Partial<StatedDepth>): StatedDepth => ({
      name: "the bar",
      on: "in",
      depthMetres: 4,
      datum: "chart",
      tideAboveChartDatumMetres: null,
      wavesMetres: null,
      ...changes,
    });
    const keel = once("underKeelMetres", 1.5, 0.5);
    const sea = seas([0, 14, 0.5, 1.5, null, null], [14, 96, 0.2, 0.6, null, null]);
    const under = (...depths: StatedDepth[]) => rowOf(keel, 8, { sea, facts: { ...facts, depths } });
    // In by 1415 and 1430: 4 − 1.7 − 0.6. Out at 0800: 4 − 1.7 − 1.5.
    expect(judgedValue(under(shallow({})))).toBeCloseTo(1.7, 9);
    expect(judgedValue(under(shallow({ on: "out" })))).toBeCloseTo(0.8, 9);
    expect(judgedValue(under(shallow({ tideAboveChartDatumMetres: 0.4, wavesMetres: 0.2 })))).toBeCloseTo(2.5, 9);
    const two = under(shallow({}), shallow({ name: "the sill", on: "out" }));
    expect(judgedValue(two)).toBeCloseTo(0.8, 9);
    expect(two.margins[0]).toMatchObject({ name: "the sill", margin: expect.closeTo(0.3, 9) });
    // What is not known is not judged, whatever the other shallow says; where that is past never it closes.
    const unknown = under(shallow({}), shallow({ name: "the pool", datum: "unknown" }));
    expect(decidedInWords(unknown, "UTC").words).toBe("not judged: datum of the pool unknown");
    expect(unknown.margins[0]).toMatchObject({ kind: "notJudged", knownPart: { value: expect.closeTo(1.7, 9) } });
    expect(under(shallow({ depthMetres: 2.7 }), shallow({ name: "the pool", datum: "unknown" })).verdict.kind).toBe("closed");
    expect(rowOf(keel, 8, { facts: { ...facts, depths: [shallow({})] } }).margins[0]).toMatchObject({
      why: { code: "not-covered-variable", quantity: "seaHeightMetres" },
    });
    expect(rowOf(keel, 8, { facts: { ...facts, draughtMetres: null, depths: [shallow({})] } }).margins[0]).toMatchObject({
      why: { wants: "draught" },
    });
    expect(decidedInWords(rowOf(keel, 8), "UTC").words).toBe("not judged: no depth is stated");
  });

  it("under the keel: the lowest of a computed tide while she is on that leg", () => {
    // In at 1415, berthed 1430: a tide that falls 0.2 m an hour from 3 m at noon is 2.5 m then. 2 + 2.5 − 1.7 − 0.3.
    const falling = { heightAt: (at: number) => 3 - (0.2 * (at - clock(12))) / HOUR } as unknown as Tide;
    const depth: StatedDepth = {
      name: "the flats",
      on: "in",
      depthMetres: 2,
      datum: "chart",
      tideAboveChartDatumMetres: null,
      tide: "Port Ansa",
      wavesMetres: 0.3,
    };
    const named = { ...facts, depths: [depth], tideNamed: (name: string) => (name === "Port Ansa" ? falling : null) };
    const row = rowOf(once("underKeelMetres", 3, 0.5), 8, { facts: named });
    expect(judgedValue(row)).toBeCloseTo(2.5, 3);
    expect(row.margins[0]).toMatchObject({ name: "the flats", at: expect.closeTo(clock(14.5), -1) });
    // Out by 0800 to 0815, the water higher still: 2 + 3.75 − 1.7 − 0.3 at the end of the leg.
    const out = rowOf(once("underKeelMetres", 3, 0.5), 8, { facts: { ...named, depths: [{ ...depth, on: "out" }] } });
    expect(judgedValue(out)).toBeCloseTo(3.75, 3);
    // So far along, when she comes by: half a mile in at 1422:30, at the berth at 1430; out of the berth at 0800.
    const at = (changes: Partial<StatedDepth>) =>
      judgedValue(rowOf(once("underKeelMetres", 3, 0.5), 8, { facts: { ...named, depths: [{ ...depth, ...changes }] } }));
    expect(at({ along: 926 })).toBeCloseTo(2.525, 3);
    expect(at({ along: "berth" })).toBeCloseTo(2.5, 3);
    expect(at({ along: 0 })).toBeCloseTo(2.55, 3);
    expect(at({ on: "out", along: "berth" })).toBeCloseTo(3.8, 3);
    expect(() => rowOf(once("underKeelMetres", 3, 0.5), 8, { facts: { ...facts, depths: [depth] } })).toThrow("no tide called Port Ansa");
  });

  it("calm before: back to the last hour above what is calm; at least so long where the forecast begins later", () => {
    const blew = winds({ from: 0, until: 6, dir: 200, low: 15 }, { from: 6, until: 96, dir: 200, low: 5, high: 9 });
    const calmTen = (happy: number, never: number) => once("calmBeforeSeconds", happy * HOUR, never * HOUR, kn(10));
    // 15 kn until 0600, looked at every hour: last at 0500. Leaving 1500 that is ten hours.
    expect(judgedValue(rowOf(calmTen(12, 6), 15, { wind: blew }))).toBe(10 * HOUR);
    expect(rowOf(calmTen(12, 11), 15, { wind: blew }).verdict.kind).toBe("closed");
    // Calm up to 16 kn: at least 15 hours, as far back as is known: enough for 12, not known for 24.
    const lax = (happy: number) => rowOf(once("calmBeforeSeconds", happy * HOUR, 6 * HOUR, kn(16)), 15, { wind: blew });
    expect(judgedValue(lax(12))).toBe(15 * HOUR);
    expect(lax(24).verdict.kind).toBe("marginal");
    expect(decidedInWords(lax(24), "UTC").words).toBe("not judged: earlier wind begins Thu 00:00");
  });

  it("since the wind blew against the stream: at mid-stream, back to when it last did", () => {
    const north = analyticCurrent("1 kn to the north", (out) => {
      out[0] = 0;
      out[1] = kn(1);
    });
    const turned = winds({ from: 0, until: 6, dir: 0, low: 15 }, { from: 6, until: 96, dir: 180, low: 9 });
    const since = once("sinceAgainstSeconds", 24 * HOUR, 4 * HOUR);
    const row = rowOf(since, 8, { wind: turned }, { current: north });
    const { at, value } = row.margins[0] as Extract<BoardRow["margins"][number], { kind: "judged" }>;
    // Looked at hour by hour: it blew within the hour before 0600 that is so many whole hours back.
    expect(at - value).toBeGreaterThan(clock(5));
    expect(at - value).toBeLessThanOrEqual(clock(6));
    expect(row.sinceAgainst).toEqual({ kind: "blew", seconds: value });
    const never = rowOf(since, 8, { wind: winds({ from: 0, until: 96, dir: 180, low: 15 }) }, { current: north });
    expect(never.verdict).toMatchObject({ kind: "marginal", decidedBy: { kind: "notJudged" } });
  });
});

describe("visibility and thunderstorms", () => {
  const ranged = (...periods: readonly (readonly [number, number, number, number])[]) =>
    periodRanges(
      "periods",
      null,
      periods.map(([from, until, low, high]) => ({ from: clock(from), until: clock(until), low, high })),
    );

  it("are judged by the worse end of the range, from the minute it holds", () => {
    const see = rowOf(limit("visibilityMetres", 9000, 2000), 8, { visibility: ranged([0, 12, 8000, 12000], [12, 96, 1000, 5000]) });
    expect(see.margins[0]).toMatchObject({ kind: "judged", value: 1000, firstPastNeverAt: expect.closeTo(clock(12), -1) });
    const storm = rowOf(limit("thunderstormShare", 0.1, 0.4), 8, { thunderstorms: ranged([0, 96, 0.1, 0.25]) });
    expect(storm.verdict.smallestMargin).toBeCloseTo(0.5, 9);
  });

  it("are not judged where no source gives them, or none covers the time", () => {
    expect(decidedInWords(rowOf(limit("visibilityMetres", 9000, 2000), 8), "UTC").words).toBe("not judged: no source gives visibility");
    const ends = rowOf(limit("thunderstormShare", 0.1, 0.4), 8, { thunderstorms: ranged([0, 10, 0, 0.1]) });
    expect(decidedInWords(ends, "UTC").words).toBe("not judged: thunderstorms ends Thu 10:00");
    expect(ends.verdict.kind).toBe("marginal");
  });
});

import { describe, expect, it } from "vitest";
import type { NoAnswer } from "../../../src/core/answers/index.ts";
import { COVERED, NO_TIME } from "../../../src/core/fields/index.ts";
import { CURRENT_QUANTITIES, type CurrentSource } from "../../../src/core/water/index.ts";
import type { WindSource } from "../../../src/core/weather/index.ts";
import {
  type BoardRow,
  firstDoor,
  judgeBoard,
  keepDepartures,
  type Limit,
  type Margin,
  type Tried,
} from "../../../src/core/window/index.ts";
import { clock, HOUR, kn, limit, trial, winds } from "./setup.ts";

const where = { latitudeDeg: 34, longitudeDeg: -41 };
const wind = limit("windMps", 15, 25);
const gust = limit("gustMps", 20, 30);

/** A limit's margin; where it is past never, that is first so at `pastAt`. */
const margin = (of: Limit, value: number, pastAt: number = clock(0)): Margin => ({
  kind: "judged",
  limit: of,
  margin: value,
  value: 0,
  peakValue: 0,
  at: clock(6),
  where,
  firstPastNeverAt: value < 0 ? pastAt : null,
});
const unknown = (of: Limit, known: number | null): Margin => ({
  kind: "notJudged",
  limit: of,
  why: { kind: "noAnswer", code: "not-covered-time", quantity: of.felt, at: clock(9), where, coveredFrom: null, coveredUntil: clock(8) },
  knownPart:
    known === null ? null : { margin: known, value: 0, peakValue: 0, at: clock(6), where, firstPastNeverAt: known < 0 ? clock(0) : null },
});
const tried = (amount: number, ...margins: Margin[]): Tried => ({
  amount,
  outcome: { kind: "judged", margins, arrivalAt: clock(12) + amount },
});
const why: NoAnswer = { kind: "noAnswer", code: "cannot-hold", at: clock(9), where };

describe("the first door", () => {
  it("lies on the straight line between the last good case and the first bad one", () => {
    // 0.6 at one hour, −0.2 at two: three quarters of the way.
    const door = firstDoor([tried(0, margin(wind, 1)), tried(HOUR, margin(wind, 0.6)), tried(2 * HOUR, margin(wind, -0.2))]);
    expect(door).toEqual({ amount: 1.75 * HOUR, door: { kind: "limit", felt: "windMps" } });
  });

  it("is that of the limit which shuts first, not of the one that ends deepest", () => {
    // Wind: 0.9 to −0.6 shuts at 0.6 of the hour; gusts: 0.1 to −0.1 at half.
    const before = [margin(wind, 0.9), margin(gust, 0.1)];
    const after = [margin(wind, -0.6), margin(gust, -0.1)];
    for (const [m0, m1] of [
      [before, after],
      [before.toReversed(), after.toReversed()],
    ] as const) {
      const door = firstDoor([tried(0, ...m0), tried(HOUR, ...m1)]);
      expect(door).toEqual({ amount: expect.closeTo(0.5 * HOUR, 6), door: { kind: "limit", felt: "gustMps" } });
    }
  });

  it("does not open again: a later good case does not count", () => {
    const door = firstDoor([tried(0, margin(wind, 0.5)), tried(HOUR, margin(wind, -0.5)), tried(2 * HOUR, margin(wind, 1))]);
    expect(door.amount).toBe(0.5 * HOUR);
  });

  it("is not promised beyond the moment to which the arrival may slip, where it shuts at one stroke", () => {
    // Arrives at 1200 with a margin of 1.7; an hour later at 1300, past never since 1220. Straight lines would say 57 minutes.
    const door = firstDoor([tried(0, margin(wind, 1.7)), tried(HOUR, margin(wind, -0.1, clock(12, 20)))]);
    expect(door.amount).toBeCloseTo(20 * 60, 6);
  });

  it("is the last good case where the next cannot be judged or has no passage", () => {
    expect(firstDoor([tried(0, margin(wind, 1)), tried(HOUR, margin(wind, 1)), tried(2 * HOUR, unknown(wind, 0.8))])).toEqual({
      amount: HOUR,
      door: { kind: "notJudged", felt: "windMps", why: expect.objectContaining({ kind: "noAnswer" }) },
    });
    const stopped: Tried = { amount: 2 * HOUR, outcome: { kind: "noPassage", why } };
    expect(firstDoor([tried(0, margin(wind, 1)), tried(HOUR, margin(wind, 1)), stopped])).toEqual({
      amount: HOUR,
      door: { kind: "noPassage", why },
    });
  });

  it("is met by the known part of a limit, too", () => {
    expect(firstDoor([tried(0, margin(wind, 0.5)), tried(HOUR, unknown(wind, -0.5))])).toEqual({
      amount: 0.5 * HOUR,
      door: { kind: "limit", felt: "windMps" },
    });
  });

  it("is not the want of a forecast that the passage as planned already wants", () => {
    const cases = [
      tried(0, margin(wind, 1), unknown(gust, null)),
      tried(HOUR, margin(wind, 1), unknown(gust, null)),
      tried(2 * HOUR, margin(wind, -1), unknown(gust, null)),
    ];
    expect(firstDoor(cases)).toEqual({ amount: 1.5 * HOUR, door: { kind: "limit", felt: "windMps" } });
  });

  it("may not be met as far as was tried", () => {
    expect(firstDoor([tried(0, margin(wind, 1)), tried(4 * HOUR, margin(wind, 0))])).toEqual({ amount: 4 * HOUR, door: null });
    expect(firstDoor([tried(0, margin(wind, 1))])).toEqual({ amount: 0, door: null });
  });
});

/** Hourly departures of a boat of 6 kn over 36 nm of still water, six hours; its row by the hour of departure. */
function board(
  source: WindSource,
  hours: readonly number[],
  limits: readonly Limit[] = [wind],
  current?: CurrentSource,
): Map<number, BoardRow> {
  const weather = { wind: source, sea: null };
  const setup = trial(current === undefined ? {} : { current });
  const kept = keepDepartures(
    () => setup,
    hours.map((hour) => clock(hour)),
    weather,
  );
  if (kept === null) throw new Error("stopped");
  return new Map(judgeBoard(kept, limits, weather).map((row, i) => [hours[i] as number, row]));
}

const hours = (from: number, until: number): number[] => Array.from({ length: until - from + 1 }, (_, k) => from + k);
const minutesOf = (slack: { readonly seconds: number | null } | null | undefined): number =>
  Math.round((slack?.seconds ?? Number.NaN) / 60);

/**
 * A front at 1435: 8 kn before it, 30 kn from then on; happy at 15, never at 25. Six hours of passage, so a departure at 0800 arrives at
 * 1400 and at 0835 in the teeth of it.
 */
describe("a front that shuts the door at 1435", () => {
  const front = winds({ from: 0, until: 14 + 35 / 60, dir: 200, low: 8 }, { from: 14 + 35 / 60, until: 48, dir: 300, low: 30 });
  const rows = board(front, hours(5, 12));

  it("leaves three departures with one margin, and unlike time in hand", () => {
    // (25 − 8)/(25 − 15) = 1.7 for each of them.
    // Of 0800 the slower boat's is the least, below.
    for (const [hour, minutes, later, kind] of [
      [6, 155, 155, "open"],
      [7, 95, 95, "open"],
      [8, 31, 35, "marginal"],
    ] as const) {
      const row = rows.get(hour);
      expect(row?.verdict.smallestMargin).toBeCloseTo(1.7, 9);
      expect([hour, minutesOf(row?.inHand), row?.verdict.kind]).toEqual([hour, minutes, kind]);
      expect(row?.inHand?.door).toEqual({ kind: "limit", felt: "windMps" });
      // Later at the start: 0835 is the last departure that is in by 1435.
      expect(minutesOf(row?.inHand?.laterDeparture)).toBe(later);
    }
    expect(rows.get(8)?.verdict.decidedBy.kind).toBe("littleTime");
    expect(rows.get(9)).toMatchObject({ verdict: { kind: "closed" }, inHand: null, arrivalAt: expect.closeTo(clock(15), 3) });
  });

  it("lets a slower boat of the 0800 departure be 31 minutes late: 0.923 of her speed", () => {
    // At 0.9 of 6 kn she takes 6 h 40 min and meets the front: margins 1.7 and −0.5, by the straight line 1.7/2.2 of the way from 1 to
    // 0.9 and of 40 minutes.
    const slower = rows.get(8)?.inHand?.slower;
    expect(slower?.seconds).toBeCloseTo((1.7 / 2.2) * 40 * 60, 3);
    expect(slower?.speedShare).toBeCloseTo(1 - (0.1 * 1.7) / 2.2, 9);
    expect(slower?.door).toEqual({ kind: "limit", felt: "windMps" });
  });

  it("finds no door for the slower boat of 0700: at 0.8 of her speed she is 90 minutes late and in by 1430, and that is the bound", () => {
    const slower = rows.get(7)?.inHand?.slower;
    expect(slower).toEqual({ seconds: expect.closeTo(90 * 60, 3), door: null, speedShare: expect.closeTo(0.8, 9) });
  });

  it("lets the engine of 0600 stop for 2 h 35 min, of 0700 for 1 h 35 min, of 0800 for 35 min", () => {
    for (const [hour, minutes] of [
      [6, 155],
      [7, 95],
      [8, 35],
    ] as const) {
      expect(minutesOf(rows.get(hour)?.inHand?.engineStop)).toBe(minutes);
    }
  });

  it("is the least of the three", () => {
    for (const row of rows.values()) {
      if (row.inHand === null) continue;
      const met = [row.inHand.laterDeparture, row.inHand.slower, row.inHand.engineStop].filter((slack) => slack.door !== null);
      expect(row.inHand.seconds).toBe(Math.min(...met.map((slack) => slack.seconds)));
    }
  });
});

describe("a wind that rises slowly", () => {
  it("shuts on the straight line between hourly departures", () => {
    // A knot an hour from 12 kn at 0600–0700, by hourly periods. A departure at h meets at most 6 + h + 6: never 25 from h = 14, margin 0.
    const rising = winds(...hours(0, 30).map((hour) => ({ from: hour, until: hour + 1, dir: 200, low: 6 + hour })));
    const rows = board(rising, hours(6, 20));
    const row = rows.get(10);
    // Arrives at 1600 as the period of 22 kn begins.
    expect(row?.verdict.smallestMargin).toBeCloseTo(0.3, 9);
    // Margin 0 at 13 h, −0.1 at 14 h: the door shuts three hours on.
    expect(row?.inHand?.laterDeparture).toEqual({ seconds: 3 * HOUR, door: { kind: "limit", felt: "windMps" } });
    // An engine stopped for 2 h: in at 1800, 24 kn; for 4 h at 2000: 26 kn, margin −0.1. From 0.1 to −0.1: half-way, three hours.
    expect(row?.inHand?.engineStop.seconds).toBeCloseTo(3 * HOUR, 0);
  });
});

describe("where no door is met", () => {
  it("the time in hand is bounded by what was tried and the departure is open", () => {
    const row = board(winds({ from: 0, until: 72, dir: 200, low: 8 }), hours(6, 9)).get(6);
    expect(row?.inHand).toEqual({
      laterDeparture: { seconds: 3 * HOUR, door: null },
      slower: { seconds: expect.closeTo(90 * 60, 3), door: null, speedShare: expect.closeTo(0.8, 9) },
      engineStop: { seconds: 4 * HOUR, door: null },
      seconds: null,
      door: null,
    });
    expect(row?.verdict.kind).toBe("open");
  });
});

describe("a boat that never uses an engine", () => {
  it("can't have it stopped: no case is run, no door is met as far as is tried, whatever shuts", () => {
    const front = winds({ from: 0, until: 14, dir: 200, low: 8 }, { from: 14, until: 48, dir: 300, low: 30 });
    const weather = { wind: front, sea: null };
    const one = trial();
    const setup = { ...one, crossing: { ...one.crossing, engineStopped: null } };
    const kept = keepDepartures(() => setup, [clock(6), clock(7)], weather);
    if (kept === null) throw new Error("stopped");
    expect(kept.map((departure) => departure.run.stopped)).toEqual([[], []]);
    const inHand = judgeBoard(kept, [wind], weather)[0]?.inHand;
    expect(inHand?.engineStop).toEqual({ seconds: 4 * HOUR, door: null });
    // The slower boat's door is met all the same, and an engine stop is not taken for the least.
    expect(inHand?.slower.door).toBeNull();
    expect(inHand?.seconds).toBeNull();
  });
});

describe("a forecast that ends at 1435", () => {
  const rows = board(winds({ from: 0, until: 14 + 35 / 60, dir: 200, low: 8 }), hours(6, 10));

  it("is a door: the last case that can be judged stands", () => {
    expect(rows.get(6)?.inHand?.laterDeparture).toEqual({
      seconds: 2 * HOUR,
      door: { kind: "notJudged", felt: "windMps", why: expect.objectContaining({ code: "not-covered-time" }) },
    });
    expect(rows.get(6)?.inHand?.engineStop).toEqual({
      seconds: 2 * HOUR,
      door: { kind: "notJudged", felt: "windMps", why: expect.objectContaining({ code: "not-covered-time" }) },
    });
    expect(rows.get(8)?.inHand).toMatchObject({ seconds: 0, door: { kind: "notJudged" } });
  });

  it("leaves departures that outlast it marginal, and says until when they are covered", () => {
    expect(rows.get(9)?.verdict).toMatchObject({
      kind: "marginal",
      decidedBy: { kind: "notJudged", margin: { why: { code: "not-covered-time", coveredUntil: clock(14, 35) } } },
    });
  });
});

describe("water that is not known, or too strong, after 1435", () => {
  const shut = clock(14, 35);
  const water = (after: "unknown" | "strong"): CurrentSource => ({
    name: "water that shuts",
    covers: after === "unknown" ? { from: clock(0), until: shut } : null,
    issuedAt: null,
    heldSteady: false,
    onPlane: () => ({
      quantities: CURRENT_QUANTITIES,
      answeredBy: 0,
      sampleInto(out, _x, _y, at) {
        if (at > shut && after === "unknown") return NO_TIME;
        out[0] = at > shut ? kn(9) : 0;
        out[1] = 0;
        return COVERED;
      },
      nearestInto: () => false,
      reachesPlace: () => true,
    }),
  });
  const calm = winds({ from: 0, until: 72, dir: 200, low: 8 });

  it("ends the time in hand at the last departure with a passage", () => {
    const rows = board(calm, hours(6, 10), [wind], water("unknown"));
    expect(rows.get(6)?.inHand?.laterDeparture).toMatchObject({
      seconds: 2 * HOUR,
      door: { kind: "noPassage", why: { code: "not-covered-time" } },
    });
    expect(rows.get(6)?.inHand?.engineStop).toMatchObject({ seconds: 2 * HOUR, door: { kind: "noPassage" } });
    // At 0.8 of her speed the boat of 0600 takes 7 h 30 min, in by 1330.
    expect(rows.get(6)?.inHand?.slower).toMatchObject({ seconds: expect.closeTo(90 * 60, 3), door: null });
  });

  it("halves the step to a slower boat that has no passage, twice at most", () => {
    const rows = board(calm, [8, 8 + 1 / 3, 8.5], [wind], water("unknown"));
    // At 0.9 of her speed the boat of 0800 takes 6 h 40 min and is not in by 1435, at 0.95 she is.
    for (const [hour, share] of [
      [8, 0.95],
      [8 + 1 / 3, 0.975],
      // Half an hour later even 0.975 of it, 6 h 9 min, is too slow.
      [8.5, 1],
    ] as const) {
      const seconds = (36 / (6 * share) - 6) * HOUR;
      expect(rows.get(hour)?.inHand?.slower).toMatchObject({
        seconds: expect.closeTo(seconds, 3),
        speedShare: expect.closeTo(share, 9),
        door: { kind: "noPassage", why: { code: "not-covered-time" } },
      });
    }
  });

  it("leaves a departure marginal where only the forecast of the water ends, closed where the water forbids it", () => {
    const unknownWater = board(calm, [10], [wind], water("unknown")).get(10);
    expect(unknownWater).toMatchObject({
      advised: null,
      arrivalAt: null,
      inHand: null,
      margins: [],
      verdict: { kind: "marginal", smallestMargin: null },
    });
    expect(unknownWater?.verdict.decidedBy).toMatchObject({ kind: "noPassage", why: { code: "not-covered-time", coveredUntil: shut } });
    const strong = board(calm, [10], [wind], water("strong")).get(10);
    expect(strong?.verdict.kind).toBe("closed");
    expect(strong?.verdict.decidedBy.kind).toBe("noPassage");
  });
});

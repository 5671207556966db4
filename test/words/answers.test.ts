import { describe, expect, it } from "vitest";
import type { NoAnswer } from "../../src/core/answers/index.ts";
import { crossAt, steeringCompass, tryDepartures } from "../../src/core/plan/index.ts";
import { epochSeconds } from "../../src/core/units/index.ts";
import { assumptionsInWords, doorInWords, leaveInWords, noAnswerInWords, orderInWords, reasonInWords } from "../../src/words/index.ts";
import { kn, prepared } from "../core/plan/setup.ts";
import { clock } from "../core/window/setup.ts";

/** 4 June 2026 was a Thursday; ship's time is UTC. */
const notCovered = (at: number, changes: object = {}): NoAnswer => ({
  kind: "noAnswer",
  code: "not-covered-time",
  quantity: "wind",
  at,
  where: { latitudeDeg: 34, longitudeDeg: -40 },
  coveredFrom: clock(0),
  coveredUntil: clock(48),
  ...changes,
});

describe("why there is no answer", () => {
  it("tells a gap from the forecast's beginning and end", () => {
    expect(noAnswerInWords(notCovered(clock(-2)), "UTC")).toBe("not judged: wind begins Thu 00:00");
    expect(noAnswerInWords(notCovered(clock(50)), "UTC")).toBe("not judged: wind ends Sat 00:00");
    // She who runs off the end stands on its last instant.
    expect(noAnswerInWords(notCovered(clock(48)), "UTC")).toBe("not judged: wind ends Sat 00:00");
    expect(noAnswerInWords(notCovered(clock(20)), "UTC")).toBe("not judged: no wind is given for Thu 20:00");
    const half = notCovered(clock(20), { coveredFrom: null, coveredUntil: null });
    expect(noAnswerInWords(half, "UTC")).toBe("not judged: no wind is given for Thu 20:00");
  });

  it("adds the date where the weekday alone would be taken for another", () => {
    expect(noAnswerInWords(notCovered(clock(24 * 30)), "UTC")).toBe("not judged: wind ends Sat 6 Jun 00:00");
  });

  it("names what shuts by what is wanting", () => {
    const door = (why: NoAnswer) => doorInWords({ kind: "notJudged", felt: "windMps", why });
    expect(door(notCovered(clock(50)))).toBe("the forecast's end");
    expect(door(notCovered(clock(20)))).toBe("a gap in the forecast");
    expect(door(notCovered(clock(20), { code: "not-covered-place" }))).toBe("the edge of what is known");
  });
});

const from = (hours: number) => epochSeconds(clock(hours));
const period = (fromHour: number, untilHour: number) => ({
  from: from(fromHour),
  until: from(untilHour),
  fromDegTrue: 180,
  arcDeg: 0,
  speedLowMps: kn(8),
  speedHighMps: kn(12),
  gustMps: null,
});

describe("the answer in sentences", () => {
  it("names the arrival's zone where it is not the ship's, on leaving and in the order", () => {
    const one = prepared({ arrivalZone: "UTC+2", leaveFrom: from(6), leaveUntil: from(7) });
    const answer = tryDepartures(one);
    if (answer === null) throw new Error("stopped");
    expect(leaveInWords(answer).join(" ")).toMatch(/arrive Thu 14:\d\d UTC\+2/);
    const cross = crossAt(one, clock(6));
    if (cross.advised === null) throw new Error("no way");
    expect(orderInWords(cross, steeringCompass(one, clock(6)), cross.advised).join(" ")).toMatch(
      /Arrive at West Haven Thu 14:\d\d UTC\+2\./,
    );
    const same = tryDepartures(prepared({ leaveFrom: from(6), leaveUntil: from(7) }));
    if (same === null) throw new Error("stopped");
    expect(leaveInWords(same).join(" ")).not.toContain("UTC");
  });

  it("dates what lies a week off, and says when the departures were cut short", () => {
    const weatherSources = [{ kind: "periods", wind: [period(0, 24 * 40)], sea: [] }] as const;
    // Few crossings tried: the chance is not asked for.
    const chance = { samples: 5 };
    const week = tryDepartures(prepared({ weatherSources, chance, leaveFrom: from(6), leaveUntil: from(6 + 7 * 24) }));
    const month = tryDepartures(prepared({ weatherSources, chance }));
    if (week === null || month === null) throw new Error("stopped");
    // Ship's time is UTC-3: 0600 UTC on Thursday 4 June is 0300.
    expect(leaveInWords(week)[0]).toBe("Leave Thursday 03:00 to Thursday 11 June 03:00.");
    expect(leaveInWords(week).join(" ")).not.toContain("No more than");
    expect(leaveInWords(month).at(-1)).toBe("No more than 745 departures are tried: a month of them.");
    // Hundreds of departures are tried: on a slow machine that takes its time.
  }, 240_000);

  it("counts neighbouring departures under one reason, whatever the time", () => {
    // No wind is given from 1000 to 1100, which every one of these meets, each at the same gap.
    const weatherSources = [{ kind: "periods", wind: [period(0, 10), period(11, 48)], sea: [] }] as const;
    const answer = tryDepartures(prepared({ weatherSources, leaveFrom: from(6), leaveUntil: from(9) }));
    if (answer === null) throw new Error("stopped");
    expect(new Set(answer.rows.map(reasonInWords))).toEqual(new Set(["not judged: a gap in the wind"]));
    expect(leaveInWords(answer).join(" ")).toContain("(4 of 4)");
  });

  it("says with which wind a boat under sail is run, and nothing of it for one under power", () => {
    expect(assumptionsInWords(prepared()).join(" ")).not.toContain("middle of each range");
    const { boat } = prepared().passage;
    const points = [50, 90, 180].flatMap((angle) =>
      [6, 16].map((wind) => ({ trueWindAngleDeg: angle, trueWindMps: kn(wind), speedMps: kn(4) })),
    );
    const sail = { ...boat, goes: "sail" as const, sail: { points, leewayCoefficient: null, leewayCapDeg: 12 } };
    expect(assumptionsInWords(prepared({ boat: sail })).join(" ")).toContain("middle of each range");
  });
});

import { describe, expect, it } from "vitest";
import { type BoardRow, judgeBoard, keepDepartures } from "../../../src/core/window/index.ts";
import { clock, limit, trial, winds } from "../../core/window/setup.ts";
import { limitsReference } from "./reference.ts";

/*
 * Three departures alike in margin and unlike in time in hand.
 *
 * Still water, 36 miles at 6 kn: six hours. The wind is 13 kn all day, against a limit of 15 happy and 25 never: margin
 * (25 − 13)/(25 − 15) = 1.2 for whoever is in by 2003, when a front brings 30 kn.
 *
 * Leaving 0600, 1000 or 1300 one is in at 1200, 1600 or 1900. The margin is the same. It can't see the door that shuts after the arrival:
 *
 *   0600  in at 1200, 8 h 03 before the front. No slower boat (at 0.8 of her speed an hour and a half later) and no stop of the engine
 *         of four hours brings her to it; only leaving later does: in hand 8 h 03.
 *   1000  in at 1600. Leaving later: 4 h 03. The engine off for four hours: in at 2000, still before it.
 *   1300  in at 1900, 1 h 03 before it. Leaving 1 h 03 later, the engine off for 1 h 03, or so much slower that the passage takes 1 h 03
 *         longer: each of the three shuts it.
 *
 * Between the cases that are tried (departures by the hour; 0.9 and 0.8 of the speed; the engine off for 1, 2 and 4 h) a door is taken to
 * lie where the arrival slips to the front, or on the straight line between the margins where that is sooner; it may be told too soon,
 * never too late. Here the arrival slips to it first each time.
 */
const ref = limitsReference().hand;
const weather = {
  wind: winds({ from: 0, until: 20.05, dir: 200, low: 13 }, { from: 20.05, until: 96, dir: 340, low: 30 }),
  sea: null,
};
const limits = [limit("windMps", 15, 25)];

describe("three departures alike in margin and unlike in time in hand", () => {
  const departures = ref.cases.map(({ departH }) => clock(departH));
  const later = Array.from({ length: 24 }, (_, k) => clock(14 + k));
  const rows = judgeBoard(keepDepartures(() => trial(), departures, weather, undefined, later) ?? [], limits, weather);

  it.each(ref.cases.map((one, i) => [i, one] as const))("case %i has its margin and its time in hand", (i, expected) => {
    const row = rows[i] as BoardRow;
    expect(row.verdict.kind).toBe("open");
    expect(row.verdict.smallestMargin).toBeCloseTo(expected.margin, 6);
    const { inHand } = row;
    if (inHand === null) throw new Error("no time in hand was reckoned");
    expect(Math.abs((inHand.seconds as number) - 60 * expected.inHandMinutes)).toBeLessThan(60);
    expect(inHand.door).toEqual({ kind: "limit", felt: "windMps" });
    expect({
      later: inHand.laterDeparture.door !== null,
      stop: inHand.engineStop.door !== null,
      slower: inHand.slower.door !== null,
    }).toEqual(expected.doors);
  });

  it("sets the three times of the last one beside each other", () => {
    const { inHand } = rows[2] as BoardRow;
    for (const slack of [inHand?.laterDeparture, inHand?.engineStop, inHand?.slower])
      expect(Math.abs((slack?.seconds as number) - 63 * 60)).toBeLessThan(60);
    // 36 nm in 7 h 03 is 5.11 kn, 0.851 of 6 kn; by straight lines between 0.9 (40 min late) and 0.8 (90 min) it is 0.854.
    expect(inHand?.slower.speedShare).toBeCloseTo(36 / 7.05 / 6, 2);
  });
});

import { describe, expect, it } from "vitest";
import { analyticCurrent } from "../../../src/core/water/index.ts";
import { gridWind } from "../../../src/core/weather/index.ts";
import type { BoardRow } from "../../../src/core/window/index.ts";
import { judgeBoard, keepDepartures } from "../../../src/core/window/index.ts";
import { gridOf } from "../../core/fields/grids.ts";
import { clock, kn, limit, trial } from "../../core/window/setup.ts";
import { limitsReference } from "./reference.ts";

/*
 * A wind shift inside a step.
 *
 * A boat of 6 kn crosses 24 miles due west. The water sets north at 2.5 kn everywhere, so on the heading that keeps her on the line she
 * makes √(6² − 2.5²) = 5.454 kn over the ground and takes 4 h 24. The forecast comes every three hours: until 0900 the wind is south,
 * 12 kn; at 1200 it is north, 20 kn. South wind blows with the stream and raises nothing. North wind is dead against it, 20 × 2.5 = 50 kn²,
 * and the skipper's limit is 0 happy, 40 never: margin (40 − 50)/40 = −0.25.
 *
 * Somewhere between 0900 and 1200 the wind goes round. The forecast does not say when. Joined by components it would pass through a calm
 * at 1007 and only reach 40 kn² at about 1137: a boat that leaves at 0730 and is in at 1154 would be told that she has until then. She
 * has not: the front may come through at 0901. So the worse end holds for the whole of the step, from 0900 on.
 *
 * Leaving 0300 she is in at 0724, leaving 0400 at 0824: both before 0900, and open. Leaving 0730 she is still out at 0900: closed, past
 * never from 0900. The last departure that is in by 0900 is 0436, so who means to leave at 0400 has 36 minutes in hand, and who means to
 * leave at 0300 has 1 h 36.
 */
const ref = limitsReference().shift;
const northgoing = analyticCurrent("2.5 kn to the north", (out) => {
  out[0] = 0;
  out[1] = kn(2.5);
});
const wind = gridWind(
  [
    {
      wind: gridOf({
        quantities: ["windEastMps", "windNorthMps"],
        latitudesDeg: [32, 36],
        longitudesDeg: [-43, -39],
        times: Array.from({ length: 9 }, (_, k) => clock(3 * k)),
        values: ({ at }) => [0, at <= clock(9) ? kn(12) : kn(-20)],
      }),
      gust: null,
    },
  ],
  1.3,
);
const limits = [limit("windAgainstCurrentMps2", 0, 40, { during: "openWater" })];

describe("a wind shift inside a step", () => {
  const weather = { wind, sea: null };
  const departures = [3, 4, 5, 7.5].map((hour) => clock(hour));
  const kept = keepDepartures(() => trial({ nm: 24, current: northgoing }), departures, weather);
  const rows = judgeBoard(kept ?? [], limits, weather);
  const rowAt = (hour: number): BoardRow => rows.find((row) => row.departAt === clock(hour)) as BoardRow;

  it.each(ref.cases)("leaving at $departH h: arrives and is judged as reckoned", ({ departH, arriveH, margin, firstPastNeverH }) => {
    const row = rowAt(departH);
    expect(Math.abs((row.arrivalAt as number) - clock(arriveH))).toBeLessThan(60);
    const [judged] = row.margins;
    if (judged?.kind !== "judged") throw new Error("not judged");
    expect(judged.margin).toBeCloseTo(margin, 3);
    if (firstPastNeverH === null) expect(judged.firstPastNeverAt).toBeNull();
    else expect(Math.abs((judged.firstPastNeverAt as number) - clock(firstPastNeverH))).toBeLessThan(60);
  });

  it("is closed by the shift although the two ends joined by components would let her in", () => {
    const { verdict } = rowAt(7.5);
    expect(verdict.kind).toBe("closed");
    // At 1154 the components have come 2.9 of the 3 hours: 12 − 32 × 0.967 = −18.9 kn, 47 kn²; at 1030 they have a calm.
    expect(kept?.[3]?.planned?.shiftSteps).toBe(1);
  });

  it("gives the time in hand up to the step's beginning, to the minute", () => {
    for (const hour of [3, 4]) {
      const { inHand } = rowAt(hour);
      expect(Math.abs((inHand?.laterDeparture.seconds as number) - 3600 * (ref.lastOpenDepartureH - hour))).toBeLessThan(60);
      expect(inHand?.laterDeparture.door).toEqual({ kind: "limit", felt: "windAgainstCurrentMps2" });
    }
    expect(rowAt(4).verdict).toMatchObject({ kind: "marginal", decidedBy: { kind: "littleTime" } });
  });
});

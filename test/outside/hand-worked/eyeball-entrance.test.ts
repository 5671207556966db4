import { describe, expect, it } from "vitest";
import { metresFromNm } from "../../../src/core/units/index.ts";
import { type BoardRow, judgeBoard, keepDepartures, type Limit } from "../../../src/core/window/index.ts";
import { clock, kn, limit, plane, trial, winds } from "../../core/window/setup.ts";
import { limitsReference } from "./reference.ts";

/*
 * An eyeball entrance with the sun ahead.
 *
 * A pass in a reef, 34° N 41° W, runs 280 true: three miles at 3 kn, an hour from the sea to the anchorage, and the heads are seen or
 * they are not. The skipper wants the sun 30° high (never under 15°) and 60° off the bow (never nearer than 30°). Above 60° it is overhead
 * and blinds on no course. On 4 June the sun passes the meridian there at about 1442 UTC, 78° high, so it stands in the east until then,
 * behind a boat that comes in on 280, and in the west after it, ahead of her.
 *
 * She is six hours from the entrance. Leaving 0200 she is there at 0800, the sun 4° high: too low. Leaving 0300 it is 16° as she begins:
 * just enough. From then on the morning is hers: astern, and higher by the minute. Leaving 0900 she comes in from 1500 to 1600 with the
 * sun past its height but still above 60°. Leaving 1000 it sinks below 60° while she is inside, in the west, 22° off the bow: closed, and
 * not because it is low: it stands 58° high. All afternoon it stays ahead.
 *
 * So the door is open from the departure that begins the pass with the sun at 15°, to the one that is at anchor as it sinks to 60°.
 */
const ref = limitsReference().eyeball;
const radians = (deg: number): number => (deg * Math.PI) / 180;
const into = {
  points: [plane.toPosition(0, 0), plane.toPosition(metresFromNm(3) * Math.sin(radians(280)), metresFromNm(3) * Math.cos(radians(280)))],
  speedOverGroundMps: kn(3),
};
const weather = { wind: winds({ from: 0, until: 96, dir: 200, low: 8 }), sea: null };
const limits: readonly Limit[] = [
  limit("eyeballSunAltitudeDeg", 30, 15, { during: "arrival" }),
  limit("sunOffBowDeg", 60, 30, { during: "arrival" }),
];
const rowsAt = (hours: readonly number[]): readonly BoardRow[] =>
  judgeBoard(
    keepDepartures(
      () => trial({ into }),
      hours.map((hour) => clock(hour)),
      weather,
    ) ?? [],
    limits,
    weather,
  );

describe("an eyeball entrance with the sun ahead", () => {
  const rows = rowsAt(ref.cases.map(({ departH }) => departH));

  it.each(ref.cases.map((one, i) => [one.departH, i, one] as const))("leaving at %i h the sun is as reckoned", (_, i, expected) => {
    const [high, off] = (rows[i] as BoardRow).margins;
    if (high?.kind !== "judged" || off?.kind !== "judged") throw new Error("not judged");
    expect(Math.abs(high.value - expected.lowestSunDeg)).toBeLessThan(0.05);
    // Looked at every ten minutes on the way in, in which it turns by some two degrees; where it matters, at its nearest, that is its end.
    expect(Math.abs(off.value - expected.leastOffBowDeg)).toBeLessThan(expected.leastOffBowDeg < 60 ? 0.6 : 2);
    const { decidedBy, kind } = (rows[i] as BoardRow).verdict;
    if (expected.closedBy === null) expect(kind).not.toBe("closed");
    else expect([kind, decidedBy.kind === "margin" && decidedBy.margin.limit.felt]).toEqual(["closed", expected.closedBy]);
  });

  it("opens and shuts at the minute reckoned", () => {
    // A minute before the first and after the last it is closed; a minute after and before it is not.
    const minute = 1 / 60;
    const edges = [
      ref.firstPassableH - 2 * minute,
      ref.firstPassableH + minute,
      ref.lastPassableH - minute,
      ref.lastPassableH + 2 * minute,
    ];
    expect(rowsAt(edges).map((row) => row.verdict.kind === "closed")).toEqual([true, false, false, true]);
  });

  it("keeps to a stated approach instead of the leg's course, and tells a sun below the horizon by its height alone", () => {
    const facts = {
      shipZone: "UTC",
      arrivalZone: "UTC",
      draughtMetres: null,
      usableFuelLitres: null,
      burnLitresPerHour: null,
      crew: null,
      depths: [],
      approachDegTrue: 100,
    };
    const eastward = { ...weather, facts };
    const kept = keepDepartures(() => trial({ into }), [clock(4), clock(16)], eastward) ?? [];
    const [morning, night] = judgeBoard(kept, limits, eastward);
    // Leaving 0400 on 100 the sun is where the leg on 280 has it astern: 180 − 161 = 19° at the nearest, ahead.
    expect(morning?.verdict).toMatchObject({ kind: "closed", decidedBy: { margin: { limit: { felt: "sunOffBowDeg" } } } });
    expect(night?.verdict).toMatchObject({ kind: "closed", decidedBy: { margin: { limit: { felt: "eyeballSunAltitudeDeg" } } } });
    expect(night?.margins[1]).toMatchObject({ kind: "judged", value: 180 });
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planeAround, positionOf } from "../../../src/core/earth/index.ts";
import {
  bowOnDestination,
  carryOut,
  crossingOf,
  holdTrack,
  isNotSquare,
  laneCrossings,
  lineBetweenPositions,
  oneHeading,
  reAimTables,
  recommended,
  SQUARE_WITHIN_DEG,
  squareInLanes,
  type WayArrives,
  waysAcross,
} from "../../../src/core/passage/index.ts";
import { type Lane, lanesOn } from "../../../src/core/places/index.ts";
import { analyticCurrent, gaussianJet, sumOfCurrents, turningTide, uniformCurrent } from "../../../src/core/water/index.ts";
import { boxLane, headingsOf, lanedCrossing } from "./lanes-waters.ts";
import { arriving, HOUR, KN, NM, powerBoat, whyOf } from "./waters.ts";

const north = boxLane("north-going", 0, [8, 11]);
const zone = boxLane("separation zone", null, [11, 13]);
const south = boxLane("south-going", 180, [13, 16]);
const stream = gaussianJet({ rateMps: 3 * KN, axisMetres: 12 * NM, halfWidthMetres: 7 * NM });
const stillWater = uniformCurrent(0, 0);

function crossingsBy(way: WayArrives): Record<string, { worst: number | null; headed: string | null; flagged: boolean }> {
  return Object.fromEntries(
    way.laneCrossings.map((one) => [one.laneName, { worst: one.offSquareWorstDeg, headed: one.headed, flagged: one.flagged }]),
  );
}

describe("crossing a lane", () => {
  it("is told by the heading, not the track: entered and left on the edges, off square in degrees", () => {
    // Still water: 24 miles east and 6 north at 5 knots on heading 075.96.
    const way = arriving(oneHeading(lanedCrossing(stillWater, [24, 6], [north, south]), 0));
    const [heading] = headingsOf(way);
    const [first, second] = way.laneCrossings;
    expect(way.laneCrossings).toHaveLength(2);
    expect(first?.offSquareWorstDeg).toBeCloseTo(90 - (heading as number), 9);
    expect(first?.offSquareMeanDeg).toBeCloseTo(90 - (heading as number), 9);
    expect(first?.headed).toBe("along");
    expect(second?.headed).toBe("against");
    expect([first?.flagged, second?.flagged]).toEqual([true, true]);
    const hoursTo = (eastNm: number): number => (eastNm / 24) * (Math.hypot(24, 6) / 5);
    expect((first?.enteredAt ?? 0) / HOUR).toBeCloseTo(hoursTo(8), 8);
    expect((first?.leftAt ?? 0) / HOUR).toBeCloseTo(hoursTo(11), 8);
    expect((first?.entered.longitudeDeg ?? 0) * 60).toBeCloseTo(8, 8);
    expect((second?.left.longitudeDeg ?? 0) * 60).toBeCloseTo(16, 8);
    expect((second?.left.latitudeDeg ?? 0) * 60).toBeCloseTo(4, 8);
  });

  it("on a track held over the ground is off square by what the boat steers into the stream", () => {
    // 3 knots across a track due east at 5 knots: the heading leans 36.87° against the stream.
    const way = arriving(holdTrack(lanedCrossing(uniformCurrent(0, 3 * KN), [24, 0], [north, south]), 0));
    const lean = (Math.asin(3 / 5) * 180) / Math.PI;
    expect(crossingsBy(way)["north-going"]?.worst).toBeCloseTo(lean, 6);
    expect(crossingsBy(way)["north-going"]?.headed).toBe("against");
    expect(crossingsBy(way)["south-going"]?.headed).toBe("along");
  });

  it("of a heading that changes inside has its worst above its mean", () => {
    const way = arriving(bowOnDestination(lanedCrossing(uniformCurrent(0, 2 * KN), [24, 0], [boxLane("wide", 0, [2, 22])]), 0));
    const [one] = way.laneCrossings;
    expect(one?.offSquareWorstDeg ?? 0).toBeGreaterThan((one?.offSquareMeanDeg ?? 0) + 1);
  });

  it("is flagged only beyond the tolerance", () => {
    const at = (deg: number): boolean => {
      const to = [24, 24 * Math.tan((deg * Math.PI) / 180)] as const;
      return isNotSquare(arriving(oneHeading(lanedCrossing(stillWater, to, [north]), 0)));
    };
    expect(at(SQUARE_WITHIN_DEG - 0.01)).toBe(false);
    expect(at(SQUARE_WITHIN_DEG + 0.01)).toBe(true);
  });

  it("of a zone without a flow has nothing to be square to", () => {
    const way = arriving(oneHeading(lanedCrossing(stillWater, [24, 20], [zone]), 0));
    expect(way.laneCrossings).toMatchObject([{ offSquareWorstDeg: null, offSquareMeanDeg: null, headed: null, flagged: false }]);
    expect(isNotSquare(way)).toBe(false);
  });

  it("counts each time it is entered", () => {
    // A lane shaped like a horseshoe, its arms across the way.
    const corner = (eastNm: number, northNm: number) => ({ latitudeDeg: northNm / 60, longitudeDeg: eastNm / 60 });
    const ring = [corner(5, -9), corner(20, -9), corner(20, 9), corner(15, 9), corner(15, -5), corner(10, -5), corner(10, 9), corner(5, 9)];
    const way = arriving(oneHeading(lanedCrossing(stillWater, [24, 0], [{ name: "bent", flowDegTrue: 0, ring }]), 0));
    expect(way.laneCrossings.map((one) => [one.enteredAt, one.leftAt].map((at) => Math.round((at / HOUR) * 5 * 1e6) / 1e6))).toEqual([
      [5, 10],
      [15, 20],
    ]);
  });

  it("begins or ends where the track does, when that lies in a lane", () => {
    const way = arriving(oneHeading(lanedCrossing(stillWater, [24, 0], [boxLane("all of it", 0, [-5, 40])]), 0));
    expect(way.laneCrossings).toHaveLength(1);
    expect(way.laneCrossings[0]?.enteredAt).toBe(0);
    expect(way.laneCrossings[0]?.leftAt).toBe(way.arrivalAt);
  });

  it("is none without lanes", () => {
    const way = arriving(oneHeading(lanedCrossing(stillWater, [24, 0], []), 0));
    expect(way.laneCrossings).toEqual([]);
    expect(laneCrossings(way.track, null)).toEqual([]);
  });
});

describe("the way square in the lanes", () => {
  it("is three headings: one outside, the square one from the first edge to the last, the zone between included", () => {
    for (const lanes of [
      [north, south],
      [north, zone, south],
    ]) {
      const crossing = lanedCrossing(stream, [24, 4], lanes);
      const way = arriving(squareInLanes(crossing, 0));
      const headings = headingsOf(way);
      expect(headings).toHaveLength(3);
      expect(headings[1]).toBe(90);
      expect(headings[2]).toBe(headings[0]);
      expect(way.orders.map(({ steer }) => (steer.kind === "heading" ? steer.squareTo : null))).toEqual([
        undefined,
        ["north-going", "south-going"],
        undefined,
      ]);
      expect(isNotSquare(way)).toBe(false);
      for (const one of way.laneCrossings) if (one.flowDegTrue !== null) expect(one.offSquareWorstDeg).toBeLessThan(1e-9);
      const flowing = way.laneCrossings.filter((one) => one.flowDegTrue !== null);
      expect(way.orders[1]?.fromAt).toBeCloseTo(flowing[0]?.enteredAt ?? 0, 3);
      expect(way.orders[2]?.fromAt).toBeCloseTo(flowing[1]?.leftAt ?? 0, 3);
      // It arrives, and the rule costs time against one heading.
      const { track } = way;
      const { line } = crossing;
      expect(Math.hypot(track.xMetres[track.count - 1]! - line.toX, track.yMetres[track.count - 1]! - line.toY)).toBeLessThan(0.01);
      expect(way.arrivalAt).toBeGreaterThan(arriving(oneHeading(crossing, 0)).arrivalAt);
    }
  });

  it("takes up its own heading again between two schemes that lie apart, and keeps the square one where a zone fills the gap", () => {
    const far = [boxLane("one", 0, [3, 5]), boxLane("other", 180, [15, 17])];
    const apart = arriving(squareInLanes(lanedCrossing(stream, [24, 4], far), 0));
    expect(headingsOf(apart)).toHaveLength(5);
    expect(headingsOf(apart)[2]).toBe(headingsOf(apart)[0]);
    const filled = arriving(squareInLanes(lanedCrossing(stream, [24, 4], [...far, boxLane("zone", null, [5, 15])]), 0));
    expect(headingsOf(filled)).toHaveLength(3);
    expect(headingsOf(filled)[1]).toBe(90);
  });

  it("turns with lanes that bend", () => {
    const way = arriving(squareInLanes(lanedCrossing(stream, [24, 4], [boxLane("one", 350, [6, 10]), boxLane("next", 10, [10, 14])]), 0));
    const headings = headingsOf(way);
    expect(headings.slice(1, 3)).toEqual([80, 100]);
    expect(headings).toHaveLength(4);
    expect(isNotSquare(way)).toBe(false);
  });

  it("begins square where it begins in a lane, and ends so where it ends in one", () => {
    const begins = arriving(squareInLanes(lanedCrossing(stream, [24, 4], [boxLane("first", 0, [-3, 6])]), 0));
    expect(headingsOf(begins)).toHaveLength(2);
    expect(headingsOf(begins)[0]).toBe(90);
    expect(begins.orders[0]?.fromAt).toBe(0);
    const ends = arriving(squareInLanes(lanedCrossing(stream, [24, 4], [boxLane("last", 0, [18, 30])]), 0));
    expect(headingsOf(ends)).toHaveLength(2);
    expect(headingsOf(ends)[1]).toBe(90);
  });

  it("can't be had where the lanes carry her farther than the rest can make up, and says so", () => {
    const crossing = lanedCrossing(uniformCurrent(0, 5.2 * KN), [24, 8], [boxLane("wide", 0, [1, 23])]);
    expect(whyOf(squareInLanes(crossing, 0)).code).toBe("unreachable");
    expect(oneHeading(crossing, 0).kind).toBe("arrives");
  });

  it("with lanes over everything is the square heading, where that leads there at all", () => {
    const everywhere = [boxLane("everywhere", 0, [-90, 90])];
    // Square is 090: 24 miles at 5 knots while the stream sets 2 knots north.
    const leads = lanedCrossing(uniformCurrent(0, 2 * KN), [24, (24 / 5) * 2], everywhere);
    const way = arriving(squareInLanes(leads, 0));
    expect(headingsOf(way)).toEqual([90]);
    expect((way.arrivalAt / HOUR) * 5).toBeCloseTo(24, 6);
    const misses = lanedCrossing(uniformCurrent(0, 2 * KN), [24, 0], everywhere);
    expect(whyOf(squareInLanes(misses, 0)).code).toBe("unreachable");
  });

  it("gets nowhere, and says so, where a lane's edge throws her out again and again", () => {
    // In the lane a stream to the west that is stronger than the boat: on its edge she is carried out, outside she steers in.
    const strong = analyticCurrent("a wall", (out, x) => {
      out[0] = x > 8 * NM ? -6 * KN : 0;
      out[1] = 0;
    });
    const why = whyOf(squareInLanes(lanedCrossing(strong, [24, 0], [north]), 0));
    expect(why.code).toBe("stalled");
    expect(why.where.longitudeDeg * 60).toBeCloseTo(8, 1);
  });

  it("keeps square under an offered heading in a lane on a plane with convergence", () => {
    const centre = positionOf(58, -30);
    const plane = planeAround(centre, 90 * NM);
    const from = positionOf(58.2, -31);
    const to = positionOf(57.9, -29.6);
    const lane: Lane = {
      name: "south-west lane",
      flowDegTrue: 215,
      ring: [positionOf(58.6, -30.1), positionOf(57.5, -31.2), positionOf(57.4, -30.8), positionOf(58.5, -29.7)],
    };
    const current = uniformCurrent(30, 1.5 * KN);
    const around = {
      plane,
      current: current.onPlane(plane),
      currentCovers: null,
      wind: null,
      windCovers: null,
      lanes: lanesOn(plane, [lane]),
    };
    const way = arriving(squareInLanes(crossingOf(lineBetweenPositions(plane, from, to), around, powerBoat(6)), 0));
    expect(headingsOf(way)[1]).toBe(125);
    expect(way.laneCrossings[0]?.offSquareWorstDeg).toBeLessThan(1e-9);
    expect(lanesOn(plane, [lane]).lanes[0]?.ring.x.length).toBe(4);
  });
});

const sea = fc.record({
  jetKn: fc.double({ min: -2.5, max: 2.5, noNaN: true }),
  axisNm: fc.double({ min: 0, max: 30, noNaN: true }),
  widthNm: fc.double({ min: 3, max: 15, noNaN: true }),
  tideKn: fc.double({ min: -1.5, max: 1.5, noNaN: true }),
  boatKn: fc.double({ min: 5, max: 8, noNaN: true }),
  northNm: fc.double({ min: -8, max: 8, noNaN: true }),
  fromNm: fc.double({ min: 4, max: 12, noNaN: true }),
  widthOfLaneNm: fc.double({ min: 1, max: 4, noNaN: true }),
  departHours: fc.double({ min: 0, max: 20, noNaN: true }),
});

describe("whatever the water", () => {
  const waterOf = (one: { jetKn: number; axisNm: number; widthNm: number; tideKn: number }, side: 1 | -1) =>
    sumOfCurrents([
      gaussianJet({ rateMps: side * one.jetKn * KN, axisMetres: one.axisNm * NM, halfWidthMetres: one.widthNm * NM }),
      turningTide({ rateMps: side * one.tideKn * KN, periodSeconds: 12.42 * HOUR, epochAt: 0 }),
    ]);

  it("the way square in the lanes is square in all of them and arrives, or says why not", () => {
    fc.assert(
      fc.property(sea, (one) => {
        const lanes = [
          boxLane("out", 10, [one.fromNm, one.fromNm + one.widthOfLaneNm]),
          boxLane("in", 190, [one.fromNm + one.widthOfLaneNm + 1, one.fromNm + 2 * one.widthOfLaneNm + 1]),
        ];
        const crossing = lanedCrossing(waterOf(one, 1), [30, one.northNm], lanes, powerBoat(one.boatKn));
        const way = squareInLanes(crossing, one.departHours * HOUR);
        if (way.kind === "fails") {
          expect(["unreachable", "stalled", "carried-away"]).toContain(way.why.code);
          return;
        }
        expect(way.laneCrossings.length).toBeGreaterThanOrEqual(2);
        for (const crossed of way.laneCrossings) expect(crossed.offSquareWorstDeg).toBeLessThan(1e-6);
        const { track } = way;
        const end = Math.hypot(track.xMetres[track.count - 1]! - crossing.line.toX, track.yMetres[track.count - 1]! - crossing.line.toY);
        expect(end).toBeLessThan(1);
        for (let i = 1; i < track.count; i++) expect(track.atSeconds[i]!).toBeGreaterThan(track.atSeconds[i - 1]!);
        const headings = headingsOf(way);
        expect(headings[headings.length - 1]).toBeCloseTo(headings[0] as number, 9);
      }),
      { numRuns: 40 },
    );
  });

  it("mirrored gives the way mirrored", () => {
    fc.assert(
      fc.property(sea, (one) => {
        const over = (side: 1 | -1) => {
          const lane = boxLane("lane", (360 + side * 10) % 360, [one.fromNm, one.fromNm + one.widthOfLaneNm]);
          return lanedCrossing(waterOf(one, side), [30, side * one.northNm], [lane], powerBoat(one.boatKn));
        };
        const here = squareInLanes(over(1), one.departHours * HOUR);
        const there = squareInLanes(over(-1), one.departHours * HOUR);
        expect(there.kind).toBe(here.kind);
        if (here.kind === "fails" || there.kind === "fails") return;
        expect(Math.abs(there.arrivalAt - here.arrivalAt)).toBeLessThan(0.02);
        for (const [i, heading] of headingsOf(here).entries()) expect(heading + (headingsOf(there)[i] as number)).toBeCloseTo(180, 4);
      }),
      { numRuns: 40 },
    );
  });

  it("without lanes it is one heading", () => {
    fc.assert(
      fc.property(sea, (one) => {
        const crossing = lanedCrossing(waterOf(one, 1), [30, one.northNm], [], powerBoat(one.boatKn));
        const square = squareInLanes(crossing, one.departHours * HOUR);
        const plain = oneHeading(crossing, one.departHours * HOUR);
        expect({ ...square, name: "oneHeading" }).toEqual(plain);
      }),
      { numRuns: 30 },
    );
  });
});

describe("the order in the plan", () => {
  const crossing = lanedCrossing(uniformCurrent(0, 2 * KN), [24, 0], [north, zone, south]);
  const { ways } = waysAcross(crossing, 0);
  const named = (name: string): WayArrives => arriving(ways.find((way) => way.name === name)!);

  it("the square way stands after one heading, where there are lanes to cross", () => {
    expect(ways.map((way) => way.name)).toEqual(["oneHeading", "squareInLanes", "acrossThenTurn", "holdTrack", "bowOnDestination"]);
    expect(waysAcross(lanedCrossing(stillWater, [24, 0], []), 0).ways).toHaveLength(4);
    expect(waysAcross(lanedCrossing(stillWater, [24, 0], [boxLane("off the way", 0, [40, 50])]), 0).ways).toHaveLength(4);
    expect(waysAcross(lanedCrossing(stillWater, [24, 0], [zone]), 0).ways).toHaveLength(4);
  });

  it("the rule comes before minutes: a way that is not square is not advised while another arrives", () => {
    expect(isNotSquare(named("oneHeading"))).toBe(true);
    expect(recommended(ways)?.name).toBe("squareInLanes");
    const only = ways.filter((way) => way.name === "oneHeading");
    expect(recommended(only)?.name).toBe("oneHeading");
    // Where one heading is square enough the simplest is advised.
    expect(recommended(waysAcross(lanedCrossing(uniformCurrent(0, 0.5 * KN), [24, 0], [north, south]), 0).ways)?.name).toBe("oneHeading");
  });

  it("in a stream of other strength it is kept square, and mended after the last lane", () => {
    const way = named("squareInLanes");
    for (const streamFactor of [0.8, 1.25]) {
      const { run } = carryOut(crossing, way, { streamFactor });
      if (run.kind === "fails") throw new Error(run.why.code);
      const crossed = laneCrossings(run.track, crossing.around.lanes ?? null).filter((one) => one.flowDegTrue !== null);
      expect(crossed).toHaveLength(2);
      for (const one of crossed) expect(one.offSquareWorstDeg).toBeLessThan(1e-6);
    }
    const { run } = carryOut(crossing, way, {});
    expect(run.kind === "arrives" ? run.end.at : 0).toBeCloseTo(way.arrivalAt, 0);
  });

  it("re-aimed from the expected path it is the order itself", () => {
    const way = named("squareInLanes");
    const table = reAimTables(crossing, way, -1).find((one) => one.streamFactor === 1);
    const outside = headingsOf(way)[0] as number;
    const rows = table?.rows.filter((row) => row.acrossMetres < 7 * NM) ?? [];
    expect(rows.length).toBeGreaterThan(1);
    for (const row of rows) expect(row.cells[2]?.headingDegTrue).toBeCloseTo(outside, 3);
  });
});

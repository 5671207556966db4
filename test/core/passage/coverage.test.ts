import { describe, expect, it } from "vitest";
import { planeAround } from "../../../src/core/earth/index.ts";
import type { GridData } from "../../../src/core/fields/index.ts";
import {
  acrossThenTurn,
  alongOf,
  bowOnDestination,
  holdTrack,
  lookAcross,
  offOf,
  oneHeading,
  waysAcross,
} from "../../../src/core/passage/index.ts";
import {
  ASSUMED_STILL,
  type CurrentSource,
  firstThatCovers,
  gridCurrent,
  NEAREST_KNOWN,
  sumOfCurrents,
  turningTide,
  uniformCurrent,
  type WhereUnknown,
} from "../../../src/core/water/index.ts";
import { arriving, crossing, currentGrid, FLAT, HOUR, headingOf, KN, NM, powerBoat, whyOf } from "./waters.ts";

const north2 = (): readonly [number, number] => [0, 2];
const wide = { westDeg: -0.5, eastDeg: 1.5, spanDeg: 0.8, hours: 24 } as const;
const until = (eastDeg: number, hours = 24): GridData => currentGrid({ ...wide, eastDeg, hours }, north2);

/** Fifty miles east at 5 kn against 2 kn across: 10.9 h. */
const across = (current: CurrentSource) => crossing(current, [0, 0], [50, 0]);

describe("a current grid that ends in time", () => {
  it.each([{ lateSeconds: 0 }, { lateSeconds: 1234 }])(
    "ends every way there, and says when ($lateSeconds s past the hour)",
    ({ lateSeconds }) => {
      const data = until(1.5, 6);
      const current = gridCurrent({ ...data, times: data.times.map((at) => at + lateSeconds) });
      const { ways } = waysAcross(across(current), lateSeconds);
      expect(ways.map((way) => way.name)).toEqual(["oneHeading", "acrossThenTurn", "holdTrack", "bowOnDestination"]);
      for (const way of ways) {
        const why = whyOf(way);
        if (!("quantity" in why)) throw new Error(`${way.name}: ${why.code}`);
        expect([why.code, why.quantity]).toEqual(["not-covered-time", "current"]);
        expect(why.coveredFrom).toBe(lateSeconds);
        expect(why.coveredUntil).toBe(6 * HOUR + lateSeconds);
        expect(Math.abs(why.at - 6 * HOUR - lateSeconds)).toBeLessThanOrEqual(150);
        expect(FLAT.toPlane(why.where).xMetres / NM).toBeGreaterThan(20);
      }
    },
  );

  it("tells a departure before its first step as not covered in time", () => {
    const why = whyOf(holdTrack(across(gridCurrent(until(1.5))), -600));
    expect(why).toMatchObject({ code: "not-covered-time", at: -600, coveredFrom: 0, coveredUntil: 24 * HOUR });
  });

  it("is no matter when the passage is over before", () => {
    expect(arriving(holdTrack(across(gridCurrent(until(1.5, 11))), 0)).arrivalAt).toBeLessThan(11 * HOUR);
  });

  it("with one step is held steady at all times", () => {
    const current = gridCurrent(until(1.5, 0));
    expect([current.heldSteady, current.covers]).toEqual([true, null]);
    const way = arriving(holdTrack(across(current), 5e8));
    expect((way.arrivalAt - 5e8) / HOUR).toBeCloseTo(50 / Math.sqrt(21), 5);
  });
});

describe("a current grid that ends in space", () => {
  it("ends the ways at its edge, and says where", () => {
    const { ways } = waysAcross(across(gridCurrent(until(0.5))), 0);
    for (const way of ways) {
      const why = whyOf(way);
      expect([way.name, why.code]).toEqual([way.name, "not-covered-place"]);
      const { xMetres } = FLAT.toPlane(why.where);
      expect(Math.abs(xMetres / NM - 30)).toBeLessThan(0.7);
    }
  });

  it("counts the place as covered while half a cell's weight is, and no farther", () => {
    // Land from 0.5° on: between the nodes at 0.4° and 0.5° the known one counts to half-way, 27 miles.
    const shore = currentGrid(wide, (eastMin) => (eastMin > 29 ? null : [0, 2]));
    const why = whyOf(holdTrack(across(gridCurrent(shore)), 0));
    expect(why.code).toBe("not-covered-place");
    expect(Math.abs(FLAT.toPlane(why.where).xMetres / NM - 27)).toBeLessThan(0.4);
  });

  it("does not hide a heading that keeps just inside its edge", () => {
    // The grid ends half a mile south of the line; the heading that holds the line in a uniform current never needs that half mile.
    const data = currentGrid({ ...wide, spanDeg: 0.1 }, north2);
    const way = arriving(oneHeading(crossing(gridCurrent(data), [0, -5.5], [50, -5.5]), 0));
    expect(headingOf(way)).toBeCloseTo(90 + (Math.asin(2 / 5) * 180) / Math.PI, 3);
  });

  it("says that the water is not known, not that no heading leads there, when the way would lie beyond its edge", () => {
    // A jet between two still shores: the heading that leads across takes the boat up-stream of the line first, where nothing is known.
    const jet = (eastMin: number): readonly [number, number] => [0, 3 * Math.exp(-(((eastMin - 25) / 8) ** 2))];
    const narrow = currentGrid({ ...wide, spanDeg: 0.1 }, jet);
    const beyond = whyOf(oneHeading(crossing(gridCurrent(narrow), [0, -5.9], [50, -5.9]), 0));
    expect(beyond.code).toBe("not-covered-place");
    const enough = currentGrid({ ...wide, spanDeg: 0.2 }, jet);
    expect(oneHeading(crossing(gridCurrent(enough), [0, -5.9], [50, -5.9]), 0).kind).toBe("arrives");
  });
});

describe("where no source reaches, as the skipper chose", () => {
  const half = (unknown: WhereUnknown): CurrentSource => firstThatCovers([gridCurrent(until(0.5))], unknown);

  it("refuses", () => {
    expect(whyOf(oneHeading(across(half({ kind: "refuse" })), 0)).code).toBe("not-covered-place");
  });

  it("takes still water, and tells on how much of the way it did", () => {
    const way = arriving(oneHeading(across(half({ kind: "still" })), 0));
    // Three fifths of the way at 2 kn across: the same heading as a uniform 1.2 kn.
    expect(headingOf(way)).toBeCloseTo(90 + (Math.asin(1.2 / 5) * 180) / Math.PI, 1);
    // The last two fifths, and the step in which they begin.
    expect(way.assumedWaterShare).toBeGreaterThanOrEqual(0.4);
    expect(way.assumedWaterShare).toBeLessThan(0.41);
    const { track } = way;
    for (let i = 0; i < track.count; i++) {
      const beyond = track.xMetres[i]! > 30 * NM + 1;
      if (beyond) expect([track.answeredBy[i], track.currentNorthMps[i]]).toEqual([ASSUMED_STILL, 0]);
      else if (track.xMetres[i]! < 30 * NM - 1) expect(track.answeredBy[i]).toBe(0);
    }
  });

  it("takes the nearest known, as far as was said", () => {
    const way = arriving(oneHeading(across(half({ kind: "nearest", withinMetres: 25 * NM })), 0));
    expect(headingOf(way)).toBeCloseTo(90 + (Math.asin(2 / 5) * 180) / Math.PI, 3);
    expect(way.assumedWaterShare).toBeCloseTo(0.4, 2);
    expect(way.track.answeredBy[way.track.count - 1]).toBe(NEAREST_KNOWN);
    const why = whyOf(holdTrack(across(half({ kind: "nearest", withinMetres: 5 * NM })), 0));
    expect(why.code).toBe("not-covered-place");
    expect(Math.abs(FLAT.toPlane(why.where).xMetres / NM - 35)).toBeLessThan(0.5);
  });

  it("assumes nothing about times", () => {
    const current = firstThatCovers([gridCurrent(until(1.5, 6))], { kind: "still" });
    expect(whyOf(holdTrack(across(current), 0))).toMatchObject({ code: "not-covered-time", coveredUntil: 6 * HOUR });
  });

  it("assumes nothing where every place is known", () => {
    const current = firstThatCovers([gridCurrent(until(1.5))], { kind: "still" });
    expect(arriving(oneHeading(across(current), 0)).assumedWaterShare).toBe(0);
  });

  it("has nothing to say without a source, unless still water was chosen for places", () => {
    const why = whyOf(holdTrack(across(firstThatCovers([], { kind: "still" })), 0));
    expect(why.code).toBe("not-covered-variable");
  });
});

describe("several sources", () => {
  it("the first that covers answers, and the track tells which did", () => {
    const current = firstThatCovers([gridCurrent(until(0.5)), uniformCurrent(180, 1 * KN)], { kind: "refuse" });
    const way = arriving(oneHeading(across(current), 0));
    expect(headingOf(way)).toBeCloseTo(90 + (Math.asin((0.6 * 2 - 0.4 * 1) / 5) * 180) / Math.PI, 1);
    expect(way.track.answeredBy[0]).toBe(0);
    expect(way.track.answeredBy[way.track.count - 1]).toBe(1);
    expect(way.assumedWaterShare).toBe(0);
  });

  it("a later source takes over when the first runs out in time", () => {
    const current = firstThatCovers([gridCurrent(until(1.5, 6)), uniformCurrent(0, 2 * KN)], { kind: "refuse" });
    const way = arriving(holdTrack(across(current), 0));
    expect((way.arrivalAt - way.departAt) / HOUR).toBeCloseTo(50 / Math.sqrt(21), 5);
    expect(current.covers).toBeNull();
  });

  it("a sum covers only what all its parts do", () => {
    const long = gridCurrent(until(1.5, 20));
    const short = gridCurrent(until(1.5, 6));
    expect(sumOfCurrents([long, short]).covers).toEqual({ from: 0, until: 6 * HOUR });
    expect(sumOfCurrents([uniformCurrent(0, 1), short]).covers).toEqual({ from: 0, until: 6 * HOUR });
    expect(sumOfCurrents([uniformCurrent(0, 1)]).covers).toBeNull();
    const why = whyOf(holdTrack(across(sumOfCurrents([long, short])), 0));
    expect(why).toMatchObject({ code: "not-covered-time", coveredUntil: 6 * HOUR });
    const half = sumOfCurrents([gridCurrent(until(1.5)), uniformCurrent(180, 2 * KN)]);
    expect((arriving(oneHeading(across(half), 0)).arrivalAt - 0) / HOUR).toBeCloseTo(10, 5);
  });
});

describe("a look along the line", () => {
  it("finds the axis, its side and its total on what is covered, and tells how much that is", () => {
    const jet = currentGrid(wide, (eastMin) => [0, 3 * Math.exp(-(((eastMin - 24) / 8) ** 2))]);
    const { around, line } = across(gridCurrent(jet));
    const look = lookAcross(around.current, line, 0, 2.5);
    expect(look?.axisAlongMetres ?? 0).toBeCloseTo(24 * NM, -3);
    expect(look?.downStreamSide).toBe(-1);
    expect(look?.coveredShare).toBe(1);
    // The bell's integral, 3·8·√π knot miles, to port; the grid's straight lines between nodes lose a little.
    expect((look?.totalMetres2ps ?? 0) / (KN * NM)).toBeCloseTo(-3 * 8 * Math.sqrt(Math.PI), 0);
    const part = across(gridCurrent(until(0.5)));
    expect(lookAcross(part.around.current, part.line, 0, 2.5)?.coveredShare).toBeCloseTo(0.6, 2);
    expect(lookAcross(part.around.current, part.line, -1e6, 2.5)).toBeNull();
  });

  it("straight across turns where the stream is left, whatever is not known beyond", () => {
    // The stream is left at 31 miles with the boat set eight miles north; from 45 miles on only the water near the line is known.
    const data = currentGrid({ ...wide, spanDeg: 0.6 }, (eastMin, northMin) =>
      eastMin > 43 && northMin > 4 ? null : [0, 3 * Math.exp(-(((eastMin - 20) / 8) ** 2))],
    );
    const one = across(gridCurrent(data));
    const look = lookAcross(one.around.current, one.line, 0, 2.5);
    if (look === null) throw new Error("nothing seen");
    const square = { kind: "heading", headingDegTrue: 90 } as const;
    const start = { xMetres: 0, yMetres: 0, at: 0, engineOn: false };
    const on = one.simulator.run(one.boat, square, { kind: "along", line: one.line, metres: 50 * NM }, start, 300, null);
    expect(on.kind === "noAnswer" && on.code).toBe("not-covered-place");
    const way = arriving(acrossThenTurn(one, 0, look));
    // Half a knot lies between the nodes at 30 and 36 miles, which are joined by a straight line.
    const [near, far] = [30, 36].map((miles) => 3 * Math.exp(-(((miles - 20) / 8) ** 2)));
    expect((way.orders[1]?.fromAlongMetres ?? 0) / NM).toBeCloseTo(30 + (6 * (near! - 0.5)) / (near! - far!), 2);
  });

  it("has nothing to cross where the stream is weaker than half a knot: the turn is at once", () => {
    const still = across(uniformCurrent(0, 0.4 * KN));
    const look = lookAcross(still.around.current, still.line, 0, 2.5);
    if (look === null) throw new Error("nothing seen");
    const way = arriving(acrossThenTurn(still, 0, look));
    expect(way.orders[1]?.fromAt).toBe(0);
    expect(way.arrivalAt).toBeCloseTo(arriving(oneHeading(still, 0)).arrivalAt, 3);
  });
});

describe("the edge of the plane", () => {
  it.each([
    { rateKn: 4.5, one: "unreachable", across: "stalled", bow: "stalled" },
    { rateKn: 8, one: "carried-away", across: "carried-away", bow: "carried-away" },
  ])("a boat that is set toward it by $rateKn kn is stalled or carried away; nothing is thrown", ({ rateKn, one, across, bow }) => {
    const plane = planeAround({ latitudeDeg: -34, longitudeDeg: 20 }, 30 * NM);
    const strong = crossing(uniformCurrent(0, rateKn * KN), [-10, 0], [10, 0], powerBoat(4), plane);
    const { ways } = waysAcross(strong, 0);
    expect(ways.map((way) => [way.name, whyOf(way).code])).toEqual([
      ["oneHeading", one],
      ["acrossThenTurn", across],
      ["holdTrack", "cannot-hold"],
      ["bowOnDestination", bow],
    ]);
    const end = plane.toPlane(whyOf(ways[3]!).where);
    expect(alongOf(strong.line, end.xMetres, end.yMetres)).toBeGreaterThan(0);
    if (rateKn === 8) expect(Math.abs(end.yMetres / NM - 30)).toBeLessThan(0.01);
  });

  it("a boat held by the stream is told as making no way from when she made none, not from when she was given up", () => {
    const foul = crossing(uniformCurrent(270, 5 * KN), [0, 0], [20, 0], powerBoat(4));
    expect(whyOf(bowOnDestination(foul, 7200))).toMatchObject({ code: "stalled", at: 7200 });
  });

  it("every way's stray is told by one side, though the stream turns and sets them differently", () => {
    const tide = turningTide({ rateMps: 2 * KN, periodSeconds: 12 * HOUR, epochAt: 0 });
    const one = crossing(tide, [0, 0], [50, 0], powerBoat(6));
    const { ways, stream } = waysAcross(one, 0);
    if (stream === null) throw new Error("nothing seen");
    for (const way of ways) {
      const { track, upStreamMetres, downStreamMetres } = arriving(way);
      const offs = Array.from(track.yMetres, (y, i) => offOf(one.line, track.xMetres[i] as number, y) * stream.downStreamSide);
      expect(downStreamMetres).toBeCloseTo(Math.max(0, ...offs), 6);
      expect(upStreamMetres).toBeCloseTo(Math.max(0, ...offs.map((off) => -off)), 6);
    }
  });

  it("headings that would leave it do not keep one from being found", () => {
    const plane = planeAround({ latitudeDeg: -34, longitudeDeg: 20 }, 21 * NM);
    const way = arriving(oneHeading(crossing(uniformCurrent(0, 4 * KN), [-20, 0], [20, 0], powerBoat(5), plane), 0));
    expect((way.arrivalAt - way.departAt) / HOUR).toBeCloseTo(40 / 3, 1);
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, geodesicBetween, geodesicFrom, planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { LaneRing, lanesOn, offSquareDeg, squareHeadingDeg } from "../../../src/core/places/index.ts";

const ring = (...corners: readonly (readonly [number, number])[]) =>
  new LaneRing(corners.map(([xMetres, yMetres]) => ({ xMetres, yMetres })));
const square = ring([0, 0], [10, 0], [10, 10], [0, 10]);
/** A horseshoe open to the north: two arms joined in the south. */
const horseshoe = ring([0, 0], [10, 0], [10, 10], [7, 10], [7, 3], [3, 3], [3, 10], [0, 10]);

describe("square to the flow", () => {
  it("is told from along to against, for headings on either side", () => {
    expect(offSquareDeg(90, 0)).toBe(0);
    expect(offSquareDeg(270, 0)).toBe(0);
    expect(offSquareDeg(75, 0)).toBe(15);
    expect(offSquareDeg(285, 0)).toBe(15);
    expect(offSquareDeg(105, 0)).toBe(-15);
    expect(offSquareDeg(5, 275)).toBe(0);
    expect(offSquareDeg(0, 0)).toBe(90);
    expect(offSquareDeg(180, 0)).toBe(-90);
  });

  it("is the same for the two lanes of a scheme, leaning the other way", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 0, max: 359 }), (heading, flow) => {
        expect(offSquareDeg(heading, flow)).toBeCloseTo(-offSquareDeg(heading, (flow + 180) % 360), 9);
        expect(offSquareDeg(squareHeadingDeg(flow, heading), flow)).toBeCloseTo(0, 9);
      }),
    );
  });

  it("points to the side that is wanted", () => {
    expect(squareHeadingDeg(20, 100)).toBe(110);
    expect(squareHeadingDeg(200, 100)).toBe(110);
    expect(squareHeadingDeg(20, 300)).toBe(290);
    expect(squareHeadingDeg(350, 20)).toBe(80);
    expect(squareHeadingDeg(0, 0)).toBe(90);
  });
});

describe("a ring", () => {
  it("holds what is inside, whichever way round its corners are given", () => {
    const other = ring([0, 10], [10, 10], [10, 0], [0, 0]);
    for (const one of [square, other]) {
      expect(one.contains(5, 5)).toBe(true);
      expect(one.contains(-1, 5)).toBe(false);
      expect(one.contains(11, 5)).toBe(false);
      expect(one.contains(5, 10.001)).toBe(false);
      expect(one.crossings(-5, 5, 15, 5)).toMatchObject([
        { share: 0.25, inward: true },
        { share: 0.75, inward: false },
      ]);
    }
    expect(horseshoe.contains(5, 6)).toBe(false);
    expect(horseshoe.contains(5, 1)).toBe(true);
  });

  it("is entered and left where the leg meets its edge", () => {
    expect(square.insideSpans(-5, 5, 15, 5)).toEqual([{ from: 0.25, until: 0.75 }]);
    expect(square.insideSpans(5, 5, 15, 5)).toEqual([{ from: 0, until: 0.5 }]);
    expect(square.insideSpans(-5, 5, 5, 5)).toEqual([{ from: 0.5, until: 1 }]);
    expect(square.insideSpans(2, 2, 8, 3)).toEqual([{ from: 0, until: 1 }]);
    expect(square.insideSpans(-5, 5, -1, 5)).toEqual([]);
    expect(horseshoe.insideSpans(-5, 6, 15, 6)).toEqual([
      { from: 0.25, until: 0.4 },
      { from: 0.6, until: 0.75 },
    ]);
  });

  it("is not entered by a leg that touches a corner or runs along an edge outside", () => {
    expect(square.insideSpans(-4, 4, 6, -6)).toEqual([]);
    expect(square.insideSpans(-5, -0.001, 15, -0.001)).toEqual([]);
    // Through two opposite corners.
    expect(square.insideSpans(-5, -5, 15, 15)).toEqual([{ from: 0.25, until: 0.75 }]);
  });

  it("holds the same share of any leg as a thousand places along it say", () => {
    // Off the corners and edges by a hair, so that no place lies on one.
    const place = fc.integer({ min: -3000, max: 13_000 }).map((n) => n / 1000 + 0.000_37);
    fc.assert(
      fc.property(place, place, place, place, (ax, ay, bx, by) => {
        fc.pre(Math.hypot(bx - ax, by - ay) > 0.01);
        for (const one of [square, horseshoe]) {
          const spans = one.insideSpans(ax, ay, bx, by);
          const share = spans.reduce((sum, span) => sum + span.until - span.from, 0);
          let inside = 0;
          for (let i = 0; i < 1000; i++) {
            const s = (i + 0.5) / 1000;
            const x = ax + s * (bx - ax);
            const y = ay + s * (by - ay);
            if (one.contains(x, y)) inside++;
          }
          expect(Math.abs(share - inside / 1000)).toBeLessThan(0.006);
          const crossings = one.crossings(ax, ay, bx, by);
          for (const [i, crossing] of crossings.entries()) expect(crossing.inward).toBe(one.contains(ax, ay) === (i % 2 === 1));
          const back = one.insideSpans(bx, by, ax, ay).reduce((sum, span) => sum + span.until - span.from, 0);
          expect(back).toBeCloseTo(share, 9);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("needs three corners", () => {
    expect(() => ring([0, 0], [1, 1])).toThrow("three corners");
  });
});

describe("lanes laid on a plane", () => {
  const centre = positionOf(-41, 35);
  const plane = planeAround(centre, 100 * 1852);

  it("know which of them a place is in, a lane with a flow before a zone", () => {
    const flat = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 1e6);
    const box = (west: number, east: number) =>
      [
        [west, -9000],
        [east, -9000],
        [east, 9000],
        [west, 9000],
      ].map(([x, y]) => flat.toPosition(x as number, y as number));
    const laid = lanesOn(flat, [
      { name: "area", flowDegTrue: null, ring: box(0, 6000) },
      { name: "north-going", flowDegTrue: 0, ring: box(0, 2000) },
      { name: "south-going", flowDegTrue: 180, ring: box(4000, 6000) },
    ]);
    expect(laid.laneAt(1000, 0)?.name).toBe("north-going");
    expect(laid.laneAt(3000, 0)?.name).toBe("area");
    expect(laid.laneAt(5000, 0)?.name).toBe("south-going");
    expect(laid.laneAt(7000, 0)).toBeNull();
  });

  it("have edges within 10 m of the geodesic over 30 miles, at the rim of the plane too", () => {
    for (const [bearing, out] of [
      [0, 20],
      [70, 90],
      [200, 95],
    ] as const) {
      for (const along of [0, 40, 90, 135]) {
        const from = geodesicFrom(centre, bearing, out * 1852).position;
        const to = geodesicFrom(from, along, 30 * 1852).position;
        const a = plane.toPlaneIfOn(from);
        const b = plane.toPlaneIfOn(to);
        if (a === null || b === null) continue;
        const middle = geodesicFrom(from, geodesicBetween(from, to).initialBearingDegTrue, 15 * 1852).position;
        const laid = plane.toPlane(middle);
        const across = Math.abs(
          ((b.xMetres - a.xMetres) * (laid.yMetres - a.yMetres) - (b.yMetres - a.yMetres) * (laid.xMetres - a.xMetres)) /
            Math.hypot(b.xMetres - a.xMetres, b.yMetres - a.yMetres),
        );
        expect(across).toBeLessThan(10);
      }
    }
  });

  it("may reach beyond the plane: its far corners do not move the near edge", () => {
    const far = lanesOn(plane, [
      {
        name: "long",
        flowDegTrue: 0,
        ring: [
          geodesicFrom(geodesicFrom(centre, 180, 400 * 1852).position, 270, 1852).position,
          geodesicFrom(geodesicFrom(centre, 180, 400 * 1852).position, 90, 1852).position,
          geodesicFrom(geodesicFrom(centre, 0, 400 * 1852).position, 90, 1852).position,
          geodesicFrom(geodesicFrom(centre, 0, 400 * 1852).position, 270, 1852).position,
        ],
      },
    ]);
    expect(far.laneAt(0, 0)?.name).toBe("long");
    const spans = far.lanes[0]!.ring.insideSpans(-5000, 0, 5000, 0);
    expect(spans).toHaveLength(1);
    // Two miles wide on the ground; its straight edges end where the sheet has spread.
    expect(Math.abs((spans[0]!.until - spans[0]!.from) * 10_000 - 2 * 1852)).toBeLessThan(20);
  });
});

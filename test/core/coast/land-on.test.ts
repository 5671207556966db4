import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Land, type LandArea, type LandKind, landOn } from "../../../src/core/coast/index.ts";
import { flatPlane } from "../../../src/core/earth/index.ts";
import { bruteLand } from "./brute.ts";

/** On the equator's flat sheet a degree is 111 120 m either way, so that a 1024th of a degree is a number without rounding. */
const UNIT = 111_120 / 1024;
const plane = flatPlane({ latitudeDeg: 0, longitudeDeg: 0 }, 64 * UNIT);

/** A ring whose corners are given in 1024ths of a degree. */
const ring = (...corners: readonly (readonly [number, number])[]) => Float64Array.from(corners.flatMap(([x, y]) => [x / 1024, y / 1024]));
const area = (rings: readonly Float64Array[], name: string | null = null, kind: LandKind = "land"): LandArea => ({ kind, name, rings });
const laid = (...areas: readonly LandArea[]): Land => {
  const land = landOn(plane, areas);
  if (land === null) throw new Error("no land");
  return land;
};
/** Asks in 1024ths of a degree. */
const crosses = (land: Land, ax: number, ay: number, bx: number, by: number) => land.crosses(ax * UNIT, ay * UNIT, bx * UNIT, by * UNIT);
const contains = (land: Land, x: number, y: number) => land.contains(x * UNIT, y * UNIT);

const square = ring([-10, -10], [10, -10], [10, 10], [-10, 10]);

describe("a square of land", () => {
  const land = laid(area([square], "Quadra"));

  it("is crossed by what goes through it, ends in it, lies in it or touches it", () => {
    expect(crosses(land, -20, 0, 20, 1)).toBe(true);
    expect(crosses(land, -20, 0, 0, 0)).toBe(true);
    expect(crosses(land, -1, 0, 1, 0)).toBe(true);
    expect(crosses(land, -20, 10, 20, 10)).toBe(true);
    expect(crosses(land, 10, 10, 20, 20)).toBe(true);
    expect(crosses(land, 0, 30, 20, 0)).toBe(false);
    expect(crosses(land, 0, 20, 20, 0)).toBe(true);
    expect(crosses(land, 10, 10, 10, 10)).toBe(true);
  });

  it("is not crossed by what passes, however close, nor found beyond the sheet", () => {
    expect(crosses(land, -20, 10 + 1e-9, 20, 10 + 1e-9)).toBe(false);
    expect(crosses(land, 11, -20, 11, 20)).toBe(false);
    expect(crosses(land, 300, 0, 400, 0)).toBe(false);
    expect(contains(land, 300, 0)).toBe(false);
    expect(crosses(land, 300, 0, 0, 0)).toBe(true);
  });

  it("says where a leg touches it first, and what it is called", () => {
    expect(land.firstTouched(-20 * UNIT, 0, 20 * UNIT, 0)).toEqual({ name: "Quadra", kind: "land", share: 0.25 });
    expect(land.firstTouched(0, 0, 20 * UNIT, 0)).toEqual({ name: "Quadra", kind: "land", share: 0 });
    expect(land.firstTouched(20 * UNIT, 0, 20 * UNIT, 20 * UNIT)).toBeUndefined();
    // Along its edge: the nearer end of the edge.
    expect(land.firstTouched(-20 * UNIT, 10 * UNIT, 20 * UNIT, 10 * UNIT)?.share).toBeCloseTo(0.25, 12);
  });

  it("is as far off as its nearest edge, from outside and inside; none within reach is Infinity", () => {
    expect(land.edgeDistanceMetres(14 * UNIT, 13 * UNIT, 1e6)).toBeCloseTo(5 * UNIT, 6);
    expect(land.edgeDistanceMetres(0, 7 * UNIT, 1e6)).toBeCloseTo(3 * UNIT, 6);
    expect(land.edgeDistanceMetres(14 * UNIT, 13 * UNIT, 4.9 * UNIT)).toBe(Number.POSITIVE_INFINITY);
  });

  it("has four corners to turn at, moved outward along the bisector", () => {
    const off = 100;
    const corners = land.cornersWithin({ west: -1e6, south: -1e6, east: 1e6, north: 1e6 }, off);
    expect(corners.length).toBe(8);
    for (let i = 0; i < 8; i += 2) {
      expect(Math.abs(corners[i] as number)).toBeCloseTo(10 * UNIT + off / Math.SQRT2, 6);
      expect(Math.abs(corners[i + 1] as number)).toBeCloseTo(10 * UNIT + off / Math.SQRT2, 6);
      expect(land.contains(corners[i] as number, corners[i + 1] as number)).toBe(false);
    }
    expect(land.cornersWithin({ west: 0, south: 0, east: 1e6, north: 1e6 }, off).length).toBe(2);
  });
});

describe("areas", () => {
  it("have holes to sail in, and corners that stick into a hole are corners; either sense of turning, closed or not, is the same", () => {
    const hole = ring([-5, -5], [5, -5], [5, 5], [0, 0], [-5, 5]);
    const reversed = (given: Float64Array) =>
      Float64Array.from({ length: given.length }, (_, i) => given[given.length - 2 - i + 2 * (i % 2)] as number);
    const closed = (given: Float64Array) => Float64Array.of(...given, given[0] as number, given[1] as number);
    for (const outer of [square, reversed(square), closed(square)]) {
      for (const inner of [hole, reversed(hole), closed(reversed(hole))]) {
        const land = laid(area([outer, inner]));
        expect(contains(land, 3, 0)).toBe(false);
        expect(contains(land, 0, 3)).toBe(true);
        expect(contains(land, 8, 8)).toBe(true);
        expect(crosses(land, -4, -4, 4, -4)).toBe(false);
        expect(crosses(land, -4, 1, 4, 1)).toBe(true);
        expect(land.cornersWithin({ west: -500, south: -500, east: 500, north: 500 }, 10).length).toBe(2);
      }
    }
  });

  it("may overlap: what lies in any of them is land, in a hole of one too", () => {
    const holed = area([square, ring([-5, -5], [5, -5], [5, 5], [-5, 5])], "Ring");
    const across = area([ring([-30, -1], [30, -1], [30, 1], [-30, 1])], "Bar", "keptOut");
    const land = laid(holed, across);
    expect(contains(land, 0, 0)).toBe(true);
    expect(contains(land, 8, 0)).toBe(true);
    expect(contains(land, 0, 3)).toBe(false);
    expect(contains(land, 25, 0)).toBe(true);
    expect(land.firstTouched(0, 3 * UNIT, 0, -3 * UNIT)).toEqual({ name: "Bar", kind: "keptOut", share: 1 / 3 });
  });

  it("that reach over the sheet are cut to it, and its sides are no coast", () => {
    const land = laid(area([ring([-500, -500], [500, -500], [500, 500], [-500, 500]), ring([-20, -20], [20, -20], [20, 20], [-20, 20])]));
    expect(contains(land, 40, 0)).toBe(true);
    expect(contains(land, 63.9, 63.9)).toBe(true);
    expect(contains(land, 0, 0)).toBe(false);
    expect(land.edgeDistanceMetres(60 * UNIT, 0, 1e6)).toBeCloseTo(40 * UNIT, 6);
    expect(land.cornersWithin({ west: -1e7, south: -1e7, east: 1e7, north: 1e7 }, 1).length).toBe(0);
    // A leg from beyond the sheet comes in overland.
    expect(land.firstTouched(128 * UNIT, 0, 0, 0)).toEqual({ name: null, kind: "land", share: 0.5 });
  });

  it("that all lie off the sheet are no land, and neither are none", () => {
    expect(landOn(plane, [])).toBeNull();
    expect(landOn(plane, [area([ring([100, 100], [110, 100], [110, 110])])])).toBeNull();
  });

  it("throw on what is no place", () => {
    expect(() => landOn(plane, [area([Float64Array.of(0, 0, 1, 0, 1, 91)])])).toThrow("91");
    expect(() => landOn(plane, [area([Float64Array.of(0, 0, Number.NaN, 0, 1, 1)])])).toThrow("NaN");
  });
});

/** Star-shaped rings: corners at rising bearings around a centre, in whole units, so that nothing crosses itself. */
const star = fc
  .tuple(
    fc.integer({ min: -30, max: 30 }),
    fc.integer({ min: -30, max: 30 }),
    fc.array(fc.integer({ min: 3, max: 30 }), { minLength: 3, maxLength: 14 }),
  )
  .map(([x, y, reaches]) =>
    reaches.map((reach, i) => {
      const bearing = (2 * Math.PI * i) / reaches.length;
      return [x + Math.round(reach * Math.cos(bearing)), y + Math.round(reach * Math.sin(bearing))] as const;
    }),
  );
const whole = fc.integer({ min: -60, max: 60 });

describe("held against brute force", () => {
  it("legs between whole places cross just when exact whole-number arithmetic says so, touching included", () => {
    let [hits, misses] = [0, 0];
    fc.assert(
      fc.property(
        fc.array(star, { minLength: 1, maxLength: 5 }),
        fc.array(fc.tuple(whole, whole, whole, whole), { minLength: 20, maxLength: 20 }),
        (stars, legs) => {
          const land = laid(...stars.map((corners) => area([ring(...corners)])));
          const brute = bruteLand(stars.map((corners) => area([Float64Array.from(corners.flat())])));
          for (const [ax, ay, bx, by] of legs) {
            const expected = brute.crosses(ax, ay, bx, by);
            if (expected) hits++;
            else misses++;
            expect(crosses(land, ax, ay, bx, by)).toBe(expected);
            // First touched tells of every leg that crosses, and nothing lies before it.
            const first = land.firstTouched(ax * UNIT, ay * UNIT, bx * UNIT, by * UNIT);
            expect(first !== undefined).toBe(expected);
            if (first !== undefined && first.share > 1e-6) {
              const until = first.share - 1e-7;
              expect(brute.crosses(ax, ay, ax + until * (bx - ax), ay + until * (by - ay))).toBe(false);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
    expect(Math.min(hits, misses)).toBeGreaterThan(300);
  });

  it("places, short legs and distances anywhere agree, rings cut at the sheet's sides too", () => {
    const metres = fc.double({ min: -6900, max: 6900, noNaN: true });
    let inside = 0;
    fc.assert(
      fc.property(
        fc.array(fc.tuple(star, fc.integer({ min: -40, max: 40 })), { minLength: 1, maxLength: 6 }),
        fc.array(fc.tuple(metres, metres, fc.double({ min: -1500, max: 1500, noNaN: true })), { minLength: 25, maxLength: 25 }),
        (given, places) => {
          const areas = given.map(([corners, shift]) => area([ring(...corners.map(([x, y]) => [x + shift, y + shift] as const))]));
          const land = landOn(plane, areas);
          const scale = (value: number) => value * 111_120;
          const brute = bruteLand(areas.map((one) => area(one.rings.map((corners) => corners.map(scale)))));
          for (const [x, y, d] of places) {
            const nearest = brute.distance(x, y);
            // On an edge a place may be either.
            if (nearest > 1e-6) expect(land?.contains(x, y) ?? false).toBe(brute.contains(x, y));
            if (brute.contains(x, y)) inside++;
            if (Math.abs(x + d) < 6945 && Math.abs(y - d / 3) < 6945 && nearest > 1e-6)
              expect(land?.crosses(x, y, x + d, y - d / 3) ?? false).toBe(brute.crosses(x, y, x + d, y - d / 3));
            // Edges beyond the sheet are not known.
            if (land !== null && nearest > 1e-6 && nearest < 6945 - Math.max(Math.abs(x), Math.abs(y))) {
              expect(land.edgeDistanceMetres(x, y, 200_000)).toBeCloseTo(nearest, 5);
              expect(land.edgeDistanceMetres(x, y, nearest * 0.99)).toBe(Number.POSITIVE_INFINITY);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
    expect(inside).toBeGreaterThan(200);
  });

  it("corners lie off the land by what was asked, and the convex hull of one ring is among its corners", () => {
    fc.assert(
      fc.property(star, (corners) => {
        const land = landOn(plane, [area([ring(...corners)])]);
        if (land === null) return;
        const brute = bruteLand([area([Float64Array.from(corners.flatMap(([x, y]) => [x * UNIT, y * UNIT]))])]);
        const off = land.cornersWithin({ west: -1e6, south: -1e6, east: 1e6, north: 1e6 }, 50);
        for (let i = 0; i < off.length; i += 2) {
          const [x, y] = [off[i] as number, off[i + 1] as number];
          expect(brute.contains(x, y)).toBe(false);
          expect(brute.distance(x, y)).toBeLessThanOrEqual(50 + 1e-6);
        }
        const [east, at] = corners.reduce(([best, where], [x, y]) => (x > best ? ([x, y] as const) : ([best, where] as const)), [
          -1e9, 0,
        ] as const);
        const alone = corners.filter(([x]) => x === east).length === 1;
        const isHere = Array.from(off).some(
          (x, i) => i % 2 === 0 && Math.hypot(x - east * UNIT, (off[i + 1] as number) - at * UNIT) < 50.001,
        );
        if (alone && east < 63) expect(isHere).toBe(true);
      }),
      { numRuns: 200 },
    );
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type FittedPlane,
  flatPlane,
  geodesicBetween,
  geodesicFrom,
  PLANE_RADIUS_LIMIT_METRES,
  planeAround,
  planeOver,
  positionOf,
} from "../../../src/core/earth/index.ts";
import { turnDeg } from "../../../src/core/units/index.ts";

const off = (a: number, b: number): number => Math.abs(turnDeg(a, b));
const rad = (deg: number): number => (deg * Math.PI) / 180;

const centres = [
  positionOf(0, 0),
  positionOf(17, 179.95),
  positionOf(-17.7, -149.5),
  positionOf(51, 1.5),
  positionOf(-55, -179.99),
  positionOf(71, 25),
  positionOf(88, 100),
  positionOf(-88, -40),
];
const planes = new Map(centres.map((centre) => [centre, planeAround(centre, PLANE_RADIUS_LIMIT_METRES)]));
const somewhere = fc.record({
  plane: fc.constantFrom(...planes.values()),
  bearingDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  share: fc.double({ min: 0.001, max: 1, noNaN: true }),
});
const onSheet = (plane: FittedPlane, bearingDeg: number, share: number) => ({
  x: share * plane.radiusMetres * Math.sin(rad(bearingDeg)),
  y: share * plane.radiusMetres * Math.cos(rad(bearingDeg)),
});

describe("the plane around a passage", () => {
  it("tells its greatest error: under a centimetre at 100 nm, from the equator to 88°", () => {
    for (const plane of planes.values()) {
      expect(plane.fitErrorMetres).toBeGreaterThan(0);
      expect(plane.fitErrorMetres).toBeLessThan(0.01);
      expect(plane.fitErrorDeg).toBeLessThan(1e-5);
    }
  });

  it("keeps distance and bearing from the centre, against exact geodesics", () => {
    fc.assert(
      fc.property(somewhere, ({ plane, bearingDeg, share }) => {
        const { x, y } = onSheet(plane, bearingDeg, share);
        const exact = geodesicFrom(plane.centre, bearingDeg, share * plane.radiusMetres).position;
        expect(geodesicBetween(plane.toPosition(x, y), exact).distanceMetres).toBeLessThan(0.01);
        const sheet = plane.toPlane(exact);
        expect(Math.hypot(sheet.xMetres - x, sheet.yMetres - y)).toBeLessThan(0.01);
      }),
      { numRuns: 300 },
    );
  });

  it("comes back where it was, out to the corners of the square", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...planes.values()),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (plane, u, v) => {
          const back = plane.toPlane(plane.toPosition(u * plane.radiusMetres, v * plane.radiusMetres));
          expect(Math.hypot(back.xMetres - u * plane.radiusMetres, back.yMetres - v * plane.radiusMetres)).toBeLessThan(0.02);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("turns a true bearing at a point into the sheet's: sheet = true − convergence, along the radius exactly", () => {
    fc.assert(
      fc.property(somewhere, ({ plane, bearingDeg, share }) => {
        const { x, y } = onSheet(plane, bearingDeg, share);
        const end = geodesicFrom(plane.centre, bearingDeg, share * plane.radiusMetres);
        expect(off(end.finalBearingDegTrue - plane.convergenceDegAt(x, y), bearingDeg)).toBeLessThan(1e-5);
      }),
      { numRuns: 300 },
    );
  });

  it("turns every other true bearing within the sheet's own stretch: 0.004° at 100 nm", () => {
    fc.assert(
      fc.property(somewhere, fc.double({ min: 0, max: 360, noNaN: true }), ({ plane, bearingDeg, share }, trueDeg) => {
        const { x, y } = onSheet(plane, bearingDeg, share * 0.99);
        const here = plane.toPosition(x, y);
        const ahead = plane.toPlane(geodesicFrom(here, trueDeg, 500).position);
        const astern = plane.toPlane(geodesicFrom(here, trueDeg, -500).position);
        const sheetDeg = (Math.atan2(ahead.xMetres - astern.xMetres, ahead.yMetres - astern.yMetres) * 180) / Math.PI;
        // The geodesic's stretch across the radius is at most 1 + s²/6R² (R the smallest radius of curvature): half of that in radians.
        const most = ((plane.radiusMetres / 6_335_000) ** 2 / 12) * (180 / Math.PI);
        expect(off(sheetDeg, trueDeg - plane.convergenceDegAt(x, y))).toBeLessThan(most + 1e-4);
        expect(most).toBeLessThan(0.0042);
      }),
      { numRuns: 300 },
    );
  });

  it("leans the right way: east of the centre in the north, true north lies to the left of the sheet's y", () => {
    const north = planes.get(centres[3]!)!;
    expect(north.convergenceDegAt(50_000, 0)).toBeGreaterThan(0.5);
    expect(north.convergenceDegAt(-50_000, 0)).toBeLessThan(-0.5);
    expect(planes.get(centres[2]!)!.convergenceDegAt(50_000, 0)).toBeLessThan(0);
    expect(north.convergenceDegAt(0, 50_000)).toBeCloseTo(0, 9);
  });

  it("holds its centre exactly and works across 180°", () => {
    for (const [centre, plane] of planes) {
      const at = plane.toPlane(centre);
      expect(Math.hypot(at.xMetres, at.yMetres)).toBeLessThan(1e-6);
      expect(off(plane.toPosition(0, 0).latitudeDeg, centre.latitudeDeg)).toBeLessThan(1e-12);
    }
    const plane = planes.get(centres[1]!)!;
    const west = plane.toPosition(20_000, 0);
    expect(west.longitudeDeg).toBeLessThan(-179.8);
    expect(plane.toPlane(west).xMetres).toBeCloseTo(20_000, 1);
  });

  it("refuses what it can't lay, and places it doesn't reach", () => {
    expect(() => planeAround(positionOf(50, 0), PLANE_RADIUS_LIMIT_METRES + 1)).toThrow(/185201/);
    expect(() => planeAround(positionOf(50, 0), 0)).toThrow(/radius/);
    expect(() => planeAround(positionOf(50, 0), Number.NaN)).toThrow(/NaN/);
    expect(() => planeAround(positionOf(88.01, 0), 1000)).toThrow(/pole/);
    expect(() => planeAround({ latitudeDeg: 91, longitudeDeg: 0 }, 1000)).toThrow(/91/);
    const plane = planeAround(positionOf(50, 0), 10_000);
    expect(() => plane.toPosition(10_001, 0)).toThrow(/outside/);
    expect(() => plane.convergenceDegAt(0, -10_001)).toThrow(/outside/);
    expect(() => plane.toPosition(Number.NaN, 0)).toThrow(/outside/);
    expect(() => plane.toPlane(positionOf(50.1, 0))).toThrow(/outside/);
    expect(() => plane.toPlane(positionOf(-50, 180))).toThrow(/outside/);
    expect(() => plane.toPlane({ latitudeDeg: Number.NaN, longitudeDeg: 0 })).toThrow(/outside/);
  });

  it("is quick: a call takes well under a microsecond", () => {
    const plane = planes.get(centres[3]!)!;
    let sum = 0;
    const each = (call: (i: number) => number): number => {
      for (let i = 0; i < 20_000; i++) sum += call(i);
      let best = Number.POSITIVE_INFINITY;
      for (let round = 0; round < 3; round++) {
        const began = performance.now();
        for (let i = 0; i < 100_000; i++) sum += call(i);
        best = Math.min(best, (performance.now() - began) / 100_000);
      }
      return best;
    };
    const milliseconds = [
      each((i) => plane.toPlane({ latitudeDeg: 51 + (i % 100) / 200, longitudeDeg: 1.5 + (i % 77) / 100 }).xMetres),
      each((i) => plane.toPosition((i % 100) * 1000, (i % 77) * 1000).latitudeDeg),
      each((i) => plane.convergenceDegAt((i % 100) * 1000, (i % 77) * 1000)),
    ];
    expect(Number.isFinite(sum)).toBe(true);
    // Some 0.15 µs on a slow machine; the bound leaves room for a busy one.
    expect(Math.max(...milliseconds)).toBeLessThan(0.001);
  });
});

describe("the plane over a passage's places", () => {
  it("lies half-way between the farthest two and reaches past the farthest by the margin", () => {
    const from = positionOf(-17.5, 179.6);
    const to = positionOf(-17.9, -179.6);
    const laid = planeOver([from, positionOf(-17.6, 179.7), to], 20_000, "route");
    if (!laid.ok) throw new Error("not laid");
    const plane = laid.value;
    const half = geodesicBetween(from, to).distanceMetres / 2;
    expect(plane.radiusMetres).toBeCloseTo(half + 20_000, 3);
    const a = plane.toPlane(from);
    const b = plane.toPlane(to);
    expect(Math.hypot(a.xMetres, a.yMetres)).toBeCloseTo(half, 1);
    expect(a.xMetres + b.xMetres).toBeCloseTo(0, 1);
    expect(a.yMetres + b.yMetres).toBeCloseTo(0, 1);
  });

  it("says at once what is wrong with waters it can't lie over", () => {
    const wide = planeOver([positionOf(40, -10), positionOf(44, -10)], 10_000, "route");
    expect(wide).toMatchObject({ ok: false, issues: [{ path: "route", code: "waters-too-wide" }] });
    const polar = planeOver([positionOf(89, 0), positionOf(89, 180)], 150_000, "route");
    expect(polar.ok ? [] : polar.issues.map((one) => one.code)).toEqual(["waters-too-wide", "waters-at-pole"]);
    expect(() => planeOver([], 1000, "route")).toThrow(/0 places/);
  });
});

describe("the flat plane of analytic checks", () => {
  it("has no convergence, comes back, and counts a minute of latitude as a mile", () => {
    const plane = flatPlane(positionOf(-20, 179.9), 100_000);
    expect(plane.toPlane(positionOf(-19, 179.9))).toEqual({ xMetres: 0, yMetres: 60 * 1852 });
    const place = plane.toPosition(30_000, -40_000);
    expect(place.longitudeDeg).toBeLessThan(-179);
    const back = plane.toPlane(place);
    expect(back.xMetres).toBeCloseTo(30_000, 6);
    expect(back.yMetres).toBeCloseTo(-40_000, 6);
    expect(plane.convergenceDegAt(30_000, -40_000)).toBe(0);
    expect(() => flatPlane(positionOf(90, 0), 1000)).toThrow(/90/);
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  geodesicBetween,
  greatCircleBetween,
  NAVIGATORS_SPHERE,
  positionOf,
  rhumbBetween,
  rhumbFrom,
} from "../../../src/core/earth/index.ts";
import { latitudeOfMeridianArcDeg, meridianArcMetres } from "../../../src/core/earth/meridian.ts";
import { turnDeg } from "../../../src/core/units/index.ts";

const off = (a: number, b: number): number => Math.abs(turnDeg(a, b));
const latitude = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
const longitude = fc.double({ min: -180, max: 179.999, noNaN: true });

describe("meridian arcs", () => {
  it("are the geodesic due north, within a hundred nanometres, and turn round", () => {
    fc.assert(
      fc.property(latitude(90), (lat) => {
        const arc = meridianArcMetres(lat);
        expect(Math.abs(Math.abs(arc) - geodesicBetween(positionOf(0, 0), positionOf(lat, 0)).distanceMetres)).toBeLessThan(1e-7);
        expect(Math.abs(latitudeOfMeridianArcDeg(arc) - lat)).toBeLessThan(1e-12);
      }),
    );
  });
});

describe("rhumb lines", () => {
  it("lead where they were measured", () => {
    fc.assert(
      fc.property(latitude(85), longitude, latitude(85), longitude, (lat1, lon1, lat2, lon2) => {
        const from = positionOf(lat1, lon1);
        const to = positionOf(lat2, lon2);
        const leg = rhumbBetween(from, to);
        const end = rhumbFrom(from, leg.bearingDegTrue, leg.distanceMetres);
        expect(Math.abs(end.latitudeDeg - lat2)).toBeLessThan(1e-9);
        expect(off(end.longitudeDeg, lon2) * Math.cos((lat2 * Math.PI) / 180)).toBeLessThan(1e-7);
      }),
    );
  });

  it("are never shorter than the geodesic, and as long on a meridian", () => {
    fc.assert(
      fc.property(latitude(85), longitude, latitude(85), longitude, (lat1, lon1, lat2, lon2) => {
        const from = positionOf(lat1, lon1);
        const to = positionOf(lat2, lon2);
        expect(rhumbBetween(from, to).distanceMetres).toBeGreaterThan(geodesicBetween(from, to).distanceMetres - 1e-6);
        const north = positionOf(lat2, lon1);
        expect(Math.abs(rhumbBetween(from, north).distanceMetres - geodesicBetween(from, north).distanceMetres)).toBeLessThan(1e-6);
      }),
    );
  });

  it("keep a parallel exactly: its radius times the change of longitude, and the latitude untouched", () => {
    for (const lat of [-70, -33.3, 0, 12.5, 60]) {
      const from = positionOf(lat, 179.5);
      const to = positionOf(lat, -179.75);
      const leg = rhumbBetween(from, to);
      // The radius of the parallel from the ellipse itself: a cos β, with tan β = (1 − f) tan φ.
      const beta = Math.atan((1 - 1 / 298.257223563) * Math.tan((lat * Math.PI) / 180));
      expect(leg.bearingDegTrue).toBe(90);
      expect(leg.distanceMetres).toBeCloseTo((6378137 * Math.cos(beta) * 0.75 * Math.PI) / 180, 6);
      const end = rhumbFrom(to, 270, leg.distanceMetres);
      expect(end.latitudeDeg).toBe(lat);
      expect(off(end.longitudeDeg, 179.5)).toBeLessThan(1e-11);
    }
  });

  it("lose no digits beside a parallel: across the change from quadrature to differences they stay smooth", () => {
    const from = positionOf(50, 0);
    const per = (step: number): number => rhumbBetween(from, positionOf(50 + step, 3)).distanceMetres;
    expect(Math.abs(per(1e-9) - per(0))).toBeLessThan(1e-3);
    const edge = (0.01 * 180) / Math.PI;
    expect(Math.abs(per(edge + 1e-9) - per(edge - 1e-9))).toBeLessThan(1e-3);
    // The middle of three close lines lies half-way between the outer ones, to second order.
    expect(Math.abs(per(edge + 1e-4) + per(edge - 1e-4) - 2 * per(edge))).toBeLessThan(1e-3);
  });

  it("go the shorter way round in longitude", () => {
    expect(rhumbBetween(positionOf(10, 170), positionOf(10, -170)).bearingDegTrue).toBe(90);
    expect(rhumbBetween(positionOf(10, -170), positionOf(10, 170)).bearingDegTrue).toBe(270);
  });

  it("refuse the poles", () => {
    expect(() => rhumbBetween(positionOf(90, 0), positionOf(0, 0))).toThrow(/pole/);
    expect(() => rhumbFrom(positionOf(80, 0), 10, 2_000_000)).toThrow(/pole/);
    expect(() => rhumbFrom(positionOf(80, 0), Number.NaN, 1)).toThrow(/NaN/);
  });
});

describe("great circles on the sphere", () => {
  it("agree with rhumb lines along meridians and the equator", () => {
    const north = greatCircleBetween(positionOf(10, 20), positionOf(40, 20));
    expect(north.arcMinutes).toBeCloseTo(1800, 9);
    expect(north.initialBearingDegTrue).toBe(0);
    expect(north.vertex.latitudeDeg).toBeCloseTo(90, 9);
    const line = greatCircleBetween(positionOf(0, 10), positionOf(0, 40));
    expect(line.equator).toBeNull();
    expect(line.arcMinutes * 1852).toBeCloseTo(rhumbBetween(positionOf(0, 10), positionOf(0, 40), NAVIGATORS_SPHERE).distanceMetres, 5);
  });

  it("back along the way: bearings turn by 180° and the arc is the same", () => {
    fc.assert(
      fc.property(latitude(80), longitude, latitude(80), longitude, (lat1, lon1, lat2, lon2) => {
        const a = positionOf(lat1, lon1);
        const b = positionOf(lat2, lon2);
        fc.pre(geodesicBetween(a, b).distanceMetres > 1000 && geodesicBetween(a, b).distanceMetres < 19e6);
        const there = greatCircleBetween(a, b);
        const back = greatCircleBetween(b, a);
        expect(back.arcMinutes).toBeCloseTo(there.arcMinutes, 6);
        expect(off(back.initialBearingDegTrue, there.finalBearingDegTrue + 180)).toBeLessThan(1e-6);
        // The vertex bounds both ends' latitudes.
        expect(Math.abs(there.vertex.latitudeDeg)).toBeGreaterThan(Math.max(Math.abs(lat1), Math.abs(lat2)) - 1e-6);
      }),
    );
  });

  it("refuse ends that mean no single circle", () => {
    expect(() => greatCircleBetween(positionOf(10, 10), positionOf(10, 10))).toThrow(/no single/);
    expect(() => greatCircleBetween(positionOf(10, 10), positionOf(-10, -170))).toThrow(/no single/);
    expect(() => greatCircleBetween(positionOf(90, 0), positionOf(10, 0))).toThrow(/no single/);
  });
});

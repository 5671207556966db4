import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { geodesicBetween, geodesicFrom, positionOf, rhumbBetween } from "../../src/core/earth/index.ts";
import { turnDeg } from "../../src/core/units/index.ts";

const realData = process.env["ATHWART_REAL_DATA"];
if (!realData)
  console.warn("skipped: the hundred GeodTest lines (set ATHWART_REAL_DATA to the folder that holds reference/GeodTest-100.dat)");

const NM = 1852;
const dms = (deg: number, min: number, sec: number): number => deg + min / 60 + sec / 3600;
const off = (a: number, b: number): number => Math.abs(turnDeg(a, b));

// Lines of the GeographicLib JavaScript test suite (C. F. F. Karney): lat1 lon1 azi1 lat2 lon2 azi2 s12
// (as many digits as a double holds).
const karney = [
  [35.60777, -139.44815, 111.09874842956033, -11.17491, -69.95921, 129.28927088970877, 8935244.56048183],
  [55.52454, 106.05087, 22.0200598809828, 77.03196, 197.18234, 109.11204111067151, 4105086.171392441],
  [-19.79938, -174.47484, 71.16727578017154, -11.99349, -154.35109, 65.58909977519923, 2319004.860116939],
] as const;

describe("geodesics against GeographicLib's printed lines", () => {
  it.each(karney)("inverse from %f %f", (lat1, lon1, azi1, lat2, lon2, azi2, s12) => {
    const leg = geodesicBetween(positionOf(lat1, lon1), positionOf(lat2, lon2));
    expect(Math.abs(leg.distanceMetres - s12)).toBeLessThan(1e-8);
    expect(off(leg.initialBearingDegTrue, azi1)).toBeLessThan(1.2e-13);
    expect(off(leg.finalBearingDegTrue, azi2)).toBeLessThan(1.2e-13);
  });

  it.each(karney)("direct from %f %f", (lat1, lon1, azi1, lat2, lon2, azi2, s12) => {
    const end = geodesicFrom(positionOf(lat1, lon1), azi1, s12);
    expect(Math.abs(end.position.latitudeDeg - lat2)).toBeLessThan(1e-12);
    expect(off(end.position.longitudeDeg, lon2)).toBeLessThan(1e-12);
    expect(off(end.finalBearingDegTrue, azi2)).toBeLessThan(1e-12);
  });

  it("New York to Singapore, as the GeographicLib man pages print it", () => {
    const leg = geodesicBetween(positionOf(dms(40, 38, 23), -dms(73, 46, 44)), positionOf(dms(1, 21, 33), dms(103, 59, 22)));
    expect(Math.abs(leg.distanceMetres - 15347628)).toBeLessThanOrEqual(0.5);
    expect(off(leg.initialBearingDegTrue, dms(3, 18, 29.9))).toBeLessThan(0.05 / 3600 + 1e-9);
    expect(off(leg.finalBearingDegTrue, dms(177, 29, 9.2))).toBeLessThan(0.05 / 3600 + 1e-9);
  });

  // Computed with GeodSolve and RhumbSolve of GeographicLib.
  it.each([
    [51.1, 1.35, 50.95, 1.85, 38846.651423, 115.4401523],
    [48.4, -124.6, 48.2, -123.4, 91764.510395, 104.02520064],
  ])("a leg as wide as a strait from %f %f", (lat1, lon1, lat2, lon2, metres, rhumbDeg) => {
    const from = positionOf(lat1, lon1);
    const to = positionOf(lat2, lon2);
    expect(Math.abs(geodesicBetween(from, to).distanceMetres - metres)).toBeLessThan(1e-5);
    expect(off(rhumbBetween(from, to).bearingDegTrue, rhumbDeg)).toBeLessThan(1e-8);
    // So short a rhumb line is hardly longer than the geodesic, and never shorter.
    const excess = rhumbBetween(from, to).distanceMetres - metres;
    expect(excess).toBeGreaterThan(0);
    expect(excess / NM).toBeLessThan(1e-3);
  });
});

describe.skipIf(!realData)("geodesics against a hundred lines of Karney's GeodTest set", () => {
  const lines = realData
    ? readFileSync(join(realData, "reference", "GeodTest-100.dat"), "utf8")
        .trim()
        .split("\n")
        .map((line) => line.trim().split(/\s+/).map(Number))
    : [];

  it("has the hundred", () => expect(lines).toHaveLength(100));

  it("gives every distance within a micrometre, and bearings wherever the ends are not nearly antipodal", () => {
    let bearings = 0;
    for (const line of lines) {
      const [lat1, lon1, azi1, lat2, lon2, azi2, s12] = line as [number, number, number, number, number, number, number];
      const leg = geodesicBetween(positionOf(lat1, lon1), positionOf(lat2, lon2));
      expect(Math.abs(leg.distanceMetres - s12)).toBeLessThan(1e-6);
      if (s12 < 19.9e6 && s12 > 1) {
        bearings++;
        expect(off(leg.initialBearingDegTrue, azi1)).toBeLessThan(1e-6);
        expect(off(leg.finalBearingDegTrue, azi2)).toBeLessThan(1e-6);
      }
      const end = geodesicFrom(positionOf(lat1, lon1), azi1, s12).position;
      expect(geodesicBetween(end, positionOf(lat2, lon2)).distanceMetres).toBeLessThan(1e-6);
    }
    expect(bearings).toBeGreaterThan(50);
  });
});

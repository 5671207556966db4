import { describe, expect, it } from "vitest";
import {
  compassHeading,
  type Ellipsoid,
  greatCircleBetween,
  meridionalParts,
  NAVIGATORS_SPHERE,
  type Position,
  positionOf,
  rhumbBetween,
  rhumbFrom,
  WGS84,
} from "../../src/core/earth/index.ts";
import { motionToward, speedOf, towardOf, turnDeg } from "../../src/core/units/index.ts";

const NM = 1852;
const off = (a: number, b: number): number => Math.abs(turnDeg(a, b));
const minutesApart = (aDeg: number, bDeg: number): number => off(aDeg, bDeg) * 60;
const at = (latDeg: number, latMin: number, ns: "N" | "S", lonDeg: number, lonMin: number, ew: "E" | "W"): Position =>
  positionOf((latDeg + latMin / 60) * (ns === "N" ? 1 : -1), (lonDeg + lonMin / 60) * (ew === "E" ? 1 : -1));

/** Clarke 1866, on which the older nautical tables' meridional parts are reckoned (Snyder, USGS PP 1395, table 1). */
const CLARKE_1866: Ellipsoid = { equatorialRadiusMetres: 6378206.4, flattening: 1 / 294.9786982 };

/** Mercator sailing by tables: a minute of latitude is a mile, and longitude goes by meridional parts. */
function mercatorByTables(from: Position, bearingDeg: number, miles: number, ellipsoid: Ellipsoid): Position {
  const { eastMps: east, northMps: north } = motionToward(miles, bearingDeg);
  const latitudeDeg = from.latitudeDeg + north / 60;
  const parts = meridionalParts(latitudeDeg, ellipsoid) - meridionalParts(from.latitudeDeg, ellipsoid);
  return positionOf(latitudeDeg, from.longitudeDeg + (parts * (east / north)) / 60);
}

// Worked examples of the chapter on the sailings in "The American Practical Navigator" (Bowditch), edition of 2002, from memory, each
// worked again independently; where another copy was seen the line says so.
describe("the sailings, against the handbook's worked examples", () => {
  it("plane sailing: 188.0 miles on 005 are 187.3 north and 16.4 east", () => {
    const run = motionToward(188, 5);
    expect(run.northMps).toBeCloseTo(187.285, 3);
    expect(run.eastMps).toBeCloseTo(16.385, 3);
  });

  it("plane sailing: 136.0 north and 203.0 west are 244.3 miles on 303.8", () => {
    const run = { northMps: 136, eastMps: -203 };
    expect(towardOf(run)).toBeCloseTo(303.82, 2);
    expect(speedOf(run)).toBeCloseTo(244.346, 3);
  });

  it("parallel sailing: 3°30′ of longitude on 49°30′N are 136.4 miles of the sphere", () => {
    const leg = rhumbBetween(at(49, 30, "N", 10, 0, "W"), at(49, 30, "N", 6, 30, "W"), NAVIGATORS_SPHERE);
    expect(leg.bearingDegTrue).toBe(90);
    expect(leg.distanceMetres / NM).toBeCloseTo(136.384, 3);
  });

  it("parallel sailing: 215.5 miles west on 38°15′S change the longitude by 4°34.4′", () => {
    const from = at(38, 15, "S", 20, 0, "W");
    const to = rhumbFrom(from, 270, 215.5 * NM, NAVIGATORS_SPHERE);
    expect(to.latitudeDeg).toBe(from.latitudeDeg);
    expect(Math.abs((from.longitudeDeg - to.longitudeDeg) * 60 - 274.41)).toBeLessThan(0.01);
  });

  it("middle-latitude sailing: 1253 miles on 070, to the 1.2′ by which the middle latitude itself errs", () => {
    const to = rhumbFrom(at(15, 17, "N", 151, 37, "E"), 70, 1253 * NM, NAVIGATORS_SPHERE);
    expect(minutesApart(to.latitudeDeg, 22 + 25.6 / 60)).toBeLessThan(0.1);
    expect(minutesApart(to.longitudeDeg, 172 + 21.2 / 60)).toBeLessThan(1.2);
  });

  it("middle-latitude sailing: 8°48.9′S 89°53.3′W to 17°06.9′S 104°51.6′W is 240.4, 1007.1 miles", () => {
    const leg = rhumbBetween(at(8, 48.9, "S", 89, 53.3, "W"), at(17, 6.9, "S", 104, 51.6, "W"), NAVIGATORS_SPHERE);
    expect(off(leg.bearingDegTrue, 240.4)).toBeLessThan(0.1);
    expect(Math.abs(leg.distanceMetres / NM - 1007.1)).toBeLessThan(1);
  });

  it("Mercator sailing: 32°14.7′N 66°28.9′W to 36°58.7′N 75°42.2′W is 301.9, 538.2 miles; a sphere is 1.8 miles short", () => {
    const from = at(32, 14.7, "N", 66, 28.9, "W");
    const to = at(36, 58.7, "N", 75, 42.2, "W");
    expect(meridionalParts(from.latitudeDeg, CLARKE_1866)).toBeCloseTo(2033.3, 1);
    expect(meridionalParts(to.latitudeDeg, CLARKE_1866)).toBeCloseTo(2377.0, 1);
    for (const ellipsoid of [CLARKE_1866, WGS84]) {
      const leg = rhumbBetween(from, to, ellipsoid);
      expect(off(leg.bearingDegTrue, 301.846)).toBeLessThan(0.002);
      // The tables' miles are minutes of latitude: 284.0′ of it on this bearing.
      expect(Math.abs(284 / Math.cos((leg.bearingDegTrue * Math.PI) / 180) - 538.24)).toBeLessThan(0.02);
    }
    const sphere = rhumbBetween(from, to, NAVIGATORS_SPHERE);
    expect(sphere.distanceMetres / NM).toBeCloseTo(536.465, 3);
    expect(Math.abs(sphere.distanceMetres / NM - 538.2)).toBeGreaterThan(1.7);
  });

  it("Mercator sailing: 263.5 miles on 155 from 75°31.7′N 79°08.7′W", () => {
    const to = mercatorByTables(at(75, 31.7, "N", 79, 8.7, "W"), 155, 263.5, WGS84);
    expect(minutesApart(to.latitudeDeg, 71 + 32.9 / 60)).toBeLessThan(0.1);
    expect(minutesApart(to.longitudeDeg, -(72 + 34.1 / 60))).toBeLessThan(0.2);
  });

  // Seen in a marine training page's third example.
  it("Mercator sailing: 1897 miles on 241 from 36°48.0′N 85°53.0′W; a sphere is 9′ of longitude out", () => {
    const from = at(36, 48, "N", 85, 53, "W");
    const to = mercatorByTables(from, 241, 1897, WGS84);
    expect(minutesApart(to.latitudeDeg, 21 + 28.3 / 60)).toBeLessThan(0.1);
    expect(minutesApart(to.longitudeDeg, -(117 + 32.5 / 60))).toBeLessThan(1);
    expect(Math.abs(meridionalParts(from.latitudeDeg) - 2363.6)).toBeLessThan(0.5);
    expect(Math.abs(meridionalParts(to.latitudeDeg) - 1310.7)).toBeLessThan(0.5);
    const sphere = rhumbFrom(from, 241, 1897 * NM, NAVIGATORS_SPHERE);
    expect(minutesApart(sphere.longitudeDeg, -(117 + 32.5 / 60))).toBeGreaterThan(8);
  });

  // Seen on the same page.
  it("Mercator sailing: 4450 miles on 333 from 6°10.0′S 176°47.0′W, across the equator and the 180th meridian", () => {
    const to = mercatorByTables(at(6, 10, "S", 176, 47, "W"), 333, 4450, WGS84);
    expect(minutesApart(to.latitudeDeg, 59 + 55 / 60)).toBeLessThan(0.1);
    expect(minutesApart(to.longitudeDeg, 141 + 54.1 / 60)).toBeLessThan(1);
  });

  // RhumbSolve of GeographicLib, seen as 42.87239305°; forty-digit quadrature (Python's mpmath) gives 42.87239302486°, 1654831.03190 m.
  it("the rhumb line on the ellipsoid: 32°16.6′N 68°28.0′W to 43°12.2′N 55°39.0′W", () => {
    const from = at(32, 16.6, "N", 68, 28, "W");
    const to = at(43, 12.2, "N", 55, 39, "W");
    const leg = rhumbBetween(from, to);
    expect(off(leg.bearingDegTrue, 42.87239305)).toBeLessThan(1e-7);
    expect(off(leg.bearingDegTrue, 42.8723930248593)).toBeLessThan(1e-12);
    expect(Math.abs(leg.distanceMetres - 1654831.032)).toBeLessThan(1e-3);
    expect(Math.abs(leg.distanceMetres - 1654831.03189595)).toBeLessThan(1e-7);
    const back = rhumbFrom(from, 42.8723930248593, 1654831.03189595);
    expect(minutesApart(back.latitudeDeg, to.latitudeDeg)).toBeLessThan(1e-6);
    expect(minutesApart(back.longitudeDeg, to.longitudeDeg)).toBeLessThan(1e-6);
  });

  // GeographicLib's man page of RhumbSolve.
  it("the rhumb line from New York to Singapore", () => {
    const leg = rhumbBetween(
      positionOf(40 + 38 / 60 + 23 / 3600, -(73 + 46 / 60 + 44 / 3600)),
      positionOf(1 + 21 / 60 + 33 / 3600, 103 + 59 / 60 + 22 / 3600),
    );
    expect(off(leg.bearingDegTrue, 103 + 34 / 60 + 58.2 / 3600)).toBeLessThan(0.05 / 3600 + 1e-9);
    expect(Math.abs(leg.distanceMetres - 18523563)).toBeLessThanOrEqual(0.5);
  });
});

describe("great-circle sailing on the sphere, against published answers", () => {
  // Keys of US Coast Guard type questions on ocean track plotting, seen; the finer figures worked again independently.
  it.each([
    [at(8, 50, "N", 80, 21, "W"), at(12, 36, "N", 128, 16, "E"), 8664, 306.6, 37 + 30.2 / 60, 8663.66],
    [at(38, 17, "N", 123, 16, "W"), at(35, 1, "N", 142, 21, "E"), 4330, 300.9, 47 + 40.5 / 60, 4329.55],
    [at(35, 8, "S", 19, 26, "E"), at(33, 16, "S", 115, 36, "E"), 4559, 121, -(45 + 30.9 / 60), 4558.95],
  ])("%j to %j", (from, to, keyMiles, keyDeg, vertexDeg, miles) => {
    const circle = greatCircleBetween(from, to);
    expect(Math.abs(circle.arcMinutes - keyMiles)).toBeLessThan(0.5);
    expect(Math.abs(circle.arcMinutes - miles)).toBeLessThan(0.01);
    expect(off(circle.initialBearingDegTrue, keyDeg)).toBeLessThan(0.06);
    expect(minutesApart(circle.vertex.latitudeDeg, vertexDeg)).toBeLessThan(0.5);
  });

  it("the vertex of the second lies in 167°18.5′W", () => {
    const { vertex } = greatCircleBetween(at(38, 17, "N", 123, 16, "W"), at(35, 1, "N", 142, 21, "E"));
    expect(minutesApart(vertex.longitudeDeg, -(167 + 18.5 / 60))).toBeLessThan(0.5);
  });

  // A challenge on a navigators' mailing list; one poster printed 327.8 for the course at the equator, which is wrong.
  it("33°01′S 72°10′W to 37°50′N 123°14′W crosses the equator in 95°16′W on 328.88, not on 327.8", () => {
    const circle = greatCircleBetween(at(33, 1, "S", 72, 10, "W"), at(37, 50, "N", 123, 14, "W"));
    expect(Math.abs(circle.arcMinutes - 5117.93)).toBeLessThan(0.01);
    expect(off(circle.initialBearingDegTrue, 321.943)).toBeLessThan(0.001);
    expect(off(circle.equator?.longitudeDeg ?? 0, -95.2687)).toBeLessThan(1e-4);
    expect(off(circle.equator?.bearingDegTrue ?? 0, 328.876)).toBeLessThan(1e-3);
    expect(off(circle.equator?.bearingDegTrue ?? 0, 327.8)).toBeGreaterThan(1);
  });
});

describe("the compass", () => {
  // Answers to a practice chart of a boating course, seen: 070 true, variation 10 W, deviation 4 W, steer 084 by compass.
  it("C = T + W: 070 true with 10 W and 4 W is 084 by compass", () => {
    const heading = compassHeading(70, { variationDeg: -10, deviationCard: [{ headingDegMag: 80, deviationDeg: -4 }] });
    expect(heading.headingDegMag).toBe(80);
    expect(heading.headingDegCompass).toBe(84);
  });
});

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type MapProjection, projectorOf } from "../../../src/formats/projection/index.ts";
import { lambert, MAPS, mercator, polar, SPHERE, turned } from "./maps.ts";

const pair = () => new Float64Array(2);
const degreesApart = (a: number, b: number): number => Math.abs(((((a - b) % 360) + 540) % 360) - 180);

/**
 * J. P. Snyder, Map Projections: A Working Manual (USGS Professional Paper 1395), appendix A, numerical examples. MEMORY: the figures
 * were remembered and found again, to the decimetre, from the paper's formulas (eqs. 7-1, 7-7, 15-1 to 15-11, 21-30 to 21-40) in a few
 * lines of Python apart from the program.
 */
const CLARKE_1866 = { semiMajorMetres: 6_378_206.4, semiMinorMetres: 6_378_206.4 * Math.sqrt(1 - 0.00676866) };
const INTERNATIONAL = { semiMajorMetres: 6_378_388, semiMinorMetres: 6_378_388 * Math.sqrt(1 - 0.00672267) };
const RADIUS = SPHERE.semiMajorMetres;
const EXAMPLES: readonly (readonly [string, MapProjection, readonly [number, number], readonly [number, number]])[] = [
  ["Mercator, ellipsoid", mercator(-180, 0, CLARKE_1866), [35, -75], [11_688_673.7, 4_139_145.7]],
  ["Mercator, sphere", mercator(-180, 0), [35, -75], [1.8325957 * RADIUS, 0.6528366 * RADIUS]],
  [
    "Lambert, ellipsoid",
    { ...lambert([33, 45], -96, CLARKE_1866), originLatitudeDeg: 23 } as MapProjection,
    [35, -75],
    [1_894_410.9, 1_564_649.5],
  ],
  [
    "Lambert, sphere",
    { ...lambert([33, 45], -96), originLatitudeDeg: 23 } as MapProjection,
    [35, -75],
    [0.2966785 * RADIUS, 0.2462112 * RADIUS],
  ],
  ["polar stereographic, southern, ellipsoid", polar("south", -100, -71, INTERNATIONAL), [-75, 150], [-1_540_033.6, -560_526.4]],
];

describe("the maps' published examples", () => {
  for (const [name, projection, [latitude, longitude], [x, y]] of EXAMPLES) {
    test(name, async () => {
      const projector = await projectorOf(projection);
      const out = pair();
      expect(projector.toMapInto(out, latitude, longitude)).toBe(true);
      // The sphere's are printed to seven decimals of its radius.
      const tolerance = projection.kind !== "rotatedPole" && projection.earth === SPHERE ? 0.5e-7 * RADIUS : 0.06;
      expect(Math.abs(out[0]! - x)).toBeLessThan(tolerance);
      expect(Math.abs(out[1]! - y)).toBeLessThan(tolerance);
    });
  }
});

describe("a turned pole by the words of GRIB template 3.1", () => {
  /** A right-handed turn about an axis: 1 is through 90 degrees east on the equator, 2 the earth's own. */
  const turnedAbout = (axis: 1 | 2, deg: number, [x, y, z]: readonly [number, number, number]): readonly [number, number, number] => {
    const [cos, sin] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    return axis === 2 ? [x * cos - y * sin, x * sin + y * cos, z] : [x * cos + z * sin, y, z * cos - x * sin];
  };

  test("turned about the axis, tilted along the turned Greenwich, then turned about the new axis", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -180, max: 360, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -89, max: 89, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        async (poleLatitude, poleLongitude, rotation, y, x) => {
          const out = pair();
          expect((await projectorOf(turned(poleLatitude, poleLongitude, rotation))).toPlaceInto(out, x, y)).toBe(true);
          const level = Math.cos((y * Math.PI) / 180);
          const start = [
            level * Math.cos((x * Math.PI) / 180),
            level * Math.sin((x * Math.PI) / 180),
            Math.sin((y * Math.PI) / 180),
          ] as const;
          // The new system's last turn is undone first. Tilted by 90 + latitude, the old southern pole moves along the meridian.
          const place = turnedAbout(2, poleLongitude, turnedAbout(1, -(90 + poleLatitude), turnedAbout(2, rotation, start)));
          const latitude = (Math.asin(Math.max(-1, Math.min(1, place[2]))) * 180) / Math.PI;
          expect(Math.abs(out[0]! - latitude)).toBeLessThan(1e-5);
          const eastward = (Math.atan2(place[1], place[0]) * 180) / Math.PI;
          expect(degreesApart(out[1]!, eastward) * Math.cos((latitude * Math.PI) / 180)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  test("the turned southern pole lies where it is said to", async () => {
    const out = pair();
    expect((await projectorOf(turned(-39.25, 18, 25))).toPlaceInto(out, 77, -90)).toBe(true);
    expect(out[0]).toBeCloseTo(-39.25, 9);
    expect(out[1]).toBeCloseTo(18, 9);
  });
});

describe.each(MAPS)("%s", (_, projection) => {
  test("to the map and back is the same place to a millimetre, anywhere on the earth that it shows", async () => {
    const projector = await projectorOf(projection);
    const [map, place] = [pair(), pair()];
    fc.assert(
      fc.property(fc.double({ min: -85, max: 85, noNaN: true }), fc.double({ min: -360, max: 360, noNaN: true }), (latitude, longitude) => {
        expect(projector.toMapInto(map, latitude, longitude)).toBe(true);
        expect(projector.toPlaceInto(place, map[0]!, map[1]!)).toBe(true);
        expect(Math.abs(place[0]! - latitude)).toBeLessThan(1e-8);
        expect(degreesApart(place[1]!, longitude) * Math.cos((latitude * Math.PI) / 180)).toBeLessThan(1e-8);
        expect(place[1]! >= -180 && place[1]! < 180).toBe(true);
        if (projector.turnX !== null) {
          expect(projector.toPlaceInto(place, map[0]! + 2 * projector.turnX, map[1]!)).toBe(true);
          expect(degreesApart(place[1]!, longitude) * Math.cos((latitude * Math.PI) / 180)).toBeLessThan(1e-8);
        }
      }),
    );
  });

  test("grid north is where a step along the map's y leads", async () => {
    const projector = await projectorOf(projection);
    const [map, ahead, astern] = [pair(), pair(), pair()];
    const step = projection.kind === "rotatedPole" ? 0.01 : 1000;
    const { semiMajorMetres: a, semiMinorMetres: b } = projection.kind === "rotatedPole" ? SPHERE : projection.earth;
    const e2 = 1 - (b / a) ** 2;
    fc.assert(
      fc.property(fc.double({ min: -75, max: 75, noNaN: true }), fc.double({ min: -180, max: 180, noNaN: true }), (latitude, longitude) => {
        projector.toMapInto(map, latitude, longitude);
        fc.pre(projection.kind !== "rotatedPole" || Math.abs(map[1]!) < 80);
        // A step from the very cut of a Lambert map would leave the earth.
        const isThere = projector.toPlaceInto(ahead, map[0]!, map[1]! + step) && projector.toPlaceInto(astern, map[0]!, map[1]! - step);
        fc.pre(isThere);
        const phi = (latitude * Math.PI) / 180;
        // Metres for a radian along the meridian over those along the prime vertical (Snyder eqs. 4-18 and 4-20).
        const flat = (1 - e2) / (1 - e2 * Math.sin(phi) ** 2);
        const east = (((((ahead[1]! - astern[1]!) % 360) + 540) % 360) - 180) * Math.cos(phi);
        const north = (ahead[0]! - astern[0]!) * flat;
        const bearing = (Math.atan2(east, north) * 180) / Math.PI;
        // Second differences over two kilometres, and proj4's half a millimetre of latitude in one, come to 2e-5 degrees at most.
        expect(degreesApart(projector.gridNorthDegTrue(latitude, longitude), bearing)).toBeLessThan(1e-4);
      }),
    );
  });

  test("no number, no place", async () => {
    const projector = await projectorOf(projection);
    const out = Float64Array.of(7, 8);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect([projector.toMapInto(out, bad, 0), projector.toMapInto(out, 0, bad)]).toEqual([false, false]);
      expect([projector.toPlaceInto(out, bad, 0), projector.toPlaceInto(out, 0, bad)]).toEqual([false, false]);
    }
    expect(projector.toMapInto(out, 90.01, 0)).toBe(false);
    expect([...out]).toEqual([7, 8]);
  });
});

describe("the ends of maps", () => {
  test("each map shows the poles it can, and no other", async () => {
    const out = pair();
    const shown = async (projection: MapProjection) => {
      const projector = await projectorOf(projection);
      return [projector.toMapInto(out, 90, 12), projector.toMapInto(out, -90, 12)];
    };
    expect(await shown(lambert([33, 45], -96))).toEqual([true, false]);
    expect(await shown(lambert([-30, -50], 178))).toEqual([false, true]);
    expect(await shown(polar("north", 20, 60))).toEqual([true, false]);
    expect(await shown(polar("south", 20, -60))).toEqual([false, true]);
    expect(await shown(mercator(0, 20))).toEqual([false, false]);
    expect(await shown(turned(-39, 18))).toEqual([true, true]);
  });

  test("a Lambert map's pole lies where all its meridians meet, however flat the cone", async () => {
    const out = pair();
    for (const projection of [lambert([33, 45], -96), lambert([0, 12], -60), lambert([-30, -50], 178)]) {
      const projector = await projectorOf(projection);
      const poleLatitude = projector.toMapInto(out, 90, 0) ? 90 : -90;
      expect(projector.toMapInto(out, poleLatitude, 0)).toBe(true);
      const [x, y] = out as unknown as [number, number];
      expect(projector.toPlaceInto(out, x, y)).toBe(true);
      expect(out[0]).toBeCloseTo(poleLatitude, 6);
      const origin = projection.kind === "lambertConformal" ? projection.originLongitudeDeg : 0;
      // Far apart in longitude, the same way off: the pole is the centre of both parallels' arcs.
      const radii = [-120, 0, 120].map((turn) => {
        projector.toMapInto(out, 0, origin + turn);
        return Math.hypot(out[0]! - x, out[1]! - y);
      });
      expect(Math.max(...radii) - Math.min(...radii)).toBeLessThan(1e-3);
    }
  });

  test("in the wedge that a Lambert map leaves open there is no earth", async () => {
    const projector = await projectorOf(lambert([33, 45], -96));
    const out = pair();
    projector.toMapInto(out, 90, 0);
    const poleY = out[1]!;
    // The cone's constant is 0.6305: the wedge opens 66.5 degrees on either side of straight up.
    expect(projector.toPlaceInto(out, 1e6 * Math.sin(1.15), poleY + 1e6 * Math.cos(1.15))).toBe(false);
    expect(projector.toPlaceInto(out, 1e6 * Math.sin(1.17), poleY + 1e6 * Math.cos(1.17))).toBe(true);
    expect(projector.toPlaceInto(out, -1e6 * Math.sin(1.15), poleY + 1e6 * Math.cos(1.15))).toBe(false);
  });

  test("a standard parallel of nought is a parallel, not one left out", async () => {
    const out = pair();
    const near = pair();
    (await projectorOf(lambert([30, 0], 10))).toMapInto(out, 20, 15);
    (await projectorOf(lambert([30, 1e-7], 10))).toMapInto(near, 20, 15);
    expect(Math.hypot(out[0]! - near[0]!, out[1]! - near[1]!)).toBeLessThan(0.1);
    (await projectorOf(lambert([0, 30], 10))).toMapInto(near, 20, 15);
    expect(Math.hypot(out[0]! - near[0]!, out[1]! - near[1]!)).toBeLessThan(1e-3);
  });

  test("parallels all but equal make the cone of one", async () => {
    const out = pair();
    const near = pair();
    (await projectorOf(lambert([45, 45], 10))).toMapInto(near, 50, 15);
    for (const apart of [1e-9, 1e-7, 1e-6, 2e-6, 1e-5]) {
      (await projectorOf(lambert([45 - apart / 2, 45 + apart / 2], 10))).toMapInto(out, 50, 15);
      expect(Math.hypot(out[0]! - near[0]!, out[1]! - near[1]!)).toBeLessThan(0.01);
    }
  });
});

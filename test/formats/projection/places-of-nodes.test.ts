import { describe, expect, test } from "vitest";
import { placesOfNodes, projectorOf, trueFromGridInto } from "../../../src/formats/projection/index.ts";
import { lambert, MAPS, mercator, polar, SPHERE } from "./maps.ts";

const even = (start: number, step: number, count: number): Float64Array => Float64Array.from({ length: count }, (_, i) => start + i * step);

describe("places of nodes", () => {
  test.each(MAPS)("%s: each node's place, rows unwrapped, and its north", async (_, projection) => {
    const projector = await projectorOf(projection);
    const step = projection.kind === "rotatedPole" ? 3 : 3e5;
    const xs = even(-14 * step, step, 30);
    const ys = even(-12 * step, step, 25);
    const { latitudesDeg, longitudesDeg, gridNorthDegTrue, withoutPlace } = placesOfNodes(projector, xs, ys);
    const place = new Float64Array(2);
    for (const [row, y] of ys.entries()) {
      for (const [column, x] of xs.entries()) {
        const at = row * xs.length + column;
        if (!projector.toPlaceInto(place, x, y)) {
          expect(withoutPlace![at]).toBe(1);
          continue;
        }
        expect(withoutPlace === null || withoutPlace[at] === 0).toBe(true);
        expect(latitudesDeg[at]).toBe(place[0]);
        const turns = (longitudesDeg[at]! - place[1]!) / 360;
        expect(Math.abs(turns - Math.round(turns))).toBeLessThan(1e-12);
        expect(gridNorthDegTrue[at]).toBe(projector.gridNorthDegTrue(place[0]!, place[1]!));
        const hasNeighbour = column > 0 && withoutPlace?.[at - 1] !== 1;
        if (hasNeighbour) expect(Math.abs(longitudesDeg[at]! - longitudesDeg[at - 1]!)).toBeLessThanOrEqual(180 + 1e-9);
      }
    }
  });

  test("a grid over 180 runs on past it, row after row", async () => {
    const projector = await projectorOf(mercator(0, 0));
    const { longitudesDeg } = placesOfNodes(projector, even(1.95e7, 2e5, 10), even(0, 2e5, 3));
    for (let row = 0; row < 3; row++) expect(longitudesDeg[row * 10]).toBe(longitudesDeg[0]);
    const degreesFor = (metres: number): number => ((metres / SPHERE.semiMajorMetres) * 180) / Math.PI;
    expect(longitudesDeg[0]).toBeCloseTo(degreesFor(1.95e7), 9);
    expect(longitudesDeg[9]).toBeCloseTo(degreesFor(2.13e7), 9);
    expect(longitudesDeg[9]! > 180).toBe(true);
  });

  test("nodes in the wedge of a Lambert map are marked, and the others are whole", async () => {
    const projector = await projectorOf(lambert([33, 45], -96));
    const top = new Float64Array(2);
    projector.toMapInto(top, 90, 0);
    const { latitudesDeg, withoutPlace } = placesOfNodes(
      projector,
      Float64Array.of(-1e6, 0, 1e6),
      Float64Array.of(top[1]! - 1e6, top[1]! + 1e6),
    );
    expect([...withoutPlace!]).toEqual([0, 0, 0, 1, 1, 1]);
    expect(latitudesDeg[1]! > 60).toBe(true);
    expect(latitudesDeg[4]).toBe(0);
  });
});

describe("a vector along the grid", () => {
  const turned = (x: number, y: number, north: number): readonly [number, number] => {
    const out = new Float64Array(2);
    trueFromGridInto(out, x, y, north);
    return [out[0]!, out[1]!];
  };

  test("where the map's y points 30 degrees east of north, a wind along y blows toward 030", () => {
    const [east, north] = turned(0, 10, 30);
    expect(east).toBeCloseTo(10 * Math.sin(Math.PI / 6), 12);
    expect(north).toBeCloseTo(10 * Math.cos(Math.PI / 6), 12);
  });

  test("its x then points toward 120, and lengths stay", () => {
    const [east, north] = turned(10, 0, 30);
    expect((Math.atan2(east, north) * 180) / Math.PI).toBeCloseTo(120, 10);
    expect(Math.hypot(east, north)).toBeCloseTo(10, 12);
  });

  test("90 degrees east of a polar map's upright meridian a wind up the map blows east in the north, west in the south", async () => {
    const north = await projectorOf(polar("north", 0, 60));
    const south = await projectorOf(polar("south", 0, -60));
    expect(turned(0, 10, north.gridNorthDegTrue(70, 90))[0]).toBeCloseTo(10, 12);
    expect(turned(0, 10, south.gridNorthDegTrue(-70, 90))[0]).toBeCloseTo(-10, 12);
  });
});

import { describe, expect, it } from "vitest";
import { planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { CellBuckets } from "../../../src/core/fields/cell-buckets.ts";
import { COVERED, type GridData, type GridQuantity, LinearInTime, NO_PLACE, NO_TIME, PlaneGrid } from "../../../src/core/fields/index.ts";
import { gridCurrent } from "../../../src/core/water/index.ts";
import {
  gridSea,
  gridWind,
  SEA_HEIGHT_HIGH_METRES,
  SEA_PERIOD_LOW_SECONDS,
  SEA_SLOTS,
  WIND_SLOTS,
} from "../../../src/core/weather/index.ts";
import { gridOf, latLonOf, steps } from "./grids.ts";
import { cornersOf, curvilinearOf, cutCells, fieldOn } from "./meshes.ts";

const plane = planeAround(positionOf(41, 5), 60_000);
const HOURS = steps(0, 3600, 5);
const gridWith = (
  quantities: readonly GridQuantity[],
  at: (latitudeDeg: number, longitudeDeg: number, hour: number) => number[],
): GridData =>
  gridOf({
    quantities,
    latitudesDeg: steps(40, 0.1, 21),
    longitudesDeg: steps(3.5, 0.1, 31),
    times: HOURS,
    values: ({ latitudeDeg, longitudeDeg, t }) => at(latitudeDeg - 41, longitudeDeg - 5, t),
  });
/** A regular grid's values at the middles of its cells' triangles, as a mesh whose triangles hold them. */
const ownOf = (grid: GridData, at: (latitudeDeg: number, longitudeDeg: number, hour: number) => number[]): GridData => {
  const { latitudesDeg, longitudesDeg } = latLonOf(grid);
  const { mesh } = curvilinearOf(grid);
  const triangles = Int32Array.from(cutCells(latitudesDeg.length, longitudesDeg.length, () => ({ rising: false, clockwise: false })));
  const middle = (of: Float64Array, triangle: number): number =>
    [0, 1, 2].reduce((sum, k) => sum + of[triangles[3 * triangle + k]!]!, 0) / 3;
  return fieldOn(
    { kind: "triangles", latitudesDeg: mesh.latitudesDeg, longitudesDeg: mesh.longitudesDeg, triangles, valuesAt: "triangles" },
    (node, t) => at(middle(mesh.latitudesDeg, node) - 41, middle(mesh.longitudesDeg, node) - 5, t),
    grid.quantities,
    HOURS,
  );
};
const SPOTS = [
  { x: 0, y: 0, at: 1000 },
  { x: 31_000, y: -22_500, at: 9000 },
  { x: -52_000, y: 40_100, at: 7200 },
  { x: 15_700, y: 3300, at: 14_400 },
];

describe("a current, a wind and a sea are read from any mesh by the same doors", () => {
  const flow = (lat: number, lon: number, t: number): number[] => [0.8 + 0.3 * lat - 0.2 * lon + 0.1 * t, -0.4 + 0.1 * lon + 0.05 * t * t];
  const air = (lat: number, lon: number, t: number): number[] => [6 + lon, 3 - lat + t];
  const meshes = (quantities: readonly GridQuantity[], at: typeof flow): GridData[] => {
    const grid = gridWith(quantities, at);
    return [curvilinearOf(grid), cornersOf(grid), ownOf(grid, at)];
  };

  it("the current, cubic in time, and the nearest known place", () => {
    const [out, want] = [new Float64Array(2), new Float64Array(2)];
    const regular = gridCurrent(gridWith(["currentEastMps", "currentNorthMps"], flow)).onPlane(plane);
    for (const data of meshes(["currentEastMps", "currentNorthMps"], flow)) {
      const source = gridCurrent(data);
      expect(source.covers).toEqual({ from: 0, until: 14_400 });
      const sampler = source.onPlane(plane);
      for (const { x, y, at } of SPOTS) {
        expect(regular.sampleInto(want, x, y, at)).toBe(COVERED);
        expect(sampler.sampleInto(out, x, y, at)).toBe(COVERED);
        expect(out[0]).toBeCloseTo(want[0]!, 4);
        expect(out[1]).toBeCloseTo(want[1]!, 4);
      }
      expect(sampler.sampleInto(out, 0, 0, 14_401)).toBe(NO_TIME);
      expect(sampler.sampleInto(out, 60_001, 0, 0)).toBe(NO_PLACE);
    }
  });

  it("the wind, its speed and bearing", () => {
    const [out, want] = [new Float64Array(WIND_SLOTS), new Float64Array(WIND_SLOTS)];
    const regular = gridWind([{ wind: gridWith(["windEastMps", "windNorthMps"], air), gust: null }], 1.3).onPlane(plane, 0);
    for (const wind of meshes(["windEastMps", "windNorthMps"], air)) {
      const sampler = gridWind([{ wind, gust: null }], 1.3).onPlane(plane, 0);
      for (const { x, y, at } of SPOTS) {
        expect(regular.readInto(want, x, y, at)).toBe(COVERED);
        expect(sampler.readInto(out, x, y, at)).toBe(COVERED);
        out.forEach((value, slot) => void expect(value).toBeCloseTo(want[slot]!, 2));
      }
    }
  });

  it("the sea's height and period, and its direction turned with the sheet", () => {
    const heights = meshes(["seaHeightMetres"], (lat, lon, t) => [2 + lat + 0.1 * lon + 0.1 * t]);
    const periods = meshes(["seaPeriodSeconds"], (lat, _, t) => [7 + lat + t]);
    const out = new Float64Array(SEA_SLOTS);
    const [at0] = [plane.toPosition(31_000, -22_500)];
    heights.forEach((height, k) => {
      const sampler = gridSea(height, periods[k]!).onPlane(plane);
      expect(sampler.readInto(out, 31_000, -22_500, 9000)).toBe(COVERED);
      expect(out[SEA_HEIGHT_HIGH_METRES]).toBeCloseTo(2 + (at0.latitudeDeg - 41) + 0.1 * (at0.longitudeDeg - 5) + 0.25, 4);
      expect(out[SEA_PERIOD_LOW_SECONDS]).toBeCloseTo(7 + (at0.latitudeDeg - 41) + 2.5, 4);
    });
    const toward: GridQuantity[] = ["swellTowardNorth", "swellHeightMetres", "swellTowardEast"];
    for (const data of [gridWith(toward, () => [0.8, 3, -0.6]), ...meshes(toward, () => [0.8, 3, -0.6])]) {
      const three = new Float64Array(3);
      for (const { x, y, at } of SPOTS) {
        expect(new LinearInTime(data, plane).sampleInto(three, x, y, at)).toBe(COVERED);
        const bearing = (Math.atan2(three[2]!, three[0]!) * 180) / Math.PI + plane.convergenceDegAt(x, y);
        expect(bearing).toBeCloseTo((Math.atan2(-0.6, 0.8) * 180) / Math.PI, 2);
        expect(three[1]).toBeCloseTo(3, 12);
        expect(Math.hypot(three[0]!, three[2]!)).toBeCloseTo(1, 5);
      }
      // Left true where that is asked for.
      const grid = new PlaneGrid(data, plane, "trueNorth");
      expect(grid.moveTo(-52_000, 40_100) && grid.readLevelInto(three, 0, 0)).toBe(true);
      expect(three[0]).toBeCloseTo(0.8, 6);
      expect(three[2]).toBeCloseTo(-0.6, 6);
    }
  });

  it("a vector without its other part can't be turned, and is refused", () => {
    for (const lone of ["currentEastMps", "windNorthMps", "secondSwellTowardEast"] as const) {
      const data = gridWith([lone], () => [1]);
      expect(() => new PlaneGrid(data, plane, "sheet")).toThrow(/must hold (currentNorthMps|windEastMps|secondSwellTowardNorth) too/);
    }
  });
});

describe("buckets", () => {
  it("hold few cells each, stay few where every cell covers all, and find every cell that touches a place", () => {
    const cells = Array.from({ length: 10_000 }, (_, k) => k);
    const small = new CellBuckets(
      cells,
      cells.flatMap((k) => [(k % 100) * 10 - 500, Math.floor(k / 100) * 10 - 500, (k % 100) * 10 - 490, Math.floor(k / 100) * 10 - 490]),
      1000,
    );
    expect(small.cells.length).toBeLessThan(8 * cells.length);
    for (const k of [0, 99, 5050, 9999]) {
      const bucket = small.bucketAt((k % 100) * 10 - 495, Math.floor(k / 100) * 10 - 495);
      const list = [...small.cells.slice(small.starts[bucket], small.starts[bucket + 1])];
      expect(list).toContain(k);
      expect(list.length).toBeLessThan(10);
    }
    const heap = new CellBuckets(
      cells,
      cells.flatMap(() => [-900, -900, 900, 900]),
      1000,
    );
    expect(heap.cells.length).toBeLessThanOrEqual(8 * cells.length);
    const bucket = heap.bucketAt(0, 0);
    expect(heap.starts[bucket + 1]! - heap.starts[bucket]!).toBe(cells.length);
    for (const [x, y] of [
      [901, 0],
      [0, -901],
      [Number.NaN, 0],
    ] as const)
      expect(heap.bucketAt(x, y)).toBe(-1);
    expect(new CellBuckets([], [], 1000).bucketAt(0, 0)).toBe(-1);
  });
});

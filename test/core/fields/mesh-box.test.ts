import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { coveringOf, type Mesh, meshBoxOf, nodeCountOf } from "../../../src/core/fields/index.ts";
import { gridOf } from "./grids.ts";
import { curvilinearOn, fieldOn, trianglesOn } from "./meshes.ts";

const line = (longitudes: readonly number[], placed: readonly number[] | null = null): Mesh => ({
  kind: "curvilinear",
  rows: 1,
  columns: longitudes.length,
  latitudesDeg: Float64Array.from(longitudes, (_, i) => i),
  longitudesDeg: Float64Array.from(longitudes),
  placed: placed === null ? null : Uint8Array.from(placed),
});

describe("the box around a mesh", () => {
  it("of a regular grid has its own ends, as it counts them", () => {
    const grid = gridOf({ latitudesDeg: [1, 2, 4], longitudesDeg: [359, 361], values: () => null });
    expect(meshBoxOf(grid.mesh)).toEqual({ southDeg: 1, northDeg: 4, westDeg: 359, eastDeg: 361 });
    expect(nodeCountOf(grid.mesh)).toBe(6);
  });

  it("elsewhere is the narrowest, from the west, over 180 and Greenwich, whatever the turns", () => {
    expect(meshBoxOf(line([179, 181, 180]))).toEqual({ southDeg: 0, northDeg: 2, westDeg: 179, eastDeg: 181 });
    expect(meshBoxOf(line([179, -179, 180]))).toMatchObject({ westDeg: 179, eastDeg: 181 });
    expect(meshBoxOf(line([-181, -179]))).toMatchObject({ westDeg: 179, eastDeg: 181 });
    expect(meshBoxOf(line([359, 1, 3]))).toMatchObject({ westDeg: -1, eastDeg: 3 });
    expect(meshBoxOf(line([200, 210]))).toMatchObject({ westDeg: -160, eastDeg: -150 });
    expect(meshBoxOf(line([7]))).toMatchObject({ westDeg: 7, eastDeg: 7 });
    expect(meshBoxOf(line([7, 7]))).toMatchObject({ westDeg: 7, eastDeg: 7 });
    expect(meshBoxOf(line([0, 90, 180, 270]))).toMatchObject({ westDeg: 0, eastDeg: 270 });
  });

  it("leaves out nodes without a place and corners without a triangle; without any there is none", () => {
    expect(meshBoxOf(line([1, 1e20, 3], [1, 0, 1]))).toEqual({ southDeg: 0, northDeg: 2, westDeg: 1, eastDeg: 3 });
    expect(() => meshBoxOf(line([1, 2], [0, 0]))).toThrow("none of the 2 places");
    const plane = planeAround(positionOf(50, 0), 50_000);
    const corners = [0, 1, 2, 3].map((k) => ({ x: k * 10_000, y: k * k * 3000 }));
    const mesh = trianglesOn(plane, corners, [0, 1, 2], "triangles");
    expect(meshBoxOf(mesh).northDeg).toBe(mesh.latitudesDeg[2]);
    expect(nodeCountOf(mesh)).toBe(1);
    expect(nodeCountOf({ ...mesh, valuesAt: "corners" })).toBe(4);
  });

  it("holds every node and is no wider than any arc that does", () => {
    const somewhere = fc.integer({ min: -720, max: 720 });
    fc.assert(
      fc.property(fc.array(somewhere, { minLength: 1, maxLength: 12 }), (longitudes) => {
        const { westDeg, eastDeg } = meshBoxOf(line(longitudes));
        const east = (from: number, to: number): number => (((to - from) % 360) + 360) % 360;
        expect(westDeg >= -180 && westDeg < 180 && eastDeg >= westDeg).toBe(true);
        for (const one of longitudes) expect(east(westDeg, one)).toBeLessThanOrEqual(eastDeg - westDeg);
        const narrowest = Math.min(...longitudes.map((from) => Math.max(...longitudes.map((to) => east(from, to)))));
        expect(eastDeg - westDeg).toBe(narrowest);
      }),
      { numRuns: 300 },
    );
  });

  it("is told with the times of a grid", () => {
    const plane = planeAround(positionOf(-17, 180), 80_000);
    const mesh = curvilinearOn(plane, 3, 3, (j, i) => ({ x: (i - 1) * 50_000, y: (j - 1) * 50_000 }));
    const covering = coveringOf(fieldOn(mesh, () => [1], ["gustMps"], [0, 60, 3600]));
    expect(covering).toMatchObject({ from: 0, until: 3600, steps: 3, longestStepSeconds: 3540 });
    expect(covering.westDeg).toBeCloseTo(179.53, 2);
    expect(covering.eastDeg).toBeCloseTo(180.47, 2);
  });
});

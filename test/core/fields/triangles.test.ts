import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, type Plane, planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { type GridData, PlaneGrid, type TriangleMesh } from "../../../src/core/fields/index.ts";
import { centroidsOf, layNodesAround } from "../../../src/core/fields/laid-nodes.ts";
import { CornerLocator, TriangleLocator } from "../../../src/core/fields/triangle-locator.ts";
import { neighboursOf } from "../../../src/core/fields/triangle-neighbours.ts";
import { gridOf, steps } from "./grids.ts";
import { cornersOf, cutCells, fieldOn, type SheetPoint, trianglesOn } from "./meshes.ts";

const flat = flatPlane(positionOf(0, 0), 100_000);
const real = planeAround(positionOf(-52, -179.7), 100_000);
const read = (data: GridData, plane: Plane, x: number, y: number): readonly number[] | null => {
  const grid = new PlaneGrid(data, plane, "sheet");
  const out = new Float64Array(data.quantities.length);
  return grid.moveTo(x, y) && grid.readLevelInto(out, 0, 0) ? [...out] : null;
};

/** Nodes on a lattice shaken by a fifth of its step at most, its cells cut either way, the triangles in either sense and any order. */
const anyTriangles = fc
  .record({
    rows: fc.integer({ min: 2, max: 9 }),
    columns: fc.integer({ min: 2, max: 9 }),
    step: fc.double({ min: 500, max: 15_000, noNaN: true }),
    shear: fc.double({ min: -1, max: 1, noNaN: true }),
    shakes: fc.infiniteStream(fc.double({ min: -0.2, max: 0.2, noNaN: true })),
    cuts: fc.infiniteStream(fc.record({ rising: fc.boolean(), clockwise: fc.boolean() })),
    order: fc.infiniteStream(fc.nat()),
  })
  .map(({ rows, columns, step, shear, shakes, cuts, order }) => {
    const shake = (): number => shakes.next().value as number;
    const corners = Array.from({ length: rows * columns }, (_, node): SheetPoint => {
      const u = (node % columns) - (columns - 1) / 2 + shake();
      const v = Math.floor(node / columns) - (rows - 1) / 2 + shake();
      return { x: (u + shear * v) * step * 0.7, y: v * step };
    });
    const cut = cutCells(rows, columns, () => cuts.next().value as { rising: boolean; clockwise: boolean });
    const whole = Array.from({ length: cut.length / 3 }, (_, t) => cut.slice(3 * t, 3 * t + 3))
      .map((corner) => ({ corner, at: order.next().value as number }))
      .sort((a, b) => a.at - b.at);
    return { corners, triangles: whole.flatMap(({ corner }) => corner), step };
  });
const share = fc.double({ min: 0, max: 1, noNaN: true });
/** A point of triangle `which` of a mesh whose corners are laid at x, y. */
const pointIn = (mesh: TriangleMesh, x: Float64Array, y: Float64Array, which: number, s: number, t: number): SheetPoint => {
  const [a, b, c] = mesh.triangles.slice(3 * which, 3 * which + 3);
  const [p, q] = s + t > 1 ? [1 - s, 1 - t] : [s, t];
  const at = (of: Float64Array): number => (1 - p - q) * of[a!]! + p * of[b!]! + q * of[c!]!;
  return { x: at(x), y: at(y) };
};

describe("values at the corners of triangles", () => {
  it("give a linear field back to 1e-9", () => {
    fc.assert(
      fc.property(anyTriangles, fc.constantFrom(flat, real), share, share, share, ({ corners, triangles, step }, plane, where, s, t) => {
        const mesh = trianglesOn(plane, corners, triangles, "corners");
        const laid = layNodesAround(mesh, plane);
        const locator = new CornerLocator(mesh, laid, plane.radiusMetres);
        const count = triangles.length / 3;
        const point = pointIn(mesh, laid.x, laid.y, Math.min(count - 1, Math.floor(where * count)), s, t);
        expect(locator.moveTo(point.x, point.y)).toBe(true);
        let [sum, x, y] = [0, 0, 0];
        for (let k = 0; k < 4; k++) {
          expect(locator.weights[k]).toBeGreaterThanOrEqual(0);
          sum += locator.weights[k]!;
          x += locator.weights[k]! * laid.x[locator.nodes[k]!]!;
          y += locator.weights[k]! * laid.y[locator.nodes[k]!]!;
        }
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
        expect(Math.max(Math.abs(x - point.x), Math.abs(y - point.y))).toBeLessThan(1e-9 * step);
      }),
      { numRuns: 600 },
    );
  });

  it("are read as themselves at every corner, from whichever triangle", () => {
    fc.assert(
      fc.property(anyTriangles, ({ corners, triangles }) => {
        const data = fieldOn(trianglesOn(flat, corners, triangles, "corners"), (node) => [node + 1]);
        const laid = layNodesAround(data.mesh as TriangleMesh, flat);
        for (let node = 0; node < corners.length; node += 3) {
          expect(read(data, flat, laid.x[node]!, laid.y[node]!)![0]).toBeCloseTo(node + 1, 9);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("leave missing corners out while half of the weight is covered, and no longer; a side of two wet corners is covered whole", () => {
    const mesh = trianglesOn(
      flat,
      [
        { x: 0, y: 0 },
        { x: 6000, y: 0 },
        { x: 0, y: 6000 },
      ],
      [0, 1, 2],
      "corners",
    );
    const dry = fieldOn(mesh, (node) => (node === 2 ? null : [node + 1]));
    expect(read(dry, flat, 3000, 0)![0]).toBeCloseTo(1.5, 6);
    expect(read(dry, flat, 1500, 2900)![0]).toBeCloseTo((1 * (1600 / 6000) + 2 * 0.25) / (3100 / 6000), 5);
    expect(read(dry, flat, 1500, 3100)).toBeNull();
  });

  it("end at the mesh's outer sides", () => {
    const corners = [
      { x: -8000, y: -8000 },
      { x: 8000, y: -8000 },
      { x: 8000, y: 8000 },
      { x: -8000, y: 8000 },
      { x: 500, y: 700 },
    ];
    const data = fieldOn(trianglesOn(flat, corners, [0, 1, 4, 2, 1, 4, 2, 3, 4, 4, 3, 0], "corners"), () => [1]);
    const grid = new PlaneGrid(data, flat, "sheet");
    for (let along = -8000; along <= 8000; along += 500) {
      for (const [off, isCovered] of [
        [7999.999, true],
        [8000, true],
        [8000.001, false],
      ] as const) {
        for (const [x, y] of [
          [along, off],
          [along, -off],
          [off, along],
          [-off, along],
        ] as const)
          expect(grid.moveTo(x, y)).toBe(isCovered);
      }
    }
  });

  it("on a regular grid's nodes agree with it at the nodes and to the grid's own curvature between them", () => {
    const grid = gridOf({
      latitudesDeg: steps(-53, 0.05, 41),
      longitudesDeg: steps(178.3, 0.05, 81),
      values: ({ latitudeDeg, longitudeDeg }) => [Math.sin(latitudeDeg + 2 * longitudeDeg), Math.cos(latitudeDeg - longitudeDeg)],
    });
    const [regular, cut] = [new PlaneGrid(grid, real, "sheet"), new PlaneGrid(cornersOf(grid), real, "sheet")];
    const [one, other] = [new Float64Array(2), new Float64Array(2)];
    let worst = 0;
    for (let k = 0; k < 2000; k++) {
      const [x, y] = [((k * 7919) % 1999) * 60 - 60_000, ((k * 1301) % 1993) * 60 - 60_000];
      expect(regular.moveTo(x, y) && cut.moveTo(x, y)).toBe(true);
      expect(regular.readLevelInto(one, 0, 0) && cut.readLevelInto(other, 0, 0)).toBe(true);
      worst = Math.max(worst, Math.abs(one[0]! - other[0]!), Math.abs(one[1]! - other[1]!));
    }
    // A quarter of the mixed difference over a cell, 2 × 0.05², and a little for the sides.
    expect(worst).toBeLessThan(0.0015);
    expect(worst).toBeGreaterThan(1e-5);
  });
});

describe("values that hold for triangles", () => {
  it("give a linear field back to 1e-9 where a triangle has three neighbours, and its own value at the mesh's edge", () => {
    let fitted = 0;
    let alone = 0;
    fc.assert(
      fc.property(anyTriangles, fc.constantFrom(flat, real), share, share, share, ({ corners, triangles, step }, plane, where, s, t) => {
        const mesh = trianglesOn(plane, corners, triangles, "triangles");
        const laid = layNodesAround(mesh, plane);
        const centroids = centroidsOf(mesh.triangles, laid);
        const locator = new TriangleLocator(mesh, laid, centroids, plane.radiusMetres);
        const which = Math.min(triangles.length / 3 - 1, Math.floor(where * (triangles.length / 3)));
        // Not on a side, where the neighbour may be the one that answers.
        const point = pointIn(mesh, laid.x, laid.y, which, 0.001 + 0.49 * s, 0.001 + 0.49 * t);
        expect(locator.moveTo(point.x, point.y)).toBe(true);
        const { nodes, weights } = locator;
        expect(nodes[0]).toBe(which);
        const neighbours = [...neighboursOf(mesh.triangles, corners.length).slice(3 * which, 3 * which + 3)];
        if (neighbours.includes(-1)) {
          expect([...nodes]).toEqual([which, which, which, which]);
          expect([...weights]).toEqual([1, 0, 0, 0]);
          alone++;
          return;
        }
        if (nodes[1] === which) return;
        expect([...nodes]).toEqual([which, ...neighbours]);
        let [sum, x, y] = [0, 0, 0];
        for (let k = 0; k < 4; k++) {
          sum += weights[k]!;
          x += weights[k]! * centroids.x[nodes[k]!]!;
          y += weights[k]! * centroids.y[nodes[k]!]!;
        }
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
        expect(Math.max(Math.abs(x - point.x), Math.abs(y - point.y))).toBeLessThan(1e-9 * step);
        // At the centroid the own value alone.
        expect(locator.moveTo(centroids.x[which]!, centroids.y[which]!)).toBe(true);
        expect(locator.weights[0]).toBeCloseTo(1, 12);
        for (const k of [1, 2, 3]) expect(Math.abs(locator.weights[k]!)).toBeLessThan(1e-12);
        fitted++;
      }),
      { numRuns: 800 },
    );
    expect(fitted).toBeGreaterThan(150);
    expect(alone).toBeGreaterThan(50);
  });

  // One triangle with a neighbour at each side, and a lone one far off.
  const star = trianglesOn(
    flat,
    [
      { x: 0, y: 0 },
      { x: 3000, y: 0 },
      { x: 1500, y: 2600 },
      { x: 1500, y: -2600 },
      { x: 4500, y: 2600 },
      { x: -1500, y: 2600 },
      { x: 20_000, y: 20_000 },
      { x: 21_000, y: 20_000 },
      { x: 20_000, y: 21_000 },
    ],
    [0, 1, 2, 0, 3, 1, 1, 2, 4, 2, 5, 0, 6, 8, 7],
    "triangles",
  );

  it("hold alone where a neighbour is missing at that time, so that nothing is drawn out of the land", () => {
    const data = fieldOn(star, (node, t) => (t === node ? null : [10 * node + t]), ["seaHeightMetres"], [0, 1, 2, 3, 4, 5]);
    const grid = new PlaneGrid(data, flat, "sheet");
    const out = Float64Array.of(77);
    expect(grid.moveTo(1500, 100)).toBe(true);
    expect(grid.readLevelInto(out, 0, 0)).toBe(false);
    expect(out[0]).toBe(77);
    for (const level of [1, 2, 3]) {
      expect(grid.readLevelInto(out, 0, level)).toBe(true);
      expect(out[0]).toBe(level);
    }
    for (const level of [4, 5]) {
      expect(grid.readLevelInto(out, 0, level)).toBe(true);
      // South of its centroid, and its neighbours have more in the north: below its own value, 0.
      expect(out[0]! - level).toBeLessThan(-3);
      expect(out[0]! - level).toBeGreaterThan(-6);
    }
    expect(grid.moveTo(20_100, 20_200)).toBe(true);
    expect(grid.readLevelInto(out, 0, 0)).toBe(true);
    expect(out[0]).toBe(40);
    expect(grid.moveTo(10_000, 10_000)).toBe(false);
  });

  it("have their centroids as the nearest places", () => {
    const data = fieldOn(star, (node) => (node === 3 ? null : [node + 1]));
    const grid = new PlaneGrid(data, flat, "sheet");
    const out = new Float64Array(1);
    const nearest = (x: number, y: number, within: number): number | null =>
      grid.moveToNearest(x, y, 0, 0, within) && grid.readLevelInto(out, 0, 0) ? out[0]! : null;
    const [x, y] = [20_000 + 1000 / 3, 20_000 + 1000 / 3];
    expect(nearest(x + 300, y + 400, 500.001)).toBe(5);
    expect(nearest(x + 300, y + 400, 499.999)).toBeNull();
    expect(nearest(0, 1733, 50)).toBeNull();
    expect(nearest(0, 1733, 1800)).toBe(1);
  });

  it("that are vectors are turned by the convergence at their centroids: a uniform true bearing is read true", () => {
    const corners = Array.from({ length: 81 }, (_, n) => ({ x: (n % 9) * 24_000 - 96_000, y: Math.floor(n / 9) * 24_000 - 96_000 }));
    const mesh = trianglesOn(
      real,
      corners,
      cutCells(9, 9, () => ({ rising: true, clockwise: true })),
      "triangles",
    );
    const data = fieldOn(mesh, () => [7, 0.6, 12, 0.8], ["seaHeightMetres", "seaTowardEast", "seaPeriodSeconds", "seaTowardNorth"]);
    for (const [x, y] of [
      [90_000, -30_000],
      [-50_000, 80_000],
      [1000, 2000],
    ] as const) {
      const [height, east, period, north] = read(data, real, x, y)!;
      const bearingDeg = (Math.atan2(east!, north!) * 180) / Math.PI + real.convergenceDegAt(x, y);
      // Three decimals of a degree inside; at the mesh's edge the own value holds for 24 km, over which the sheet leans by 0.1°.
      expect(Math.abs(bearingDeg - (Math.atan2(0.6, 0.8) * 180) / Math.PI)).toBeLessThan(
        Math.abs(x) > 80_000 || Math.abs(y) > 75_000 ? 0.2 : 0.002,
      );
      expect(height).toBeCloseTo(7, 12);
      expect(period).toBeCloseTo(12, 12);
    }
  });
});

describe("neighbours", () => {
  it("share an edge, in either sense; of three at one edge two are neighbours, and none is its own", () => {
    expect([...neighboursOf(Int32Array.of(0, 1, 2, 1, 2, 3), 4)]).toEqual([-1, 1, -1, 0, -1, -1]);
    expect([...neighboursOf(Int32Array.of(0, 1, 2, 2, 1, 3, 1, 2, 4), 5)]).toEqual([-1, 1, -1, 0, -1, -1, -1, -1, -1]);
    expect([...neighboursOf(Int32Array.of(0, 1, 0, 5, 5, 5), 6)]).toEqual([-1, -1, -1, -1, -1, -1]);
    expect([...neighboursOf(Int32Array.of(), 0)]).toEqual([]);
  });

  it("of any triangles are each other's, and are those that a plain search finds", () => {
    fc.assert(
      fc.property(anyTriangles, ({ corners, triangles }) => {
        const found = neighboursOf(Int32Array.from(triangles), corners.length);
        const cornersOfEdge = (edge: number): string => {
          const next = edge % 3 === 2 ? edge - 2 : edge + 1;
          return [triangles[edge]!, triangles[next]!].sort((a, b) => a - b).join();
        };
        const byEdge = new Map<string, number[]>();
        triangles.forEach((_, edge) => {
          byEdge.set(cornersOfEdge(edge), [...(byEdge.get(cornersOfEdge(edge)) ?? []), Math.floor(edge / 3)]);
        });
        triangles.forEach((_, edge) => {
          const others = byEdge.get(cornersOfEdge(edge))!.filter((one) => one !== Math.floor(edge / 3));
          expect(found[edge]).toBe(others[0] ?? -1);
        });
      }),
      { numRuns: 80 },
    );
  });
});

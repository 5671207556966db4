import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, type Plane, positionOf } from "../../../src/core/earth/index.ts";
import { type CurvilinearMesh, GREATEST_FIT_WEIGHTS, type GridData, PlaneGrid, type TriangleMesh } from "../../../src/core/fields/index.ts";
import { curvilinearOn, fieldOn, type SheetPoint, trianglesOn } from "./meshes.ts";

const flat = flatPlane(positionOf(0, 0), 100_000);
const read = (data: GridData, plane: Plane, x: number, y: number): readonly number[] | null => {
  const grid = new PlaneGrid(data, plane, "sheet");
  const out = new Float64Array(data.quantities.length);
  return grid.moveTo(x, y) && grid.readLevelInto(out, 0, 0) ? [...out] : null;
};

describe("a curvilinear mesh that is none", () => {
  const good = curvilinearOn(flat, 3, 3, (j, i) => ({ x: i * 1000, y: j * 1000 }));
  const laidOut = (mesh: CurvilinearMesh) =>
    new PlaneGrid(
      fieldOn(mesh, () => [1]),
      flat,
      "sheet",
    );

  it("is refused with the value that is wrong", () => {
    const wrong = (of: Float64Array, value: number) => of.map((one, node) => (node === 4 ? value : one));
    expect(() => laidOut({ ...good, latitudesDeg: wrong(good.latitudesDeg, Number.NaN) })).toThrow("latitude 4 of the mesh is NaN");
    expect(() => laidOut({ ...good, latitudesDeg: wrong(good.latitudesDeg, 91) })).toThrow("latitude 4 of the mesh is 91");
    expect(() => laidOut({ ...good, longitudesDeg: wrong(good.longitudesDeg, Number.NaN) })).toThrow("longitude 4 of the mesh is NaN");
    expect(() => laidOut({ ...good, longitudesDeg: wrong(good.longitudesDeg, Number.POSITIVE_INFINITY) })).toThrow("is Infinity");
    expect(() => laidOut({ ...good, latitudesDeg: new Float64Array(8) })).toThrow("9 places has 8 latitudes and 9 longitudes");
    expect(() => laidOut({ ...good, placed: new Uint8Array(8) })).toThrow("9 places has 8 marks");
  });

  it("covers nothing where all nodes are one, where a row stands alone, and in cells that cross themselves or point inward", () => {
    const covers = (mesh: CurvilinearMesh, x: number, y: number): boolean => laidOut(mesh).moveTo(x, y);
    expect(
      covers(
        curvilinearOn(flat, 4, 12, () => ({ x: 500, y: 500 })),
        500,
        500,
      ),
    ).toBe(false);
    expect(
      covers(
        curvilinearOn(flat, 1, 5, (_, i) => ({ x: i * 1000, y: 0 })),
        500,
        0,
      ),
    ).toBe(false);
    expect(
      covers(
        curvilinearOn(flat, 5, 1, (j) => ({ x: 0, y: j * 1000 })),
        0,
        500,
      ),
    ).toBe(false);
    const quad = (...corners: readonly (readonly [number, number])[]) =>
      curvilinearOn(flat, 2, 2, (j, i) => ({ x: corners[2 * j + i]![0], y: corners[2 * j + i]![1] }));
    expect(covers(quad([0, 0], [1000, 0], [0, 1000], [1000, 1000]), 300, 300)).toBe(true);
    expect(covers(quad([0, 0], [1000, 0], [1000, 1000], [0, 1000]), 500, 200)).toBe(false);
    expect(covers(quad([0, 0], [1000, 0], [0, 1000], [200, 200]), 100, 100)).toBe(false);
    // Two nodes in one: a triangle, read as one.
    expect(covers(quad([0, 0], [1000, 0], [0, 1000], [0, 1000]), 300, 300)).toBe(true);
    expect(
      read(
        fieldOn(quad([0, 0], [1000, 0], [0, 1000], [0, 1000]), (node) => [[0, 1, 5, 5][node]!]),
        flat,
        0,
        1000,
      )![0],
    ).toBeCloseTo(5, 9);
  });

  it("that folds or is thrown together is read in the end, the same whatever was asked before", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 8 }),
        fc.integer({ min: 2, max: 8 }),
        fc.infiniteStream(fc.integer({ min: -5, max: 5 })),
        (rows, columns, numbers) => {
          const next = (): number => 9000 * (numbers.next().value as number);
          const mesh = curvilinearOn(flat, rows, columns, () => ({ x: next(), y: next() }));
          const data = fieldOn(mesh, (node) => [node]);
          const points = Array.from({ length: 60 }, (_, k) => ({ x: ((k * 17) % 61) * 1500 - 45_000, y: ((k * 29) % 59) * 1500 - 45_000 }));
          const ask = (order: readonly SheetPoint[]): Map<SheetPoint, number | null> => {
            const grid = new PlaneGrid(data, flat, "sheet");
            const out = new Float64Array(1);
            return new Map(order.map((point) => [point, grid.moveTo(point.x, point.y) && grid.readLevelInto(out, 0, 0) ? out[0]! : null]));
          };
          const there = ask(points);
          const back = ask([...points].reverse());
          for (const point of points) {
            expect(back.get(point)).toBe(there.get(point));
            const value = there.get(point);
            if (value !== null) expect(value! >= 0 && value! <= rows * columns - 1).toBe(true);
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe("triangles that are none", () => {
  const square = [
    { x: 0, y: 0 },
    { x: 1000, y: 0 },
    { x: 0, y: 1000 },
  ];
  it("are refused with what is wrong", () => {
    const good = trianglesOn(flat, square, [0, 1, 2], "corners");
    const laid = (mesh: TriangleMesh) =>
      new PlaneGrid(
        fieldOn(mesh, () => [1]),
        flat,
        "sheet",
      );
    expect(() => laid({ ...good, triangles: Int32Array.of(0, 1, 3) })).toThrow("triangle 0 of the mesh has corner 3 of 3");
    expect(() => laid({ ...good, triangles: Int32Array.of(0, 1, 2, 0, -1, 2) })).toThrow("triangle 1 of the mesh has corner -1 of 3");
    expect(() => laid({ ...good, triangles: Int32Array.of(0, 1) })).toThrow("can't have 2");
    expect(() => laid({ ...good, latitudesDeg: Float64Array.of(0, 1, Number.NaN) })).toThrow("latitude 2 of the mesh is NaN");
    expect(() => laid({ ...good, longitudesDeg: Float64Array.of(0, 1) })).toThrow("3 latitudes and 2 longitudes");
  });

  it("cover nothing where they have no area, and without any there is nothing at all", () => {
    for (const triangles of [[], [0, 1, 1], [0, 0, 0]]) {
      const mesh = trianglesOn(flat, square, triangles, "triangles");
      expect(
        new PlaneGrid(
          fieldOn(mesh, () => [1]),
          flat,
          "sheet",
        ).moveTo(300, 0),
      ).toBe(false);
    }
    const heap = trianglesOn(flat, [square[0]!, square[0]!, square[0]!], [0, 1, 2], "corners");
    expect(
      new PlaneGrid(
        fieldOn(heap, () => [1]),
        flat,
        "sheet",
      ).moveTo(0, 0),
    ).toBe(false);
  });

  it("thrown together over each other are read in the end, never NaN, the same whatever was asked before", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ x: fc.integer({ min: -6, max: 6 }), y: fc.integer({ min: -6, max: 6 }) }), { minLength: 3, maxLength: 30 }),
        fc.array(fc.nat(), { minLength: 3, maxLength: 300 }),
        fc.constantFrom("corners" as const, "triangles" as const),
        (spots, numbers, valuesAt) => {
          const corners = spots.map(({ x, y }) => ({ x: 9000 * x, y: 9000 * y }));
          const triangles = numbers.slice(0, numbers.length - (numbers.length % 3)).map((number) => number % corners.length);
          const data = fieldOn(trianglesOn(flat, corners, triangles, valuesAt), (node) => [node % 2 === 0 ? 1 : -1]);
          const points = Array.from({ length: 60 }, (_, k) => ({ x: ((k * 17) % 61) * 1500 - 45_000, y: ((k * 29) % 59) * 1500 - 45_000 }));
          const ask = (order: readonly SheetPoint[]): Map<SheetPoint, number | null> => {
            const grid = new PlaneGrid(data, flat, "sheet");
            const out = new Float64Array(1);
            return new Map(order.map((point) => [point, grid.moveTo(point.x, point.y) && grid.readLevelInto(out, 0, 0) ? out[0]! : null]));
          };
          const there = ask(points);
          const back = ask([...points].reverse());
          for (const point of points) {
            const value = there.get(point);
            expect(back.get(point)).toBe(value);
            if (value !== null) expect(Math.abs(value!)).toBeLessThanOrEqual(GREATEST_FIT_WEIGHTS + 1e-9);
          }
        },
      ),
      { numRuns: 150 },
    );
  });
});

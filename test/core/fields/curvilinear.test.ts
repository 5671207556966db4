import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, type Plane, planeAround, positionOf } from "../../../src/core/earth/index.ts";
import { CurvilinearLocator } from "../../../src/core/fields/curvilinear-locator.ts";
import { type CurvilinearMesh, type GridData, PlaneGrid } from "../../../src/core/fields/index.ts";
import { layNodesAround } from "../../../src/core/fields/laid-nodes.ts";
import { gridOf, steps } from "./grids.ts";
import { curvilinearOf, curvilinearOn, fieldOn, type SheetPoint } from "./meshes.ts";

const flat = flatPlane(positionOf(0, 0), 100_000);
const real = planeAround(positionOf(57, 179.6), 100_000);
const located = (mesh: CurvilinearMesh, plane: Plane) => {
  const laid = layNodesAround(mesh, plane);
  return { laid, locator: new CurvilinearLocator(mesh, laid, plane.radiusMetres) };
};
const read = (data: GridData, plane: Plane, x: number, y: number): readonly number[] | null => {
  const grid = new PlaneGrid(data, plane, "sheet");
  const out = new Float64Array(data.quantities.length);
  return grid.moveTo(x, y) && grid.readLevelInto(out, 0, 0) ? [...out] : null;
};

/** A grid turned, sheared, stretched, mirrored and bent: by less than what would fold it. */
const anyBend = fc
  .record({
    turnRad: fc.double({ min: -3.2, max: 3.2, noNaN: true }),
    shear: fc.double({ min: -1.5, max: 1.5, noNaN: true }),
    stepX: fc.double({ min: 300, max: 9000, noNaN: true }),
    stepY: fc.double({ min: 300, max: 9000, noNaN: true }),
    mirrored: fc.boolean(),
    bend: fc.double({ min: -0.03, max: 0.03, noNaN: true }),
    offX: fc.double({ min: -20_000, max: 20_000, noNaN: true }),
    offY: fc.double({ min: -20_000, max: 20_000, noNaN: true }),
    rows: fc.integer({ min: 2, max: 9 }),
    columns: fc.integer({ min: 2, max: 9 }),
  })
  .map((bent) => {
    const at = (j: number, i: number): SheetPoint => {
      const u = (i - (bent.columns - 1) / 2) * (bent.mirrored ? -1 : 1);
      const v = j - (bent.rows - 1) / 2;
      const a = (u + bent.bend * v * v + 0.5 * bent.bend * u * v + bent.shear * v) * bent.stepX;
      const b = (v + bent.bend * u * u) * bent.stepY;
      const [cos, sin] = [Math.cos(bent.turnRad), Math.sin(bent.turnRad)];
      return { x: bent.offX + a * cos - b * sin, y: bent.offY + a * sin + b * cos };
    };
    return { ...bent, at };
  });
const share = fc.double({ min: 0, max: 1, noNaN: true });
const anyPlane = fc.constantFrom(flat, real);

describe("a curvilinear mesh", () => {
  it("gives a linear field back to 1e-9 and a point's own shares of its cell, however it is turned, sheared, mirrored or bent", () => {
    let seen = 0;
    fc.assert(
      fc.property(anyBend, anyPlane, share, share, share, share, (bent, plane, whereJ, whereI, s, t) => {
        const { rows, columns, at } = bent;
        const onSheet = Array.from({ length: rows * columns }, (_, n) => at(Math.floor(n / columns), n % columns));
        if (onSheet.some(({ x, y }) => Math.max(Math.abs(x), Math.abs(y)) > 99_000)) return;
        const { laid, locator } = located(curvilinearOn(plane, rows, columns, at), plane);
        const j = Math.min(rows - 2, Math.floor(whereJ * (rows - 1)));
        const i = Math.min(columns - 2, Math.floor(whereI * (columns - 1)));
        const corner = (dj: number, di: number): number => (j + dj) * columns + i + di;
        const inside = (of: Float64Array): number =>
          (1 - s) * (1 - t) * of[corner(0, 0)]! +
          s * (1 - t) * of[corner(0, 1)]! +
          s * t * of[corner(1, 1)]! +
          (1 - s) * t * of[corner(1, 0)]!;
        const [x, y] = [inside(laid.x), inside(laid.y)];
        expect(locator.moveTo(x, y)).toBe(true);
        const { nodes, weights } = locator;
        let [sum, xBack, yBack, column, row] = [0, 0, 0, 0, 0];
        for (let k = 0; k < 4; k++) {
          expect(weights[k]).toBeGreaterThanOrEqual(0);
          sum += weights[k]!;
          xBack += weights[k]! * laid.x[nodes[k]!]!;
          yBack += weights[k]! * laid.y[nodes[k]!]!;
          column += weights[k]! * (nodes[k]! % columns);
          row += weights[k]! * Math.floor(nodes[k]! / columns);
        }
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
        // Any linear field is a sum of x, y and a constant; relative to the size of a cell.
        const size = Math.max(bent.stepX, bent.stepY);
        expect(Math.abs(xBack - x)).toBeLessThan(1e-9 * size);
        expect(Math.abs(yBack - y)).toBeLessThan(1e-9 * size);
        expect(Math.abs(column - (i + s))).toBeLessThan(1e-8);
        expect(Math.abs(row - (j + t))).toBeLessThan(1e-8);
        seen++;
      }),
      { numRuns: 800 },
    );
    expect(seen).toBeGreaterThan(500);
  });

  it("reads every node as that node's value, and its sides as straight between two", () => {
    fc.assert(
      fc.property(anyBend, (bent) => {
        const { rows, columns, at } = bent;
        if (![0, columns - 1].every((i) => [0, rows - 1].every((j) => Math.hypot(at(j, i).x, at(j, i).y) < 90_000))) return;
        const data = fieldOn(curvilinearOn(flat, rows, columns, at), (node) => [((node * 37) % 11) + 1]);
        const { laid } = located(data.mesh as CurvilinearMesh, flat);
        const grid = new PlaneGrid(data, flat, "sheet");
        const out = new Float64Array(1);
        for (let node = 0; node < rows * columns; node++) {
          expect(grid.moveTo(laid.x[node]!, laid.y[node]!) && grid.readLevelInto(out, 0, 0)).toBe(true);
          expect(out[0]).toBeCloseTo(data.values[node]!, 9);
          for (const other of [node + 1, node + columns]) {
            if (other >= rows * columns || (other === node + 1 && other % columns === 0)) continue;
            const middle = { x: (laid.x[node]! + laid.x[other]!) / 2, y: (laid.y[node]! + laid.y[other]!) / 2 };
            expect(grid.moveTo(middle.x, middle.y) && grid.readLevelInto(out, 0, 0)).toBe(true);
            expect(out[0]).toBeCloseTo((data.values[node]! + data.values[other]!) / 2, 7);
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it("ends at its outer sides: a point on one is covered, one a millimetre beyond is not", () => {
    const turned = (x: number, y: number): SheetPoint => ({
      x: x * Math.cos(0.4) - y * Math.sin(0.4),
      y: x * Math.sin(0.4) + y * Math.cos(0.4),
    });
    const mesh = curvilinearOn(flat, 5, 7, (j, i) => turned(i * 3000 - 9000, j * 2000 - 4000));
    const { locator } = located(mesh, flat);
    for (let along = -9000; along <= 9000; along += 450) {
      for (const [off, isCovered] of [
        [4000, true],
        [3999.999, true],
        [4000.001, false],
        [6000, false],
      ] as const) {
        for (const side of [1, -1]) {
          const point = turned(along, side * off);
          expect(locator.moveTo(point.x, point.y)).toBe(isCovered);
        }
      }
    }
    for (const side of [1, -1]) {
      for (let along = -4000; along <= 4000; along += 400) {
        for (const off of [9000, 9000.001]) {
          const point = turned(side * off, along);
          expect(locator.moveTo(point.x, point.y)).toBe(off === 9000);
        }
      }
    }
    expect(
      new PlaneGrid(
        fieldOn(mesh, () => [1]),
        flat,
        "sheet",
      ).moveTo(Number.NaN, 0),
    ).toBe(false);
  });

  it("agrees with the same nodes read as a regular grid to 1e-4 m/s, on a smooth current at 57° north, a node every twentieth of a degree", () => {
    const wave = (latitudeDeg: number, longitudeDeg: number): [number, number] => [
      1.5 * Math.sin(3 * longitudeDeg + latitudeDeg),
      1.2 * Math.cos(2 * latitudeDeg - 2 * longitudeDeg),
    ];
    const grid = gridOf({
      latitudesDeg: steps(56, 0.05, 41),
      longitudesDeg: steps(177.5, 0.05, 85),
      values: ({ latitudeDeg, longitudeDeg }) => wave((latitudeDeg * Math.PI) / 180, (longitudeDeg * Math.PI) / 180),
    });
    const [regular, bent] = [new PlaneGrid(grid, real, "sheet"), new PlaneGrid(curvilinearOf(grid), real, "sheet")];
    const [one, other] = [new Float64Array(2), new Float64Array(2)];
    let worst = 0;
    let covered = 0;
    for (let k = 0; k < 4000; k++) {
      const [x, y] = [((k * 7919) % 4001) * 50 - 100_000, ((k * 104_729) % 3989) * 50 - 100_000];
      const isCovered = regular.moveTo(x, y);
      expect(bent.moveTo(x, y)).toBe(isCovered);
      if (!isCovered) continue;
      covered++;
      expect(regular.readLevelInto(one, 0, 0) && bent.readLevelInto(other, 0, 0)).toBe(true);
      worst = Math.max(worst, Math.abs(one[0]! - other[0]!), Math.abs(one[1]! - other[1]!));
    }
    expect(covered).toBeGreaterThan(3000);
    // A parallel bends by 0.3 m off the straight side of a cell of 3 km.
    expect(worst).toBeLessThan(1e-4);
    expect(worst).toBeGreaterThan(0);
  });

  it("leaves missing corners out by the same rule as a regular grid", () => {
    const grid = gridOf({
      quantities: ["seaHeightMetres"],
      latitudesDeg: steps(-0.4, 0.2, 5),
      longitudesDeg: steps(-0.4, 0.2, 5),
      values: ({ j, i }) => ((j * 5 + i) % 3 === 0 ? null : [j + 0.25 * i]),
    });
    const bent = curvilinearOf(grid);
    for (let k = 0; k < 500; k++) {
      const [x, y] = [((k * 37) % 499) * 177 - 44_000, ((k * 101) % 487) * 181 - 44_000];
      const here = read(grid, flat, x, y);
      const there = read(bent, flat, x, y);
      expect(there === null).toBe(here === null);
      if (here !== null) expect(there![0]).toBeCloseTo(here[0]!, 9);
    }
  });

  it("covers nothing in cells with a node that has no place, and never takes that node as the nearest", () => {
    const mesh = curvilinearOn(flat, 4, 4, (j, i) => (j === 1 && i === 1 ? null : { x: i * 1000, y: j * 1000 }));
    const data = fieldOn(mesh, (node) => [node]);
    for (const [x, y, isCovered] of [
      [500, 500, false],
      [1500, 500, false],
      [500, 1500, false],
      [1500, 1500, false],
      [2500, 500, true],
      [2500, 2500, true],
      [500, 2500, true],
    ] as const)
      expect(read(data, flat, x, y) !== null).toBe(isCovered);
    const grid = new PlaneGrid(data, flat, "sheet");
    const out = new Float64Array(1);
    expect(grid.moveToNearest(1000, 1010, 0, 0, Number.POSITIVE_INFINITY) && grid.readLevelInto(out, 0, 0)).toBe(true);
    expect(out[0]).toBe(9);
    expect(grid.moveToNearest(1000, 1010, 0, 0, 989)).toBe(false);
  });

  it("passes 180 and Greenwich, wherever its longitudes are cut", () => {
    for (const centre of [179.9, -179.9, 0, 0.1]) {
      const plane = planeAround(positionOf(-41, centre), 80_000);
      const mesh = curvilinearOn(plane, 9, 9, (j, i) => ({ x: i * 12_000 - 48_000 + 2000 * j, y: j * 12_000 - 48_000 }));
      const cut = (turned: (lon: number) => number): CurvilinearMesh => ({ ...mesh, longitudesDeg: mesh.longitudesDeg.map(turned) });
      const want = read(
        fieldOn(mesh, (node) => [node]),
        plane,
        9100,
        -8300,
      );
      expect(want).not.toBeNull();
      for (const other of [
        cut((lon) => lon + 360),
        cut((lon) => (((lon % 360) + 540) % 360) - 180),
        cut((lon) => ((lon % 360) + 360) % 360),
      ])
        expect(
          read(
            fieldOn(other, (node) => [node]),
            plane,
            9100,
            -8300,
          )![0],
        ).toBeCloseTo(want![0]!, 6);
    }
  });

  it("of cells far wider than the plane is read, and its nodes out of reach are still there as nearest ones", () => {
    const grid = gridOf({
      quantities: ["seaHeightMetres"],
      latitudesDeg: steps(-20, 5, 9),
      longitudesDeg: steps(-180, 5, 72),
      values: ({ j, i }) => [j + i / 10],
    });
    const small = planeAround(positionOf(1, 2), 5000);
    const data = curvilinearOf(grid);
    expect(read(data, small, 0, 0)![0]).toBeCloseTo(read(grid, small, 0, 0)![0]!, 2);
    for (const one of [grid, data]) {
      const laid = new PlaneGrid(one, small, "sheet");
      const out = new Float64Array(1);
      // 100° east along the equator: a quarter of the way round and more.
      expect(laid.moveToNearest(100 * 60 * 1852, 0, 0, 0, 1e6) && laid.readLevelInto(out, 0, 0)).toBe(true);
      expect(out[0]).toBeGreaterThan(4 + 5.2);
    }
  });

  it("whose rows go round is closed at its seam, whether the last column repeats the first or not; one that lacks a column is not", () => {
    const ring = (columns: number, of: number) =>
      curvilinearOn(flat, 3, columns, (j, i) => ({
        x: (20_000 + 5000 * j) * Math.sin((2 * Math.PI * i) / of),
        y: (20_000 + 5000 * j) * Math.cos((2 * Math.PI * i) / of),
      }));
    const seam = 2 * Math.PI * (1 - 0.5 / 24);
    const [x, y] = [24_000 * Math.sin(seam), 24_000 * Math.cos(seam)];
    for (const columns of [24, 25])
      expect(
        read(
          fieldOn(ring(columns, 24), (node) => [(node % columns) % 24 === 23 ? 3 : 1]),
          flat,
          x,
          y,
        )![0],
      ).toBeCloseTo(2, 6);
    expect(
      read(
        fieldOn(ring(23, 24), () => [1]),
        flat,
        x,
        y,
      ),
    ).toBeNull();
    // Nor are the arms of a grid bent into a horseshoe joined across what lies between them, however near they are.
    const horseshoe = curvilinearOn(flat, 3, 9, (j, i) => ({ x: (i - 4) * 300 * (1 + 0.1 * j), y: (i - 4) ** 2 * 230 + j * 200 }));
    expect(
      read(
        fieldOn(horseshoe, () => [1]),
        flat,
        0,
        16 * 230 + 100,
      ),
    ).toBeNull();
    expect(
      read(
        fieldOn(horseshoe, () => [1]),
        flat,
        0,
        100,
      ),
    ).not.toBeNull();
    // Nor is the hole in the middle covered.
    expect(
      read(
        fieldOn(ring(24, 24), () => [1]),
        flat,
        0,
        0,
      ),
    ).toBeNull();
  });
});

describe("vectors on a curvilinear mesh", () => {
  it("are turned node by node as on the regular grid: the same to 2e-5 of their length, the sea's direction too", () => {
    for (const [east, north] of [
      ["currentEastMps", "currentNorthMps"],
      ["windEastMps", "windNorthMps"],
      ["swellTowardEast", "swellTowardNorth"],
    ] as const) {
      const grid = gridOf({
        quantities: [east, north],
        latitudesDeg: steps(56, 0.25, 9),
        longitudesDeg: steps(177.5, 0.25, 17),
        values: () => [0.6, 0.8],
      });
      for (const [x, y] of [
        [90_000, 20_000],
        [-70_000, -50_000],
        [0, 0],
      ] as const) {
        const regular = read(grid, real, x, y)!;
        const bent = read(curvilinearOf(grid), real, x, y)!;
        expect(Math.abs(bent[0]! - regular[0]!)).toBeLessThan(2e-5);
        expect(Math.abs(bent[1]! - regular[1]!)).toBeLessThan(2e-5);
      }
      // 90 km east at 57° north the sheet leans by more than a degree.
      expect(Math.abs(read(grid, real, 90_000, 20_000)![0]! - 0.6)).toBeGreaterThan(0.01);
    }
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatPlane, type Plane, planeAround, positionOf } from "../../../src/core/earth/index.ts";
import {
  COVERED,
  type Coverage,
  CubicInTime,
  coveringOf,
  type GridData,
  NO_PLACE,
  NO_TIME,
  PlaneGrid,
} from "../../../src/core/fields/index.ts";
import { turnDeg } from "../../../src/core/units/index.ts";
import { gridOf, latLonOf, steps } from "./grids.ts";

const DEG = Math.PI / 180;
const flat = flatPlane(positionOf(0, 10), 1e6);
/** Metres in a degree on `flat`, whose centre is on the equator. */
const DEGREE = 60 * 1852;
const read = (data: GridData, plane: Plane, latitudeDeg: number, longitudeDeg: number): readonly number[] | null => {
  const grid = new PlaneGrid(data, plane, "sheet");
  const { xMetres, yMetres } = plane.toPlane({ latitudeDeg, longitudeDeg });
  const out = new Float64Array(data.quantities.length);
  return grid.moveTo(xMetres, yMetres) && grid.readLevelInto(out, 0, 0) ? [...out] : null;
};
const height = (values: (node: { readonly j: number; readonly i: number }) => number | null, nodes = { rows: 2, columns: 2 }): GridData =>
  gridOf({
    quantities: ["seaHeightMetres"],
    latitudesDeg: steps(0, 1, nodes.rows),
    longitudesDeg: steps(10, 1, nodes.columns),
    values: (node) => {
      const value = values(node);
      return value === null ? null : [value];
    },
  });

describe("a grid in space", () => {
  it("is bilinear over the four corners", () => {
    const grid = height(({ j, i }) => [1, 2, 4, 8][2 * j + i]!);
    expect(read(grid, flat, 0.25, 10.5)![0]).toBeCloseTo(0.75 * 1.5 + 0.25 * 6, 9);
    expect(read(grid, flat, 0, 10)![0]).toBe(1);
    expect(read(grid, flat, 1, 11)![0]).toBeCloseTo(8, 9);
  });

  it("leaves missing corners out and renormalises while half the weight is covered, and no longer", () => {
    const westOnly = height(({ j, i }) => (i === 1 ? null : 3 + j));
    // West of the middle at least half of the weight is west: the values there are those of the western side alone.
    expect(read(westOnly, flat, 0.25, 10.2)![0]).toBeCloseTo(3.25, 9);
    expect(read(westOnly, flat, 0.25, 10.5)![0]).toBeCloseTo(3.25, 9);
    expect(read(westOnly, flat, 0.25, 10.500001)).toBeNull();
    const oneMissing = height(({ j, i }) => (j === 1 && i === 1 ? null : 2));
    expect(read(oneMissing, flat, 0.5, 10.5)![0]).toBeCloseTo(2, 12);
    expect(read(oneMissing, flat, 0.7, 10.7)![0]).toBeCloseTo(2, 12);
    expect(read(oneMissing, flat, 0.71, 10.71)).toBeNull();
    expect(
      read(
        height(() => null),
        flat,
        0.5,
        10.5,
      ),
    ).toBeNull();
  });

  it("ends at its edge, and at the plane's", () => {
    const grid = height(() => 1);
    for (const [lat, lon] of [
      [-0.0001, 10.5],
      [1.0001, 10.5],
      [0.5, 9.9999],
      [0.5, 11.0001],
    ] as const) {
      expect(read(grid, flat, lat, lon)).toBeNull();
    }
    const small = flatPlane(positionOf(0, 10), 20_000);
    const out = new Float64Array(1);
    const sampler = new CubicInTime(grid, small);
    expect(sampler.sampleInto(out, 20_000, 0, 0)).toBe(COVERED);
    expect(sampler.sampleInto(out, 20_000.001, 0, 0)).toBe(NO_PLACE);
    expect(sampler.sampleInto(out, Number.NaN, 0, 0)).toBe(NO_PLACE);
    const real = planeAround(positionOf(0.5, 10.5), 20_000);
    expect(new CubicInTime(grid, real).sampleInto(out, 20_000, -20_000, 0)).toBe(COVERED);
    expect(new CubicInTime(grid, real).sampleInto(out, 1e9, 0, 0)).toBe(NO_PLACE);
  });

  it("wholly beyond the plane covers nothing of it, and is no error", () => {
    const far = gridOf({ latitudesDeg: steps(40, 0.5, 3), longitudesDeg: steps(-150, 0.5, 3), values: () => [1, 0] });
    const plane = planeAround(positionOf(-10, 30), 90_000);
    expect(new CubicInTime(far, plane).sampleInto(new Float64Array(2), 0, 0, 0)).toBe(NO_PLACE);
    expect(new CubicInTime(far, plane).nearestInto(new Float64Array(2), 0, 0, 0, 1e6)).toBe(false);
  });

  it("one node wide covers no area, but is there as a nearest place", () => {
    const line = gridOf({ latitudesDeg: [0, 1], longitudesDeg: [10.5], values: () => [0.4, 0.3] });
    const sampler = new CubicInTime(line, flat);
    const out = new Float64Array(2);
    expect(sampler.sampleInto(out, 0.4 * DEGREE, 0.5 * DEGREE, 0)).toBe(NO_PLACE);
    expect(sampler.nearestInto(out, 0.4 * DEGREE, 0, 0, 0.2 * DEGREE)).toBe(true);
    expect([...out]).toEqual([Math.fround(0.4), Math.fround(0.3)]);
  });

  it("refuses rows that descend, too few values, and a value that is none", () => {
    const good = height(() => 1);
    expect(() => new PlaneGrid({ ...good, mesh: { ...latLonOf(good), latitudesDeg: Float64Array.of(1, 0) } }, flat, "sheet")).toThrow(
      /ascending/,
    );
    expect(() => new PlaneGrid({ ...good, mesh: { ...latLonOf(good), longitudesDeg: Float64Array.of(11, 10) } }, flat, "sheet")).toThrow(
      /ascending/,
    );
    expect(() => new PlaneGrid({ ...good, values: new Float32Array(3) }, flat, "sheet")).toThrow(/4 points holds 4 marks and 3 values/);
    expect(() => new PlaneGrid({ ...good, values: Float32Array.of(1, 1, Number.NaN, 1) }, flat, "sheet")).toThrow(
      /value 2 of the grid is NaN/,
    );
  });
});

describe("longitudes", () => {
  const over = (first: number, plane: Plane): readonly number[] | null =>
    read(
      gridOf({ latitudesDeg: [-1, 0, 1], longitudesDeg: steps(first, 0.5, 5), values: ({ j, i }) => [j, i] }),
      plane,
      0.25,
      plane.centre.longitudeDeg + 0.1,
    );

  it("read the same as 0 to 360, as -180 to 180, and any turn on", () => {
    const plane = flatPlane(positionOf(0, -124), 90_000);
    const west = over(-125, plane);
    expect(west![1]).toBeCloseTo(2.2, 6);
    for (const turns of [1, 2, -1]) expect(over(-125 + 360 * turns, plane)![1]).toBeCloseTo(west![1]!, 9);
  });

  it("pass 180 from either side", () => {
    for (const centre of [179.98, -179.98, -180]) {
      const plane = planeAround(positionOf(0, centre), 90_000);
      const first = centre < 0 ? centre + 359 : centre - 1;
      const away = over(first, plane);
      expect(away![1]).toBeCloseTo(2.2, 3);
      expect(over(first - 360, plane)![1]).toBeCloseTo(away![1]!, 6);
    }
  });

  it("of a grid round the earth are closed at the seam, whether the last column repeats the first or not", () => {
    for (const count of [36, 37]) {
      const grid = gridOf({
        latitudesDeg: [-5, 5],
        longitudesDeg: steps(0, 10, count),
        values: ({ i }) => [i % 36 === 0 ? 1 : i === 35 ? 3 : 9, 0],
      });
      expect(read(grid, flatPlane(positionOf(0, -5), 90_000), 0, -5)![0]).toBeCloseTo(2, 9);
      expect(read(grid, flatPlane(positionOf(0, 0), 90_000), 0, 0)![0]).toBeCloseTo(1, 9);
    }
    const gapped = gridOf({ latitudesDeg: [-5, 5], longitudesDeg: steps(0, 10, 35), values: () => [1, 0] });
    expect(read(gapped, flatPlane(positionOf(0, -5), 90_000), 0, -5)).toBeNull();
  });
});

describe("vectors on a plane", () => {
  // A grid that ends just beyond the plane, and coarse ones whose outermost nodes lie far off it, must give the same bearing.
  it.each([
    [-34, 18],
    [60, -3],
    [60, 179.9],
    [-47, -179.95],
  ])("a uniform true bearing is read true at the edge, around %d° %d°", (latitudeDeg, longitudeDeg) => {
    const plane = planeAround(positionOf(latitudeDeg, longitudeDeg), 100 * 1852);
    for (const stepDeg of [0.25, 1, 5]) {
      const count = Math.ceil(8 / stepDeg) * 2 + 1;
      const from = (middle: number): number => Math.floor(middle / stepDeg) * stepDeg - ((count - 1) / 2) * stepDeg;
      for (const toward of [0, 77, 230]) {
        const grid = gridOf({
          latitudesDeg: steps(from(latitudeDeg), stepDeg, count).filter((lat) => Math.abs(lat) <= 90),
          longitudesDeg: steps(from(longitudeDeg), stepDeg, count),
          values: () => [1.5 * Math.sin(toward * DEG), 1.5 * Math.cos(toward * DEG)],
        });
        const sampler = new CubicInTime(grid, plane);
        const out = new Float64Array(2);
        for (let spoke = 0; spoke < 12; spoke++) {
          const x = plane.radiusMetres * Math.sin(spoke * 30 * DEG);
          const y = plane.radiusMetres * Math.cos(spoke * 30 * DEG);
          expect(sampler.sampleInto(out, x, y, 0)).toBe(COVERED);
          const trueDeg = Math.atan2(out[0]!, out[1]!) / DEG + plane.convergenceDegAt(x, y);
          // Bilinear between corners that are turned differently: all but exact, and never the degrees that an unturned corner costs.
          expect(Math.abs(turnDeg(trueDeg, toward))).toBeLessThan(stepDeg === 5 ? 0.08 : 0.004);
          expect(Math.hypot(out[0]!, out[1]!)).toBeCloseTo(1.5, stepDeg === 5 ? 2 : 4);
        }
      }
    }
  });

  it("a plane that lies wholly inside one cell is turned too", () => {
    const plane = planeAround(positionOf(60, 2.5), 60_000);
    const grid = gridOf({ latitudesDeg: [55, 65], longitudesDeg: [0, 5], values: () => [0, 1] });
    const out = new Float64Array(2);
    new CubicInTime(grid, plane).sampleInto(out, 60_000, 0, 0);
    // At 60° N, 60 km east, true north leans by 0.93° from the sheet's.
    expect(plane.convergenceDegAt(60_000, 0)).toBeGreaterThan(0.9);
    expect(Math.abs(turnDeg(Math.atan2(out[0]!, out[1]!) / DEG, -plane.convergenceDegAt(60_000, 0)))).toBeLessThan(0.02);
  });
});

describe("what a grid covers", () => {
  it("is told by its corners, times and longest step", () => {
    const grid = gridOf({ latitudesDeg: [1, 2], longitudesDeg: [179, 181], times: [0, 3600, 14_400], values: () => [0, 0] });
    expect(coveringOf(grid)).toEqual({
      southDeg: 1,
      northDeg: 2,
      westDeg: 179,
      eastDeg: 181,
      from: 0,
      until: 14_400,
      steps: 3,
      longestStepSeconds: 10_800,
    });
  });
});

describe("any grid", () => {
  const anyGrid = fc
    .record({
      rows: fc.integer({ min: 1, max: 4 }),
      columns: fc.integer({ min: 1, max: 4 }),
      levels: fc.integer({ min: 1, max: 5 }),
      seed: fc.infiniteStream(fc.double({ min: -4, max: 4, noNaN: true })),
      holes: fc.infiniteStream(fc.boolean()),
      gaps: fc.array(fc.integer({ min: 600, max: 20_000 }), { minLength: 5, maxLength: 5 }),
      offsetDeg: fc.constantFrom(0, 360, -360),
    })
    .map(({ rows, columns, levels, seed, holes, gaps, offsetDeg }) => {
      const times = [0];
      for (let t = 1; t < levels; t++) times.push(times[t - 1]! + gaps[t]!);
      const hole = (): boolean => holes.next().value === true && holes.next().value === true;
      return gridOf({
        latitudesDeg: steps(-0.6, 0.4, rows),
        longitudesDeg: steps(9.4 + offsetDeg, 0.4, columns),
        times,
        values: () => (hole() ? null : [seed.next().value as number, seed.next().value as number]),
      });
    });
  const plane = planeAround(positionOf(0, 10), 90_000);
  const somewhere = fc.record({
    x: fc.double({ min: -95_000, max: 95_000, noNaN: true }),
    y: fc.double({ min: -95_000, max: 95_000, noNaN: true }),
    at: fc.double({ min: -5000, max: 90_000, noNaN: true }),
  });

  it("never gives NaN, and touches nothing where it does not cover", () => {
    fc.assert(
      fc.property(anyGrid, somewhere, (grid, { x, y, at }) => {
        const sampler = new CubicInTime(grid, plane);
        const out = Float64Array.of(77, 88);
        const coverage: Coverage = sampler.sampleInto(out, x, y, at);
        if (coverage === COVERED) expect(out.every(Number.isFinite)).toBe(true);
        else expect([...out]).toEqual([77, 88]);
        const outside = !sampler.heldSteady && (at < 0 || at > grid.times[grid.times.length - 1]!);
        expect(coverage === NO_TIME).toBe(outside);
        const nearest = Float64Array.of(77, 88);
        if (sampler.nearestInto(nearest, x, y, at, 50_000)) expect(nearest.every(Number.isFinite)).toBe(true);
        else expect([...nearest]).toEqual([77, 88]);
      }),
      { numRuns: 500 },
    );
  });

  it("at a step lies between the least and the greatest of its nodes", () => {
    fc.assert(
      fc.property(anyGrid, somewhere, (grid, { x, y }) => {
        const laid = new PlaneGrid(grid, plane, "trueNorth");
        const out = new Float64Array(2);
        if (!(laid.moveTo(x, y) && laid.readLevelInto(out, 0, 0))) return;
        const perLevel = latLonOf(grid).latitudesDeg.length * latLonOf(grid).longitudesDeg.length;
        for (const k of [0, 1]) {
          const known = Array.from({ length: perLevel }, (_, p) => p)
            .filter((p) => grid.missing[p] === 0)
            .map((p) => grid.values[2 * p + k]!);
          expect(out[k]).toBeGreaterThanOrEqual(Math.min(...known) - 1e-12);
          expect(out[k]).toBeLessThanOrEqual(Math.max(...known) + 1e-12);
        }
      }),
      { numRuns: 500 },
    );
  });

  it("mirrored east to west reads mirrored; moved along the parallel with its plane reads the same", () => {
    fc.assert(
      fc.property(anyGrid, somewhere, fc.double({ min: -170, max: 170, noNaN: true }), (grid, { x, y, at }, moveDeg) => {
        const nx = latLonOf(grid).longitudesDeg.length;
        const mirror = (point: number): number => point - (point % nx) + (nx - 1 - (point % nx));
        const mirrored: GridData = {
          ...grid,
          mesh: { ...latLonOf(grid), longitudesDeg: Float64Array.from(latLonOf(grid).longitudesDeg, (lon) => 20 - lon).reverse() },
          missing: grid.missing.map((_, p) => grid.missing[mirror(p)]!),
          values: grid.values.map((_, v) => (v % 2 === 0 ? -1 : 1) * grid.values[2 * mirror(Math.floor(v / 2)) + (v % 2)]!),
        };
        const moved = { ...grid, mesh: { ...latLonOf(grid), longitudesDeg: latLonOf(grid).longitudesDeg.map((lon) => lon + moveDeg) } };
        const here = Float64Array.of(9, 9);
        const there = Float64Array.of(-9, 9);
        const along = Float64Array.of(9, 9);
        const coverage = new CubicInTime(grid, plane).sampleInto(here, x, y, at);
        // Within a millimetre of an edge, or of half the weight, rounding may decide either way.
        const sure = [-1, 1].every((d) =>
          [-1, 1].every((e) => new CubicInTime(grid, plane).sampleInto(new Float64Array(2), x + d, y + e, at) === coverage),
        );
        if (!sure) return;
        expect(new CubicInTime(mirrored, plane).sampleInto(there, -x, y, at)).toBe(coverage);
        expect(new CubicInTime(moved, planeAround(positionOf(0, 10 + moveDeg), 90_000)).sampleInto(along, x, y, at)).toBe(coverage);
        expect(there[0]).toBeCloseTo(-here[0]!, 4);
        expect(there[1]).toBeCloseTo(here[1]!, 4);
        expect(along[0]).toBeCloseTo(here[0]!, 4);
        expect(along[1]).toBeCloseTo(here[1]!, 4);
      }),
      { numRuns: 60 },
    );
  });
});

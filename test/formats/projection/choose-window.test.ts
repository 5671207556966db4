import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  chooseWindow,
  type GridWindow,
  type MapProjection,
  type PlaceBox,
  type Projector,
  projectorOf,
} from "../../../src/formats/projection/index.ts";
import { lambert, MAPS, mercator, polar, turned } from "./maps.ts";

const even = (start: number, step: number, count: number): Float64Array => Float64Array.from({ length: count }, (_, i) => start + i * step);

/** Whether a place is in the box, by longitudes alone counted eastward from its west. */
function isWithin(box: PlaceBox, latitudeDeg: number, longitudeDeg: number): boolean {
  const width = box.eastDeg < box.westDeg ? box.eastDeg + 360 - box.westDeg : box.eastDeg - box.westDeg;
  const east = (((longitudeDeg - box.westDeg) % 360) + 360) % 360;
  return latitudeDeg >= box.southDeg && latitudeDeg <= box.northDeg && east <= width;
}

interface Bounds {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** By looking at every node. */
function bruteForce(projector: Projector, xs: Float64Array, ys: Float64Array, box: PlaceBox): Bounds | null {
  const place = new Float64Array(2);
  const found: [number, number][] = [];
  for (const [row, y] of ys.entries())
    for (const [column, x] of xs.entries())
      if (projector.toPlaceInto(place, x, y) && isWithin(box, place[0]!, place[1]!)) found.push([row, column]);
  if (found.length === 0) return null;
  const rows = found.map(([row]) => row);
  const columns = found.map(([, column]) => column);
  return { firstRow: Math.min(...rows), lastRow: Math.max(...rows), firstColumn: Math.min(...columns), lastColumn: Math.max(...columns) };
}

const lastOf = ({ start, count }: { start: number; count: number }): number => start + count - 1;

function expectHolds(window: GridWindow | null, needed: Bounds, rows: number, columns: number): void {
  expect(window).not.toBeNull();
  expect(window!.rows.start).toBeLessThanOrEqual(Math.max(0, needed.firstRow - 1));
  expect(lastOf(window!.rows)).toBeGreaterThanOrEqual(Math.min(rows - 1, needed.lastRow + 1));
  expect(window!.columns.start).toBeLessThanOrEqual(Math.max(0, needed.firstColumn - 1));
  expect(lastOf(window!.columns)).toBeGreaterThanOrEqual(Math.min(columns - 1, needed.lastColumn + 1));
  expect(lastOf(window!.rows)).toBeLessThan(rows);
  expect(lastOf(window!.columns)).toBeLessThan(columns);
  expect(Math.min(window!.rows.start, window!.columns.start)).toBeGreaterThanOrEqual(0);
}

/** A grid somewhere on the map, of any size and shape, and a box of any size: over poles, cuts and 180 too. */
const anyBox = fc
  .tuple(
    fc.double({ min: -90, max: 90, noNaN: true }),
    fc.oneof(fc.double({ min: 0, max: 180, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true })),
    fc.double({ min: -180, max: 360, noNaN: true }),
    fc.oneof(fc.double({ min: 0, max: 360, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true })),
  )
  .map(([southDeg, height, westDeg, width]) => ({
    southDeg,
    northDeg: Math.min(90, southDeg + height),
    westDeg,
    eastDeg: westDeg + width,
  }));

/** For each map; 3000 have been run once. */
const RUNS = 30;

const gaps = fc.array(fc.double({ min: 0.2, max: 3, noNaN: true }), { minLength: 0, maxLength: 11 });

describe.each(MAPS)("%s", (_, projection) => {
  test("holds every node in any box, and one more each way", async () => {
    const projector = await projectorOf(projection);
    const scale = projection.kind === "rotatedPole" ? 1 : 1e5;
    const middle = projector.turnX === null ? 6e6 : projector.turnX / 2;
    fc.assert(
      fc.property(
        anyBox,
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.constantFrom(0.3, 1, 4, 12),
        gaps,
        gaps,
        (box, atX, atY, size, gapsX, gapsY) => {
          const axis = (start: number, steps: readonly number[]): Float64Array => {
            let at = start;
            return Float64Array.from([0, ...steps].map((gap) => (at += gap * size * scale)));
          };
          const xs = axis(atX * middle, gapsX);
          const ys = axis(projection.kind === "rotatedPole" ? atY * 90 : atY * 6e6, gapsY).filter(
            (y) => projection.kind !== "rotatedPole" || y <= 90,
          );
          const needed = bruteForce(projector, xs, ys, box);
          if (needed !== null) expectHolds(chooseWindow(projector, xs, ys, box), needed, ys.length, xs.length);
        },
      ),
      { numRuns: RUNS },
    );
  });

  test("holds the four nodes about any place of the box that lies within the grid, be the box smaller than a cell", async () => {
    const projector = await projectorOf(projection);
    const [step, span] = projection.kind === "rotatedPole" ? [1.5, 40] : [2e5, 8e6];
    const count = Math.floor(span / step);
    const [map, place] = [new Float64Array(2), new Float64Array(2)];
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (shareX, shareY, reach) => {
          projector.toMapInto(map, projection.kind === "polarStereographic" && projection.pole === "south" ? -50 : 40, 30);
          const xs = even(map[0]! - span / 2, step, count);
          const ys = even(map[1]! - span / 2, step, count);
          const x = xs[0]! + shareX * (count - 1) * step;
          const y = ys[0]! + shareY * (count - 1) * step;
          fc.pre(projection.kind !== "rotatedPole" || Math.abs(y) <= 90);
          fc.pre(projector.toPlaceInto(place, x, y));
          const [latitude, longitude] = place as unknown as [number, number];
          fc.pre(Math.abs(latitude) < 89);
          const box = { southDeg: latitude - reach, northDeg: latitude + reach, westDeg: longitude - reach, eastDeg: longitude + reach };
          const window = chooseWindow(projector, xs, ys, box)!;
          const [column, row] = [(x - xs[0]!) / step, (y - ys[0]!) / step];
          expect(window.columns.start).toBeLessThanOrEqual(column + 1e-6);
          expect(lastOf(window.columns)).toBeGreaterThanOrEqual(column - 1e-6);
          expect(window.rows.start).toBeLessThanOrEqual(row + 1e-6);
          expect(lastOf(window.rows)).toBeGreaterThanOrEqual(row - 1e-6);
        },
      ),
      { numRuns: RUNS },
    );
  });
});

describe("a passage's box on grids in use", () => {
  const cases: readonly (readonly [string, MapProjection, Float64Array, Float64Array, PlaceBox])[] = [
    [
      "9 km Lambert",
      lambert([38.5, 38.5], -97.5),
      even(-2.7e6, 9000, 600),
      even(-1.59e6, 9000, 353),
      { southDeg: 40, northDeg: 42, westDeg: -72, eastDeg: -69 },
    ],
    [
      "20 km polar",
      polar("north", 58, 60),
      even(-1.97e6, 20_000, 191),
      even(-1.757e6, 20_000, 151),
      { southDeg: 70, northDeg: 72, westDeg: 15, eastDeg: 25 },
    ],
    [
      "Mercator over 180",
      mercator(0, 20),
      even(1.4e7, 2e4, 600),
      even(-3e6, 2e4, 450),
      { southDeg: -20, northDeg: -18, westDeg: 176, eastDeg: -177 },
    ],
    [
      "turned pole",
      turned(-39.25, 18),
      even(-10, 0.05, 400),
      even(-10, 0.05, 400),
      { southDeg: 53, northDeg: 54.5, westDeg: 10, eastDeg: 13 },
    ],
  ];
  test.each(cases)(
    "%s: what is needed, and at most a tenth more of it, three rows and three columns",
    async (_, projection, xs, ys, box) => {
      const projector = await projectorOf(projection);
      const needed = bruteForce(projector, xs, ys, box)!;
      const window = chooseWindow(projector, xs, ys, box)!;
      expectHolds(window, needed, ys.length, xs.length);
      const spare = (count: number): number => count * 0.1 + 6;
      const [rows, columns] = [needed.lastRow - needed.firstRow + 1, needed.lastColumn - needed.firstColumn + 1];
      expect(window.rows.count).toBeLessThanOrEqual(rows + spare(rows));
      expect(window.columns.count).toBeLessThanOrEqual(columns + spare(columns));
    },
  );

  test("over the pole, the whole of what lies round it", async () => {
    const projector = await projectorOf(polar("north", 0, 60));
    const axis = even(-1e6, 1e5, 21);
    const box = { southDeg: 85, northDeg: 90, westDeg: -180, eastDeg: 180 };
    expectHolds(chooseWindow(projector, axis, axis, box), bruteForce(projector, axis, axis, box)!, 21, 21);
    expect(chooseWindow(projector, axis, axis, box)!.rows.count).toBeLessThan(17);
  });

  test("where the grid doesn't reach there is no window", async () => {
    const projector = await projectorOf(lambert([38.5, 38.5], -97.5));
    const axis = even(-1e6, 1e5, 21);
    expect(chooseWindow(projector, axis, axis, { southDeg: 50, northDeg: 60, westDeg: 0, eastDeg: 20 })).toBeNull();
    expect(chooseWindow(projector, axis, axis, { southDeg: 38, northDeg: 39, westDeg: 170, eastDeg: -170 })).toBeNull();
  });

  test("a box that is none throws, quoting it", async () => {
    const projector = await projectorOf(mercator(0, 0));
    const axis = even(0, 1, 2);
    expect(() => chooseWindow(projector, axis, axis, { southDeg: 2, northDeg: 1, westDeg: 0, eastDeg: 1 })).toThrow("2 to 1");
    expect(() => chooseWindow(projector, axis, axis, { southDeg: 0, northDeg: 1, westDeg: Number.NaN, eastDeg: 1 })).toThrow("NaN");
  });
});

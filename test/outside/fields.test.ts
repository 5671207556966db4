import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { flatPlane, geodesicFrom, planeAround, positionOf } from "../../src/core/earth/index.ts";
import { COVERED, CubicInTime, GREATEST_FIT_WEIGHTS, type GridData } from "../../src/core/fields/index.ts";
import { turnDeg } from "../../src/core/units/index.ts";
import { gridCurrent, uniformCurrent } from "../../src/core/water/index.ts";
import { gridWind, WIND_FROM_DEG, WIND_SLOTS } from "../../src/core/weather/index.ts";
import { gridOf, steps } from "../core/fields/grids.ts";
import { curvilinearOn, fieldOn, trianglesOn } from "../core/fields/meshes.ts";

const DEG = Math.PI / 180;
type Spot = readonly [number, number];

describe("against scipy 1.17.1 and numpy 2.4.6", () => {
  // scipy.interpolate.CubicHermiteSpline(t, v, numpy.gradient(v, t, edge_order=2)), v rounded to 32 bits, in double precision: numpy's
  // gradient on uneven steps is the slope of the parabola through each three points, one-sided at the ends.
  it("the cubic in time is the Hermite spline with parabolas' slopes, on uneven steps", () => {
    const times = [0, 1, 2, 4, 7, 8, 11, 17].map((hour) => hour * 3600);
    const east = [0.3, 1.1, -0.4, -1.6, 0.2, 0.9, 1.3, -0.7];
    const north = [-1.0, -0.2, 0.8, 1.9, 0.4, -0.6, -1.1, 0.5];
    const plane = flatPlane(positionOf(0, 0), 10_000);
    const sampler = new CubicInTime(
      gridOf({ latitudesDeg: [-1, 1], longitudesDeg: [-1, 1], times, values: ({ t }) => [east[t]!, north[t]!] }),
      plane,
    );
    const expected = [
      [0, 0.30000001192092896, -1.0],
      [900, 0.715625018812716, -0.8187500024214387],
      [3600, 1.100000023841858, -0.20000000298023224],
      [5000, 0.6559585194402788, 0.18822874052336785],
      [9000, -0.91375001501292, 1.19875000808388],
      [14_400, -1.600000023841858, 1.899999976158142],
      [20_000, -0.9554366746257308, 1.4950434356668956],
      [26_000, 0.3576360291332539, 0.18657979005321718],
      [30_000, 1.0614997409607756, -0.824920011482448],
      [39_600, 1.2999999523162842, -1.100000023841858],
      [45_000, 1.1499999538064, -1.0250000208616257],
      [60_000, -0.49094649720093875, 0.32016460689497594],
      [61_200, -0.6999999880790713, 0.5],
    ] as const;
    const out = new Float64Array(2);
    for (const [at, eastMps, northMps] of expected) {
      expect(sampler.sampleInto(out, 0, 0, at)).toBe(COVERED);
      expect(out[0]).toBeCloseTo(eastMps, 12);
      expect(out[1]).toBeCloseTo(northMps, 12);
    }
  });

  // scipy.interpolate.RegularGridInterpolator, linear, on the same nodes rounded to 32 bits, in double precision.
  it("the grid in space is bilinear, on uneven axes", () => {
    const grid = gridOf({
      quantities: ["seaHeightMetres"],
      latitudesDeg: [10, 10.5, 11.5],
      longitudesDeg: [100, 100.4, 100.5, 101.5],
      values: ({ j, i }) => [j * 0.7 + i * i * 0.3 - 0.2 * j * i],
    });
    const plane = flatPlane(positionOf(10.5, 100.7), 200_000);
    const sampler = new CubicInTime(grid, plane);
    const out = new Float64Array(1);
    for (const [latitudeDeg, longitudeDeg, expected] of [
      [10.1, 100.1, 0.20500000119208783],
      [10.25, 100.45, 0.9500000178813934],
      [11.2, 101.3, 2.638000035285946],
      [11.4999999, 101.4999999, 2.9000000953674316],
      [10.5, 100.4, 0.800000011920929],
      [10.9, 100.2, 0.9899999856948855],
    ] as const) {
      const { xMetres, yMetres } = plane.toPlane({ latitudeDeg, longitudeDeg });
      expect(sampler.sampleInto(out, xMetres, yMetres, 0)).toBe(COVERED);
      expect(out[0]).toBeCloseTo(expected, 6);
    }
  });

  // references/meshes.json, made by make_meshes.py beside it, which tells how: scipy's LinearNDInterpolator over its own Delaunay
  // triangulation, numpy's lstsq through the three neighbours' values, and the bilinear mapping undone by scipy's root.
  interface Meshes {
    readonly triangles: {
      readonly corners: readonly Spot[];
      readonly triangles: readonly (readonly number[])[];
      readonly cornerValues: readonly number[];
      readonly triangleValues: readonly number[];
      readonly asked: readonly Spot[];
      readonly atCorners: readonly number[];
      readonly onTriangles: readonly number[];
      readonly fitWeights: readonly number[];
    };
    readonly quads: {
      readonly rows: number;
      readonly columns: number;
      readonly nodes: readonly Spot[];
      readonly values: readonly number[];
      readonly asked: readonly Spot[];
      readonly bilinear: readonly number[];
    };
  }
  const meshes: Meshes = JSON.parse(readFileSync(new URL("./references/meshes.json", import.meta.url), "utf8"));
  const sheet = flatPlane(positionOf(0, 0), 100_000);
  const spots = (given: readonly Spot[]) => given.map(([x, y]) => ({ x, y }));
  const readAll = (data: GridData, asked: readonly Spot[]): number[] => {
    const sampler = new CubicInTime(data, sheet);
    const out = new Float64Array(1);
    return asked.map(([x, y]) => (sampler.sampleInto(out, x, y, 0) === COVERED ? out[0]! : Number.NaN));
  };
  const worst = (got: readonly number[], want: readonly number[]): number =>
    got.reduce((most, value, k) => Math.max(most, Math.abs(value - want[k]!)), got.length === want.length ? 0 : Number.NaN);

  it("values at the corners of triangles are joined by barycentric weights", () => {
    const { corners, triangles, cornerValues, asked, atCorners } = meshes.triangles;
    const data = fieldOn(trianglesOn(sheet, spots(corners), triangles.flat(), "corners"), (node) => [cornerValues[node]!]);
    expect(asked.length).toBeGreaterThan(50);
    expect(worst(readAll(data, asked), atCorners)).toBeLessThan(1e-9);
  });

  it("values that hold for triangles are carried on by the gradient of least squares", () => {
    const { corners, triangles, triangleValues, asked, onTriangles, fitWeights } = meshes.triangles;
    const data = fieldOn(trianglesOn(sheet, spots(corners), triangles.flat(), "triangles"), (node) => [triangleValues[node]!]);
    expect(Math.max(...fitWeights)).toBeLessThan(GREATEST_FIT_WEIGHTS);
    expect(fitWeights.filter((sum) => sum > 1).length).toBeGreaterThan(40);
    expect(worst(readAll(data, asked), onTriangles)).toBeLessThan(1e-9);
  });

  it("a bent grid is bilinear in its own cells", () => {
    const { rows, columns, nodes, values, asked, bilinear } = meshes.quads;
    const mesh = curvilinearOn(sheet, rows, columns, (j, i) => spots(nodes)[j * columns + i]!);
    expect(asked.length).toBe(40);
    expect(
      worst(
        readAll(
          fieldOn(mesh, (node) => [values[node]!]),
          asked,
        ),
        bilinear,
      ),
    ).toBeLessThan(1e-9);
  });
});

// True bearings on the sheet, held against geodesics of WGS84 (Karney, J. Geodesy 87, 2013, by geographiclib-geodesic): a mark 200 m
// off on the bearing, laid on the sheet, must lie where the vector points.
describe.each([
  [-34, 18.4],
  [60, -1],
  [52, 179.9],
  [-18, -179.8],
])("at the edge of the plane around %d° %d°", (latitudeDeg, longitudeDeg) => {
  const plane = planeAround(positionOf(latitudeDeg, longitudeDeg), 99 * 1852);
  const inner = plane.radiusMetres - 2000;
  const spokes = steps(0, 45, 8).map((spoke) => ({ x: inner * Math.sin(spoke * DEG), y: inner * Math.cos(spoke * DEG) }));
  const onSheetDeg = (x: number, y: number, trueDeg: number): number => {
    const mark = plane.toPlane(geodesicFrom(plane.toPosition(x, y), trueDeg, 200).position);
    return Math.atan2(mark.xMetres - x, mark.yMetres - y) / DEG;
  };
  const gridToward = (
    trueDeg: number,
    quantities: readonly ["currentEastMps", "currentNorthMps"] | readonly ["windEastMps", "windNorthMps"],
  ) =>
    gridOf({
      quantities,
      latitudesDeg: steps(latitudeDeg - 3, 0.5, 13),
      longitudesDeg: steps(longitudeDeg - 6, 0.5, 25),
      values: () => [2 * Math.sin(trueDeg * DEG), 2 * Math.cos(trueDeg * DEG)],
    });

  it.each([0, 90, 200])("a current toward %d° true sets that way, from a grid and uniform", (trueDeg) => {
    const out = new Float64Array(2);
    for (const source of [gridCurrent(gridToward(trueDeg, ["currentEastMps", "currentNorthMps"])), uniformCurrent(trueDeg, 2)]) {
      const sampler = source.onPlane(plane);
      for (const { x, y } of spokes) {
        expect(sampler.sampleInto(out, x, y, 0)).toBe(COVERED);
        // The sheet is stretched square to its radius by 1.4e-4 at most: 0.004° of bearing; the grid's own corners cost 0.001°.
        expect(Math.abs(turnDeg(Math.atan2(out[0]!, out[1]!) / DEG, onSheetDeg(x, y, trueDeg)))).toBeLessThan(0.008);
        expect(Math.hypot(out[0]!, out[1]!)).toBeCloseTo(2, 4);
      }
    }
  });

  it("a wind from 030° true is told as from 030° true everywhere", () => {
    const sampler = gridWind([{ wind: gridToward(210, ["windEastMps", "windNorthMps"]), gust: null }], 1.3).onPlane(plane, 0);
    const reading = new Float64Array(WIND_SLOTS);
    for (const { x, y } of spokes) {
      expect(sampler.readInto(reading, x, y, 0)).toBe(COVERED);
      expect(reading[WIND_FROM_DEG]).toBeCloseTo(30, 4);
    }
  });
});

import { describe, expect, it } from "vitest";
import {
  eastOf,
  firstOfJune,
  hoursOfJune,
  madeFile,
  northOf,
  standard,
  type ValueAt,
  type VariableMade,
  vectorAt,
} from "./netcdf-files.ts";
import { codesOf, JUNE, reading } from "./sample-files.ts";

const SIZE = { y: 5, x: 6 };
/** A grid of a tenth of a degree around a place, its x turned anticlockwise from east. */
const turnedGrid = (latitude: number, longitude: number, turnDeg: number) => {
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  const shrink = Math.cos((latitude * Math.PI) / 180);
  const north: ValueAt = (y, x) => latitude + 0.1 * (x! * sin + y! * cos);
  const east: ValueAt = (y, x) => longitude + (0.1 * (x! * cos - y! * sin)) / shrink;
  return { north, east };
};
const grid = turnedGrid(0, 20, 30);
const coordinates = "lon lat";
const pair = (names: readonly [string, string], attributes: Record<string, string> = {}): Record<string, VariableMade> => ({
  [names[0]]: { along: "y x", attributes: { units: "m/s", coordinates, ...attributes }, value: () => 1 },
  [names[1]]: { along: "y x", attributes: { units: "m/s", coordinates, ...attributes }, value: () => 0 },
});
const file = (fields: Record<string, VariableMade>, places: { north: ValueAt; east: ValueAt } = grid) =>
  madeFile(SIZE, { lat: northOf(places.north), lon: eastOf(places.east), time: firstOfJune, ...fields });
const crop = (southDeg: number, northDeg: number, westDeg: number, eastDeg: number) => ({
  southDeg,
  northDeg,
  westDeg,
  eastDeg,
  from: JUNE,
  until: JUNE,
});

describe("a field with a latitude and a longitude for every node", () => {
  it("comes out on those nodes, row after row", async () => {
    const read = await reading(
      madeFile(SIZE, {
        lat: northOf(grid.north),
        lon: eastOf(grid.east),
        time: firstOfJune,
        swh: { along: "y x", attributes: { units: "m", coordinates }, value: (y, x) => y! + x! / 10 },
      }),
    );
    expect(read.oddities).toEqual([]);
    const { mesh, values } = read.grids[0]!;
    expect(mesh).toMatchObject({ kind: "curvilinear", rows: 5, columns: 6, placed: null });
    expect(mesh.latitudesDeg[2 * 6 + 3]).toBeCloseTo(grid.north(2, 3), 12);
    expect(mesh.longitudesDeg[2 * 6 + 3]).toBeCloseTo(grid.east(2, 3), 12);
    expect(values[2 * 6 + 3]).toBeCloseTo(2.3, 6);
    const { area, rows, columns } = read.contents[0]!;
    expect([rows, columns]).toEqual([5, 6]);
    expect(area!.southDeg).toBeCloseTo(0, 12);
    expect(area!.northDeg).toBeCloseTo(grid.north(4, 5), 12);
    expect(area!.westDeg).toBeCloseTo(grid.east(4, 0), 9);
    expect(area!.eastDeg).toBeCloseTo(grid.east(0, 5), 9);
  });

  it("whose dimensions come the other way round is read the right way", async () => {
    const value: ValueAt = (x, y) => y! + x! / 10;
    const read = await reading(
      madeFile(SIZE, {
        lat: northOf(grid.north),
        lon: eastOf(grid.east),
        time: firstOfJune,
        swh: { along: "x y", attributes: { units: "m", coordinates }, value },
      }),
    );
    expect(read.grids[0]!.values[2 * 6 + 3]).toBeCloseTo(2.3, 6);
  });

  it("is turned true where it is named along the grid, by the way the nodes lie; eastward is never turned", async () => {
    const along = (await reading(file({ ...standardPair("sea_water_x_velocity", "sea_water_y_velocity") }))).grids[0]!;
    for (const node of [0, 14, 29]) {
      expect(vectorAt(along, node)[0]).toBeCloseTo(Math.cos(Math.PI / 6), 4);
      expect(vectorAt(along, node)[1]).toBeCloseTo(Math.sin(Math.PI / 6), 4);
    }
    const eastward = (await reading(file({ ...standardPair("eastward_wind", "northward_wind") }))).grids[0]!;
    expect(vectorAt(eastward, 14)).toEqual([1, 0]);
  });

  it.each([
    [["u10", "v10"], { long_name: "eastward wind at 10 m" }, [1, 0]],
    [["u10", "v10"], { long_name: "x-component of wind" }, [Math.cos(Math.PI / 6), 0.5]],
    [["x_wind_10m", "y_wind_10m"], {}, [Math.cos(Math.PI / 6), 0.5]],
    [["vozocrtx", "vomecrty"], {}, [Math.cos(Math.PI / 6), 0.5]],
  ] as const)("named %j with %j is %j", async (names, attributes, [east, north]) => {
    const made = (await reading(file(pair(names, attributes)))).grids[0]!;
    expect(vectorAt(made, 14)[0]).toBeCloseTo(east, 4);
    expect(vectorAt(made, 14)[1]).toBeCloseTo(north, 4);
  });

  it("that doesn't say along what it runs is doubtful on a leaning grid, and used on one that doesn't lean", async () => {
    const leaning = await reading(file(pair(["u10", "v10"])));
    expect(leaning.grids).toEqual([]);
    expect(codesOf(leaning)).toContain("field-doubtful");
    expect(leaning.contents[0]!.whyNotUsed).toContain("along its grid or east and north");
    const level = await reading(file(pair(["u10", "v10"]), turnedGrid(50, -3, 0.5)));
    expect(vectorAt(level.grids[0]!, 14)).toEqual([1, 0]);
  });

  it("with rows from north to south keeps y to the left of x", async () => {
    const upsideDown = { north: (y?: number) => 10 - 0.1 * y!, east: (_y?: number, x?: number) => 20 + 0.1 * x! };
    const fields = { ...standardPair("x_wind", "y_wind"), v: standard("y_wind", "y x", () => 2) };
    const made = (await reading(file(fields, upsideDown as { north: ValueAt; east: ValueAt }))).grids[0]!;
    expect(vectorAt(made, 14)[0]).toBeCloseTo(1, 6);
    expect(vectorAt(made, 14)[1]).toBeCloseTo(2, 6);
  });

  it("with columns against a falling axis of x takes x as the axis has it", async () => {
    const westward = { north: (y?: number) => 10 + 0.1 * y!, east: (_y?: number, x?: number) => 20 - 0.1 * x! } as {
      north: ValueAt;
      east: ValueAt;
    };
    const axis = {
      along: "x",
      attributes: { axis: "X", standard_name: "projection_x_coordinate", units: "1" },
      value: (x?: number) => -x!,
    };
    const made = (await reading(file({ ...standardPair("x_wind", "y_wind"), x: axis as VariableMade }, westward))).grids[0]!;
    expect(vectorAt(made, 14)[0]).toBeCloseTo(1, 6);
    expect(vectorAt(made, 14)[1]).toBeCloseTo(0, 6);
  });

  it.each([
    ["a fill", -999, -999],
    ["NaN", Number.NaN, Number.NaN],
    ["nought at more than one node", 0, 0],
    ["no latitude on earth", 1e20, 1e20],
  ])("marks nodes whose place is %s", async (_what, latitude, longitude) => {
    const isLand = (y: number, x: number): boolean => y >= 3 && x <= 1;
    const swh = { along: "y x", attributes: { units: "m", coordinates: "lon lat" }, value: () => 2 };
    const fill = { _FillValue: Float64Array.of(-999) };
    const north = northOf((y, x) => (isLand(y!, x!) ? latitude : 10 + y! / 10));
    const east = eastOf((y, x) => (isLand(y!, x!) ? longitude : 20 + x! / 10));
    const read = await reading(
      madeFile(SIZE, {
        lat: { ...north, attributes: { ...north.attributes, ...fill } },
        lon: { ...east, attributes: { ...east.attributes, ...fill } },
        time: firstOfJune,
        swh,
      }),
    );
    const { mesh } = read.grids[0]!;
    if (mesh.kind !== "curvilinear") throw new Error(mesh.kind);
    expect([...mesh.placed!].map((mark, node) => (mark === 0 ? node : -1)).filter((node) => node >= 0)).toEqual([18, 19, 24, 25]);
    expect(read.contents[0]!.area).toMatchObject({ southDeg: 10, westDeg: 20 });
  });

  it("that has no place for any node is refused", async () => {
    const nowhere = await reading(file(pair(["uo", "vo"]), { north: () => 0, east: () => 0 }));
    expect(nowhere.grids).toEqual([]);
    expect(codesOf(nowhere)).toContain("grid-not-read");
  });

  it("keeps longitudes together across 180 and from 0 to 360", async () => {
    const across = { north: (y?: number) => 10 + 0.1 * y!, east: (_y?: number, x?: number) => ((179.8 + 0.1 * x! + 180) % 360) - 180 };
    const swh = { along: "y x", attributes: { units: "m", coordinates: "lon lat" }, value: () => 2 };
    const made = (await reading(file({ swh }, across as { north: ValueAt; east: ValueAt }))).grids[0]!;
    expect(made.mesh.longitudesDeg[5]! - made.mesh.longitudesDeg[0]!).toBeCloseTo(0.5, 9);
    const greenwich = { north: across.north, east: (_y?: number, x?: number) => (359.8 + 0.1 * x!) % 360 } as {
      north: ValueAt;
      east: ValueAt;
    };
    const west = (await reading(file({ swh }, greenwich))).grids[0]!;
    expect(west.mesh.longitudesDeg[0]).toBeCloseTo(-0.2, 9);
    expect(west.mesh.longitudesDeg[5]).toBeCloseTo(0.3, 9);
    const area = (await reading(file({ swh }, greenwich))).contents[0]!.area!;
    expect(area.westDeg).toBeCloseTo(-0.2, 9);
    expect(area.eastDeg).toBeCloseTo(0.3, 9);
  });

  it("is cropped to the cells that the passage touches and one more around, even where no node lies in it", async () => {
    const straight = { north: (y?: number) => y! as number, east: (_y?: number, x?: number) => 350 + x! } as {
      north: ValueAt;
      east: ValueAt;
    };
    const wide = (area: Parameters<typeof reading>[1]) =>
      reading(
        madeFile(
          { y: 20, x: 30 },
          {
            lat: northOf(straight.north),
            lon: eastOf(straight.east),
            time: firstOfJune,
            swh: { along: "y x", attributes: { units: "m", coordinates: "lon lat" }, value: (y, x) => (100 * y! + x!) / 1000 },
          },
        ),
        area,
      );
    const small = (await wide(crop(7.2, 7.3, 2.4, 2.6))).grids[0]!;
    expect(small.mesh).toMatchObject({ rows: 4, columns: 4 });
    expect([small.mesh.latitudesDeg[0], small.mesh.longitudesDeg[0]]).toEqual([6, 1]);
    expect(small.values[0]).toBeCloseTo(0.611, 6);
    const edge = (await wide(crop(-3, 0.5, -20, -9.5))).grids[0]!;
    expect(edge.mesh).toMatchObject({ rows: 3, columns: 3 });
    expect((await wide(crop(30, 40, 0, 5))).oddities.map((one) => one.code)).toEqual(["outside-passage"]);
    expect((await wide(crop(5, 8, 100, 120))).grids).toEqual([]);
  });

  it("finds its places by their dimensions where nothing names them, and by name where several lie along the same", async () => {
    const swh = { along: "y x", attributes: { units: "m" }, value: () => 2 };
    const other = turnedGrid(40, 0, 0);
    const variables = { gphit: northOf(grid.north), glamt: eastOf(grid.east), time: firstOfJune, swh };
    expect((await reading(madeFile(SIZE, variables))).grids[0]!.mesh.longitudesDeg[0]).toBe(20);
    const two = { ...variables, nav_lat: northOf(other.north), nav_lon: eastOf(other.east) };
    expect((await reading(madeFile(SIZE, two))).grids).toEqual([]);
    const named = { ...two, swh: { ...swh, attributes: { units: "m", coordinates: "nav_lat nav_lon" } } };
    expect((await reading(madeFile(SIZE, named))).grids[0]!.mesh.longitudesDeg[0]).toBe(0);
  });

  it("takes places that are written again for every time", async () => {
    const variables = {
      XLAT: northOf((_t, y, x) => grid.north(y!, x!), "time y x"),
      XLONG: eastOf((_t, y, x) => grid.east(y!, x!), "time y x"),
      time: hoursOfJune,
      swh: { along: "time y x", attributes: { units: "m" }, value: (t?: number) => t! } as VariableMade,
    };
    const made = (await reading(madeFile({ time: 3, ...SIZE }, variables))).grids[0]!;
    expect([made.times.length, made.mesh.longitudesDeg[0], made.values[2 * 30]]).toEqual([3, 20, 2]);
  });
});

function standardPair(east: string, north: string): Record<string, VariableMade> {
  return { u: standard(east, "y x", () => 1), v: standard(north, "y x", () => 0) };
}

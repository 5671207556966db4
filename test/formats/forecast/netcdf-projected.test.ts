import { describe, expect, it } from "vitest";
import { eastOf, firstOfJune, madeFile, northOf, standard, type VariableMade, vectorAt } from "./netcdf-files.ts";
import { codesOf, JUNE, reading } from "./sample-files.ts";

const axis = (letter: "x" | "y", values: readonly number[], units: string, name = `projection_${letter}_coordinate`): VariableMade => ({
  along: letter,
  attributes: { units, standard_name: name },
  value: (at) => values[at!]!,
});
const wind = (mapping: string, east = 1, north = 0): Record<string, VariableMade> => ({
  u: { ...standard("x_wind", "y x", () => east), attributes: { units: "m/s", standard_name: "x_wind", grid_mapping: mapping } },
  v: { ...standard("y_wind", "y x", () => north), attributes: { units: "m/s", standard_name: "y_wind", grid_mapping: mapping } },
});
const lambert: VariableMade = {
  along: "",
  attributes: {
    grid_mapping_name: "lambert_conformal_conic",
    standard_parallel: Float64Array.of(63, 63),
    longitude_of_central_meridian: 15,
    latitude_of_projection_origin: 63,
    earth_radius: 6371000,
  },
  value: () => 0,
};

describe("a field on the axes of a map", () => {
  // The first node and the first steps of the axes in MET Norway's AROME-MetCoOp file of 2016-01-14 (CC BY 4.0): an independent pair of map and place.
  const AROME = {
    xs: [-697442.1875, -694942.1875],
    ys: [-229321.796875, -226821.796875],
    latitude: 60.31549542066649,
    longitude: 2.264932581166292,
  };

  it.each([
    ["m", 1],
    ["km", 1000],
  ] as const)("in %s gets its places from the map, and is turned by it", async (units, metres) => {
    const read = await reading(
      madeFile(
        { y: 2, x: 2 },
        {
          x: axis(
            "x",
            AROME.xs.map((one) => one / metres),
            units,
          ),
          y: axis(
            "y",
            AROME.ys.map((one) => one / metres),
            units,
          ),
          map: lambert,
          time: firstOfJune,
          ...wind("map"),
        },
      ),
    );
    expect(read.oddities).toEqual([]);
    const made = read.grids[0]!;
    const longitude = made.mesh.longitudesDeg[0]!;
    expect(made.mesh.latitudesDeg[0]).toBeCloseTo(AROME.latitude, 9);
    expect(longitude).toBeCloseTo(AROME.longitude, 9);
    // The meridian leans by the longitude from 15 E times the cone's constant, sin 63 (Snyder 1987, chapter 15).
    const leanRad = ((longitude - 15) * Math.sin((63 * Math.PI) / 180) * Math.PI) / 180;
    expect(vectorAt(made, 0)[0]).toBeCloseTo(Math.cos(leanRad), 6);
    expect(vectorAt(made, 0)[1]).toBeCloseTo(-Math.sin(leanRad), 6);
  });

  it("with a turned pole, in degrees, is turned by the way that pole lies", async () => {
    // A pole at 60 N 180 E tips the turned equator, at its own 0, to 30 N 0 E; a quarter turn along, it falls through the true equator at 90 E by 30 degrees.
    const pole: VariableMade = {
      along: "",
      attributes: {
        grid_mapping_name: "rotated_latitude_longitude",
        grid_north_pole_latitude: 60,
        grid_north_pole_longitude: 180,
      },
      value: () => 0,
    };
    for (const [units, names] of [
      [
        ["degrees", "degrees"],
        ["grid_longitude", "grid_latitude"],
      ],
      // Some files give the turned axes the units of true ones.
      [
        ["degrees_east", "degrees_north"],
        ["", ""],
      ],
    ] as const) {
      const read = await reading(
        madeFile(
          { y: 3, x: 3 },
          {
            x: axis("x", [0, 45, 90], units[0], names[0]),
            y: axis("y", [-1, 0, 1], units[1], names[1]),
            rotated_pole: pole,
            time: firstOfJune,
            ...wind("rotated_pole"),
          },
        ),
      );
      const { mesh } = read.grids[0]!;
      const near = (node: number, latitude: number, longitude: number, east: number, north: number): void => {
        expect(mesh.latitudesDeg[node]).toBeCloseTo(latitude, 9);
        expect(mesh.longitudesDeg[node]).toBeCloseTo(longitude, 9);
        expect(vectorAt(read.grids[0]!, node)[0]).toBeCloseTo(east, 6);
        expect(vectorAt(read.grids[0]!, node)[1]).toBeCloseTo(north, 6);
      };
      near(3, 30, 0, 1, 0);
      near(5, 0, 90, Math.cos(Math.PI / 6), -0.5);
    }
  });

  it("cropped keeps what the passage touches and a cell around", async () => {
    const steps = Array.from({ length: 60 }, (_, at) => at);
    const bytes = madeFile(
      { y: 60, x: 60 },
      {
        x: axis(
          "x",
          steps.map((at) => -600_000 + 20_000 * at),
          "m",
        ),
        y: axis(
          "y",
          steps.map((at) => -600_000 + 20_000 * at),
          "m",
        ),
        map: lambert,
        time: firstOfJune,
        ...wind("map"),
      },
    );
    const area = { southDeg: 62, northDeg: 63, westDeg: 14, eastDeg: 17, from: JUNE, until: JUNE };
    const { mesh } = (await reading(bytes, area)).grids[0]!;
    if (mesh.kind !== "curvilinear") throw new Error(mesh.kind);
    expect(mesh.rows).toBeGreaterThanOrEqual(8);
    expect(mesh.rows).toBeLessThan(12);
    expect(mesh.columns).toBeGreaterThanOrEqual(10);
    expect(mesh.columns).toBeLessThan(16);
    expect(Math.min(...mesh.latitudesDeg)).toBeLessThan(62);
    expect(Math.max(...mesh.latitudesDeg)).toBeGreaterThan(63);
  });

  it("without a map, with one that isn't read, or without a unit is refused in words", async () => {
    const attempt = async (mapping: VariableMade | null, units: string) =>
      reading(
        madeFile(
          { y: 2, x: 2 },
          {
            x: axis("x", AROME.xs, units),
            y: axis("y", AROME.ys, units),
            ...(mapping ? { map: mapping } : {}),
            time: firstOfJune,
            ...wind("map"),
          },
        ),
      );
    for (const [mapping, units, words] of [
      [null, "m", "doesn't describe"],
      [{ ...lambert, attributes: { grid_mapping_name: "sinusoidal" } }, "m", "not read"],
      [lambert, "1", "no unit of length"],
    ] as const) {
      const read = await attempt(mapping, units);
      expect(read.grids).toEqual([]);
      expect(codesOf(read)).toContain("grid-not-read");
      expect(read.oddities[0]!.message).toContain(words);
    }
  });

  it("with places written beside it lies at those, and is turned by the map only where the two agree", async () => {
    const places = {
      lat: northOf((y) => 60 + y! / 10),
      lon: eastOf((_y, x) => 5 + x! / 10),
    };
    const fields = wind("map");
    for (const one of Object.values(fields)) one.attributes!["coordinates"] = "lon lat";
    const bytes = madeFile(
      { y: 3, x: 3 },
      {
        x: axis("x", [0, 10_000, 20_000], "m"),
        y: axis("y", [0, 10_000, 20_000], "m"),
        map: lambert,
        time: firstOfJune,
        ...places,
        ...fields,
      },
    );
    const made = (await reading(bytes)).grids[0]!;
    expect([made.mesh.latitudesDeg[0], made.mesh.longitudesDeg[0]]).toEqual([60, 5]);
    // Rows along the parallels: the map's lean of 9 degrees there isn't theirs.
    expect(vectorAt(made, 4)[0]).toBeCloseTo(1, 4);
  });
});

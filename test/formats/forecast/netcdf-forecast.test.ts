import { describe, expect, it } from "vitest";
import { latLonOf } from "../../core/fields/grids.ts";
import { codesOf, HOUR, JUNE, netcdf, reading } from "./sample-files.ts";

const SPEED = { units: "m/s" };
const pair = (east: string, north: string, attributes: Record<string, string> = SPEED) => [
  { name: east, attributes, value: (t: number, y: number, x: number) => 0.1 * t + 0.01 * y + 0.001 * x },
  { name: north, attributes, value: (t: number, y: number, x: number) => -(0.1 * t + 0.01 * y + 0.001 * x) },
];

describe("a current in a NetCDF file", () => {
  it("comes out by time, latitude and longitude, east before north", async () => {
    const read = await reading(netcdf({ fields: pair("water_u", "water_v") }));
    expect(read.kind).toBe("netcdf-classic");
    expect(read.grids).toHaveLength(1);
    const grid = read.grids[0]!;
    expect(grid.quantities).toEqual(["currentEastMps", "currentNorthMps"]);
    expect([...grid.times]).toEqual([JUNE, JUNE + 3 * HOUR, JUNE + 6 * HOUR]);
    expect([...latLonOf(grid).latitudesDeg]).toEqual([40, 41, 42]);
    expect([...latLonOf(grid).longitudesDeg]).toEqual([-10, -9, -8, -7]);
    const at = ((2 * 3 + 1) * 4 + 3) * 2;
    expect(grid.values[at]).toBeCloseTo(0.213, 6);
    expect(grid.values[at + 1]).toBeCloseTo(-0.213, 6);
    expect(grid.nature).toBe("instant");
    expect(grid.issuedAt).toBeNull();
    expect(grid.missing.every((mark) => mark === 0)).toBe(true);
    expect(read.oddities).toEqual([]);
    expect(read.contents.map((one) => [one.name, one.quantity, one.steps, one.longestStepSeconds])).toEqual([
      ["water_u", "currentEastMps", 3, 3 * HOUR],
      ["water_v", "currentNorthMps", 3, 3 * HOUR],
    ]);
  });

  it("is known by standard name before customary name, and never by its place in the file", async () => {
    const swapped = [
      { name: "water_u", attributes: { units: "m/s", standard_name: "northward_sea_water_velocity" }, value: () => 2 },
      { name: "b", attributes: { units: "m/s", standard_name: "eastward_sea_water_velocity" }, value: () => 1 },
    ];
    const grid = (await reading(netcdf({ fields: swapped }))).grids[0]!;
    expect([grid.values[0], grid.values[1]]).toEqual([1, 2]);
    const unnamed = await reading(netcdf({ fields: pair("a", "b") }));
    expect(unnamed.grids).toEqual([]);
    expect(codesOf(unnamed)).toEqual(["nothing-of-use"]);
  });

  it.each([
    ["cm/s", 0.01],
    ["cm s-1", 0.01],
    ["m s**-1", 1],
    ["meter second-1", 1],
    ["metres per second", 1],
    ["m.s-1", 1],
    ["knots", 1852 / 3600],
    ["kt", 1852 / 3600],
    ["km/h", 1000 / 3600],
  ])("is turned from %s to metres a second", async (units, factor) => {
    const fields = ["water_u", "water_v"].map((name) => ({ name, attributes: { units }, value: () => 2 }));
    expect((await reading(netcdf({ fields }))).grids[0]!.values[0]).toBeCloseTo(2 * factor, 6);
  });

  it("without a unit, or with a strange one, is not used, and that is said", async () => {
    for (const attributes of [{}, { units: "furlongs/fortnight" }]) {
      const fields = ["water_u", "water_v"].map((name) => ({ name, attributes, value: () => 2 }));
      const read = await reading(netcdf({ fields }));
      expect(read.grids).toEqual([]);
      expect(codesOf(read)).toContain("unit-not-known");
    }
    const inName = ["water_u", "water_v"].map((name) => ({ name, attributes: { long_name: `${name} (cm/s) ` }, value: () => 200 }));
    expect((await reading(netcdf({ fields: inName }))).grids[0]!.values[0]).toBe(2);
  });

  it("needs both components", async () => {
    const read = await reading(netcdf({ fields: pair("water_u", "w") }));
    expect(read.grids).toEqual([]);
    expect(codesOf(read)).toContain("component-alone");
    expect(read.lone.map(({ grid }) => grid.quantities)).toEqual([["currentEastMps"]]);
  });

  it("is missing where either component is, and fills never leak", async () => {
    const fills = { units: "m/s", _FillValue: Float32Array.of(1.26765e30) };
    const fields = [
      { name: "water_u", attributes: fills, value: (_t: number, y: number) => (y === 0 ? 1.2676506e30 : 1) },
      {
        name: "water_v",
        attributes: { units: "m/s", missing_value: 999 },
        value: (_t: number, _y: number, x: number) => (x === 0 ? 999 : 1),
      },
    ];
    const grid = (await reading(netcdf({ fields }))).grids[0]!;
    expect([...grid.missing.slice(0, 12)]).toEqual([1, 1, 1, 1, 1, 0, 0, 0, 1, 0, 0, 0]);
    expect([...grid.values.slice(0, 10)].every((value) => value === 0)).toBe(true);
    expect(Math.max(...grid.values)).toBe(1);
  });

  it("with fills that nothing declares is still bounded: no sea runs at 999 m/s", async () => {
    const fields = ["water_u", "water_v"].map((name) => ({
      name,
      attributes: SPEED,
      value: (_t: number, y: number) => (y === 0 ? 999 : 0.5),
    }));
    const read = await reading(netcdf({ fields }));
    expect(codesOf(read)).toEqual(["value-implausible"]);
    expect(Math.max(...read.grids[0]!.values)).toBe(0.5);
    expect([...read.grids[0]!.missing.slice(0, 5)]).toEqual([1, 1, 1, 1, 0]);
  });

  it("on descending latitudes and longitudes from 0 to 360 is turned to rise", async () => {
    const grid = (
      await reading(
        netcdf({
          latitudes: [42, 41, 40],
          longitudes: [358, 359, 360, 361],
          fields: pair("water_u", "water_v"),
          axisAttributes: false,
        }),
      )
    ).grids[0]!;
    expect([...latLonOf(grid).latitudesDeg]).toEqual([40, 41, 42]);
    // The middle column decides which turn the longitudes are given in.
    expect([...latLonOf(grid).longitudesDeg]).toEqual([-2, -1, 0, 1]);
    expect(grid.values[0]).toBeCloseTo(0.02, 6);
    expect(grid.values[2 * 4 * 2]).toBeCloseTo(0, 6);
  });

  it("is read past the wrap of its longitudes", async () => {
    const grid = (await reading(netcdf({ longitudes: [178, 179, -180, -179], fields: pair("uo", "vo") }))).grids[0]!;
    expect([...latLonOf(grid).longitudesDeg]).toEqual([-182, -181, -180, -179]);
  });

  it("told apart from wind where its name is only u and v, or not used", async () => {
    const water = await reading(netcdf({ fields: pair("u", "v", { units: "m/s", long_name: "surface sea water velocity" }) }));
    expect(water.grids[0]!.quantities[0]).toBe("currentEastMps");
    const air = await reading(netcdf({ fields: pair("u", "v"), attributes: { title: "Wind forecast" } }));
    expect(air.grids[0]!.quantities[0]).toBe("windEastMps");
    const either = await reading(netcdf({ fields: pair("u", "v"), attributes: { title: "Wind and current" } }));
    expect(either.grids).toEqual([]);
    expect(codesOf(either)).toContain("field-doubtful");
  });

  it("passes over what is no whole current: Stokes drift, the mean over depth", async () => {
    const read = await reading(netcdf({ fields: pair("uo", "vo", { units: "m/s", long_name: "Stokes drift" }) }));
    expect(read.grids).toEqual([]);
  });

  it("without its tide is used, and that is said", async () => {
    const fields = ["eastward", "northward"].map((side) => ({
      name: side,
      attributes: { units: "m/s", standard_name: `${side}_sea_water_velocity_assuming_no_tide` },
      value: () => 0.2,
    }));
    const read = await reading(netcdf({ fields }));
    expect(read.grids).toHaveLength(1);
    expect(codesOf(read)).toEqual(["tide-left-out"]);
  });
});

describe("levels and members in a NetCDF file", () => {
  const layered = (name: string, values: readonly number[], attributes: Record<string, string>) =>
    netcdf({
      fields: [],
      alter: (file) => ({
        ...file,
        dimensions: [...file.dimensions, { name, length: values.length }],
        variables: [
          ...file.variables,
          { name, dimensions: [name], attributes, values: Float64Array.from(values) },
          ...["water_u", "water_v"].map((one) => ({
            name: one,
            dimensions: ["time", name, "lat", "lon"],
            attributes: SPEED,
            values: Float32Array.from({ length: 3 * values.length * 12 }, (_, index) => (Math.floor(index / 12) % values.length) / 10),
          })),
        ],
      }),
    });

  it("takes the surface of several depths, and says so", async () => {
    const read = await reading(layered("depth", [100, 10, 0.5], { units: "m", positive: "down" }));
    expect(read.grids[0]!.values[0]).toBeCloseTo(0.2, 6);
    expect(read.oddities).toEqual([
      { code: "level-chosen", message: expect.stringContaining("depth 0.5 m is used for the surface") },
      expect.anything(),
    ]);
  });

  it("takes a single deep level as it is but says so, and refuses several that hold no surface", async () => {
    const single = await reading(layered("depth", [15], { units: "m" }));
    expect(single.grids).toHaveLength(1);
    expect(codesOf(single)).toContain("level-chosen");
    const deep = await reading(layered("depth", [15, 30], { units: "m" }));
    expect(deep.grids).toEqual([]);
    expect(deep.oddities[0]!.message).toMatch(/none of its levels is known to be the surface/);
  });

  it("keeps members apart by their numbers", async () => {
    const read = await reading(layered("number", [0, 3, 7], { standard_name: "realization" }));
    expect(read.grids.map((one) => one.member)).toEqual([0, 3, 7]);
    expect(read.grids.map((one) => one.values[0])).toEqual([0, Math.fround(0.1), Math.fround(0.2)]);
    expect(read.contents[0]!.members).toEqual([0, 3, 7]);
  });

  it("doesn't guess at a dimension it doesn't know", async () => {
    const read = await reading(layered("band", [0, 1], {}));
    expect(read.grids).toEqual([]);
    expect(read.oddities[0]).toEqual({ code: "grid-not-read", message: expect.stringContaining('"band"') });
  });
});

describe("times in a NetCDF file", () => {
  it("are sorted, repeats dropped and holes told", async () => {
    const read = await reading(netcdf({ hours: [6, 0, 3, 3, 12, 15], fields: pair("water_u", "water_v") }));
    const grid = read.grids[0]!;
    expect([...grid.times].map((at) => (at - JUNE) / HOUR)).toEqual([0, 3, 6, 12, 15]);
    // The series' first step stood second in the file, its third first.
    expect([0, 1, 2, 3, 4].map((t) => Math.round(grid.values[t * 24]! * 10))).toEqual([1, 2, 0, 4, 5]);
    expect(codesOf(read)).toEqual(["times-repeated", "time-gap"]);
    expect(read.oddities[1]!.message).toContain("Between 2030-06-01 06:00Z and 2030-06-01 12:00Z");
  });

  it("may go from hourly to three-hourly, which is no hole", async () => {
    expect(codesOf(await reading(netcdf({ hours: [0, 1, 2, 3, 6, 9], fields: pair("water_u", "water_v") })))).toEqual([]);
  });

  it("that can't be read keep the field from being used", async () => {
    const read = await reading(netcdf({ timeUnits: "months since 2030-01-01", fields: pair("water_u", "water_v") }));
    expect(read.grids).toEqual([]);
    expect(codesOf(read)).toContain("time-not-read");
  });

  it("come with the run's time where the file has it", async () => {
    const run = {
      name: "forecast_reference_time",
      dimensions: [],
      attributes: { units: "hours since 2030-05-31 00:00", standard_name: "forecast_reference_time" },
      values: Float64Array.of(18),
    };
    const read = await reading(netcdf({ fields: pair("water_u", "water_v"), extra: [run] }));
    expect(read.grids[0]!.issuedAt).toBe(JUNE - 6 * HOUR);
  });
});

describe("wind, gust and sea in a NetCDF file", () => {
  it("are known by customary names, with their nature", async () => {
    const read = await reading(
      netcdf({
        fields: [
          ...pair("u10", "v10"),
          { name: "fg10", attributes: { units: "m/s", cell_methods: "time: maximum" }, value: () => 14 },
          { name: "swh", attributes: { units: "feet" }, value: () => 10 },
          { name: "mwp", attributes: { units: "s" }, value: () => 8 },
          { name: "t2m", attributes: { units: "K", long_name: "air temperature" }, value: () => 290 },
        ],
      }),
    );
    expect(read.grids.map((one) => [one.quantities.join(), one.nature, one.values[0]])).toEqual([
      ["windEastMps,windNorthMps", "instant", 0],
      ["gustMps", "maximumSincePrevious", 14],
      ["seaHeightMetres", "instant", Math.fround(3.048)],
      ["seaPeriodSeconds", "instant", 8],
    ]);
    expect(read.contents.find((one) => one.name === "t2m")).toMatchObject({ quantity: null, units: "K", description: "air temperature" });
  });
});

describe("a crop of a NetCDF file", () => {
  const wide = (longitudes: readonly number[]) =>
    netcdf({
      latitudes: Array.from({ length: 19 }, (_, index) => -90 + 10 * index),
      longitudes,
      hours: Array.from({ length: 20 }, (_, index) => 3 * index),
      fields: [
        { name: "water_u", attributes: SPEED, value: (_t, _y, x) => x / 100 },
        { name: "water_v", attributes: SPEED, value: (t, y) => t / 10 + y / 1000 },
      ],
    });
  const round = Array.from({ length: 36 }, (_, index) => 10 * index);
  const crop = { southDeg: 32, northDeg: 38, westDeg: -5, eastDeg: 12, from: JUNE + 25 * HOUR, until: JUNE + 31 * HOUR };

  it("keeps one more cell around and two more steps, across the seam of a grid round the earth", async () => {
    const grid = (await reading(wide(round), crop)).grids[0]!;
    expect([...latLonOf(grid).latitudesDeg]).toEqual([30, 40]);
    expect([...latLonOf(grid).longitudesDeg]).toEqual([-10, 0, 10, 20]);
    expect([...grid.times].map((at) => (at - JUNE) / HOUR)).toEqual([21, 24, 27, 30, 33, 36]);
    expect([0, 1, 2, 3].map((x) => Math.round(grid.values[2 * x]! * 100))).toEqual([35, 0, 1, 2]);
    expect(grid.values[1]).toBeCloseTo(0.7 + 0.012, 6);
  });

  it("gives the same values as the whole file does at the same places", async () => {
    const whole = (await reading(wide(round))).grids[0]!;
    const part = (await reading(wide(round), { ...crop, westDeg: 170, eastDeg: -170 })).grids[0]!;
    expect([...latLonOf(part).longitudesDeg]).toEqual([160, 170, 180, 190, 200]);
    for (const [t, at] of part.times.entries()) {
      for (const [y, latitude] of latLonOf(part).latitudesDeg.entries()) {
        for (const [x, longitude] of latLonOf(part).longitudesDeg.entries()) {
          const there =
            (whole.times.indexOf(at) * 19 + latLonOf(whole).latitudesDeg.indexOf(latitude)) * 36 +
            latLonOf(whole).longitudesDeg.findIndex((one) => (one - longitude) % 360 === 0);
          const here = (t * 2 + y) * 5 + x;
          expect(part.values.slice(2 * here, 2 * here + 2)).toEqual(whole.values.slice(2 * there, 2 * there + 2));
        }
      }
    }
  });

  it("says when the file doesn't reach it", async () => {
    const away = await reading(wide([40, 50, 60]), crop);
    expect(away.grids).toEqual([]);
    expect(codesOf(away)).toEqual(["outside-passage"]);
    const late = await reading(wide(round), { ...crop, from: JUNE + 100 * HOUR, until: JUNE + 110 * HOUR });
    expect(late.oddities[0]!.message).toContain("does not reach the days of the passage");
  });

  it("finds a regional grid given in the other turn of longitudes", async () => {
    const grid = (await reading(wide([350, 351, 352, 353, 354, 355]), { ...crop, westDeg: -8.5, eastDeg: -7.5 })).grids[0]!;
    expect([...latLonOf(grid).longitudesDeg]).toEqual([-9, -8, -7]);
  });
});

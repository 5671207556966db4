import { describe, expect, it } from "vitest";
import { eastOf, firstOfJune, madeFile, northOf, standard, type VariableMade, vectorAt } from "./netcdf-files.ts";
import { codesOf, reading } from "./sample-files.ts";

const SIZE = { lat: 2, lon: 2 };
const axes: Record<string, VariableMade> = {
  lat: { along: "lat", attributes: { units: "degrees_north" }, value: (y) => 40 + y! },
  lon: { along: "lon", attributes: { units: "degrees_east" }, value: (x) => x! },
  time: firstOfJune,
};
const field = (value: number, units: string, more: Record<string, string> = {}): VariableMade => ({
  along: "lat lon",
  attributes: { units, ...more },
  value: () => value,
});
const named = (name: string, value: number, units: string): VariableMade => standard(name, "lat lon", () => value, units);
const read = (fields: Record<string, VariableMade>) => reading(madeFile(SIZE, { ...axes, ...fields }));
const near = (made: readonly number[], wanted: readonly number[]): void => {
  expect(made).toHaveLength(wanted.length);
  for (const [index, value] of wanted.entries()) expect(made[index]).toBeCloseTo(value, 5);
};

describe("a speed and a direction", () => {
  // 10 m/s from 30° true blows toward 210°: east −5, north −8.66.
  const FROM_30 = [-5, -5 * Math.sqrt(3)];

  it.each([
    ["wind_from_direction", 30, "degree"],
    ["wind_from_direction", 390, "degrees_true"],
    ["wind_from_direction", -330, "degree"],
    ["wind_to_direction", 210, "degree"],
    ["wind_from_direction", Math.PI / 6, "radian"],
  ])("make a wind: %s %s %s", async (name, value, units) => {
    const made = await read({ a: named("wind_speed", 10, "m/s"), b: named(name, value, units) });
    expect(made.oddities).toEqual([]);
    expect(made.grids[0]!.quantities).toEqual(["windEastMps", "windNorthMps"]);
    near(vectorAt(made.grids[0]!, 0), FROM_30);
    expect(made.contents.map((one) => one.quantity)).toEqual(["windEastMps", "windNorthMps"]);
  });

  it.each([
    ["sea_water_velocity_to_direction", 120],
    ["direction_of_sea_water_velocity", 120],
    ["sea_water_velocity_from_direction", 300],
  ])("make a current that sets toward 120: %s", async (name, value) => {
    const made = await read({ a: named("sea_water_speed", 2, "knots"), b: named(name, value, "degree") });
    const mps = (2 * 1852) / 3600;
    near(vectorAt(made.grids[0]!, 0), [mps * Math.sin((2 * Math.PI) / 3), -mps / 2]);
  });

  it("give way to components, and are told so", async () => {
    const made = await read({
      speed: named("wind_speed", 10, "m/s"),
      from: named("wind_from_direction", 30, "degree"),
      u10: field(1, "m/s"),
      v10: field(2, "m/s"),
    });
    near(vectorAt(made.grids[0]!, 0), [1, 2]);
    expect(made.contents.find((one) => one.name === "speed")!.whyNotUsed).toBe('"u10" is used for it');
  });

  it("are true on a leaning grid too", async () => {
    const [cos, sin] = [Math.cos(0.4), Math.sin(0.4)];
    const made = await reading(
      madeFile(
        { y: 3, x: 3 },
        {
          nav_lat: northOf((y, x) => 0.1 * (x! * sin + y! * cos)),
          nav_lon: eastOf((y, x) => 0.1 * (x! * cos - y! * sin)),
          time: firstOfJune,
          a: standard("wind_speed", "y x", () => 10),
          b: standard("wind_from_direction", "y x", () => 30, "degree"),
        },
      ),
    );
    near(vectorAt(made.grids[0]!, 4), FROM_30);
  });

  it("that can't be are missing, and told: unmarked fills", async () => {
    const made = await read({
      a: { ...named("wind_speed", 10, "m/s"), value: (y, x) => (y === 0 && x === 0 ? -999 : 10) },
      b: { ...named("wind_from_direction", 30, "degree"), value: (y) => (y === 1 ? 9999 : 30) },
    });
    expect([...made.grids[0]!.missing]).toEqual([1, 0, 1, 1]);
    expect(made.oddities).toEqual([
      { code: "value-implausible", message: expect.stringContaining("3 directions or speeds of the wind, such as 9999") },
    ]);
  });

  it("one without the other is told and not used", async () => {
    const made = await read({ a: named("wind_speed", 10, "m/s") });
    expect([made.grids, made.lone]).toEqual([[], []]);
    expect(codesOf(made)).toContain("component-missing");
  });
});

describe("waves and their parts", () => {
  const parts = ["sea", "windSea", "swell", "secondSwell", "thirdSwell"] as const;

  it("by their standard names", async () => {
    const stems = ["wave", "wind_wave", "primary_swell_wave", "secondary_swell_wave", "tertiary_swell_wave"];
    const fields: Record<string, VariableMade> = {};
    for (const [at, stem] of stems.entries()) {
      fields[`h${at}`] = named(`sea_surface_${stem}_significant_height`, at + 1, "m");
      fields[`p${at}`] = named(`sea_surface_${stem}_mean_period`, at + 5, "s");
      fields[`d${at}`] = named(`sea_surface_${stem}_from_direction`, 90 * at, "degree");
    }
    const made = await read(fields);
    expect(made.oddities).toEqual([]);
    const of = (quantity: string) => made.grids.find((one) => one.quantities[0] === quantity)!;
    for (const [at, part] of parts.entries()) {
      near(vectorAt(of(`${part}HeightMetres`), 0), [at + 1]);
      near(vectorAt(of(`${part}PeriodSeconds`), 0), [at + 5]);
      const rad = (at * Math.PI) / 2;
      near(vectorAt(of(`${part}TowardEast`), 0), [-Math.sin(rad), -Math.cos(rad)]);
    }
    expect(made.grids).toHaveLength(15);
  });

  /** Names in lower case and not, by the centres that use them: common practice. */
  it.each([
    ["the European Centre", "swh mwp mwd", "shww mpww mdww", "shts mpts mdts", ""],
    [
      "the Copernicus marine service",
      "VHM0 VTM10 VMDR",
      "VHM0_WW VTM01_WW VMDR_WW",
      "VHM0_SW1 VTM01_SW1 VMDR_SW1",
      "VHM0_SW2 VTM01_SW2 VMDR_SW2",
    ],
    [
      "the US centre",
      "HTSGW_surface PERPW_surface DIRPW_surface",
      "WVHGT_surface WVPER_surface WVDIR_surface",
      "SWELL_1insequence SWPER_1insequence SWDIR_1insequence",
      "SWELL_2insequence SWPER_2insequence SWDIR_2insequence",
    ],
    ["WAVEWATCH III", "hs t02 ", "phs0 ptp0 pdir0", "phs1 ptp1 pdir1", "phs2 ptp2 pdir2"],
  ])("by the names of %s", async (_who, ...lists) => {
    const fields: Record<string, VariableMade> = {};
    const wanted: string[] = [];
    for (const [at, list] of lists.entries()) {
      const [height, period, direction] = list.split(" ");
      if (height) fields[height] = field(at + 1, "m");
      if (period) fields[period] = field(at + 5, "s");
      if (direction) fields[direction] = field(90, "degrees");
      for (const [name, end] of [
        [height, "HeightMetres"],
        [period, "PeriodSeconds"],
        [direction, "TowardEast"],
      ]) {
        if (name) wanted.push(`${parts[at]}${end}`);
      }
    }
    const made = await read(fields);
    expect(made.grids.map((one) => one.quantities[0]).sort()).toEqual(wanted.sort());
    expect(made.contents.every((one) => one.quantity !== null)).toBe(true);
  });

  it("the mean period is taken before that of the peak, and what is passed over says so", async () => {
    const made = await read({ VTPK: field(12, "s"), VTM02: field(7, "s"), VTM10: field(9, "s") });
    near(vectorAt(made.grids[0]!, 0), [9]);
    expect(made.contents.map((one) => one.whyNotUsed)).toEqual(['"VTM10" is used for it', '"VTM10" is used for it', null]);
    const byStandard = await read({
      a: named("sea_surface_wave_period_at_variance_spectral_density_maximum", 12, "s"),
      b: named("sea_surface_wave_mean_period_from_variance_spectral_density_inverse_frequency_moment", 9, "s"),
    });
    near(vectorAt(byStandard.grids[0]!, 0), [9]);
  });

  it("all swell together comes before its first part", async () => {
    const made = await read({
      a: named("sea_surface_primary_swell_wave_significant_height", 1, "m"),
      b: named("sea_surface_swell_wave_significant_height", 2, "m"),
    });
    near(vectorAt(made.grids[0]!, 0), [2]);
  });

  it("where waves go is turned to the same vector as where they come from", async () => {
    const made = await read({
      a: named("sea_surface_wave_to_direction", 90, "degree"),
      b: named("direction_of_swell_wave_velocity", 180, "degree"),
    });
    near(vectorAt(made.grids[0]!, 0), [1, 0]);
    near(vectorAt(made.grids[1]!, 0), [0, -1]);
  });
});

describe("names of winds, gusts and currents", () => {
  it.each([
    "u10/v10",
    "U10M/V10M",
    "10u/10v",
    "ugrd10m/vgrd10m",
    "UGRD_10maboveground/VGRD_10maboveground",
    "x_wind_10m/y_wind_10m",
    "uwnd/vwnd",
    "uas/vas",
    "u-component_of_wind_height_above_ground/v-component_of_wind_height_above_ground",
    "eastward_wind/northward_wind",
  ])("%s is wind", async (both) => {
    const [east, north] = both.split("/");
    const made = await read({ [east!]: field(3, "m/s"), [north!]: field(4, "m/s") });
    expect(made.grids[0]!.quantities).toEqual(["windEastMps", "windNorthMps"]);
    expect(vectorAt(made.grids[0]!, 0)).toEqual([3, 4]);
  });

  it.each(["fg10", "i10fg", "gust", "GUST_surface", "wind_speed_of_gust"])("%s is gust", async (name) => {
    expect((await read({ [name]: field(15, "m/s") })).grids[0]!.quantities).toEqual(["gustMps"]);
  });

  it.each(["uo/vo", "water_u/water_v", "utotal/vtotal", "ssu/ssv", "u_eastward/v_northward"])("%s is current", async (both) => {
    const [east, north] = both.split("/");
    const made = await read({ [east!]: field(0.3, "m/s"), [north!]: field(0.4, "m/s") });
    expect(made.grids[0]!.quantities).toEqual(["currentEastMps", "currentNorthMps"]);
  });

  it("a standard name that speaks of something else keeps a customary one from being taken", async () => {
    const made = await read({
      uo: field(0.3, "m/s", { standard_name: "eastward_sea_ice_velocity" }),
      vo: field(0.4, "m/s", { standard_name: "northward_sea_ice_velocity" }),
      hs: field(3, "m", { standard_name: "surface_snow_thickness" }),
    });
    expect(made.grids).toEqual([]);
  });

  it("the current with its tide comes before the one without, and both before the tide alone, which is told", async () => {
    const both = (end: string, value: number): Record<string, VariableMade> => ({
      [`east${end}`]: named(`eastward_sea_water_velocity${end}`, value, "m/s"),
      [`north${end}`]: named(`northward_sea_water_velocity${end}`, value, "m/s"),
    });
    const [tide, without] = [both("_due_to_tides", 0.1), both("_assuming_no_tide", 0.2)];
    const total = { utotal: field(0.5, "m/s"), vtotal: field(0.5, "m/s") };
    for (const [fields, speed, codes] of [
      [{ ...tide, ...without, ...total }, 0.5, []],
      [{ ...tide, ...without }, 0.2, ["tide-left-out"]],
      [tide, 0.1, ["tide-only"]],
    ] as const) {
      const made = await read(fields);
      near(vectorAt(made.grids[0]!, 0), [speed, speed]);
      expect(codesOf(made)).toEqual(codes);
    }
  });
});

describe("what is left out or empty", () => {
  it("a fill of 0 makes true noughts missing, which is told", async () => {
    const fills = { units: "m/s", _FillValue: Float64Array.of(0) };
    const made = await read({
      water_u: { along: "lat lon", attributes: fills, value: (y) => y! },
      water_v: { along: "lat lon", attributes: { units: "m/s" }, value: () => 1 },
    });
    expect([...made.grids[0]!.missing]).toEqual([1, 1, 0, 0]);
    expect(codesOf(made)).toEqual(["fill-doubtful"]);
  });

  it("a time without any value is told", async () => {
    const bytes = madeFile(
      { time: 3, ...SIZE },
      {
        ...axes,
        time: { along: "time", attributes: { units: "hours since 2030-06-01" }, value: (t) => t! },
        swh: { along: "time lat lon", attributes: { units: "m", _FillValue: -1 }, value: (t) => (t === 1 ? -1 : 2) },
      },
    );
    const made = await reading(bytes);
    expect(made.oddities).toEqual([
      { code: "step-empty", message: expect.stringContaining("At 2030-06-01 01:00Z the sea height holds no value") },
    ]);
  });

  it("only the groups that are wanted are read, and all are told", async () => {
    const { readForecast } = await import("../../../src/formats/forecast/index.ts");
    const { bytesFromMemory } = await import("../../../src/formats/bytes/index.ts");
    const bytes = madeFile(SIZE, { ...axes, u10: field(3, "m/s"), v10: field(4, "m/s"), swh: field(2, "m") });
    const made = await readForecast(bytesFromMemory(bytes), { name: "made", crop: null, wanted: new Set(["wind"]) });
    if (!made.ok) throw new Error(made.issues[0]!.message);
    expect(made.value.grids.map((one) => one.quantities[0])).toEqual(["windEastMps"]);
    expect(made.value.contents.map((one) => one.quantity)).toEqual(["windEastMps", "windNorthMps", "seaHeightMetres"]);
  });

  it("packed shorts whose valid range is given in m/s, whole numbers too, keep their values", async () => {
    const packed = (range: readonly number[]): VariableMade => ({
      along: "lat lon",
      type: "short",
      attributes: { units: "m/s", scale_factor: 0.001, valid_range: Float64Array.from(range) },
      value: (y, x) => 1000 * y! + 100 * x!,
    });
    for (const range of [
      [-10, 10],
      [-9.5, 9.5],
    ]) {
      const made = await read({ water_u: packed(range), water_v: packed(range) });
      near(
        [...made.grids[0]!.values].filter((_, at) => at % 2 === 0),
        [0, 0.1, 1, 1.1],
      );
      expect(made.grids[0]!.missing.includes(1)).toBe(false);
    }
  });
});

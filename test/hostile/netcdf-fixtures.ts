/** One small NetCDF classic file of each layout that is read. */

import type { VariableToWrite } from "../../src/formats/netcdf/index.ts";
import { eastOf, hoursOfJune, madeFile, northOf, standard, type VariableMade } from "../formats/forecast/netcdf-files.ts";
import { HOUR, JUNE, netcdf } from "../formats/forecast/sample-files.ts";
import type { Fixture } from "./fixture.ts";

const even = (along: string, value: number): VariableMade => ({ along, value: () => value });
const axis = (letter: "x" | "y", units: string, first: number, step: number): VariableMade => ({
  along: letter,
  attributes: {
    standard_name: units === "degrees" ? `grid_${letter === "x" ? "longitude" : "latitude"}` : `projection_${letter}_coordinate`,
    units,
  },
  value: (at) => first + step * at!,
});
const mapped = (name: string): VariableMade => ({
  along: "time y x",
  attributes: { units: "m/s", standard_name: name, grid_mapping: "map" },
  value: (t, y, x) => 1 + t! + y! / 10 - x! / 7,
});
const map = (attributes: Record<string, string | number | Float64Array>): VariableMade => ({ along: "", attributes, value: () => 0 });
const onMap = (mapping: Record<string, string | number | Float64Array>, x: VariableMade, y: VariableMade): Uint8Array =>
  madeFile({ time: 2, y: 3, x: 4 }, { time: hoursOfJune, x, y, map: map(mapping), u: mapped("x_wind"), v: mapped("y_wind") });

const packed = (standardName: string, units: string): VariableToWrite => ({
  name: standardName.slice(0, 3),
  dimensions: ["time", "lat", "lon"],
  attributes: {
    standard_name: standardName,
    units,
    scale_factor: 0.01,
    add_offset: 1,
    _FillValue: Int16Array.of(-32767),
    valid_max: Int16Array.of(20_000),
  },
  values: Int16Array.from({ length: 36 }, (_, i) => (i % 7 === 3 ? -32767 : i * 11)),
});

const grid = (level = ""): Record<string, VariableMade> => ({
  time: hoursOfJune,
  lat: northOf((y) => 40 + y!, "lat"),
  lon: eastOf((x) => 350 + x!, "lon"),
  ...(level === "" ? {} : { [level]: { along: level, attributes: { units: "m", positive: "down" }, value: (at) => at! * 10 } }),
});
const wave = (name: string, units: string, value: number): VariableMade =>
  standard(name, "time lat lon", (t, y, x) => value + t! + y! + x! / 4, units);

const TRIANGLES = [1, 2, 4, 1, 4, 3, 3, 4, 6, 3, 6, 5];
const net = (more: Record<string, VariableMade>): Uint8Array =>
  madeFile(
    { time: 2, node: 6, nele: 4, three: 3 },
    {
      time: hoursOfJune,
      lat: northOf((node) => 40 + (node! >> 1), "node"),
      lon: eastOf((node) => 350 + (node! & 1), "node"),
      nv: { along: "three nele", type: "int", value: (side, cell) => TRIANGLES[cell! * 3 + side!]! },
      ...more,
    },
  );

const FILES: Readonly<Record<string, readonly [Uint8Array, Partial<Fixture["crop"]>]>> = {
  "a regular grid": [
    netcdf({
      fields: [
        { name: "u10", attributes: { units: "m/s", standard_name: "eastward_wind" }, value: (t, y, x) => t + y - x },
        { name: "v10", attributes: { units: "m/s", standard_name: "northward_wind" }, value: (t, y) => 2 - t - y },
        { name: "gust", attributes: { units: "m s-1", standard_name: "wind_speed_of_gust" }, value: (t) => 9 + t },
      ],
    }),
    {},
  ],
  "a gust and offsets of 64 bits": [
    netcdf({
      fields: [
        { name: "gust", attributes: { units: "m s-1", long_name: "wind gust", cell_methods: "time: maximum" }, value: (t, y) => 9 + t + y },
      ],
      alter: (file) => ({ ...file, version: 2 }),
    }),
    {},
  ],
  "packed numbers": [netcdf({ fields: [], extra: [packed("eastward_wind", "m s-1"), packed("northward_wind", "m s-1")] }), {}],
  "cm/s, falling latitudes, 0 to 360": [
    netcdf({
      latitudes: [42, 41, 40],
      longitudes: [350, 351, 352, 353],
      fields: ["eastward", "northward"].map((name) => ({
        name: name.slice(0, 5),
        attributes: { units: "cm/s", standard_name: `${name}_sea_water_velocity`, _FillValue: Float32Array.of(-9999), missing_value: 1e20 },
        value: (t, y, x) => (x === 3 ? -9999 : 30 + 10 * t - y),
      })),
    }),
    {},
  ],
  "round the earth, a time alone": [
    netcdf({
      latitudes: [-10, 0, 10],
      longitudes: Array.from({ length: 12 }, (_, i) => i * 30),
      hours: [3],
      timeUnits: "days since 2030-05-31 21:00",
      fields: ["eastward_wind", "northward_wind"].map((name) => ({
        name,
        attributes: { units: "knots", standard_name: name },
        value: (_t, y, x) => y + x,
      })),
    }),
    { southDeg: -5, northDeg: 5, westDeg: -20, eastDeg: 20 },
  ],
  "waves and depths": [
    madeFile(
      { time: 2, depth: 2, lat: 3, lon: 4 },
      {
        ...grid("depth"),
        hs: wave("sea_surface_wave_significant_height", "m", 1),
        tp: wave("sea_surface_wave_period_at_variance_spectral_density_maximum", "s", 6),
        dir: wave("sea_surface_wave_from_direction", "degree", 200),
        sw: wave("sea_surface_swell_wave_significant_height", "m", 0.5),
        speed: standard("sea_water_speed", "time depth lat lon", (t, d) => t! + d!),
        to: standard("sea_water_velocity_to_direction", "time depth lat lon", (t) => 30 * t!, "degree"),
      },
    ),
    {},
  ],
  "members and a run": [
    madeFile(
      { time: 2, number: 2, lat: 3, lon: 4 },
      {
        ...grid(),
        number: { along: "number", attributes: { standard_name: "realization", units: "1" }, value: (one) => one! },
        forecast_reference_time: {
          along: "",
          attributes: { standard_name: "forecast_reference_time", units: "hours since 2030-05-31" },
          value: () => 18,
        },
        u: standard("eastward_wind", "time number lat lon", (t, n) => t! + n!),
        v: standard("northward_wind", "time number lat lon", (t, n) => t! - n!),
      },
    ),
    {},
  ],
  "leads from a run": [
    madeFile(
      { step: 3, lat: 3, lon: 4 },
      {
        lat: grid()["lat"]!,
        lon: grid()["lon"]!,
        step: { along: "step", attributes: { standard_name: "forecast_period", units: "hours" }, value: (t) => 3 * t! },
        time: { along: "", attributes: { standard_name: "forecast_reference_time", units: "seconds since 1970-01-01" }, value: () => JUNE },
        u10: standard("eastward_wind", "step lat lon", (t) => t!),
        v10: standard("northward_wind", "step lat lon", (t) => -t!),
      },
    ),
    {},
  ],
  "a curved grid": [
    madeFile(
      { time: 2, y: 3, x: 4 },
      {
        time: hoursOfJune,
        nav_lat: northOf((y, x) => 40 + y! + x! / 5),
        nav_lon: eastOf((y, x) => -10 + x! - y! / 5),
        uo: {
          ...standard("eastward_sea_water_velocity", "time y x", (t, y) => t! + y! / 9),
          attributes: {
            units: "m/s",
            standard_name: "eastward_sea_water_velocity",
            coordinates: "nav_lat nav_lon",
            _FillValue: 9.96921e36,
          },
        },
        vo: { ...standard("northward_sea_water_velocity", "time y x", (t, _y, x) => x! / 3 - t!), type: "float" },
      },
    ),
    {},
  ],
  "Lambert's map": [
    onMap(
      {
        grid_mapping_name: "lambert_conformal_conic",
        standard_parallel: Float64Array.of(40, 55),
        longitude_of_central_meridian: -8,
        latitude_of_projection_origin: 41,
        earth_radius: 6_371_229,
      },
      axis("x", "km", -60, 40),
      axis("y", "km", -40, 40),
    ),
    {},
  ],
  "a polar stereographic map": [
    onMap(
      {
        grid_mapping_name: "polar_stereographic",
        standard_parallel: 60,
        straight_vertical_longitude_from_pole: -8,
        latitude_of_projection_origin: 90,
        earth_radius: 6_371_229,
      },
      axis("x", "m", -60_000, 40_000),
      axis("y", "m", -5_400_000, 40_000),
    ),
    { southDeg: 30, northDeg: 60, westDeg: -20, eastDeg: 10 },
  ],
  "Mercator's map": [
    onMap(
      {
        grid_mapping_name: "mercator",
        standard_parallel: 40,
        longitude_of_projection_origin: -8,
        semi_major_axis: 6_378_137,
        inverse_flattening: 298.257,
      },
      axis("x", "m", -60_000, 40_000),
      axis("y", "m", 3_700_000, 40_000),
    ),
    { southDeg: 35, northDeg: 45 },
  ],
  "a turned pole": [
    onMap(
      {
        grid_mapping_name: "rotated_latitude_longitude",
        grid_north_pole_latitude: 49,
        grid_north_pole_longitude: 172,
        north_pole_grid_longitude: 0,
      },
      axis("x", "degrees", -1, 1),
      axis("y", "degrees", -1, 1),
    ),
    {},
  ],
  "a staggered grid": [
    madeFile(
      { time: 1, eta_rho: 5, xi_rho: 6, eta_u: 5, xi_u: 5, eta_v: 4, xi_v: 6 },
      {
        time: hoursOfJune,
        lat_rho: northOf((y) => 40 + y! / 2, "eta_rho xi_rho"),
        lon_rho: eastOf((_y, x) => -10 + x! / 2, "eta_rho xi_rho"),
        angle: even("eta_rho xi_rho", 0),
        mask_rho: { along: "eta_rho xi_rho", value: (y, x) => (y === 2 && x === 2 ? 0 : 1) },
        mask_u: even("eta_u xi_u", 1),
        mask_v: even("eta_v xi_v", 1),
        u: standard("x_sea_water_velocity", "time eta_u xi_u", (_t, y) => y! / 4),
        v: standard("y_sea_water_velocity", "time eta_v xi_v", (_t, _y, x) => x! / 5),
      },
    ),
    {},
  ],
  "triangles, values on cells": [
    net({
      u: standard("eastward_sea_water_velocity", "time nele", (t) => t! + 0.5),
      v: standard("northward_sea_water_velocity", "time nele", (_t, cell) => cell! / 4),
      hs: { along: "time node", attributes: { units: "m", standard_name: "sea_surface_wave_significant_height" }, value: () => 1 },
    }),
    {},
  ],
  "triangles, exact times": [
    net({
      Itime: { along: "time", type: "int", attributes: { units: "days since 1858-11-17 00:00:00" }, value: () => 62_653 },
      Itime2: { along: "time", type: "int", attributes: { units: "msec since 00:00:00" }, value: (t) => t! * 3_600_000 },
      u: standard("eastward_wind", "time node", (t) => t!),
      v: standard("northward_wind", "time node", () => 4),
    }),
    {},
  ],
  "the other alone, half a cell on": [
    madeFile(
      { time: 2, lat: 3, lon: 4 },
      {
        ...grid(),
        lat: northOf((y) => 39.5 + y!, "lat"),
        lon: eastOf((x) => 350.5 + x!, "lon"),
        v: standard("northward_sea_water_velocity", "time lat lon", (t) => t! - 1),
      },
    ),
    {},
  ],
  "a component alone": [
    madeFile({ time: 2, lat: 3, lon: 4 }, { ...grid(), u: standard("eastward_sea_water_velocity", "time lat lon", () => 1) }),
    {},
  ],
};

/** Every NetCDF classic file that is mutated. */
export function netcdfFixtures(): readonly Fixture[] {
  const crop = { southDeg: 40.2, northDeg: 41.4, westDeg: -9.4, eastDeg: -8.2, from: JUNE, until: JUNE + 3 * HOUR };
  return Object.entries(FILES).map(([name, [bytes, more]]) => ({
    name: `NetCDF classic, ${name}`,
    structure: "netcdf",
    bytes,
    crop: { ...crop, ...more },
  }));
}

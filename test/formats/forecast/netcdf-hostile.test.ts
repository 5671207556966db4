import { describe, expect, it } from "vitest";
import { bytesFromMemory } from "../../../src/formats/bytes/index.ts";
import { readForecast } from "../../../src/formats/forecast/index.ts";
import { eastOf, hoursOfJune, madeFile, northOf, standard, type VariableMade } from "./netcdf-files.ts";
import { evenNumbers, JUNE } from "./sample-files.ts";

const one = (along: string): VariableMade => ({ along, value: () => 1 });
const axis = (letter: "x" | "y"): VariableMade => ({
  along: letter,
  attributes: { standard_name: `projection_${letter}_coordinate`, units: "km" },
  value: (at) => 10 * at!,
});
const mapped = (name: string): VariableMade => ({
  along: "time y x",
  attributes: { units: "m/s", standard_name: name, grid_mapping: "map" },
  value: () => 1,
});

const FILES: Record<string, Uint8Array> = {
  "a staggered grid": madeFile(
    { time: 1, eta_rho: 5, xi_rho: 6, eta_u: 5, xi_u: 5, eta_v: 4, xi_v: 6 },
    {
      time: hoursOfJune,
      lat_rho: northOf((y) => 50 + y! / 10, "eta_rho xi_rho"),
      lon_rho: eastOf((_y, x) => x! / 10, "eta_rho xi_rho"),
      angle: { along: "eta_rho xi_rho", value: () => 0 },
      mask_rho: one("eta_rho xi_rho"),
      mask_u: one("eta_u xi_u"),
      lat_u: northOf((y) => 50 + y! / 10, "eta_u xi_u"),
      lon_u: eastOf((_y, x) => 0.05 + x! / 10, "eta_u xi_u"),
      u: standard("x_sea_water_velocity", "time eta_u xi_u", () => 1),
      v: standard("y_sea_water_velocity", "time eta_v xi_v", () => 1),
    },
  ),
  triangles: madeFile(
    { time: 2, node: 4, nele: 2, three: 3 },
    {
      time: hoursOfJune,
      lat: northOf((node) => node! >> 1, "node"),
      lon: eastOf((node) => node! & 1, "node"),
      nv: { along: "three nele", type: "int", value: (side, cell) => [1, 2, 4, 1, 4, 3][cell! * 3 + side!]! },
      u: standard("eastward_wind", "time nele", () => 1),
      v: standard("northward_wind", "time nele", () => 1),
      hs: { along: "time node", attributes: { units: "m" }, value: () => 1 },
    },
  ),
  "a map": madeFile(
    { time: 2, y: 3, x: 3 },
    {
      time: hoursOfJune,
      x: axis("x"),
      y: axis("y"),
      map: {
        along: "",
        attributes: {
          grid_mapping_name: "lambert_conformal_conic",
          standard_parallel: 50,
          longitude_of_central_meridian: 5,
          latitude_of_projection_origin: 50,
        },
        value: () => 0,
      },
      u: mapped("x_wind"),
      v: mapped("y_wind"),
    },
  ),
  "a curved grid with depths and directions": madeFile(
    { time: 2, depth: 2, y: 3, x: 3 },
    {
      time: hoursOfJune,
      depth: { along: "depth", attributes: { units: "m" }, value: (level) => level! * 10 },
      nav_lat: northOf((y, x) => y! + x! / 5),
      nav_lon: eastOf((y, x) => x! - y! / 5),
      a: standard("sea_water_speed", "time depth y x", () => 1),
      b: standard("sea_water_velocity_to_direction", "time depth y x", () => 30, "degree"),
      d: standard("sea_surface_wave_from_direction", "time y x", () => 30, "degree"),
    },
  ),
};

describe("damaged NetCDF files", () => {
  it.each(Object.keys(FILES))("of %s never crash, and give no place, time or value that is none", async (name) => {
    const bytes = FILES[name]!;
    const next = evenNumbers(7);
    let readable = 0;
    for (let round = 0; round < 500; round++) {
      const damaged = bytes.slice();
      for (let hit = 0; hit <= next() * 4; hit++) {
        damaged[Math.floor(next() * damaged.length)] =
          next() < 0.3 ? [0, 255, 127, 128, 1][Math.floor(next() * 5)]! : Math.floor(next() * 256);
      }
      const area = { southDeg: 0.5, northDeg: 51, westDeg: 0, eastDeg: 6, from: JUNE, until: JUNE + 3600 };
      const read = await readForecast(bytesFromMemory(damaged), { name, crop: round % 2 === 0 ? null : area });
      if (!read.ok) continue;
      readable++;
      for (const { values, times, mesh } of read.value.grids) {
        for (const numbers of [values, times, mesh.latitudesDeg, mesh.longitudesDeg]) expect(numbers.every(Number.isFinite)).toBe(true);
      }
    }
    expect(readable).toBeGreaterThan(100);
  });
});

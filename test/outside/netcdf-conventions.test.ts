import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type GridData, nodeCountOf } from "../../src/core/fields/index.ts";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { type Crop, type ForecastReading, joinReadings, readForecast } from "../../src/formats/forecast/index.ts";
import { openNetcdf } from "../../src/formats/netcdf/index.ts";
import expected from "./references/netcdf-conventions.json" with { type: "json" };

/*
 * Real files of many makers, each with its own ways. Expected figures were made with netCDF4-python 1.6.2 (netCDF-C 4.9.0) and numpy 1.24 by
 * references/make_netcdf_conventions.py, which says how. Files: Rutgers/MARACOOS HF radar; MET Norway Arctic-20km, Nordic-4km and
 * AROME-MetCoOp (CC BY 4.0); NOAA WCOFS and SFBOFS (public domain); Copernicus Marine and ERA5 over the Ionian Sea.
 */
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: NetCDF files of many makers (ATHWART_REAL_DATA is not set)");

interface Figures {
  readonly steps: number;
  readonly firstAt: number;
  readonly lastAt: number;
  readonly nodes: number;
  readonly missing: number;
  readonly greatest: number;
  readonly sums: readonly number[];
  readonly points: readonly (readonly (number | readonly number[] | null)[])[];
}

/** Single precision of the library's unpacking and of `GridData`: values up to 17, sums of up to 110,000 of them. */
const VALUE_DIGITS = 5;

function expectFigures(grid: GridData, figures: Figures): void {
  const nodes = nodeCountOf(grid.mesh);
  const width = grid.quantities.length;
  expect([grid.times.length, grid.times[0], grid.times.at(-1), nodes]).toEqual([
    figures.steps,
    figures.firstAt,
    figures.lastAt,
    figures.nodes,
  ]);
  const step = figures.steps > 1 ? (figures.lastAt - figures.firstAt) / (figures.steps - 1) : 0;
  expect([...grid.times]).toEqual(Array.from({ length: figures.steps }, (_, index) => figures.firstAt + index * step));
  expect(grid.missing.reduce((sum, mark) => sum + mark, 0)).toBe(figures.missing);
  const sums = new Array<number>(width).fill(0);
  let greatest = 0;
  for (let at = 0; at < grid.values.length; at += width) {
    let square = 0;
    for (let component = 0; component < width; component++) {
      const value = grid.values[at + component]!;
      sums[component]! += value;
      square += value * value;
    }
    greatest = Math.max(greatest, Math.sqrt(square));
  }
  expect(greatest).toBeCloseTo(figures.greatest, VALUE_DIGITS);
  for (const [component, sum] of figures.sums.entries()) {
    // Half a unit in the last place of single precision, each way alike: the errors add up as their number's square root, ten times that is room.
    expect(Math.abs(sums[component]! - sum)).toBeLessThan(1e-6 * figures.greatest * Math.sqrt(figures.steps * nodes));
  }
  for (const [t, node, parts] of figures.points) {
    const point = Number(t) * nodes + Number(node);
    expect(grid.missing[point]).toBe(parts === null ? 1 : 0);
    if (!Array.isArray(parts)) continue;
    for (const [component, value] of parts.entries()) expect(grid.values[point * width + component]).toBeCloseTo(value, VALUE_DIGITS);
  }
}

describe.skipIf(!data)("real NetCDF files of many makers", () => {
  const kept = new Map<string, Promise<ForecastReading>>();
  const read = (file: string, crop: Crop | null = null): Promise<ForecastReading> => {
    const reading = crop ? readAnew(file, crop) : (kept.get(file) ?? readAnew(file, null));
    if (!crop) kept.set(file, reading);
    return reading;
  };
  const readAnew = async (file: string, crop: Crop | null): Promise<ForecastReading> => {
    const bytes = readFileSync(join(data ?? "", file));
    const got = await readForecast(bytesFromMemory(bytes), { name: file, crop });
    if (!got.ok) throw new Error(got.issues.map((one) => one.message).join("; "));
    return got.value;
  };
  const only = (reading: ForecastReading): GridData => {
    expect(reading.grids).toHaveLength(1);
    return reading.grids[0]!;
  };
  const codesOf = (reading: ForecastReading): string[] => reading.oddities.map((one) => one.code);
  const RADAR = "currents/hfradar-western-boundary-20190101/";

  it("HF radar: cm/s taken as such; the day whose file calls its own first time missing (fill 0) keeps it, and says so", async () => {
    const reading = await read(`${RADAR}hfradar_24h.nc`);
    expectFigures(only(reading), expected.hfradar_24h);
    expect(only(reading).quantities).toEqual(["currentEastMps", "currentNorthMps"]);
    expect(codesOf(reading)).toEqual(["fill-doubtful"]);
    expect(reading.oddities[0]!.message).toContain('"time" calls 1 of its times missing (fill 0)');
    expect(reading.contents.find((one) => one.name === "u")).toMatchObject({ units: "cm/s", steps: 24, longestStepSeconds: 3600 });
  });

  it.each(["00", "06", "12", "18"] as const)(
    "HF radar of one hour, %s: days since 2006 come to the whole hour, and to the day's own step",
    async (hour) => {
      const reading = await read(`${RADAR}RU_MARA_20190101T${hour}0000Z.nc`);
      const grid = only(reading);
      expectFigures(grid, expected[`RU_MARA_${hour}`]);
      expect(codesOf(reading)).toEqual([]);
      const day = only(await read(`${RADAR}hfradar_24h.nc`));
      const from = Number(hour) * nodeCountOf(day.mesh);
      expect(grid.missing).toEqual(day.missing.slice(from, from + grid.missing.length));
      expect(grid.values).toEqual(day.values.slice(2 * from, 2 * from + grid.values.length));
    },
  );

  it("Arctic 20 km: packed shorts on a polar stereographic map in kilometres, 17 depths, turned true", async () => {
    const reading = await read("currents/arctic20_polarstereo_20160201-05.nc");
    const grid = only(reading);
    expectFigures(grid, expected.arctic20);
    expect(grid.issuedAt).toBe(1454328000);
    expect(grid.mesh).toMatchObject({ kind: "curvilinear", rows: 51, columns: 91, placed: null });
    for (const [node, latitude, longitude] of expected.arctic20.places) {
      expect(grid.mesh.latitudesDeg[node!]).toBe(latitude);
      expect(grid.mesh.longitudesDeg[node!]).toBe(longitude);
    }
    expect(codesOf(reading)).toEqual(["level-chosen", "level-chosen"]);
    // Not the mean over the depth, nor the ice, that stand beside it.
    expect(reading.contents.find((one) => one.name === "ubar")!.quantity).toBeNull();
  });

  it("AROME: x and y wind on a Lambert map, turned true", async () => {
    const reading = await read("wind/arome_metcoop_20160114_00-02Z.nc");
    const grid = only(reading);
    expectFigures(grid, expected.arome);
    expect(grid.quantities).toEqual(["windEastMps", "windNorthMps"]);
    expect(reading.oddities).toEqual([]);
  });

  it("Nordic ROMS: everything packed, faces without places, fills lost on land (0.34 m/s there), means of both faces turned by the file's angle", async () => {
    const reading = await read("currents/roms_nordic_int16_20160202-04.nc");
    const grid = only(reading);
    expectFigures(grid, expected.roms_nordic);
    expect([grid.mesh.kind === "curvilinear" && [grid.mesh.rows, grid.mesh.columns]]).toEqual([expected.roms_nordic.shape]);
    expect(grid.mesh.latitudesDeg[0]).toBeCloseTo(expected.roms_nordic.firstNode[0]!, 9);
    expect(grid.mesh.longitudesDeg[0]).toBeCloseTo(expected.roms_nordic.firstNode[1]!, 9);
    expect(codesOf(reading)).toEqual(["level-chosen", "level-chosen"]);
    expect(reading.oddities[0]!.message).toContain("s_rho -0.0142857");
    for (const name of ["ubar", "uice", "vice", "vbar"]) expect(reading.contents.find((one) => one.name === name)!.quantity).toBeNull();
  });

  it("West coast ROMS: surface components on their faces, land by its masks, turned by the file's angle", async () => {
    const reading = await read("currents/wcofs_roms_curvilinear_20241017.nc");
    const grid = only(reading);
    expectFigures(grid, expected.wcofs);
    expect([grid.mesh.kind === "curvilinear" && [grid.mesh.rows, grid.mesh.columns]]).toEqual([expected.wcofs.shape]);
    expect(reading.oddities).toEqual([]);
  });

  it("San Francisco Bay FVCOM: current and wind on triangles, times by their letters, not by the days in single precision", async () => {
    const reading = await read("crossing-raccoon-strait/sfbofs_fvcom_20240523.nc");
    expect(reading.grids.map((one) => one.quantities[0])).toEqual(["currentEastMps", "windEastMps"]);
    const [current, wind] = reading.grids;
    expectFigures(current!, expected["sfbofs current"]);
    expectFigures(wind!, expected["sfbofs wind"]);
    const { mesh } = current!;
    if (mesh.kind !== "triangles") throw new Error(mesh.kind);
    expect([mesh.valuesAt, mesh.latitudesDeg.length, mesh.triangles.length]).toEqual(["triangles", 551, 3 * 903]);
    const corners = [...mesh.triangles.subarray(3 * 450, 3 * 451)];
    expect(corners.map((corner) => [mesh.latitudesDeg[corner], mesh.longitudesDeg[corner]])).toEqual(
      expected["sfbofs current"].triangle450,
    );
    const middle = (axis: Float64Array): number => corners.reduce((sum, corner) => sum + axis[corner]! / 3, 0);
    // The file's own centres, in single precision of 237 degrees.
    expect(middle(mesh.latitudesDeg)).toBeCloseTo(expected["sfbofs current"].centre450[0]!, 4);
    expect(middle(mesh.longitudesDeg)).toBeCloseTo(expected["sfbofs current"].centre450[1]!, 4);
    expect(codesOf(reading)).toEqual(["level-chosen", "level-chosen"]);
  });

  it("Ionian currents: each component in its own file waits for the other, along its grid, with the way that grid lies", async () => {
    for (const [letter, quantity] of [
      ["U", "currentEastMps"],
      ["V", "currentNorthMps"],
    ] as const) {
      const reading = await read(`overlap-ionian/test_${letter}_2020-01-04.nc`);
      expect(reading.grids).toEqual([]);
      expect(reading.lone).toHaveLength(1);
      const { grid, northDegTrue } = reading.lone[0]!;
      expect(grid.quantities).toEqual([quantity]);
      expectFigures(grid, expected[`ionian ${letter}`]);
      expect(northDegTrue![25 * 50 + 21]).toBeCloseTo(expected[`ionian ${letter}`].northDegTrueAt2521, 3);
      expect(codesOf(reading)).toContain("component-alone");
    }
  });

  it("Ionian currents from both files meet at the centres that the model's own mesh has", async () => {
    const files = ["test_U_2020-01-04.nc", "test_V_2020-01-04.nc"];
    const joined = joinReadings(await Promise.all(files.map((file) => read(`overlap-ionian/${file}`))));
    expect(joined.oddities).toEqual([]);
    const [grid] = joined.grids;
    expect(grid!.mesh).toMatchObject({ kind: "curvilinear", rows: 49, columns: 49 });
    const { latitudesDeg, longitudesDeg } = grid!.mesh;
    const mesh = await openNetcdf(bytesFromMemory(readFileSync(join(data!, "overlap-ionian/test_ocean_mesh_hgr.nc"))), "mesh");
    if (!mesh.ok) throw new Error("the mesh can't be read");
    for (const [name, ours] of [
      ["gphit", latitudesDeg],
      ["glamt", longitudesDeg],
    ] as const) {
      // Row and column 0 have no neighbour before them: the centres begin at 1.
      const stored = await mesh.value.read(name, { start: [0, 1, 1], count: [1, 49, 49] });
      if (!stored.ok) throw new Error(name);
      expect(ours.reduce((most, value, node) => Math.max(most, Math.abs(value - Number(stored.value[node]))), 0)).toBeLessThan(1e-4);
    }
    mesh.value.close();
    // Components reach 0.38 and 0.42 m/s; means of neighbours are no more.
    const speeds = Array.from({ length: 49 * 49 }, (_, node) => Math.hypot(grid!.values[2 * node]!, grid!.values[2 * node + 1]!));
    expect(Math.max(...speeds)).toBeGreaterThan(0.41);
    expect(Math.max(...speeds)).toBeLessThan(0.43);
    expect(grid!.missing.every((one) => one === 0)).toBe(true);
  });

  it("Ionian wind and waves: packed shorts, north first, one time told once; Stokes drift is no current", async () => {
    const wind = await read("overlap-ionian/test_wind_2020-01-04.nc");
    expectFigures(only(wind), expected["ionian wind"]);
    expect(wind.oddities).toEqual([]);
    const waves = await read("overlap-ionian/test_waves_2020-01-04.nc");
    expectFigures(only(waves), expected["ionian waves"]);
    expect(only(waves).quantities).toEqual(["seaPeriodSeconds"]);
    const why = Object.fromEntries(waves.contents.map((one) => [one.name, one.whyNotUsed]));
    expect(why["pp1d"]).toBe('"mwp" is used for it');
    expect(why["ust"]).toMatch(/no current/);
  });

  it("a model's mesh without fields and drifters' tracks give nothing, and say so", async () => {
    for (const file of ["overlap-ionian/test_ocean_mesh_hgr.nc", "profiles/drifters_barents_2022.nc"]) {
      const reading = await read(file);
      expect(reading.grids).toEqual([]);
      expect(codesOf(reading)).toContain("nothing-of-use");
    }
  });

  it.each([
    ["wind/arome_metcoop_20160114_00-02Z.nc", { southDeg: 61.5, northDeg: 62, westDeg: 3, eastDeg: 4 }],
    ["currents/arctic20_polarstereo_20160201-05.nc", { southDeg: 72, northDeg: 74, westDeg: 15, eastDeg: 20 }],
    ["currents/wcofs_roms_curvilinear_20241017.nc", { southDeg: 44.5, northDeg: 45, westDeg: -125, eastDeg: -124.5 }],
    ["crossing-raccoon-strait/sfbofs_fvcom_20240523.nc", { southDeg: 37.87, northDeg: 37.88, westDeg: -122.5, eastDeg: -122.49 }],
  ])("%s cropped holds all that lies in the crop, as the whole file has it, and little more", async (file, area) => {
    const whole = (await read(file)).grids[0]!;
    const part = (await read(file, { ...area, from: whole.times[0]!, until: whole.times.at(-1)! })).grids[0]!;
    const placesOf = ({ mesh }: GridData): [number, number][] => {
      const at = (corner: number): [number, number] => [mesh.latitudesDeg[corner]!, mesh.longitudesDeg[corner]!];
      if (mesh.kind !== "triangles") return [...mesh.latitudesDeg.keys()].map(at);
      return Array.from({ length: mesh.triangles.length / 3 }, (_, triangle) => {
        const corners = [0, 1, 2].map((side) => at(mesh.triangles[3 * triangle + side]!));
        return [corners.reduce((sum, one) => sum + one[0], 0), corners.reduce((sum, one) => sum + one[1], 0)];
      });
    };
    const nodesByPlace = new Map(placesOf(whole).map((place, node) => [place.join(), node]));
    const wholeNodes = nodeCountOf(whole.mesh);
    const partNodes = nodeCountOf(part.mesh);
    expect(partNodes).toBeLessThan(wholeNodes / 2);
    for (const [node, place] of placesOf(part).entries()) {
      const there = nodesByPlace.get(place.join())!;
      expect(there).toBeDefined();
      for (const t of [0, part.times.length - 1]) {
        const [here, old] = [t * partNodes + node, t * wholeNodes + there];
        expect(part.missing[here]).toBe(whole.missing[old]);
        expect(part.values.slice(2 * here, 2 * here + 2)).toEqual(whole.values.slice(2 * old, 2 * old + 2));
      }
    }
    const inside = (grid: GridData): number => {
      const places = grid.mesh.kind === "triangles" ? placesOf(grid).map(([one, other]) => [one / 3, other / 3]) : placesOf(grid);
      return places.filter(([latitude, longitude]) => {
        return latitude! >= area.southDeg && latitude! <= area.northDeg && longitude! >= area.westDeg && longitude! <= area.eastDeg;
      }).length;
    };
    expect(inside(part)).toBe(inside(whole));
    expect(inside(part)).toBeGreaterThan(4);
  });
});

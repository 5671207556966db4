import { readFileSync } from "node:fs";
import { join } from "node:path";
import { NetCDFReader } from "netcdfjs";
import { describe, expect, it } from "vitest";
import type { GridData } from "../../src/core/fields/index.ts";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { type Crop, type ForecastReading, readForecast } from "../../src/formats/forecast/index.ts";
import { openNetcdf } from "../../src/formats/netcdf/index.ts";
import { latLonOf } from "../core/fields/grids.ts";

/*
 * Real forecasts of NOAA (public domain): HYCOM and RTOFS currents, GFS wind, as NetCDF classic, and the first two re-encoded as GRIB2 by
 * ecCodes 2.28 (12 bits, bitmap on land). Recorded numbers were read with scipy 1.x `scipy.io.netcdf_file` and numpy, in double precision.
 */
const data = process.env["ATHWART_REAL_DATA"];
if (!data) console.warn("SKIPPED: NetCDF and GRIB2 forecasts of a real strait (ATHWART_REAL_DATA is not set)");

describe.skipIf(!data)("forecasts of a real strait", () => {
  const bytesOf = (file: string): Uint8Array => readFileSync(join(data ?? "", file));
  const read = async (file: string, crop: Crop | null = null): Promise<ForecastReading> => {
    const got = await readForecast(bytesFromMemory(bytesOf(file)), { name: file, crop });
    if (!got.ok) throw new Error(got.issues.map((one) => one.message).join("; "));
    return got.value;
  };
  const only = async (file: string, crop: Crop | null = null): Promise<GridData> => {
    const { grids, oddities } = await read(file, crop);
    expect(oddities).toEqual([]);
    expect(grids).toHaveLength(1);
    return grids[0]!;
  };
  const HYCOM = "crossing-juan-de-fuca/hycom_current_20230302-04.nc";
  const GFS = "crossing-juan-de-fuca/gfs_wind_20230302-04.nc";
  const RTOFS = "crossing-juan-de-fuca/rtofs_current_20241028-1105.nc";

  it.each([
    [HYCOM, "2023-03-02T12:00Z", 17, [52, 26], 7888, 0.7620945066487458, 1363.8820625944063, 30.98500203585718],
    [RTOFS, "2024-10-28T03:00Z", 64, [38, 34], 28864, 0.9872751787894013, 641.3490650337301, 312.9795014542981],
    [GFS, "2023-03-02T00:00Z", 17, [7, 7], 0, 16.097309331753213, 4575.450454207137, 1363.871620069258],
  ] as const)("%s holds what scipy reads in it", async (file, first, steps, [rows, columns], missing, fastest, eastSum, northSum) => {
    const grid = await only(file);
    expect(grid.times[0]).toBe(Date.parse(first) / 1000);
    expect([...grid.times].every((at, index) => at === grid.times[0]! + index * 3 * 3600)).toBe(true);
    expect([grid.times.length, latLonOf(grid).latitudesDeg.length, latLonOf(grid).longitudesDeg.length]).toEqual([steps, rows, columns]);
    expect(grid.missing.reduce((sum, mark) => sum + mark, 0)).toBe(missing);
    let [speed, east, north] = [0, 0, 0];
    for (let at = 0; at < grid.values.length; at += 2) {
      speed = Math.max(speed, Math.hypot(grid.values[at]!, grid.values[at + 1]!));
      east += grid.values[at]!;
      north += grid.values[at + 1]!;
    }
    expect(speed).toBeCloseTo(fastest, 12);
    expect(east).toBeCloseTo(eastSum, 8);
    expect(north).toBeCloseTo(northSum, 8);
  });

  it("single points are where scipy finds them", async () => {
    const point = (grid: GridData, t: number, y: number, x: number) => {
      const at = ((t * latLonOf(grid).latitudesDeg.length + y) * latLonOf(grid).longitudesDeg.length + x) * 2;
      return [grid.values[at], grid.values[at + 1]];
    };
    expect(point(await only(HYCOM), 5, 26, 3)).toEqual([0.19600000977516174, -0.0430000014603138]);
    expect(point(await only(RTOFS), 4, 19, 17)).toEqual([0.37882518768310547, -0.9117037653923035]);
    expect(point(await only(GFS), 3, 4, 2)).toEqual([-0.17559081315994263, 16.096351623535156]);
  });

  it("every variable is read as an independent reader reads it (netcdfjs 4)", async () => {
    for (const file of [HYCOM, GFS, RTOFS]) {
      const bytes = bytesOf(file);
      const opened = await openNetcdf(bytesFromMemory(bytes), file);
      if (!opened.ok) throw new Error(opened.issues[0]!.message);
      const theirs = new NetCDFReader(bytes);
      expect([...opened.value.header.variables.keys()]).toEqual(theirs.variables.map((one) => one.name));
      for (const name of opened.value.header.variables.keys()) {
        const ours = await opened.value.read(name);
        expect(ours.ok && Array.from(ours.value, Number)).toEqual((theirs.getDataVariable(name) as number[]).flat());
      }
    }
  });

  it("no fill leaks: no current above 1 m/s where the files' own maxima are 0.77 and 0.99", async () => {
    for (const file of [HYCOM, RTOFS]) expect((await only(file)).values.every((value) => Math.abs(value) < 1)).toBe(true);
  });

  /** Greatest difference of two grids' values; the grids' times and marks of missing must be the same. */
  const apart = (one: GridData, other: GridData): number => {
    expect([...other.times]).toEqual([...one.times]);
    expect(other.missing).toEqual(one.missing);
    expect(other.quantities).toEqual(one.quantities);
    for (const axis of ["latitudesDeg", "longitudesDeg"] as const) {
      const [here, there] = [latLonOf(one)[axis], latLonOf(other)[axis]];
      expect(there.length).toBe(here.length);
      // The NetCDF's longitudes depart from even steps by up to 5.13e-5° (numpy linspace between its ends), which GRIB's grid can't follow; GRIB rounds to 1e-6°.
      here.forEach((value, index) => void expect(Math.abs(value - there[index]!)).toBeLessThan(5.13e-5 + 1e-6));
    }
    return one.values.reduce((worst, value, index) => Math.max(worst, Math.abs(value - other.values[index]!)), 0);
  };

  it("NetCDF and GRIB2 give the same current within 0.0002 m/s and the same wind within 0.004 m/s", async () => {
    const current = apart(await only(HYCOM), await only("crossing-juan-de-fuca/derived-grib2/current_simple.grib2"));
    const wind = apart(await only(GFS), await only("crossing-juan-de-fuca/derived-grib2/wind_simple.grib2"));
    console.info(`NetCDF and GRIB2 apart: current ${current.toFixed(6)} m/s, wind ${wind.toFixed(6)} m/s`);
    expect(current).toBeGreaterThan(0);
    expect(current).toBeLessThan(0.0002);
    expect(wind).toBeLessThan(0.004);
  });

  it("a crop gives the same from both, and what the whole file gives there", async () => {
    const at = (text: string) => Date.parse(text) / 1000;
    const crop = {
      southDeg: 48.1,
      northDeg: 48.5,
      westDeg: -124.7,
      eastDeg: -124.2,
      from: at("2023-03-02T20:00Z"),
      until: at("2023-03-03T04:00Z"),
    };
    const whole = await only(HYCOM);
    const part = await only(HYCOM, crop);
    expect(apart(part, await only("crossing-juan-de-fuca/derived-grib2/current_simple.grib2", crop))).toBeLessThan(0.0002);
    expect([part.times[0], part.times.at(-1)]).toEqual([at("2023-03-02T15:00Z"), at("2023-03-03T09:00Z")]);
    expect(latLonOf(part).latitudesDeg[0]).toBeGreaterThan(48);
    expect(latLonOf(part).latitudesDeg[1]).toBeGreaterThanOrEqual(48.1);
    expect(latLonOf(part).latitudesDeg[0]).toBeLessThan(48.1);
    const t = whole.times.indexOf(part.times[2]!);
    const y = latLonOf(whole).latitudesDeg.indexOf(latLonOf(part).latitudesDeg[3]!);
    const x = latLonOf(whole).longitudesDeg.indexOf(latLonOf(part).longitudesDeg[4]!);
    expect(Math.min(t, y, x)).toBeGreaterThanOrEqual(0);
    const there = ((t * 52 + y) * 26 + x) * 2;
    const here = ((2 * latLonOf(part).latitudesDeg.length + 3) * latLonOf(part).longitudesDeg.length + 4) * 2;
    expect(part.values.slice(here, here + 2)).toEqual(whole.values.slice(there, there + 2));
  });

  it("packed shorts of a CDF-2 file are unpacked as scipy and numpy do", async () => {
    const bytes = bytesOf("currents/arctic20_polarstereo_20160201-05.nc");
    const opened = await openNetcdf(bytesFromMemory(bytes), "arctic20");
    if (!opened.ok) throw new Error(opened.issues[0]!.message);
    expect(bytes[3]).toBe(2);
    const { packingOf, unpack } = await import("../../src/formats/netcdf/index.ts");
    const u = opened.value.header.variables.get("u")!;
    const stored = await opened.value.read("u", { start: [2, 0, 0, 0], count: [1, 1, 51, 91] });
    if (!stored.ok) throw new Error(stored.issues[0]!.message);
    const { values, missing } = unpack(stored.value, packingOf(u));
    expect(missing.reduce((sum, mark) => sum + mark, 0)).toBe(RECORDED.missing);
    expect(values.reduce((sum, value) => sum + value, 0)).toBeCloseTo(RECORDED.sum, 6);
    expect(values[20 * 91 + 30]).toBeCloseTo(RECORDED.point, 9);
  });
});

/** `u[2, 0]` of the polar file: raw == -32767 counted; sum and one point [20, 30] of raw × float32(3.0522235e-04) over the rest. */
const RECORDED = { missing: 363, sum: -69.89439143799245, point: -0.04791990853846073 };

/**
 * GRIB files as centres make them, as a skipper's program reads them: which winds, gusts, currents and seas each must give, over which
 * hours and members, how strong. Source and licence of each stand in the data folder's DATA.md. The greatest values and counts are those
 * of ecCodes 2.28.0 (`grib_ls -p shortName,max,numberOfMissing`).
 */
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type GridData, nodeCountOf } from "../../src/core/fields/index.ts";
import { type ForecastReading, joinReadings, readForecast } from "../../src/formats/forecast/index.ts";
import { decodeGribField, type GribField, nodesOf, readGribFields } from "../../src/formats/grib/index.ts";
import { bytesFromFile } from "../../src/storage/index.ts";

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: what real GRIB forecasts must give; ATHWART_REAL_DATA names no folder.");

async function reading(file: string): Promise<ForecastReading> {
  const source = await bytesFromFile(join(folder, file));
  try {
    const read = await readForecast(source, { name: file, crop: null });
    if (!read.ok) throw new Error(read.issues.map((one) => one.message).join("; "));
    return read.value;
  } finally {
    await source.close();
  }
}

interface Given {
  readonly first: string;
  readonly steps: number;
  readonly missing: number;
  readonly greatest: number;
}

/** What a grid gives, in few figures; of a vector its length. */
function givenBy(grid: GridData): Given {
  const wide = grid.quantities.length;
  let greatest = 0;
  let missing = 0;
  for (let point = 0; point < grid.missing.length; point++) {
    if (grid.missing[point] === 1) missing++;
    else {
      const value = wide === 2 ? Math.hypot(grid.values[2 * point]!, grid.values[2 * point + 1]!) : grid.values[point]!;
      greatest = Math.max(greatest, value);
    }
  }
  return { first: grid.quantities[0]!, steps: grid.times.length, missing, greatest: Number(greatest.toFixed(3)) };
}

const iso = (at: number | null): string | null => (at === null ? null : new Date(at * 1000).toISOString().slice(0, 16));
const codes = (read: ForecastReading): string[] => read.oddities.map((one) => one.code);

describe.skipIf(folder === "")("what real GRIB forecasts give", () => {
  test.each([
    [
      "waves/gfswave_atlocn_20230823_f001.grib2",
      "2023-08-23T18:00",
      "2023-08-23T19:00",
      [70212, 2.78, 16.166, 83180, 2.78, 73963, 2.11, 88254],
    ],
    [
      "waves/gdaswave_wcoast_20211130_f000.grib2",
      "2021-11-30T00:00",
      "2021-11-30T00:00",
      [25350, 4.05, 16.436, 31273, 3.84, 25350, 2.7, 26044],
    ],
  ] as const)("%s: a wave model's wind, sea, wind sea and three swells", async (file, issued, valid, figures) => {
    const read = await reading(file);
    const [missing, height, wind, noWindSea, windSea, noSwell, swell, noThird] = figures;
    const by = new Map(read.grids.map((grid) => [grid.quantities[0]!, givenBy(grid)]));
    expect(read.grids.length).toBe(16);
    expect(by.get("seaHeightMetres")).toMatchObject({ missing, greatest: height, steps: 1 });
    expect(by.get("windEastMps")).toMatchObject({ missing, greatest: wind });
    expect(by.get("seaTowardEast")).toMatchObject({ missing, greatest: 1 });
    expect(by.get("windSeaHeightMetres")).toMatchObject({ missing: noWindSea, greatest: windSea });
    expect(by.get("swellHeightMetres")).toMatchObject({ missing: noSwell, greatest: swell });
    expect(by.get("thirdSwellPeriodSeconds")).toMatchObject({ missing: noThird });
    expect([iso(read.grids[0]!.issuedAt), iso(read.grids[0]!.times[0]!)]).toEqual([issued, valid]);
    expect(codes(read)).toEqual([]);
  });

  test("WAVEWATCH III at two points: 61 steps of everything, wind sea missing where there is none", async () => {
    const read = await reading("waves/ww3_point_series_20201209_0-180h.grib2");
    expect(read.grids.map((grid) => grid.times.length)).toEqual(new Array(13).fill(61));
    const [wind, height] = read.grids.map(givenBy);
    expect([wind!.first, wind!.greatest, height!.greatest]).toEqual(["windEastMps", 12.741, 2.12]);
    expect(read.grids.map(givenBy).find((one) => one.first === "windSeaHeightMetres")!.missing).toBe(14);
    expect([iso(read.grids[0]!.times[0]!), iso(read.grids[0]!.times[60]!)]).toEqual(["2020-12-09T12:00", "2020-12-17T00:00"]);
  });

  test("MET Norway's small-craft waves, edition 1 by a local table: 73 hours of height and direction", async () => {
    const read = await reading("waves/metno_wam4_n-northsea_20191106_73h.grib1");
    expect(read.kind).toBe("grib1");
    expect(read.grids.map(givenBy)).toEqual([
      { first: "seaHeightMetres", steps: 73, missing: 73 * 52, greatest: 3.292 },
      { first: "seaTowardEast", steps: 73, missing: 73 * 52, greatest: 1 },
    ]);
    expect([iso(read.grids[0]!.times[0]!), iso(read.grids[0]!.times[72]!)]).toEqual(["2019-11-06T18:00", "2019-11-09T18:00"]);
  });

  test("MFWAM's total swell, CCSDS", async () => {
    const read = await reading("waves/mfwam_swell_20250806_f001.grib2");
    expect(read.grids.map(givenBy)).toEqual([{ first: "swellHeightMetres", steps: 1, missing: 299690, greatest: 2.806 }]);
  });

  test("NDFD's wave heights on a Mercator grid: 29.7, which no metre has been, is used and told", async () => {
    const read = await reading("waves/ndfd_waveheight_mercator_20231130_f14.grib2");
    expect(read.grids.map(givenBy)).toEqual([{ first: "windSeaHeightMetres", steps: 1, missing: 3431422, greatest: 29.7 }]);
    expect(read.grids[0]!.mesh).toMatchObject({ kind: "curvilinear", rows: 1793, columns: 2517 });
    expect(codes(read)).toEqual(["value-doubtful"]);
    expect(read.oddities[0]!.message).toMatch(/beyond 20 m, up to 29\.7/);
  });

  test("ECMWF's ensemble in a storm, edition 1: 51 members of gusts over three intervals, the hours between left open", async () => {
    const read = await reading("wind/ecmwf_ens51_gust_storm_20131025.grib1");
    expect(read.grids.map((grid) => [grid.quantities.join(), grid.member])).toEqual(
      Array.from({ length: 51 }, (_, member) => ["gustMps", member]),
    );
    const control = read.grids[0]!;
    const run = control.issuedAt!;
    expect(iso(run)).toBe("2013-10-25T00:00");
    expect([...control.times].map((at) => (at - run) / 3600)).toEqual([69, 72, 75, 78, 81, 84]);
    const nodes = nodeCountOf(control.mesh);
    expect([0, 1, 2, 3, 4, 5].map((step) => control.missing[step * nodes])).toEqual([1, 0, 1, 0, 1, 0]);
    expect(Math.max(...read.grids.map((grid) => givenBy(grid).greatest))).toBeCloseTo(48.6, 1);
    expect(givenBy(control).greatest).toBe(43.641);
  });

  test("GFS in three packings: the same wind to the last bit", async () => {
    const [simple, complex, differenced] = await Promise.all(
      [0, 2, 3].map((packing) => reading(`wind/gfs_1deg_10m_template5_${packing}.grib2`)),
    );
    expect(simple!.grids.map(givenBy)).toEqual([{ first: "windEastMps", steps: 1, missing: 0, greatest: 24.321 }]);
    for (const other of [complex!, differenced!]) expect(other.grids[0]!.values).toEqual(simple!.grids[0]!.values);
  });

  test("NAM on a Lambert grid: u and v in one message, turned from the grid's north to true; its gust is left as it is", async () => {
    const file = "wind/nam_awp211_lambert_20180917.grib2";
    const read = await reading(file);
    const [gust, wind] = read.grids as [GridData, GridData];
    expect(givenBy(gust)).toEqual({ first: "gustMps", steps: 1, missing: 0, greatest: 20.433 });
    expect(codes(read)).toEqual([]);
    const source = await bytesFromFile(join(folder, file));
    const parts: GribField[] = [];
    for await (const item of readGribFields(source)) {
      const isWind =
        item.kind === "field" && item.discipline === 0 && item.category === 2 && item.level.type === 103 && item.level.value === 10;
      if (isWind && (item.number === 2 || item.number === 3)) parts.push(item);
    }
    const [u, v] = await Promise.all(
      parts.map(async (field) => (await decodeGribField(source, field)) as { ok: true; value: { values: Float64Array } }),
    );
    const { grid } = parts[0]!;
    if (grid.kind !== "projected") throw new Error("not on a map");
    const { longitudesDeg } = await nodesOf(grid);
    await source.close();
    // Standard parallels both at 25 N, the grid's y along 95 W (its section 3): the convergence of a Lambert map is sin 25° times the
    // longitude from there (Snyder, USGS PP 1395, ch. 15: θ = n(λ − λ0), n = sin φ1).
    let worst = 0;
    for (let node = 0; node < longitudesDeg.length; node++) {
      const turnRad = (Math.sin((25 * Math.PI) / 180) * (longitudesDeg[node]! + 95) * Math.PI) / 180;
      const [along, across] = [u!.value.values[node]!, v!.value.values[node]!];
      const east = along * Math.cos(turnRad) + across * Math.sin(turnRad);
      const north = across * Math.cos(turnRad) - along * Math.sin(turnRad);
      worst = Math.max(worst, Math.abs(east - wind.values[2 * node]!), Math.abs(north - wind.values[2 * node + 1]!));
    }
    expect(worst).toBeLessThan(1e-5);
  });

  test("HRRR's east component alone is kept for the file with the other, and no wind is made of it", async () => {
    const read = await reading("wind/hrrr_10u_lambert_20230722_f01.grib2");
    expect(read.grids).toEqual([]);
    expect(read.lone.map(({ grid, northDegTrue }) => [grid.quantities.join(), northDegTrue?.length])).toEqual([
      ["windEastMps", 1799 * 1059],
    ]);
    expect(joinReadings([read]).oddities.map((one) => one.code)).toEqual(["component-missing"]);
  });

  test("a constant field is a value, not a hole: 2.5 m/s", async () => {
    const [lone] = (await reading("wind/constant_field.grb")).lone;
    expect(new Set(lone!.grid.values)).toEqual(new Set([2.5]));
  });

  test.each([
    ["wind/gdas_1deg_10m_20210831.grib2", 24.753],
    ["wind/gfs_0p25_10m_europe_20170720_f001.grib2", 14.012],
  ] as const)("%s", async (file, greatest) => {
    expect((await reading(file)).grids.map(givenBy)).toEqual([{ first: "windEastMps", steps: 1, missing: 0, greatest }]);
  });

  test("the strait's current and wind: simple and CCSDS to the last bit, JPEG 2000 to its own step at its one hour", async () => {
    for (const [what, greatest, missing] of [
      ["current", 0.762, 7888],
      ["wind", 16.1, 0],
    ] as const) {
      const [simple, ccsds, jpeg] = await Promise.all(
        ["simple", "ccsds", "jpeg"].map(
          async (packing) => (await reading(`crossing-juan-de-fuca/derived-grib2/${what}_${packing}.grib2`)).grids[0]!,
        ),
      );
      expect(givenBy(simple!)).toMatchObject({ steps: 17, missing, greatest });
      expect(ccsds!.values).toEqual(simple!.values);
      expect(ccsds!.missing).toEqual(simple!.missing);
      expect(jpeg!.times).toEqual(simple!.times.slice(0, 1));
      expect(jpeg!.missing).toEqual(simple!.missing.slice(0, jpeg!.missing.length));
      const worst = jpeg!.values.reduce((most, value, i) => Math.max(most, Math.abs(value - simple!.values[i]!)), 0);
      // Both are packed to 12 bits of the field's own range: no two of them part by more than a step.
      expect(worst).toBeLessThan(what === "current" ? 5e-4 : 5e-3);
    }
  });
});

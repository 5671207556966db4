/**
 * GRIB2 files as centres make them: GFS (NOAA), WaveWatch III (NOAA), MFWAM (Météo-France), NAM, HRRR and NDFD (NOAA), and
 * the crossing of the Strait of Juan de Fuca repacked by ecCodes; DATA.md of the data folder gives each one's source and licence. Held
 * against ecCodes (2.28.0) point by point, and against wgrib2's values where those stand beside the file.
 */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { roleOf } from "../../src/formats/forecast/grib-roles.ts";
import { axesOf, decodeGribField, type GribField, type GribItem, readGribFields } from "../../src/formats/grib/index.ts";
import { bytesFromFile } from "../../src/storage/file-bytes.ts";
import { latLonGridOf } from "../formats/grib/sample-message.ts";
import { haveEccodes, keysByEccodes, pointsByEccodes } from "./eccodes.ts";
import { expectSameAsEccodes } from "./grib-match.ts";

const folder = process.env.ATHWART_REAL_DATA ?? "";
if (folder === "") console.warn("SKIPPED: checks of GRIB against real files; ATHWART_REAL_DATA names no folder.");
const real = (name: string): string => join(folder, name);

async function itemsIn(path: string): Promise<readonly GribItem[]> {
  const source = await bytesFromFile(path);
  const items: GribItem[] = [];
  for await (const item of readGribFields(source)) items.push(item);
  await source.close();
  return items;
}

function onlyFields(items: readonly GribItem[]): readonly GribField[] {
  return items.map((item) => {
    if (item.kind !== "field") throw new Error(`${item.issue.path}: ${item.issue.message}`);
    return item;
  });
}

async function valuesOf(path: string, field: GribField) {
  const decoded = await decodeGribField(bytesFromMemory(readFileSync(path)), field);
  if (!decoded.ok) throw new Error(JSON.stringify(decoded.issues));
  return decoded.value;
}

const GFS_GLOBAL = "wind/gfs_1deg_10m_template5_0.grib2";

interface ReadFile {
  readonly file: string;
  readonly fields: number;
  readonly roles: readonly string[];
  readonly placeToleranceDeg?: number;
}

const WIND = ["windEastMps", "windNorthMps"];
const CURRENT = ["currentEastMps", "currentNorthMps"];
const WAVES_WITH_TWO_SWELLS = [
  ...WIND,
  "windSpeedMps",
  "windFromDeg",
  "seaHeightMetres",
  "seaPeriodSeconds",
  "seaFromDeg",
  "windSeaHeightMetres",
  "windSeaPeriodSeconds",
  "windSeaFromDeg",
  "swellHeightMetres",
  "swellPeriodSeconds",
  "swellFromDeg",
  "secondSwellHeightMetres",
  "secondSwellPeriodSeconds",
  "secondSwellFromDeg",
];
const THIRD_SWELL = ["thirdSwellHeightMetres", "thirdSwellPeriodSeconds", "thirdSwellFromDeg"];

const READ: readonly ReadFile[] = [
  { file: GFS_GLOBAL, fields: 2, roles: WIND },
  { file: "wind/gfs_1deg_10m_template5_2.grib2", fields: 2, roles: WIND },
  { file: "wind/gfs_1deg_10m_template5_3.grib2", fields: 2, roles: WIND },
  { file: "wind/gdas_1deg_10m_20210831.grib2", fields: 2, roles: WIND },
  { file: "wind/constant_field.grb", fields: 1, roles: ["windEastMps"] },
  { file: "wind/gfs_0p25_10m_europe_20170720_f001.grib2", fields: 2, roles: WIND },
  // Its steps are 17e-6 degrees too long for its corners. The corners are the axes of the NetCDF file it was made from (26 columns
  // from -125.91998 to -123.91998); ecCodes adds up the steps and so drifts from them by 25 x 17e-6.
  {
    file: "crossing-juan-de-fuca/derived-grib2/current_simple.grib2",
    fields: 34,
    roles: CURRENT,
    placeToleranceDeg: 25 * 17e-6 + 2e-6,
  },
  { file: "crossing-juan-de-fuca/derived-grib2/wind_simple.grib2", fields: 34, roles: WIND },
  { file: "crossing-juan-de-fuca/derived-grib2/current_ccsds.grib2", fields: 34, roles: CURRENT, placeToleranceDeg: 25 * 17e-6 + 2e-6 },
  { file: "crossing-juan-de-fuca/derived-grib2/wind_ccsds.grib2", fields: 34, roles: WIND },
  { file: "crossing-juan-de-fuca/derived-grib2/current_jpeg.grib2", fields: 2, roles: CURRENT, placeToleranceDeg: 25 * 17e-6 + 2e-6 },
  { file: "crossing-juan-de-fuca/derived-grib2/wind_jpeg.grib2", fields: 2, roles: WIND },
  { file: "waves/ww3_point_series_20201209_0-180h.grib2", fields: 976, roles: WAVES_WITH_TWO_SWELLS },
  {
    file: "waves/gdaswave_wcoast_20211130_f000.grib2",
    fields: 19,
    roles: [...WAVES_WITH_TWO_SWELLS, ...THIRD_SWELL],
    placeToleranceDeg: 1e-4,
  },
  {
    file: "waves/gfswave_atlocn_20230823_f001.grib2",
    fields: 19,
    roles: [...WAVES_WITH_TWO_SWELLS, ...THIRD_SWELL],
    placeToleranceDeg: 2e-4,
  },
  { file: "waves/mfwam_swell_20250806_f001.grib2", fields: 1, roles: ["swellHeightMetres"] },
  { file: "waves/ndfd_waveheight_mercator_20231130_f14.grib2", fields: 1, roles: ["windSeaHeightMetres"] },
  { file: "wind/hrrr_10u_lambert_20230722_f01.grib2", fields: 1, roles: ["windEastMps"] },
  // 154 messages, of which 27 hold two fields: u and v of one level.
  { file: "wind/nam_awp211_lambert_20180917.grib2", fields: 181, roles: [...WIND, "gustMps"] },
];

describe.skipIf(folder === "")("real GRIB files", () => {
  for (const { file, fields, roles, placeToleranceDeg } of READ) {
    test(`${file}: all ${fields} fields are read`, async () => {
      const items = onlyFields(await itemsIn(real(file)));
      expect(items.length).toBe(fields);
      const served = items.flatMap((item) => roleOf(item)?.role ?? []);
      expect([...new Set(served)].sort()).toEqual([...roles].sort());
    });

    test.skipIf(!haveEccodes)(`${file}: every value of every field where ecCodes has it`, async () => {
      const path = real(file);
      const bytes = bytesFromMemory(readFileSync(path));
      const points = pointsByEccodes(path);
      const items = onlyFields(await itemsIn(path));
      expect(points.length).toBe(items.length);
      for (const [i, field] of items.entries()) {
        const read = await decodeGribField(bytes, field);
        if (!read.ok) throw new Error(JSON.stringify(read.issues));
        expectSameAsEccodes(field, read.value, points[i]!, placeToleranceDeg);
      }
    });
  }

  test.skipIf(!haveEccodes)("run, parameter, level and times of every GRIB2 field are ecCodes'", async () => {
    const keys = [
      "discipline",
      "parameterCategory",
      "parameterNumber",
      "typeOfFirstFixedSurface:i",
      "centre:i",
      "dataDate",
      "dataTime",
      "validityDate",
      "validityTime",
    ];
    const clock = (at: number): readonly string[] => {
      const iso = new Date(at * 1000).toISOString();
      return [iso.slice(0, 10).replaceAll("-", ""), String(Number(iso.slice(11, 13) + iso.slice(14, 16)))];
    };
    let held = 0;
    for (const { file } of READ) {
      const items = await itemsIn(real(file));
      const theirs = keysByEccodes(real(file), keys);
      expect([file, items.length]).toEqual([file, theirs.length]);
      for (const [i, item] of items.entries()) {
        const product = item.kind === "field" ? item : item.product;
        if (product === null) throw new Error(`${file} ${JSON.stringify(item)}`);
        const { discipline, category, number, level, centre, referenceAt, validAt } = product;
        const ours = [discipline, category, number, level.type, centre, ...clock(referenceAt), ...clock(validAt)].map(String);
        expect([file, i, ...ours]).toEqual([file, i, ...theirs[i]!]);
        held++;
      }
    }
    expect(held).toBeGreaterThan(1000);
  });

  test("GFS 1 degree: the values that wgrib2 gave, single precision to six figures, in the message's order from the north", async () => {
    const items = onlyFields(await itemsIn(real(GFS_GLOBAL)));
    for (const [field, csv] of [
      [items[0]!, "wind/gfs_1deg_10m_expected_ugrd.csv"],
      [items[1]!, "wind/gfs_1deg_10m_expected_vgrd.csv"],
    ] as const) {
      const expected = readFileSync(real(csv), "utf8").trim().split("\n").map(Number);
      const { values } = await valuesOf(real(GFS_GLOBAL), field);
      expect(expected.length).toBe(360 * 181);
      const different = expected.filter((value, k) => {
        const ours = values[(180 - Math.floor(k / 360)) * 360 + (k % 360)]!;
        return Number(Math.fround(ours).toPrecision(6)) !== value;
      });
      expect(different.length).toBe(0);
    }
  });

  test("GFS over Europe lies across Greenwich, unwrapped", async () => {
    const [field] = onlyFields(await itemsIn(real("wind/gfs_0p25_10m_europe_20170720_f001.grib2")));
    const { latitudesDeg, longitudesDeg } = axesOf(latLonGridOf(field!));
    expect([latitudesDeg[0], latitudesDeg.at(-1), longitudesDeg[0], longitudesDeg[40], longitudesDeg.at(-1)]).toEqual([
      35.75, 60, -10, 0, 19,
    ]);
  });

  test("a real file cut at any of its thousandths gives what is whole, and says where it ends", async () => {
    const path = real("crossing-juan-de-fuca/derived-grib2/current_simple.grib2");
    expect(existsSync(path)).toBe(true);
    const whole = new Uint8Array(readFileSync(path));
    for (let part = 1; part < 1000; part += 13) {
      const cut = whole.subarray(0, Math.floor((whole.length * part) / 1000));
      let fields = 0;
      let told: string | null = null;
      let end = 0;
      for await (const item of readGribFields(bytesFromMemory(cut))) {
        if (item.kind === "field") {
          fields++;
          end = item.data.offsetBytes + item.data.lengthBytes + 4;
        } else told = item.issue.code;
      }
      expect([part, fields > 0 || part < 30, end <= cut.length]).toEqual([part, true, true]);
      expect([part, told]).toEqual([part, end === cut.length ? null : "file-truncated"]);
    }
  });
});

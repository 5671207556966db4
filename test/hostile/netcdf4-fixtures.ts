/** Small NetCDF-4 files, written by h5wasm: plain and packed in chunks, with new and with old object headers, groups, a map. */
import * as h5wasm from "h5wasm";
import { HOUR, JUNE } from "../formats/forecast/sample-files.ts";
import { type Hdf5ToWrite, scale, writtenHdf5 } from "../formats/netcdf/netcdf4-sample.ts";
import type { Fixture } from "./fixture.ts";

const LATITUDES = Float64Array.of(40, 41, 42);
const LONGITUDES = Float64Array.of(-10, -9, -8, -7);
const HOURS = Float64Array.of(0, 3, 6);
const SHAPE = [3, 3, 4];
const AXES = ["time", "lat", "lon"] as const;

function axes(file: Hdf5ToWrite, isRecord: boolean): void {
  const time = file.create_dataset({ name: "time", data: HOURS, shape: [3], ...(isRecord ? { maxshape: [null], chunks: [3] } : {}) });
  time.create_attribute("units", "hours since 2030-06-01");
  file.create_dataset({ name: "lat", data: LATITUDES }).create_attribute("units", "degrees_north");
  file.create_dataset({ name: "lon", data: LONGITUDES }).create_attribute("units", "degrees_east");
  AXES.forEach((name, id) => void scale(file, name, name, id));
}

type Stored = Float32Array | Int16Array;

function field(
  file: Hdf5ToWrite,
  name: string,
  standardName: string,
  units: string,
  data: Stored,
  isPacked: boolean,
  group?: string,
): void {
  const where = group === undefined ? file : file.get(group);
  if (!(where instanceof h5wasm.Group)) throw new Error(`no group ${group}`);
  const chunked = isPacked ? { chunks: [2, 2, 3], compression: "gzip" as const, compression_opts: 6 } : {};
  const one = where.create_dataset({ name, data, shape: SHAPE, ...chunked });
  AXES.forEach((axis, at) => void one.attach_scale(at, `/${axis}`));
  one.create_attribute("standard_name", standardName);
  one.create_attribute("units", units);
  if (data instanceof Int16Array) {
    one.create_attribute("scale_factor", 0.01, [1], "<d");
    one.create_attribute("_FillValue", -32000, [1], "<h");
  } else one.create_attribute("_FillValue", 1e20, [1], "<f");
}

const floats = (value: (i: number) => number): Float32Array => Float32Array.from({ length: 36 }, (_, i) => value(i));
const shorts = (value: (i: number) => number): Int16Array => Int16Array.from({ length: 36 }, (_, i) => value(i));

const FILES: Readonly<Record<string, (file: Hdf5ToWrite) => void>> = {
  plain: (file) => {
    axes(file, false);
    field(
      file,
      "u10",
      "eastward_wind",
      "m s-1",
      floats((i) => i / 4),
      false,
    );
    field(
      file,
      "v10",
      "northward_wind",
      "m s-1",
      floats((i) => 3 - i / 9),
      false,
    );
  },
  "packed in chunks": (file) => {
    file.create_attribute("title", "made for a test");
    axes(file, true);
    field(
      file,
      "uo",
      "eastward_sea_water_velocity",
      "m s-1",
      shorts((i) => (i === 5 ? -32000 : i * 3)),
      true,
    );
    field(
      file,
      "vo",
      "northward_sea_water_velocity",
      "cm/s",
      shorts((i) => i * 90),
      true,
    );
  },
  "waves in a group": (file) => {
    axes(file, false);
    file.create_group("wave");
    field(
      file,
      "hs",
      "sea_surface_wave_significant_height",
      "m",
      floats((i) => i / 8),
      true,
      "wave",
    );
    field(
      file,
      "tp",
      "sea_surface_wave_period_at_variance_spectral_density_maximum",
      "s",
      floats((i) => 4 + i / 8),
      false,
      "wave",
    );
  },
};

/** Every NetCDF-4 file that is mutated. */
export async function netcdf4Fixtures(): Promise<readonly Fixture[]> {
  const crop = { southDeg: 40.2, northDeg: 41.4, westDeg: -9.4, eastDeg: -8.2, from: JUNE, until: JUNE + 3 * HOUR };
  const fixtures: Fixture[] = [];
  // The library writes down when an object was made: mutations of a number are to be the same at any time.
  const clock = Date.now;
  Date.now = () => JUNE * 1000;
  try {
    await fill(fixtures, crop);
  } finally {
    Date.now = clock;
  }
  return fixtures;
}

async function fill(fixtures: Fixture[], crop: Fixture["crop"]): Promise<void> {
  for (const [name, write] of Object.entries(FILES)) {
    const add = (more: string, bytes: Uint8Array): void =>
      void fixtures.push({ name: `NetCDF-4, ${name}${more}`, structure: "hdf5", bytes, crop });
    add("", await writtenHdf5(write));
    add(", old headers", await writtenHdf5(write, { keepsOrder: false }));
  }
}

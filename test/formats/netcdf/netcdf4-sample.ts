import * as h5wasm from "h5wasm";

export type Hdf5ToWrite = InstanceType<typeof h5wasm.File>;

/**
 * The bytes of an HDF5 file that `fill` writes, by h5wasm in its writing mode, to a new file or onto the bytes `from`. Where order is kept
 * the object headers are of the newer kind, with checksums; else of the older.
 */
export async function writtenHdf5(
  fill: (file: Hdf5ToWrite) => void,
  { from, keepsOrder = true }: { readonly from?: Uint8Array; readonly keepsOrder?: boolean } = {},
): Promise<Uint8Array> {
  const { FS } = await h5wasm.ready;
  const path = "/written.nc";
  if (from) FS.writeFile(path, from);
  const file = new h5wasm.File(path, from ? "a" : "w", keepsOrder ? { track_order: true } : { libver: ["earliest", "latest"] });
  try {
    fill(file);
  } finally {
    file.close();
  }
  const bytes = Uint8Array.from(FS.readFile(path));
  FS.unlink(path);
  return bytes;
}

/** A value that tells its own place. */
export const counted = (length: number): number[] => Array.from({ length }, (_, index) => index);

/**
 * A small forecast as netCDF-4 lays it out: record dimension `time` of 4, `lat` of 3, `lon` of 5, `part` of 2 that is a dimension alone,
 * and `u` packed as shorts in chunks, each of `u`'s values its place.
 */
export function writtenForecast(keepsOrder = true): Promise<Uint8Array> {
  return writtenHdf5(
    (file) => {
      file.create_attribute("title", "made for a test");
      const time = file.create_dataset({ name: "time", data: Float64Array.of(0, 3, 6, 9), shape: [4], maxshape: [null], chunks: [4] });
      time.create_attribute("units", "hours since 2030-06-01");
      file.create_dataset({ name: "lat", data: Float32Array.of(10, 11, 12) });
      file.create_dataset({ name: "lon", data: Float32Array.of(1, 2, 3, 4, 5) });
      file.create_dataset({ name: "part", data: new Float32Array(2) });
      const names = ["time", "lat", "lon"] as const;
      scale(file, "time", "time", 0);
      scale(file, "lat", "lat", 1);
      scale(file, "lon", "lon", 2);
      scale(file, "part", "This is a netCDF dimension but not a netCDF variable         2", 3);
      const u = file.create_dataset({
        name: "u",
        data: Int16Array.from(counted(60)),
        shape: [4, 3, 5],
        maxshape: [null, 3, 5],
        chunks: [2, 2, 3],
        compression: "gzip",
        compression_opts: 6,
      });
      names.forEach((name, axis) => void u.attach_scale(axis, name));
      u.create_attribute("scale_factor", 0.01, [1], "<d");
      u.create_attribute("_FillValue", -32000, [1], "<h");
      u.create_attribute("long_name", "a current");
      const share = file.create_dataset({ name: "share", data: Float64Array.of(0.25, 0.75) });
      share.attach_scale(0, "part");
    },
    { keepsOrder },
  );
}

/** Makes a dataset a dimension scale, with netCDF-4's number. */
export function scale(file: Hdf5ToWrite, name: string, scaleName: string, id: number): void {
  const dataset = datasetOf(file, name);
  dataset.make_scale(scaleName);
  dataset.create_attribute("_Netcdf4Dimid", id, [], "<i");
}

export function datasetOf(file: Hdf5ToWrite, name: string): h5wasm.Dataset {
  const dataset = file.get(name);
  if (!(dataset instanceof h5wasm.Dataset)) throw new Error(`no dataset ${name}`);
  return dataset;
}

/** Where a text stands for the first time; −1 for nowhere. */
export function indexOfText(bytes: Uint8Array, text: string): number {
  const wanted = new TextEncoder().encode(text);
  return bytes.findIndex((_, at) => wanted.every((byte, index) => bytes[at + index] === byte));
}

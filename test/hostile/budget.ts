import { bytesFromMemory } from "../../src/formats/bytes/index.ts";
import { MAX_GRIB_POINTS, readGribFields } from "../../src/formats/grib/index.ts";
import type { Work } from "./counted-work.ts";
import type { Structure } from "./fixture.ts";

/**
 * Every byte may be asked for so many times over: to tell the file's kind (twice), for its header, for its values, once more where windows
 * of reading lie across one another or a bitmap serves two fields, and some room.
 */
const TIMES_OVER = 6;

/**
 * GRIB: what the decoding of a point takes. Packed, in the grid's order and marked (18 bytes), kept as two components (9), placed on a map
 * with its north (25); and the copies that are made on the way.
 */
const BYTES_PER_POINT = 64;
/** Fields are said in some hundred bytes each, JPEG 2000 keeps tables of 34 kB for each, and there may be as many as fit. */
const BYTES_PER_FILE_BYTE = 512;
/** NetCDF: each byte of a file may be a value, which is kept as 8 bytes some times over. */
const BYTES_PER_VALUE_BYTE = 64;
const SPARE_BYTES = 16_384;

/**
 * What a reading may ask and take. GRIB's points are those that the fields say they have, a field of one value takes no room for them, so
 * that a file of 200 bytes can soundly hold millions; together they may not pass three of the largest grids and a thousand for each byte
 * (`Allowance` of the reader). NetCDF-4: the HDF5 library's own memory, which holds at most 2 GiB and is not filled unless there are bytes
 * to fill it with, is not counted; the library's code of 4 MB is, which is loaded again after a fault.
 */
export async function budgetOf(structure: Structure, bytes: Uint8Array): Promise<Work> {
  const askedBytes = TIMES_OVER * bytes.length;
  if (structure === "netcdf") return { askedBytes, allocatedBytes: SPARE_BYTES + BYTES_PER_VALUE_BYTE * bytes.length };
  if (structure === "hdf5") return { askedBytes, allocatedBytes: 4_000_000 + SPARE_BYTES + BYTES_PER_VALUE_BYTE * bytes.length };
  let points = 0;
  for await (const item of readGribFields(bytesFromMemory(bytes))) if (item.kind === "field") points += item.pointCount;
  const most = 3 * MAX_GRIB_POINTS + 1000 * bytes.length;
  return { askedBytes, allocatedBytes: SPARE_BYTES + BYTES_PER_FILE_BYTE * bytes.length + BYTES_PER_POINT * Math.min(points, most) };
}

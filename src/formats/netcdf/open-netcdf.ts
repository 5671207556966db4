import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { isNetcdfClassic, readClassicHeader } from "./classic/read-header.ts";
import { readClassicVariable } from "./classic/read-variable.ts";
import type { NetcdfFile } from "./netcdf-types.ts";
import { openNetcdf4 } from "./netcdf4/open-netcdf4.ts";

const SIGNATURE_BYTES = 8;

/** Whether the first bytes are the HDF5 signature, which NetCDF-4 files begin with. */
export function isHdf5(firstBytes: Uint8Array): boolean {
  return [0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a].every((byte, index) => firstBytes[index] === byte);
}

/**
 * Opens a NetCDF file, classic or NetCDF-4: its header is read and held against the file. `name` is the path of issues. The one who opens
 * closes.
 */
export async function openNetcdf(source: ByteSource, name: string): Promise<Parsed<NetcdfFile>> {
  const start = await source.read(0, Math.min(SIGNATURE_BYTES, source.sizeBytes));
  if (isHdf5(start)) return await openNetcdf4(source, name);
  if (!isNetcdfClassic(start)) return bad(issue(name, "file-not-recognised", "This is no NetCDF file."));
  const header = await readClassicHeader(source, name);
  if (!header.ok) return header;
  return good({
    kind: "netcdf-classic",
    header: header.value,
    read: (variable, slab) => readClassicVariable(source, header.value, variable, slab),
    close: () => {},
  });
}

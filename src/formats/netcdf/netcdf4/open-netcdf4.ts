import { bad, good, type Parsed } from "../../../core/answers/index.ts";
import type { ByteSource } from "../../bytes/index.ts";
import type { NetcdfFile } from "../netcdf-types.ts";
import { issueOfFault } from "./hdf5-fault.ts";
import { Hdf5Session } from "./hdf5-session.ts";
import { nowBytes } from "./now-bytes.ts";
import { readBlock } from "./read-block.ts";
import { readHeader } from "./read-header.ts";

/**
 * Opens a NetCDF-4 file, which is HDF5, by the HDF5 library: a few kilobytes are read of it, or all of a source that can't be read at
 * once. `file-lies`, `file-truncated`, `file-too-large`.
 */
export async function openNetcdf4(source: ByteSource, name: string): Promise<Parsed<NetcdfFile>> {
  const bytes = await nowBytes(source, name);
  if (!bytes.ok) return bytes;
  let session: Hdf5Session | null = null;
  try {
    const opened = await Hdf5Session.open(bytes.value);
    session = opened;
    const header = readHeader(opened, bytes.value);
    return good({
      kind: "netcdf4",
      header,
      read: async (variable, slab) => readBlock(opened, header, variable, slab),
      close: () => opened.close(),
    });
  } catch (fault) {
    session?.close();
    return bad(issueOfFault(fault, name, "This NetCDF-4 file"));
  }
}

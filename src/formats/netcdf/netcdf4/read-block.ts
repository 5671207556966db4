import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { checkedBlock } from "../block.ts";
import { bytesOfType, emptyValues, type Hyperslab, type NetcdfValues } from "../netcdf-types.ts";
import { Hdf5Fault, issueOfFault } from "./hdf5-fault.ts";
import type { Hdf5Session } from "./hdf5-session.ts";
import { eachRun, piecesOf } from "./pieces.ts";
import type { StoredHeader, StoredVariable } from "./read-header.ts";

/** The most that one read gives, bytes. What a file says of its lengths costs it nothing: unwritten values take no room in it. */
export const LARGEST_BLOCK_BYTES = 512 * 1024 * 1024;
/** Larger chunks are not unpacked, bytes: the whole of one has to stand in memory, packed and unpacked. Usual ones have a few MB at most. */
export const LARGEST_CHUNK_BYTES = 64 * 1024 * 1024;
/** How much is taken from the library at a time, bytes. */
const PIECE_BYTES = 8 * 1024 * 1024;

/**
 * A block of a variable, as stored. `file-lies` where the library can't read it, `packing-not-read` for a filter that it lacks and for
 * values in other files, `file-too-large` beyond the two bounds above. Throws for an unknown name or a block outside the shape.
 */
export function readBlock(session: Hdf5Session, header: StoredHeader, name: string, slab?: Hyperslab): Parsed<NetcdfValues> {
  const variable = header.variables.get(name);
  if (!variable) throw new Error(`no variable ${JSON.stringify(name)} in this file`);
  const block = checkedBlock(variable, slab);
  const width = bytesOfType[variable.type];
  const total = block.count.reduce((product, many) => product * many, 1);
  if (total * width > LARGEST_BLOCK_BYTES) {
    return bad(issue(name, "file-too-large", `"${name}" has ${total} values where ${LARGEST_BLOCK_BYTES / width} are read at once.`));
  }
  const chunkBytes = (variable.chunks ?? []).reduce((product, length) => product * length, width);
  if (chunkBytes > LARGEST_CHUNK_BYTES) {
    const message = `"${name}" is packed in chunks of ${chunkBytes} bytes; ${LARGEST_CHUNK_BYTES} is the most.`;
    return bad(issue(name, "file-too-large", message, "Ask for the file in smaller chunks, or for a smaller area."));
  }
  if (variable.isElsewhere) {
    const message = `The values of "${name}" lie in other files.`;
    return bad(issue(name, "packing-not-read", message, "Ask for one file that holds its values itself."));
  }
  const out = emptyValues(variable.type, total);
  const bytes = new Uint8Array(out.buffer);
  const written = writtenPart(block, variable.storedShape);
  if (written.count.some((many, axis) => many < block.count[axis]!)) fillWith(bytes, variable.fillBytes);
  if (written.count.includes(0)) return good(out);
  try {
    for (const piece of piecesOf(written, variable.chunks, PIECE_BYTES / width)) {
      const got = readPiece(session, variable, piece, width);
      eachRun(block, piece, (inPiece, inBlock, values) =>
        bytes.set(got.subarray(inPiece * width, (inPiece + values) * width), inBlock * width),
      );
    }
    return good(out);
  } catch (fault) {
    return bad(lackedFilter(session, variable, fault) ?? issueOfFault(fault, name, `The data of "${name}"`));
  }
}

function readPiece(session: Hdf5Session, variable: StoredVariable, piece: Hyperslab, width: number): Uint8Array {
  const bytes = piece.count.reduce((product, many) => product * many, width);
  const isScalar = piece.count.length === 0;
  const wide = (numbers: readonly number[]): bigint[] | null => (isScalar ? null : numbers.map(BigInt));
  const read = session.run((module, file) =>
    session.withMemory(module, bytes, (pointer) => {
      const strides = piece.count.map(() => 1);
      const { path } = variable;
      const status = module.get_dataset_data(file, path, wide(piece.count), wide(piece.start), wide(strides), BigInt(pointer));
      return status < 0 ? null : module.HEAPU8.slice(pointer, pointer + bytes);
    }),
  );
  if (read === null) throw new Hdf5Fault([]);
  return read;
}

/** The part of a block that the file has values for. */
function writtenPart(block: Hyperslab, storedShape: readonly number[]): Hyperslab {
  return {
    start: block.start,
    count: block.count.map((many, axis) => Math.max(0, Math.min(many, storedShape[axis]! - block.start[axis]!))),
  };
}

function fillWith(bytes: Uint8Array, fill: Uint8Array): void {
  if (fill.every((byte) => byte === 0)) return;
  for (let at = 0; at < bytes.length; at += fill.length) bytes.set(fill, at);
}

/** The issue where the library lacks a filter that the values went through; null for any other fault. */
function lackedFilter(session: Hdf5Session, variable: StoredVariable, fault: unknown) {
  if (!(fault instanceof Hdf5Fault)) return null;
  const lacked = /filter '?(.*?)'? is not registered|filter.*(?:not available|not registered)/.exec(fault.complaints.join("\n"));
  if (lacked === null) return null;
  const filters = session.run((module, file) => module.get_dataset_filters(file, variable.path));
  const names = filters.map(({ id, name }) => (name === "" ? `number ${id}` : name)).join(", ");
  const message = `"${variable.name}" is packed by a filter that is not read here (its filters: ${names}).`;
  return issue(
    variable.name,
    "packing-not-read",
    message,
    "Ask for the same file with deflate packing, which every NetCDF-4 reader knows.",
  );
}

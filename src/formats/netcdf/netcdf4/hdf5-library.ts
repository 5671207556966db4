/** What the library says of a datatype and a dataspace. Lengths beyond 2^53 are rounded to doubles; unlimited ones are 2^64. */
export interface Hdf5Facts {
  readonly type: number;
  readonly size: number;
  readonly signed: boolean;
  readonly littleEndian: boolean;
  /** A string of variable length. */
  readonly vlen: boolean;
  readonly strpad?: number;
  readonly total_size: number;
  /** Null: a dataspace that holds nothing. */
  readonly shape: readonly number[] | null;
  readonly maxshape: readonly number[] | null;
  readonly chunks: readonly number[] | null;
  readonly vlen_type?: { readonly type: number; readonly size: number };
  readonly virtual_sources?: readonly unknown[];
}

/** Datatype classes (HDF5 file format specification, IV.A.2.d). */
export const HDF5_CLASS = { integer: 0, float: 1, string: 3, reference: 7, varied: 9 } as const;

/** Kinds of object that `get_type` tells apart. */
export const HDF5_OBJECT = { group: 0, dataset: 1 } as const;

/** A node of the library's own file system. */
export interface Hdf5Node {
  readonly id: number;
  readonly mode: number;
  node_ops: object;
  stream_ops: object;
}

/** What is used of the library's own file system. */
export interface Hdf5FileSystem {
  readonly ErrnoError: new (errno: number) => Error;
  mkdir(path: string): unknown;
  mount(type: object, options: object, path: string): unknown;
  unmount(path: string): void;
  getStreamChecked: (handle: number) => unknown;
  createNode(parent: Hdf5Node | null, name: string, mode: number, device: number): Hdf5Node;
}

/** What is used of the library. Handles, counts and pointers to data go in as BigInt. */
export interface Hdf5Module {
  readonly HEAPU8: Uint8Array;
  readonly FS: Hdf5FileSystem;
  _malloc(bytes: number): number;
  _free(pointer: number): void;
  open(path: string, mode: number, trackOrder: boolean, lowVersion: number, highVersion: number): bigint;
  close_file(file: bigint): number;
  get_names(file: bigint, group: string, recursive: boolean): string[];
  get_type(file: bigint, path: string): number;
  get_external_link(file: bigint, path: string): { readonly filename?: string };
  create_object_reference(file: bigint, path: string): readonly number[];
  get_attribute_names(file: bigint, path: string): string[];
  get_attribute_metadata(file: bigint, path: string, name: string): Hdf5Facts;
  get_attribute_data(file: bigint, path: string, name: string, pointer: bigint): number;
  reclaim_vlen_memory(file: bigint, path: string, attribute: string, pointer: bigint): number;
  get_dataset_metadata(file: bigint, path: string): Hdf5Facts;
  get_dataset_filters(file: bigint, path: string): readonly { readonly id: number; readonly name: string }[];
  get_dataset_data(
    file: bigint,
    path: string,
    count: readonly bigint[] | null,
    offset: readonly bigint[] | null,
    strides: readonly bigint[] | null,
    pointer: bigint,
  ): number;
}

/** One running copy of the library, for one file at a time. */
export interface Hdf5Library {
  readonly module: Hdf5Module;
  /** What it wrote to its standard error since this was last emptied: the one sign of many failures. */
  readonly complaints: string[];
  /** It wanted more memory than it is given, and is of no more use. */
  readonly isOutgrown: boolean;
}

/** The most memory that the library is given, bytes. What a file packs into a few kilobytes can be endless. */
export const LARGEST_MEMORY_BYTES = 320 * 1024 * 1024;

/** A copy whose memory has grown beyond this is not kept: it can't shrink. A fresh one has 19 MB. */
const KEPT_MEMORY_BYTES = 64 * 1024 * 1024;
/** So many lines tell what went wrong; damaged files can give rise to thousands. */
const MOST_COMPLAINTS = 400;

interface Options {
  readonly noInitialRun: true;
  readonly print: (line: string) => void;
  readonly printErr: (line: string) => void;
  HEAPU8: Uint8Array;
}

interface Glue {
  /** Makes a copy of the library out of the very object that it is given. */
  readonly default: (options: Options) => Promise<Hdf5Module>;
}

let idle: Hdf5Library | null = null;

/**
 * A copy of the HDF5 library as h5wasm carries it. The package's door gives one copy for the life of the program; its glue, beside
 * the door, makes as many as are asked for, which is needed where a damaged file has broken one. Loaded here and not before.
 */
export async function takeHdf5(): Promise<Hdf5Library> {
  if (idle !== null) {
    const library = idle;
    idle = null;
    return library;
  }
  const glue: Glue = await import(new URL("./hdf5_util.js", import.meta.resolve("h5wasm")).href);
  const complaints: string[] = [];
  let memory: Uint8Array = new Uint8Array(0);
  let isOutgrown = false;
  const module = await glue.default({
    noInitialRun: true,
    print: () => {},
    printErr: (line) => {
      if (complaints.length < MOST_COMPLAINTS) complaints.push(line);
    },
    get HEAPU8() {
      return memory;
    },
    // Set anew whenever the memory has grown; new memory takes no room until it is written to. A throw makes the library's request fail...
    set HEAPU8(grown) {
      memory = grown;
      isOutgrown ||= grown.length > LARGEST_MEMORY_BYTES;
      if (isOutgrown) throw new Error(`the HDF5 library wanted ${grown.length} bytes`);
    },
  });
  // ...whereupon it goes for a file, if only to complain: there it is stopped for good.
  const { FS: files } = module;
  const streamOf = files.getStreamChecked.bind(files);
  files.getStreamChecked = (handle) => {
    if (isOutgrown) throw new Error("the HDF5 library has outgrown its memory");
    return streamOf(handle);
  };
  return {
    module,
    complaints,
    get isOutgrown() {
      return isOutgrown;
    },
  };
}

/** Keeps a sound copy for the next file. */
export function giveBackHdf5(library: Hdf5Library): void {
  if (library.module.HEAPU8.length <= KEPT_MEMORY_BYTES) idle ??= library;
}

import { BadInput } from "../../../core/answers/index.ts";
import { Hdf5Fault, Hdf5TooLarge } from "./hdf5-fault.ts";
import { giveBackHdf5, type Hdf5Library, type Hdf5Module, LARGEST_MEMORY_BYTES, takeHdf5 } from "./hdf5-library.ts";
import { MOUNTED_PATH, type MountedBytes, mountBytes, Runaway } from "./mount-bytes.ts";
import type { NowBytes } from "./now-bytes.ts";

const READ_ONLY = 0;
const DEFAULT_VERSION = -1;

/**
 * One file in one copy of the HDF5 library. Whatever goes wrong in a call, in words, by an exception or by a trap, is an `Hdf5Fault`.
 * After an exception or a trap nothing more is read of the file; after any fault the copy serves no other file.
 */
export class Hdf5Session {
  readonly #library: Hdf5Library;
  readonly #mounted: MountedBytes;
  #file = -1n;
  /** What broke the copy; null while it can be called. */
  #broken: string | null = null;
  /** No call has failed yet: only then is the copy surely clear of this file once it is closed. */
  #isSound = true;
  #isClosed = false;

  private constructor(library: Hdf5Library, mounted: MountedBytes) {
    this.#library = library;
    this.#mounted = mounted;
  }

  /** Rejects with an `Hdf5Fault` or `Hdf5TooLarge` where the file can't be opened. */
  static async open(source: NowBytes): Promise<Hdf5Session> {
    const library = await takeHdf5();
    const session = new Hdf5Session(library, mountBytes(library.module.FS, source));
    try {
      session.run((module) => {
        session.#file = module.open(MOUNTED_PATH, READ_ONLY, false, DEFAULT_VERSION, DEFAULT_VERSION);
      });
      if (session.#file < 0n) throw new Hdf5Fault([]);
    } catch (error) {
      session.close();
      throw error;
    }
    return session;
  }

  /** Calls the library. What the source throws comes through as it is. */
  run<T>(call: (module: Hdf5Module, file: bigint) => T): T {
    if (this.#isClosed) throw new Error("the NetCDF-4 file is closed");
    if (this.#broken !== null) throw new Hdf5Fault([], this.#broken);
    const { module, complaints } = this.#library;
    complaints.length = 0;
    this.#mounted.refill();
    let result: T;
    try {
      result = call(module, this.#file);
    } catch (error) {
      this.#isSound = false;
      this.#broken = wordsOf(error);
      this.#throwIfOutgrown();
      if (error instanceof BadInput || isOfSystem(error)) throw error;
      throw new Hdf5Fault(error instanceof Runaway ? [] : [...complaints], this.#broken);
    }
    this.#throwIfOutgrown();
    if (complaints.length > 0) {
      this.#isSound = false;
      throw new Hdf5Fault([...complaints]);
    }
    return result;
  }

  #throwIfOutgrown(): void {
    if (!this.#library.isOutgrown) return;
    this.#isSound = false;
    this.#broken = `it takes more than ${LARGEST_MEMORY_BYTES} bytes of memory to unpack`;
    throw new Hdf5TooLarge(this.#broken);
  }

  /** Memory of the library's for as long as `use` runs. */
  withMemory<T>(module: Hdf5Module, bytes: number, use: (pointer: number) => T): T {
    const pointer = module._malloc(Math.max(bytes, 1));
    if (pointer === 0) throw new Hdf5Fault([], `there is no room for ${bytes} bytes`);
    try {
      return use(pointer);
    } finally {
      module._free(pointer);
    }
  }

  close(): void {
    if (this.#isClosed) return;
    try {
      if (this.#file >= 0n && this.#broken === null) this.run((module, file) => module.close_file(file));
      if (this.#isSound) {
        this.#mounted.unmount();
        giveBackHdf5(this.#library);
      }
    } catch (error) {
      if (!(error instanceof Hdf5Fault || error instanceof Hdf5TooLarge)) throw error;
    } finally {
      this.#isClosed = true;
    }
  }
}

/** An error of the operating system's, such as a disk that fails: it has nothing to do with what the file holds. */
function isOfSystem(error: unknown): boolean {
  return error instanceof Error && "syscall" in error;
}

function wordsOf(error: unknown): string {
  // A C++ exception comes as a number, or as an object that tells nothing.
  if (!(error instanceof Error)) return "the HDF5 library gave up";
  return /name not defined/.test(error.message) ? "something that it names is not there" : error.message;
}

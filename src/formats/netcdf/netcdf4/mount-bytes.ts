import { GlobalHeapWatch } from "./global-heap.ts";
import type { Hdf5FileSystem, Hdf5Node } from "./hdf5-library.ts";
import type { NowBytes } from "./now-bytes.ts";

/** Where the library finds the file. */
export const MOUNTED_PATH = "/athwart/file";
const FOLDER = "/athwart";

const FOLDER_MODE = 0o040555;
const FILE_MODE = 0o100444;
/** POSIX numbers as the library's own C runtime has them. */
const NO_SUCH_FILE = 44;

/** Reading may go over the file this often and no more, in one call of the library: a damaged file can send it in a circle. */
const MOST_TIMES_OVER = 4;
const SPARE_BYTES = 16 * 1024 * 1024;
const SPARE_READS = 100_000;
/** The smallest piece that a sound file is read by, on the whole: one value and its entry in an index. */
const LEAST_PIECE_BYTES = 16;

/** Thrown through the library, to keep it from what it would never come back from; it is then of no more use. */
export class Runaway extends Error {}

/** A file that the library sees and reads, piece by piece. */
export interface MountedBytes {
  /** The next call of the library may read as much as any. */
  refill(): void;
  unmount(): void;
}

/** Puts the bytes where the library finds them as a file; nothing is read yet. */
export function mountBytes(files: Hdf5FileSystem, source: NowBytes): MountedBytes {
  const { sizeBytes } = source;
  const heaps = new GlobalHeapWatch(source);
  let bytesLeft = 0;
  let readsLeft = 0;
  const refill = (): void => {
    bytesLeft = MOST_TIMES_OVER * sizeBytes + SPARE_BYTES;
    readsLeft = sizeBytes / LEAST_PIECE_BYTES + SPARE_READS;
  };
  refill();
  const epoch = new Date(0);
  const getattr = (node: Hdf5Node) => ({
    dev: 1,
    ino: node.id,
    mode: node.mode,
    nlink: 1,
    uid: 0,
    gid: 0,
    rdev: 0,
    size: node.mode === FILE_MODE ? sizeBytes : 4096,
    atime: epoch,
    mtime: epoch,
    ctime: epoch,
    blksize: 4096,
    blocks: Math.ceil(sizeBytes / 4096),
  });
  const read = (_stream: unknown, into: Int8Array | Uint8Array, at: number, wanted: number, position: number): number => {
    const length = Math.min(wanted, sizeBytes - position);
    if (length <= 0) return 0;
    bytesLeft -= length;
    readsLeft -= 1;
    if (bytesLeft < 0 || readsLeft < 0) throw new Runaway("it reads on and on");
    // Straight into the library's memory: thousands of pieces of half a megabyte would stand about until they are collected.
    const room = new Uint8Array(into.buffer, into.byteOffset + at, length);
    const piece = source.readNow(position, length, room);
    const fault = heaps.faultIn(piece, position);
    if (fault !== null) throw new Runaway(fault);
    if (piece !== room) room.set(piece);
    return length;
  };
  const seek = (stream: { readonly position: number }, offset: number, whence: number): number =>
    whence === 1 ? stream.position + offset : whence === 2 ? sizeBytes + offset : offset;
  const type = {
    mount(): Hdf5Node {
      const root = files.createNode(null, "/", FOLDER_MODE, 0);
      root.node_ops = {
        getattr,
        lookup: () => {
          throw new files.ErrnoError(NO_SUCH_FILE);
        },
      };
      const file = files.createNode(root, "file", FILE_MODE, 0);
      file.node_ops = { getattr };
      file.stream_ops = { read, llseek: seek };
      return root;
    },
  };
  try {
    files.mkdir(FOLDER);
  } catch (error) {
    if (!(error instanceof files.ErrnoError)) throw error;
  }
  files.mount(type, {}, FOLDER);
  return { refill, unmount: () => files.unmount(FOLDER) };
}

import type { NowBytes } from "./now-bytes.ts";

/** "GCOL" and version 1. */
const SIGNATURE = [0x47, 0x43, 0x4f, 0x4c, 1] as const;
const HEAD_BYTES = 16;
const OBJECT_HEAD_BYTES = 16;
const LEAST_HEAP_BYTES = 4096;
/** Texts and lists fill a few kilobytes. */
const LARGEST_HEAP_BYTES = 64 * 1024 * 1024;
/** A collection is asked for as metadata, in pieces no larger than this, or from its own beginning. */
const LARGEST_SEARCHED_BYTES = 64 * 1024;

/**
 * Watches for global heap collections (HDF5 file format specification, version 3.0, III.E), in which texts and lists of varying length
 * lie, and holds them sound before the library walks them: at a free space of no size the library stands still for ever.
 */
export class GlobalHeapWatch {
  readonly #source: NowBytes;
  readonly #held = new Set<number>();

  constructor(source: NowBytes) {
    this.#source = source;
  }

  /** What is wrong with a collection whose beginning lies in a piece of the file that was read; null where nothing is. */
  faultIn(piece: Uint8Array, offsetBytes: number): string | null {
    const searched = piece.length > LARGEST_SEARCHED_BYTES ? piece.subarray(0, SIGNATURE.length) : piece;
    for (let at = searched.indexOf(SIGNATURE[0]); at >= 0; at = searched.indexOf(SIGNATURE[0], at + 1)) {
      const isLike = SIGNATURE.every((byte, index) => at + index >= searched.length || searched[at + index] === byte);
      const fault = isLike ? this.#faultAt(offsetBytes + at) : null;
      if (fault !== null) return fault;
    }
    // A beginning may have been read in part by the piece before.
    for (let back = 1; back < SIGNATURE.length && back <= offsetBytes; back++) {
      const fault = piece[0] === SIGNATURE[back] ? this.#faultAt(offsetBytes - back) : null;
      if (fault !== null) return fault;
    }
    return null;
  }

  #faultAt(address: number): string | null {
    const room = this.#source.sizeBytes - address;
    if (this.#held.has(address) || room < LEAST_HEAP_BYTES) return null;
    const head = this.#view(address, HEAD_BYTES);
    if (!SIGNATURE.every((byte, index) => head.getUint8(index) === byte)) return null;
    this.#held.add(address);
    const size = Number(head.getBigUint64(8, true));
    // Of another size it is none, and the library says so itself.
    if (size < LEAST_HEAP_BYTES || size > room) return null;
    if (size > LARGEST_HEAP_BYTES) return `the heap at byte ${address} takes ${size} bytes`;
    const view = this.#view(address, size);
    for (let at = HEAD_BYTES; at + OBJECT_HEAD_BYTES <= size; ) {
      const index = view.getUint16(at, true);
      const objectBytes = Number(view.getBigUint64(at + 8, true));
      const step = index === 0 ? objectBytes : OBJECT_HEAD_BYTES + Math.ceil(objectBytes / 8) * 8;
      if (step < OBJECT_HEAD_BYTES || step > size - at) return `the heap at byte ${address} has an object of ${objectBytes} bytes`;
      at += step;
    }
    return null;
  }

  #view(address: number, bytes: number): DataView {
    const read = this.#source.readNow(address, bytes);
    return new DataView(read.buffer, read.byteOffset, read.byteLength);
  }
}

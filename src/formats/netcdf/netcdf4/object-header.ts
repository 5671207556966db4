import type { NowBytes } from "./now-bytes.ts";

/** What the library's door doesn't tell of a dataset, read from its object header. */
export interface HeaderFacts {
  /** The fill value's bytes as stored; null where the file sets none of its own. */
  readonly fill: Uint8Array | null;
  /** The numbers fill their bytes as the machine's own do; false for odd precisions and floating-point layouts. */
  readonly isPlain: boolean;
  /** The values lie in other files. */
  readonly isElsewhere: boolean;
}

const MESSAGE = { datatype: 3, oldFill: 4, fill: 5, externalFiles: 7, continuation: 16 } as const;
const SHARED_FLAG = 2;
const MOST_BLOCKS = 64;
const LARGEST_BLOCK_BYTES = 1024 * 1024;

/**
 * Reads an object header (HDF5 file format specification, version 3.0, IV.A.1.a and IV.A.1.b) for three of its messages: datatype,
 * fill value and external files (IV.A.2.d, e, f, h). The library has read the header before and found it sound; null where this
 * reader does not.
 */
export function readObjectHeader(source: NowBytes, addressBytes: number): HeaderFacts | null {
  try {
    const found = new Map<number, DataView>();
    for (const [type, data] of messagesAt(source, addressBytes)) if (!found.has(type)) found.set(type, data);
    const datatype = found.get(MESSAGE.datatype);
    return {
      fill: fillOf(found.get(MESSAGE.fill), found.get(MESSAGE.oldFill)),
      isPlain: datatype === undefined || isPlainType(datatype),
      isElsewhere: found.has(MESSAGE.externalFiles),
    };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Messages by type, shared ones left out. */
function* messagesAt(source: NowBytes, addressBytes: number): Generator<readonly [number, DataView]> {
  const superblock = blockAt(source, 0, 16);
  const sizesAt = superblock.getUint8(8) < 2 ? 13 : 9;
  const offsetBytes = superblock.getUint8(sizesAt);
  const lengthBytes = superblock.getUint8(sizesAt + 1);
  const prefix = blockAt(source, addressBytes, 16);
  const isNew = prefix.getUint32(0) === 0x4f484452; // "OHDR"
  const flags = isNew ? prefix.getUint8(5) : 0;
  const blocks: { at: number; bytes: number }[] = [];
  if (isNew) {
    const sizeAt = 6 + (flags & 0x20 ? 16 : 0) + (flags & 0x10 ? 4 : 0);
    const sizeBytes = 2 ** (flags & 3);
    const size = numberAt(blockAt(source, addressBytes, sizeAt + sizeBytes), sizeAt, sizeBytes);
    blocks.push({ at: addressBytes + sizeAt + sizeBytes, bytes: size });
  } else {
    blocks.push({ at: addressBytes + 16, bytes: prefix.getUint32(8, true) });
  }
  const headBytes = isNew ? (flags & 4 ? 6 : 4) : 8;
  for (let index = 0; index < blocks.length && index < MOST_BLOCKS; index++) {
    const { at, bytes } = blocks[index]!;
    const block = blockAt(source, at, bytes);
    for (let cursor = 0; cursor + headBytes <= bytes; ) {
      const type = isNew ? block.getUint8(cursor) : block.getUint16(cursor, true);
      const size = block.getUint16(cursor + (isNew ? 1 : 2), true);
      const messageFlags = block.getUint8(cursor + (isNew ? 3 : 4));
      const data = new DataView(block.buffer, block.byteOffset + cursor + headBytes, Math.min(size, bytes - cursor - headBytes));
      cursor += headBytes + size;
      if (type === MESSAGE.continuation) {
        const next = numberAt(data, 0, offsetBytes);
        const length = numberAt(data, offsetBytes, lengthBytes);
        // The newer kind stands between a signature and a checksum.
        blocks.push(isNew ? { at: next + 4, bytes: length - 8 } : { at: next, bytes: length });
      } else if ((messageFlags & SHARED_FLAG) === 0) {
        yield [type, data];
      }
    }
  }
}

function blockAt(source: NowBytes, at: number, bytes: number): DataView {
  if (!(bytes >= 0 && bytes <= LARGEST_BLOCK_BYTES)) throw new RangeError(`a block of ${bytes} bytes`);
  const block = source.readNow(at, Math.min(bytes, Math.max(source.sizeBytes - at, 0)));
  return new DataView(block.buffer, block.byteOffset, block.byteLength);
}

function numberAt(view: DataView, at: number, bytes: number): number {
  let value = 0;
  for (let index = bytes - 1; index >= 0; index--) value = value * 256 + view.getUint8(at + index);
  return value;
}

/** IV.A.2.e and f. A size of nought means the library's own default, which says nothing. */
function fillOf(fill: DataView | undefined, oldFill: DataView | undefined): Uint8Array | null {
  if (fill === undefined) return oldFill === undefined ? null : bytesAfter(oldFill, 0);
  const version = fill.getUint8(0);
  if (version === 3) return fill.getUint8(1) & 0x20 ? bytesAfter(fill, 2) : null;
  return version <= 2 && fill.getUint8(3) === 1 ? bytesAfter(fill, 4) : null;
}

/** The bytes that stand behind their number. */
function bytesAfter(view: DataView, at: number): Uint8Array | null {
  const size = view.getUint32(at, true);
  if (size === 0 || size > view.byteLength - at - 4) return null;
  return new Uint8Array(view.buffer, view.byteOffset + at + 4, size);
}

/** IV.A.2.d: integers that fill their bytes; IEEE 754 single and double precision. Other classes are plain. */
function isPlainType(type: DataView): boolean {
  const dataClass = type.getUint8(0) & 15;
  const bits = type.getUint8(1);
  const size = type.getUint32(4, true);
  if (dataClass === 0) return type.getUint16(8, true) === 0 && type.getUint16(10, true) === size * 8;
  if (dataClass !== 1) return true;
  const laidOut = [type.getUint16(8, true), type.getUint16(10, true), ...[12, 13, 14, 15].map((at) => type.getUint8(at))];
  const wanted = size === 4 ? [0, 32, 23, 8, 0, 23] : [0, 64, 52, 11, 0, 52];
  const impliedBit = ((bits >> 4) & 3) === 2;
  const isVax = (bits & 0x41) === 0x41;
  const signAt = type.getUint8(2);
  const bias = type.getUint32(16, true);
  return (
    laidOut.every((one, index) => one === wanted[index]) &&
    impliedBit &&
    !isVax &&
    signAt === size * 8 - 1 &&
    bias === (size === 4 ? 127 : 1023)
  );
}

/** The header wants bytes that are beyond those at hand. */
export class RanOut extends Error {}

/** The header says something that cannot be. */
export class Lies extends Error {}

/** Real headers are a few kilobytes to a few hundred; one longer than this is taken for damage. */
export const LONGEST_HEADER_BYTES = 16 * 1024 * 1024;

const utf8 = new TextDecoder("utf-8");
const ALL_ONES_32 = 0xffffffff;
const ALL_ONES_64 = 0xffffffffffffffffn;

/**
 * Walks the header's bytes (big-endian, everything padded to four bytes). Throws `RanOut` at the end of the bytes at hand, and `Lies`
 * for a count that no file could hold, or not this one of `fileBytes`, and that isn't explained by its being cut off.
 */
export class HeaderCursor {
  private readonly bytes: Uint8Array;
  private readonly view: DataView;
  private readonly fileBytes: number;
  /** Counts are 64 bits wide (CDF-5). */
  private readonly wideCounts: boolean;
  private at: number;

  constructor(bytes: Uint8Array, startBytes: number, fileBytes: number, wideCounts: boolean) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.at = startBytes;
    this.fileBytes = fileBytes;
    this.wideCounts = wideCounts;
  }

  get position(): number {
    return this.at;
  }

  uint32(): number {
    const at = this.take(4);
    return this.view.getUint32(at);
  }

  uint64(): number {
    const at = this.take(8);
    const value = this.view.getBigUint64(at);
    if (value > BigInt(Number.MAX_SAFE_INTEGER)) throw new Lies(`a count or an offset of ${value} at byte ${at}`);
    return Number(value);
  }

  /** A count or a length, of whichever width the version has. */
  count(): number {
    return this.wideCounts ? this.uint64() : this.uint32();
  }

  /** A count of things of at least `leastBytes` each, which must fit in what is left of the file. */
  boundedCount(leastBytes: number, of: string): number {
    const at = this.at;
    const count = this.count();
    const leastTotal = count * leastBytes;
    if (leastTotal > this.fileBytes - this.at) {
      if (leastTotal <= LONGEST_HEADER_BYTES) throw new RanOut(`wants ${count} ${of} at byte ${at}`);
      throw new Lies(`byte ${at} promises ${count} ${of}, more than a file of ${this.fileBytes} bytes can hold`);
    }
    return count;
  }

  /** The number of records; null where the writer left it open (all ones: streaming). */
  recordCount(): number | null {
    if (!this.wideCounts) {
      const value = this.uint32();
      return value === ALL_ONES_32 ? null : value;
    }
    const at = this.take(8);
    const value = this.view.getBigUint64(at);
    if (value === ALL_ONES_64) return null;
    if (value > BigInt(Number.MAX_SAFE_INTEGER)) throw new Lies(`${value} records`);
    return Number(value);
  }

  name(of: string): string {
    const length = this.boundedCount(1, `letters in the name of ${of}`);
    if (length === 0) throw new Lies(`${of} without a name before byte ${this.at}`);
    const at = this.take(padded(length));
    return utf8.decode(this.bytes.subarray(at, at + length));
  }

  /** The bytes of `length`, and past the padding. */
  block(length: number): DataView {
    const at = this.take(padded(length));
    return new DataView(this.bytes.buffer, this.bytes.byteOffset + at, length);
  }

  text(length: number): string {
    const view = this.block(length);
    const decoded = utf8.decode(new Uint8Array(view.buffer, view.byteOffset, view.byteLength));
    const end = decoded.indexOf("\0");
    return end < 0 ? decoded : decoded.slice(0, end);
  }

  private take(bytes: number): number {
    const at = this.at;
    if (at + bytes > this.bytes.length) throw new RanOut(`wants ${bytes} bytes at ${at}`);
    this.at = at + bytes;
    return at;
  }
}

/** Up to the next multiple of four. */
export const padded = (bytes: number): number => Math.ceil(bytes / 4) * 4;

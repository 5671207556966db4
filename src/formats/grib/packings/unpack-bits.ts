/** `unpackScaled` may look at this many bytes beyond the last value's; the data must have them, whatever they hold. */
export const BITS_PADDING_BYTES = 4;

/** Bytes that `count` values of `bits` bits take. */
export function packedBytes(count: number, bits: number): number {
  return Math.ceil((count * bits) / 8);
}

/**
 * Reads `out.length` unsigned numbers of `bits` bits (1 to 32), the first bit of the first byte first, and writes
 * (`reference` + number × `step`) / `divisor`.
 *
 * `data` holds `packedBytes` bytes and `BITS_PADDING_BYTES` more. Throws where it doesn't, or where `bits` is out of range.
 */
export function unpackScaled(data: Uint8Array, bits: number, out: Float64Array, reference: number, step: number, divisor: number): void {
  const count = out.length;
  if (!(bits >= 1 && bits <= 32)) throw new Error(`bits a value: ${bits}`);
  if (data.length < packedBytes(count, bits) + BITS_PADDING_BYTES)
    throw new Error(`${data.length} bytes for ${count} values of ${bits} bits`);
  const drop = 32 - bits;
  if (bits === 16) {
    for (let i = 0, o = 0; i < count; i++, o += 2) out[i] = (reference + ((data[o]! << 8) | data[o + 1]!) * step) / divisor;
  } else if (bits === 8) {
    for (let i = 0; i < count; i++) out[i] = (reference + data[i]! * step) / divisor;
  } else if (bits <= 25) {
    // A value begins at most 7 bits into its first byte: 4 bytes hold it.
    for (let i = 0, bit = 0; i < count; i++, bit += bits) {
      const o = bit >>> 3;
      const word = (data[o]! << 24) | (data[o + 1]! << 16) | (data[o + 2]! << 8) | data[o + 3]!;
      out[i] = (reference + ((word << (bit & 7)) >>> drop) * step) / divisor;
    }
  } else {
    for (let i = 0, bit = 0; i < count; i++, bit += bits) {
      const o = bit >>> 3;
      const into = bit & 7;
      const word = (data[o]! << 24) | (data[o + 1]! << 16) | (data[o + 2]! << 8) | data[o + 3]!;
      out[i] = (reference + (((word << into) | (data[o + 4]! >>> (8 - into))) >>> drop) * step) / divisor;
    }
  }
}

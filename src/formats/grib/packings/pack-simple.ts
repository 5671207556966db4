import { packedBytes } from "./unpack-bits.ts";

/** Values packed by packing 5.0, and what section 5 says of them. */
export interface SimplePacked {
  readonly reference: number;
  readonly bits: number;
  readonly data: Uint8Array;
}

/**
 * Packs values to the nearest 2^`binaryScale` / 10^`decimalScale`; so the error is at most half of that. The reference is a single-
 * precision number at or below the least; bits are as few as serve (none where all are the same). Throws where a value is not finite
 * or 32 bits are too few.
 */
export function packSimple(values: Float64Array, decimalScale: number, binaryScale: number): SimplePacked {
  const factor = 10 ** decimalScale;
  const step = 2 ** binaryScale;
  let least = Number.POSITIVE_INFINITY;
  for (const value of values) {
    if (!Number.isFinite(value)) throw new Error(`can't be packed: ${value}`);
    least = Math.min(least, Math.round((value * factor) / step) * step);
  }
  const reference = values.length === 0 ? 0 : float32AtOrBelow(least);
  const whole = Float64Array.from(values, (value) => Math.round((value * factor - reference) / step));
  const most = whole.reduce((a, b) => Math.max(a, b), 0);
  const bits = most === 0 ? 0 : Math.floor(Math.log2(most)) + 1;
  if (bits > 32) throw new Error(`the values take ${bits} bits at decimal scale ${decimalScale} and binary scale ${binaryScale}`);
  return { reference, bits, data: packBits(whole, bits) };
}

function float32AtOrBelow(value: number): number {
  const near = Math.fround(value);
  if (near <= value) return near + 0;
  const view = new DataView(new ArrayBuffer(4));
  view.setFloat32(0, near);
  // The next single-precision number down: one less in its bits where positive, one more where negative.
  view.setUint32(0, view.getUint32(0) + (near > 0 ? -1 : 1));
  return view.getFloat32(0);
}

/** Whole numbers of `bits` bits one after another, the first bit of the first byte first; the last byte is filled with noughts. */
export function packBits(whole: Float64Array, bits: number): Uint8Array {
  const bytes = new Uint8Array(packedBytes(whole.length, bits));
  let bit = 0;
  for (const value of whole) {
    for (let left = bits; left > 0; ) {
      const free = 8 - (bit & 7);
      const take = Math.min(free, left);
      left -= take;
      const part = Math.floor(value / 2 ** left) % 2 ** take;
      bytes[bit >>> 3]! |= part << (free - take);
      bit += take;
    }
  }
  return bytes;
}

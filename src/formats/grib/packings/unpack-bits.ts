import { unpackOctets } from "./unpack-octets.ts";

/** Bytes that `count` numbers of `bits` bits take. */
export function packedBytes(count: number, bits: number): number {
  return Math.ceil((count * bits) / 8);
}

/** A stretch of packed numbers: `bits` (1 to 32) each, from bit `firstBit` of `data` on, the first bit of the first byte first. */
export interface PackedNumbers {
  readonly data: Uint8Array;
  readonly firstBit: number;
  readonly bits: number;
}

/** A packed number becomes (`reference` + number × `step`) / `divisor`. */
export interface LinearScaling {
  readonly reference: number;
  readonly step: number;
  readonly divisor: number;
}

/** Reads numbers and writes their values to `out` from `from` up to `to`. Throws where `data` is too short, or where `bits` is out of range. */
export function unpackScaled(
  { data, firstBit, bits }: PackedNumbers,
  { reference, step, divisor }: LinearScaling,
  out: Float64Array,
  from = 0,
  to = out.length,
): void {
  const count = to - from;
  if (!(bits >= 1 && bits <= 32)) throw new Error(`bits a value: ${bits}`);
  if (data.length * 8 < firstBit + count * bits) {
    throw new Error(`${data.length} bytes for ${count} values of ${bits} bits from bit ${firstBit} on`);
  }
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const drop = 32 - bits;
  const whole = from + wordsWithin(data.length, firstBit, bits, count);
  let i = from;
  if ((firstBit & 7) === 0 && (bits === 8 || bits === 16 || bits === 24)) {
    i = unpackOctets(view, firstBit >>> 3, bits, out, from, to, reference, step, divisor);
  }
  let bit = firstBit + (i - from) * bits;
  if (bits <= ONE_WORD_BITS) {
    // Two at a time: the loop itself costs as much as a number.
    for (; i < whole - 1; i += 2) {
      const one = (view.getUint32(bit >>> 3) << (bit & 7)) >>> drop;
      bit += bits;
      const other = (view.getUint32(bit >>> 3) << (bit & 7)) >>> drop;
      bit += bits;
      out[i] = (reference + one * step) / divisor;
      out[i + 1] = (reference + other * step) / divisor;
    }
  } else {
    for (; i < whole; i++, bit += bits) {
      const o = bit >>> 3;
      const into = bit & 7;
      out[i] = (reference + (((view.getUint32(o) << into) | (data[o + 4]! >>> (8 - into))) >>> drop) * step) / divisor;
    }
  }
  for (; i < to; i++, bit += bits) out[i] = (reference + numberAt(data, bit, bits) * step) / divisor;
}

/**
 * Reads unsigned numbers of `bits` bits (0 to 32) from bit `bit` of `data` on and writes them, with `base` added, to `out` from `from`
 * up to `to`. The caller has seen that the data holds them, and that `bit` and their bits together are below 2³².
 */
export function unpackWhole(
  data: Uint8Array,
  view: DataView,
  bit: number,
  bits: number,
  out: Float64Array,
  from: number,
  to: number,
  base: number,
): void {
  let i = from;
  let at = bit;
  if (bits === 0) {
    for (; i < to; i++) out[i] = base;
    return;
  }
  const whole = from + wordsWithin(data.length, bit, bits, to - from);
  const drop = 32 - bits;
  if (bits <= ONE_WORD_BITS) {
    for (; i < whole - 1; i += 2) {
      const one = (view.getUint32(at >>> 3) << (at & 7)) >>> drop;
      at += bits;
      const other = (view.getUint32(at >>> 3) << (at & 7)) >>> drop;
      at += bits;
      out[i] = base + one;
      out[i + 1] = base + other;
    }
    if (i < whole) {
      out[i++] = base + ((view.getUint32(at >>> 3) << (at & 7)) >>> drop);
      at += bits;
    }
  } else {
    for (; i < whole; i++, at += bits) {
      const o = at >>> 3;
      const into = at & 7;
      out[i] = base + (((view.getUint32(o) << into) | (data[o + 4]! >>> (8 - into))) >>> drop);
    }
  }
  for (; i < to; i++, at += bits) out[i] = base + numberAt(data, at, bits);
}

/** A number begins at most 7 bits into its first byte, so that four bytes hold it if it has no more bits than these. */
const ONE_WORD_BITS = 25;
/** Four bytes, and a fifth for longer numbers. */
const MOST_BYTES_LOOKED_AT = 5;

/** How many of `count` numbers from bit `bit` on have the bytes that are looked at for each all inside the data. */
function wordsWithin(dataBytes: number, bit: number, bits: number, count: number): number {
  const lastBit = (dataBytes - MOST_BYTES_LOOKED_AT) * 8 + 7;
  if (bit + (count - 1) * bits <= lastBit) return count;
  return lastBit < bit ? 0 : Math.floor((lastBit - bit) / bits) + 1;
}

/** One number, byte by byte, looking at no byte that isn't its own. */
function numberAt(data: Uint8Array, bit: number, bits: number): number {
  let value = 0;
  for (let at = bit, left = bits; left > 0; ) {
    const have = 8 - (at & 7);
    const take = Math.min(have, left);
    value = value * (1 << take) + ((data[at >>> 3]! >>> (have - take)) & ((1 << take) - 1));
    at += take;
    left -= take;
  }
  return value;
}

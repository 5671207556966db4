// @ts-check
// Complex packing, with and without differences, from the words of WMO templates 5.2, 5.3, 7.2 and 7.3: plain, and quick enough for a million points.
// ecCodes' own packer never takes differences, so that the bench makes these messages itself.

/** Values in a group, in turn: as the large centres' files have them, between some ten and some sixty (common practice). */
const GROUP_LENGTHS = [24, 41, 17, 33, 60, 12, 28, 48];

/**
 * Sections 5 and 7 of whole numbers from 0 on; a value is number / 10^`decimalScale`, `offset` and all added before.
 * @param {Int32Array} numbers
 * @param {{ order: 0 | 1 | 2, reference: number, decimalScale: number }} settings
 */
export function packComplex(numbers, { order, reference, decimalScale }) {
  const { firsts, least, packed } = differenced(numbers, order);
  /** @type {{ from: number, length: number, reference: number, width: number }[]} */
  const groups = [];
  for (let from = 0; from < packed.length; ) {
    const length = Math.min(GROUP_LENGTHS[groups.length % GROUP_LENGTHS.length] ?? 1, packed.length - from);
    let low = Number.POSITIVE_INFINITY;
    let high = 0;
    for (let i = from; i < from + length; i++) {
      low = Math.min(low, packed[i] ?? 0);
      high = Math.max(high, packed[i] ?? 0);
    }
    groups.push({ from, length, reference: low, width: bitsFor(high - low) });
    from += length;
  }
  const referenceBits = bitsFor(Math.max(...groups.map((group) => group.reference)));
  const widthBits = bitsFor(Math.max(...groups.map((group) => group.width)));
  const shortest = Math.min(...groups.slice(0, -1).map((group) => group.length));
  const lengthBits = bitsFor(Math.max(...groups.slice(0, -1).map((group) => group.length)) - shortest);
  const last = groups[groups.length - 1];
  if (last === undefined) throw new Error("no numbers to pack");

  const bits = new BitWriter(packed.length * 4 + groups.length * 8 + 64);
  const octets = Math.ceil((bitsFor(Math.max(Math.abs(least), ...firsts)) + 1) / 8);
  if (order > 0) {
    for (const first of firsts) bits.put(first, octets * 8);
    // Sign and magnitude.
    bits.put(least < 0 ? 1 : 0, 1);
    bits.put(Math.abs(least), octets * 8 - 1);
  }
  for (const group of groups) bits.put(group.reference, referenceBits);
  bits.toOctet();
  for (const group of groups) bits.put(group.width, widthBits);
  bits.toOctet();
  for (const group of groups) bits.put(group === last ? 0 : group.length - shortest, lengthBits);
  bits.toOctet();
  for (const group of groups) {
    for (let i = group.from; i < group.from + group.length; i++) bits.put((packed[i] ?? 0) - group.reference, group.width);
  }

  const section5 = new DataView(new ArrayBuffer(order > 0 ? 49 : 47));
  section5.setUint32(0, section5.byteLength);
  section5.setUint8(4, 5);
  section5.setUint32(5, numbers.length);
  section5.setUint16(9, order > 0 ? 3 : 2);
  section5.setFloat32(11, reference);
  section5.setUint16(17, decimalScale);
  section5.setUint8(19, referenceBits);
  section5.setUint8(21, 1);
  // No missing values: their two substitutes stand as missing.
  section5.setUint32(23, 0xffffffff);
  section5.setUint32(27, 0xffffffff);
  section5.setUint32(31, groups.length);
  section5.setUint8(36, widthBits);
  section5.setUint32(37, shortest);
  section5.setUint8(41, 1);
  section5.setUint32(42, last.length);
  section5.setUint8(46, lengthBits);
  if (order > 0) {
    section5.setUint8(47, order);
    section5.setUint8(48, octets);
  }
  return { section5: new Uint8Array(section5.buffer), section7: section(7, bits.bytes()) };
}

/**
 * A section of its number and its octets.
 * @param {number} number
 * @param {Uint8Array} octets
 */
export function section(number, octets) {
  const whole = new Uint8Array(5 + octets.length);
  new DataView(whole.buffer).setUint32(0, whole.length);
  whole[4] = number;
  whole.set(octets, 5);
  return whole;
}

/**
 * Differences of the order, their least taken off; the first ones stand apart (template 5.3, notes 1 and 2).
 * @param {Int32Array} numbers
 * @param {0 | 1 | 2} order
 */
function differenced(numbers, order) {
  if (order === 0) return { firsts: [], least: 0, packed: numbers };
  const packed = new Int32Array(numbers.length);
  let least = Number.POSITIVE_INFINITY;
  for (let i = order; i < numbers.length; i++) {
    const [here, before, twoBefore] = [numbers[i] ?? 0, numbers[i - 1] ?? 0, numbers[i - 2] ?? 0];
    packed[i] = order === 1 ? here - before : here - 2 * before + twoBefore;
    least = Math.min(least, packed[i] ?? 0);
  }
  for (let i = order; i < numbers.length; i++) packed[i] = (packed[i] ?? 0) - least;
  return { firsts: [...numbers.subarray(0, order)], least, packed };
}

/** @param {number} most */
const bitsFor = (most) => (most === 0 ? 0 : 32 - Math.clz32(most));

/** Unsigned numbers of up to 31 bits, the first bit of the first byte first. */
class BitWriter {
  #bytes;
  #bit = 0;

  /** @param {number} mostBytes */
  constructor(mostBytes) {
    this.#bytes = new Uint8Array(mostBytes);
  }

  /** @param {number} number @param {number} bits */
  put(number, bits) {
    let left = bits;
    while (left > 0) {
      const room = 8 - (this.#bit & 7);
      const taken = Math.min(room, left);
      left -= taken;
      const piece = (number >>> left) & ((1 << taken) - 1);
      this.#bytes[this.#bit >>> 3] = (this.#bytes[this.#bit >>> 3] ?? 0) | (piece << (room - taken));
      this.#bit += taken;
    }
  }

  toOctet() {
    this.#bit = Math.ceil(this.#bit / 8) * 8;
  }

  bytes() {
    return this.#bytes.slice(0, Math.ceil(this.#bit / 8));
  }
}

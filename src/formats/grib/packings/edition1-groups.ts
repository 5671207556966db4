import { packedBytes, unpackWhole } from "./unpack-bits.ts";

/** Groups of packed numbers, all lists as long as there are groups. */
export interface Groups {
  /** Bits of each group's second-order numbers. */
  readonly widths: Float64Array;
  readonly lengths: Float64Array;
  /** The first-order numbers. */
  readonly references: Float64Array;
  /** The first values, where the rest are differences; null where they aren't. */
  readonly firsts: Float64Array | null;
  /** What was taken from all differences. */
  readonly bias: number;
}

const MOST_BITS = 32;

/** Section 4 of second-order packing, read list by list; each list begins on a whole octet. */
export class GroupBits {
  readonly #data: Uint8Array;
  readonly #view: DataView;
  #at = 0;

  constructor(data: Uint8Array) {
    this.#data = data;
    this.#view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  }

  /** Goes on at an octet, counted from 1. */
  toOctet(octet: number): void {
    this.#at = octet - 1;
  }

  /** A list of `count` unsigned numbers of up to 32 bits; a string says why there is none. */
  numbers(count: number, bits: number): Float64Array | string {
    const bytes = packedBytes(count, bits);
    if (this.#at + bytes > this.#data.length) return `Section 4 ends within a list of ${count} numbers of ${bits} bits.`;
    const list = new Float64Array(count);
    unpackWhole(this.#data, this.#view, this.#at * 8, bits, list, 0, count, 0);
    this.#at += bytes;
    return list;
  }

  /** The first `order` values and the bias, sign and magnitude, all of as many bits as the octet before them says. */
  differenceStart(order: number): Pick<Groups, "firsts" | "bias"> | string {
    const bits = this.numbers(1, 8);
    if (typeof bits === "string") return bits;
    const width = bits[0]!;
    if (width < 1 || width > MOST_BITS) return `First values of ${width} bits are packed.`;
    const list = this.numbers(order + 1, width);
    if (typeof list === "string") return list;
    const sign = 2 ** (width - 1);
    const last = list[order]!;
    return { firsts: list.subarray(0, order), bias: last >= sign ? sign - last : last };
  }

  /** The lengths of groups, each of which begins with a one of a bitmap of `count` bits. */
  markedLengths(count: number, groupCount: number): Float64Array | string {
    const starts = this.numbers(count, 1);
    if (typeof starts === "string") return starts;
    const lengths = new Float64Array(groupCount);
    let group = -1;
    for (const start of starts) {
      if (start === 1) group++;
      if (group < 0 || group >= groupCount) return `The secondary bitmap doesn't mark ${groupCount} groups.`;
      lengths[group]!++;
    }
    return group === groupCount - 1 ? lengths : `The secondary bitmap doesn't mark ${groupCount} groups.`;
  }

  /** Each group's second-order numbers with its first-order number added, into `out` from `from` on; a string says what can't be true. */
  readGroups({ widths, lengths, references }: Groups, out: Float64Array, from: number): string | null {
    let to = from;
    let bits = 0;
    for (const [group, length] of lengths.entries()) {
      const width = widths[group]!;
      if (width > MOST_BITS) return `Second-order values of ${width} bits are packed.`;
      to += length;
      bits += length * width;
    }
    if (to !== out.length) return `${out.length} values are due, and the groups hold ${to}.`;
    if (this.#at * 8 + bits > this.#data.length * 8) return `Section 4 ends within the second-order values.`;
    let at = this.#at * 8;
    let next = from;
    for (const [group, length] of lengths.entries()) {
      unpackWhole(this.#data, this.#view, at, widths[group]!, out, next, next + length, references[group]!);
      at += length * widths[group]!;
      next += length;
    }
    return null;
  }
}

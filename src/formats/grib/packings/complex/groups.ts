import { packedBytes, unpackWhole } from "../unpack-bits.ts";
import type { ComplexLayout } from "./layout.ts";

/** How many groups are described at a time: the lists may be as long as the field, and need not be in memory whole. */
const BLOCK_GROUPS = 1024;

/**
 * What describes the groups: first all references, then all widths, then all lengths, each list ending on a whole octet (template 7.2);
 * behind them the packed values. Read a block at a time: `load` fills the three arrays.
 */
export class Groups {
  readonly references: Float64Array;
  /** Bits a value. */
  readonly widths: Float64Array;
  /** Values in each. */
  readonly lengths: Float64Array;
  readonly #layout: ComplexLayout;
  readonly #data: Uint8Array;
  readonly #view: DataView;
  readonly #widthsAt: number;
  readonly #lengthsAt: number;
  /** Bytes of the three lists. */
  readonly describedBytes: number;

  constructor(layout: ComplexLayout, data: Uint8Array) {
    const { groupCount, scaling, widthBits, lengthBits } = layout;
    const block = Math.min(groupCount, BLOCK_GROUPS);
    this.references = new Float64Array(block);
    this.widths = new Float64Array(block);
    this.lengths = new Float64Array(block);
    this.#layout = layout;
    this.#data = data;
    this.#view = viewOf(data);
    this.#widthsAt = packedBytes(groupCount, scaling.bits);
    this.#lengthsAt = this.#widthsAt + packedBytes(groupCount, widthBits);
    this.describedBytes = this.#lengthsAt + packedBytes(groupCount, lengthBits);
  }

  /** The groups' packed values. */
  get values(): Uint8Array {
    return this.#data.subarray(this.describedBytes);
  }

  /** Loads the block that begins with group `first`, and gives how many groups it has. */
  load(first: number): number {
    const { groupCount, scaling, widthBase, widthBits, lengthBase, lengthStep, lengthBits, lastLength } = this.#layout;
    const count = Math.min(BLOCK_GROUPS, groupCount - first);
    this.#list(0, scaling.bits, first, count, this.references, 0);
    this.#list(this.#widthsAt, widthBits, first, count, this.widths, widthBase);
    this.#list(this.#lengthsAt, lengthBits, first, count, this.lengths, 0);
    for (let g = 0; g < count; g++) this.lengths[g] = lengthBase + this.lengths[g]! * lengthStep;
    if (first + count === groupCount) this.lengths[count - 1] = lastLength;
    return count;
  }

  #list(offset: number, bits: number, first: number, count: number, out: Float64Array, base: number): void {
    unpackWhole(this.#data, this.#view, offset * 8 + first * bits, bits, out, 0, count, base);
  }
}

/** What contradicts itself in the groups, in words; null where they hold `valueCount` values, and the data holds theirs. */
export function contradictionIn(groups: Groups, layout: ComplexLayout, valueCount: number, dataBytes: number): string | null {
  const { groupCount } = layout;
  if (groups.describedBytes > dataBytes) {
    return `What describes the ${groupCount} groups takes ${groups.describedBytes} bytes, and there are ${dataBytes}.`;
  }
  let values = 0;
  let bits = 0;
  let widest = 0;
  for (let first = 0; first < groupCount; first += BLOCK_GROUPS) {
    const count = groups.load(first);
    for (let g = 0; g < count; g++) {
      values += groups.lengths[g]!;
      bits += groups.lengths[g]! * groups.widths[g]!;
      widest = Math.max(widest, groups.widths[g]!);
    }
  }
  if (widest > 32) return `A group has ${widest} bits a value; 32 is the most that its values can need.`;
  if (values !== valueCount) return `${valueCount} values are packed, but the groups hold ${values}.`;
  const bytes = dataBytes - groups.describedBytes;
  return bits > bytes * 8 ? `The groups' values take ${Math.ceil(bits / 8)} bytes, and there are ${bytes}.` : null;
}

export function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

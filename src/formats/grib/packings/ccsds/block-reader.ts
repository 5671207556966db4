import { type CodeWords, codeWords } from "./code-words.ts";
import type { CcsdsCoding } from "./coding.ts";

/** What `nextBlock` found, where it wasn't a number of empty blocks. */
export const FILLED = 0;
export const ENDED = -1;
export const OUT_OF_RANGE = -2;
export const RUN_TOO_LONG = -3;

/** This many noughts before the one tell a run of empty blocks to the end of its segment of 64, or of its interval (table 3-2). */
const REMAINDER_OF_SEGMENT = 4;
const SEGMENT_BLOCKS = 64;

/** The pairs of the second extension by their number m: their sum, and the m of the first pair with that sum. Sums go to 12. */
const PAIR_SUM = new Uint8Array(91);
const PAIR_FIRST = new Uint8Array(91);
for (let sum = 0, m = 0; sum <= 12; sum++) {
  for (const first = m; m <= first + sum; m++) {
    PAIR_SUM[m] = sum;
    PAIR_FIRST[m] = first;
  }
}

/**
 * Reads coded blocks one after another into `residuals` (CCSDS 121.0-B-3, Lossless Data Compression, sections 3 and 5.1: fundamental
 * sequences, split samples, the second extension, empty blocks, and no compression). A residual of 32 bits stands there as its pattern
 * of bits.
 */
export class BlockReader {
  readonly residuals: Int32Array;
  readonly #coding: CcsdsCoding;
  readonly #code: CodeWords;
  /** The largest sample, which is also the largest residual: ones in all its bits, as a pattern of 32 bits. */
  readonly #ones: number;
  #bit = 0;

  constructor(data: Uint8Array, coding: CcsdsCoding) {
    this.#coding = coding;
    this.#code = codeWords(data);
    this.#ones = (-1 >>> (32 - coding.bits)) | 0;
    this.residuals = new Int32Array(coding.blockSamples);
  }

  /**
   * Reads block `number` of its interval. With `isReference` the first sample stands in `residuals` as itself. `FILLED` where the whole
   * block stands there, else how many blocks are empty (all residuals nought), or less than nought where the code can't be true.
   */
  nextBlock(number: number, isReference: boolean): number {
    const { optionBits, bits, blockSamples } = this.#coding;
    const uncompressed = (1 << optionBits) - 1;
    const option = this.#take(optionBits);
    let found = FILLED;
    if (option === uncompressed) {
      for (let i = 0; i < blockSamples; i++) this.residuals[i] = this.#take(bits);
    } else {
      const low = option === 0 ? this.#take(1) : 0;
      if (isReference) this.residuals[0] = this.#take(bits);
      const from = isReference ? 1 : 0;
      if (option !== 0) found = this.#splitSamples(from, option - 1);
      else found = low === 1 ? this.#secondExtension(from) : this.#emptyBlocks(number);
    }
    return this.#bit > this.#code.bitCount ? ENDED : found;
  }

  /** Passes over the bits that fill the last byte. */
  toWholeByte(): void {
    this.#bit = (this.#bit + 7) & ~7;
  }

  #take(count: number): number {
    const { words } = this.#code;
    const at = this.#bit >>> 5;
    const into = this.#bit & 31;
    this.#bit += count;
    return ((words[at]! << into) | ((words[at + 1]! >>> 1) >>> (31 - into))) >>> (32 - count);
  }

  /** Counts the noughts before each one, for the samples from `from` on. Gives the counts' bits, all laid over one another. */
  #fundamentalSequences(from: number, until: number): number {
    const { words } = this.#code;
    const { residuals } = this;
    let bit = this.#bit;
    let at = bit >>> 5;
    let left = words[at]! << (bit & 31);
    let all = 0;
    for (let i = from; i < until; i++) {
      let noughts: number;
      if (left !== 0) {
        noughts = Math.clz32(left);
        left = (left << noughts) << 1;
      } else {
        do left = words[++at]!;
        while (left === 0);
        const here = Math.clz32(left);
        noughts = at * 32 + here - bit;
        left = (left << here) << 1;
      }
      bit += noughts + 1;
      residuals[i] = noughts;
      all |= noughts;
    }
    this.#bit = bit;
    return all;
  }

  #splitSamples(from: number, k: number): number {
    const { residuals } = this;
    const until = residuals.length;
    let all = this.#fundamentalSequences(from, until);
    // Ones in all its bits: what lies above can only be bits that the sample hasn't.
    if ((all & ~(this.#ones >>> k)) !== 0) return OUT_OF_RANGE;
    if (k === 0) return FILLED;
    const { words } = this.#code;
    const drop = 32 - k;
    let bit = this.#bit;
    all = 0;
    for (let i = from; i < until; i++) {
      const at = bit >>> 5;
      const into = bit & 31;
      const low = ((words[at]! << into) | ((words[at + 1]! >>> 1) >>> (31 - into))) >>> drop;
      const residual = (residuals[i]! << k) | low;
      residuals[i] = residual;
      all |= residual;
      bit += k;
    }
    this.#bit = bit;
    return (all & ~this.#ones) === 0 ? FILLED : OUT_OF_RANGE;
  }

  /** Two residuals a and b by one number: (a + b)(a + b + 1) / 2 + b. Where the reference stands first, its pair's a is nought and left out. */
  #secondExtension(from: number): number {
    const { residuals } = this;
    const pairs = residuals.length >>> 1;
    const reference = residuals[0]!;
    this.#fundamentalSequences(0, pairs);
    let all = 0;
    for (let pair = pairs - 1; pair >= 0; pair--) {
      const m = residuals[pair]!;
      if (m >= PAIR_SUM.length) return OUT_OF_RANGE;
      const second = m - PAIR_FIRST[m]!;
      const first = PAIR_SUM[m]! - second;
      residuals[pair * 2] = first;
      residuals[pair * 2 + 1] = second;
      all |= first | second;
    }
    if (from === 1) residuals[0] = reference;
    return (all & ~this.#ones) === 0 ? FILLED : OUT_OF_RANGE;
  }

  #emptyBlocks(number: number): number {
    const reference = this.residuals[0]!;
    this.#fundamentalSequences(0, 1);
    const noughts = this.residuals[0]!;
    this.residuals[0] = reference;
    const leftOfInterval = this.#coding.intervalBlocks - number;
    if (noughts === REMAINDER_OF_SEGMENT) return Math.min(leftOfInterval, SEGMENT_BLOCKS - (number % SEGMENT_BLOCKS));
    const blocks = noughts < REMAINDER_OF_SEGMENT ? noughts + 1 : noughts;
    return blocks <= leftOfInterval ? blocks : RUN_TOO_LONG;
  }
}

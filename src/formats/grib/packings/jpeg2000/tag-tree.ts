import type { HeaderBits } from "./header-bits.ts";

/**
 * A tag tree (ISO/IEC 15444-1 B.10.2): a small table of whole numbers told piece by piece, each node holding the least of the four
 * under it. The table's own numbers come first, row after row, then each coarser level.
 */
export class TagTree {
  readonly #across: readonly number[];
  readonly #firsts: readonly number[];
  /** What the number is known to be at least. */
  readonly #least: Int32Array;
  readonly #isKnown: Uint8Array;

  constructor(across: number, down: number) {
    const widths: number[] = [];
    const firsts: number[] = [];
    let nodes = 0;
    for (let [w, h] = [across, down]; ; [w, h] = [(w + 1) >> 1, (h + 1) >> 1]) {
      widths.push(w);
      firsts.push(nodes);
      nodes += w * h;
      if (w * h <= 1) break;
    }
    this.#across = widths;
    this.#firsts = firsts;
    this.#least = new Int32Array(nodes);
    this.#isKnown = new Uint8Array(nodes);
  }

  /** Reads on until it is settled whether the number at `column` and `row` is below `limit`; gives that. */
  isBelow(limit: number, column: number, row: number, bits: HeaderBits): boolean {
    let least = 0;
    let at = 0;
    for (let level = this.#firsts.length - 1; level >= 0; level--) {
      at = this.#firsts[level]! + (row >> level) * this.#across[level]! + (column >> level);
      least = Math.max(least, this.#least[at]!);
      while (least < limit && this.#isKnown[at] === 0) {
        if (bits.bit() === 1) this.#isKnown[at] = 1;
        else least++;
      }
      this.#least[at] = least;
    }
    return this.#isKnown[at] === 1 && least < limit;
  }
}

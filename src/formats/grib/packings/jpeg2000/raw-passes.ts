import { type BlockState, gained, REFINED, ROWS, rowOf, rowsToRefine, rowsToTry, STRIPE, tellNeighbours, visited } from "./block-state.ts";
import type { RawBits } from "./raw-bits.ts";

/** The significance pass as bare bits (ISO/IEC 15444-1 D.6): a sign stands as it is. */
export function rawSignificancePass(state: BlockState, plane: number, bits: RawBits): void {
  const { flags, magnitudes, width, height, stride, isVerticallyCausal } = state;
  for (let top = 0, k = 0; top < height; top += STRIPE) {
    const rows = ROWS[Math.min(STRIPE, height - top)]!;
    let at = ((top >> 2) + 1) * stride + 1;
    for (const end = at + width; at < end; at++, k += STRIPE) {
      let toTry = rowsToTry(flags[at]!) & rows;
      while (toTry !== 0) {
        const shift = 31 - Math.clz32(toTry & -toTry);
        toTry &= toTry - 1;
        flags[at]! |= visited(shift);
        if (bits.bit() === 0) continue;
        const negative = bits.bit();
        flags[at]! |= gained(shift, negative);
        tellNeighbours(flags, at, stride, shift, negative, isVerticallyCausal);
        magnitudes[k + rowOf(shift)] = 3 << plane;
        toTry = rowsToTry(flags[at]!) & rows & (-2 << shift);
      }
    }
  }
}

/** The refinement pass as bare bits. */
export function rawRefinementPass(state: BlockState, plane: number, bits: RawBits): void {
  const { flags, magnitudes, width, height, stride } = state;
  for (let top = 0, k = 0; top < height; top += STRIPE) {
    let at = ((top >> 2) + 1) * stride + 1;
    for (const end = at + width; at < end; at++, k += STRIPE) {
      const toRefine = rowsToRefine(flags[at]!);
      flags[at]! |= toRefine * REFINED;
      for (let row = 0; row < STRIPE; row++) {
        if ((toRefine & (1 << (3 * row))) === 0) continue;
        magnitudes[k + row]! += bits.bit() === 0 ? -(1 << plane) : 1 << plane;
      }
    }
  }
}

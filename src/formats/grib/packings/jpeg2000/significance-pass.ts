import { AROUND, type BlockState, gained, ROWS, rowOf, rowsToTry, STRIPE, signIndex, tellNeighbours, visited } from "./block-state.ts";
import { SIGN } from "./contexts.ts";

/**
 * The significance propagation pass (ISO/IEC 15444-1 D.3.1): samples that are not yet significant and have a neighbour that is.
 * `significance` is the band's table of contexts.
 */
export function significancePass(state: BlockState, plane: number, significance: Uint8Array): void {
  const { mq, flags, magnitudes, width, height, stride, isVerticallyCausal } = state;
  const contexts = mq.contexts;
  const middle = 3 << plane;
  let { slack } = mq;
  for (let top = 0, k = 0; top < height; top += STRIPE) {
    const rows = ROWS[Math.min(STRIPE, height - top)]!;
    let at = ((top >> 2) + 1) * stride + 1;
    for (const end = at + width; at < end; at++, k += STRIPE) {
      let word = flags[at]!;
      if (word === 0) continue;
      let toTry = rowsToTry(word) & rows;
      if (toTry === 0) continue;
      do {
        const shift = 31 - Math.clz32(toTry & -toTry);
        toTry &= toTry - 1;
        const context = significance[(word >>> shift) & AROUND]!;
        const coding = contexts[context]!;
        slack -= coding >> 8;
        let symbol = coding & 1;
        if (slack < 0) {
          symbol = mq.settle(context, slack);
          slack = mq.slack;
        }
        word |= visited(shift);
        if (symbol !== 0) {
          const sign = SIGN[signIndex(flags, at, word, shift)]!;
          const signCoding = contexts[sign & 0x7f]!;
          slack -= signCoding >> 8;
          let negative = signCoding & 1;
          if (slack < 0) {
            negative = mq.settle(sign & 0x7f, slack);
            slack = mq.slack;
          }
          negative ^= sign >> 7;
          word |= gained(shift, negative);
          tellNeighbours(flags, at, stride, shift, negative, isVerticallyCausal);
          magnitudes[k + rowOf(shift)] = middle;
          // The sample below has a significant neighbour now.
          toTry = rowsToTry(word) & rows & (-2 << shift);
        }
      } while (toTry !== 0);
      flags[at] = word;
    }
  }
  mq.slack = slack;
}

import {
  AROUND,
  type BlockState,
  gained,
  ROWS,
  RUN_LENGTH,
  rowOf,
  rowsLeft,
  STRIPE,
  signIndex,
  tellNeighbours,
  UNIFORM,
  withoutVisits,
} from "./block-state.ts";
import { SIGN } from "./contexts.ts";

/**
 * The cleanup pass (ISO/IEC 15444-1 D.3.4): the samples that the two passes before left out. Four in a column with nothing significant
 * round them are told by one symbol where all stay so.
 */
export function cleanupPass(state: BlockState, plane: number, significance: Uint8Array): void {
  const { mq, flags, magnitudes, width, height, stride, isVerticallyCausal } = state;
  const contexts = mq.contexts;
  const middle = 3 << plane;
  let { slack } = mq;
  for (let top = 0, k = 0; top < height; top += STRIPE) {
    const rows = ROWS[Math.min(STRIPE, height - top)]!;
    let at = ((top >> 2) + 1) * stride + 1;
    for (const end = at + width; at < end; at++, k += STRIPE) {
      let word = flags[at]!;
      let left = rowsLeft(word) & rows;
      let isTold = false;
      if (word === 0 && rows === ROWS[STRIPE]) {
        const coding = contexts[RUN_LENGTH]!;
        slack -= coding >> 8;
        let symbol = coding & 1;
        if (slack < 0) {
          symbol = mq.settle(RUN_LENGTH, slack);
          slack = mq.slack;
        }
        if (symbol === 0) continue;
        mq.slack = slack;
        const row = 2 * mq.decode(UNIFORM) + mq.decode(UNIFORM);
        slack = mq.slack;
        left &= -1 << (3 * row);
        isTold = true;
      }
      while (left !== 0) {
        const shift = 31 - Math.clz32(left & -left);
        left &= left - 1;
        if (!isTold) {
          const context = significance[(word >>> shift) & AROUND]!;
          const coding = contexts[context]!;
          slack -= coding >> 8;
          let symbol = coding & 1;
          if (slack < 0) {
            symbol = mq.settle(context, slack);
            slack = mq.slack;
          }
          if (symbol === 0) continue;
        }
        isTold = false;
        const sign = SIGN[signIndex(flags, at, word, shift)]!;
        const coding = contexts[sign & 0x7f]!;
        slack -= coding >> 8;
        let negative = coding & 1;
        if (slack < 0) {
          negative = mq.settle(sign & 0x7f, slack);
          slack = mq.slack;
        }
        negative ^= sign >> 7;
        word |= gained(shift, negative);
        tellNeighbours(flags, at, stride, shift, negative, isVerticallyCausal);
        magnitudes[k + rowOf(shift)] = middle;
      }
      flags[at] = withoutVisits(word);
    }
  }
  mq.slack = slack;
}

import { AROUND, type BlockState, FIRST_REFINEMENT, LATER_REFINEMENT, REFINED, rowOf, rowsToRefine, STRIPE } from "./block-state.ts";

/** The magnitude refinement pass (ISO/IEC 15444-1 D.3.3): samples that were significant before this plane. */
export function refinementPass(state: BlockState, plane: number): void {
  const { mq, flags, magnitudes, width, height, stride } = state;
  const contexts = mq.contexts;
  const half = 1 << plane;
  let { slack } = mq;
  for (let top = 0, k = 0; top < height; top += STRIPE) {
    let at = ((top >> 2) + 1) * stride + 1;
    for (const end = at + width; at < end; at++, k += STRIPE) {
      const word = flags[at]!;
      let toRefine = rowsToRefine(word);
      if (toRefine === 0) continue;
      flags[at] = word | (toRefine * REFINED);
      do {
        const shift = 31 - Math.clz32(toRefine & -toRefine);
        toRefine &= toRefine - 1;
        const round = word >>> shift;
        const isFirst = (round & REFINED) === 0;
        const context = !isFirst ? LATER_REFINEMENT : (round & AROUND) === 0 ? FIRST_REFINEMENT : FIRST_REFINEMENT + 1;
        const coding = contexts[context]!;
        slack -= coding >> 8;
        let symbol = coding & 1;
        if (slack < 0) {
          symbol = mq.settle(context, slack);
          slack = mq.slack;
        }
        magnitudes[k + rowOf(shift)]! += symbol * 2 * half - half;
      } while (toRefine !== 0);
    }
  }
  mq.slack = slack;
}

/** Where the straight line from node k − 1 to node k crosses a level. */
function crossing(times: Float64Array, margins: Float64Array, k: number, level: number): number {
  return crossingAt(times[k - 1] as number, margins[k - 1] as number, times[k] as number, margins[k] as number, level);
}

/** When the straight line from (t0, m0) to (t1, m1) crosses a level. */
export function crossingAt(t0: number, m0: number, t1: number, m1: number, level: number): number {
  return m0 === m1 ? t0 : t0 + ((level - m0) / (m1 - m0)) * (t1 - t0);
}

interface Stretch {
  readonly from: number;
  /** The node at which it is lowest. */
  readonly lowest: number;
}

/** The first stretch on which straight lines through (times, margins) run below a level for longer than `seconds`; null where none does. */
export function stretchBelow(times: Float64Array, margins: Float64Array, level: number, seconds: number): Stretch | null {
  const last = margins.length - 1;
  let lowest = -1;
  let from = 0;
  for (let k = 0; k <= last; k++) {
    const m = margins[k] as number;
    if (m < level) {
      if (lowest < 0) {
        lowest = k;
        from = k === 0 ? (times[0] as number) : crossing(times, margins, k, level);
      } else if (m < (margins[lowest] as number)) lowest = k;
      if (k < last) continue;
    }
    if (lowest < 0) continue;
    const until = m < level ? (times[k] as number) : crossing(times, margins, k, level);
    if (until - from > seconds || seconds === 0) return { from, lowest };
    lowest = -1;
  }
  return null;
}

/** So fine is the level found that lasts, as a share of the margin. */
const LEVEL_FINENESS = 1e-10;

/**
 * The lowest margin below which the passage stays for longer than `seconds` on end, by halving, and the lowest node of that stretch. A
 * passage that is no longer than that counts by its best moment: what is past *never* all the way is not tolerated for being short.
 */
export function worstThatLasts(times: Float64Array, margins: Float64Array, seconds: number): { margin: number; index: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let index = 0;
  for (let k = 0; k < margins.length; k++) {
    const m = margins[k] as number;
    if (m < low) low = m;
    if (m > high) {
      high = m;
      index = k;
    }
  }
  // The first cut is at 0, so that which side of closed the passage lies on is not a matter of fineness.
  for (let level = low < 0 && high > 0 ? 0 : (low + high) / 2; high - low > LEVEL_FINENESS; level = (low + high) / 2) {
    const lasting = stretchBelow(times, margins, level, seconds);
    if (lasting === null) low = level;
    else {
      high = level;
      index = lasting.lowest;
    }
  }
  return { margin: high, index };
}

/** When the first stretch below 0 begins that lasts longer than `seconds`; the passage's beginning where it is below 0 all the way and shorter. */
export function firstBelowZero(times: Float64Array, margins: Float64Array, seconds: number): number {
  return stretchBelow(times, margins, 0, seconds)?.from ?? (times[0] as number);
}

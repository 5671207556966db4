import { MqDecoder } from "./mq-decoder.ts";
import { stateWord } from "./mq-states.ts";

/** Contexts (ISO/IEC 15444-1 table D.1 to D.5): 0 to 8 significance, 9 to 13 signs, 14 to 16 refinement, then these. */
export const FIRST_REFINEMENT = 14;
export const LATER_REFINEMENT = 16;
export const RUN_LENGTH = 17;
export const UNIFORM = 18;
const CONTEXTS = 19;

/** The most samples of a code-block, and the most either way. */
const MAX_SAMPLES = 4096;
const MAX_SIDE = 1024;

/** Rows of a stripe. */
export const STRIPE = 4;

/**
 * What is known of a code-block's samples while its passes are decoded. A word of `flags` stands for a column of a stripe (four
 * samples, one under the other), with a border of words all round:
 *
 * - bits 0 to 17: which samples are significant, in six rows of three (west, own, east) from the row above the stripe to that below;
 * - bits 18 to 31: for the sample above whether it is negative; for each of the four whether it is negative, whether it has been refined
 *   and whether it was visited in this plane's significance pass; for the sample below whether it is negative.
 *
 * So a word shifted right by three times the row of a sample has that sample's bits where the masks below say.
 *
 * `magnitudes` stand column of stripe after column of stripe, in halves, with half of the lowest plane that is known added (the middle of
 * what they may be).
 */
export class BlockState {
  readonly mq = new MqDecoder(CONTEXTS);
  // Of all shapes with 4096 samples one 1024 wide and 4 high has the largest border.
  readonly flags = new Int32Array((MAX_SIDE + 2) * 3 + MAX_SAMPLES / STRIPE);
  readonly magnitudes = new Int32Array(MAX_SAMPLES);
  width = 0;
  height = 0;
  /** Words of `flags` from a stripe to the next. */
  stride = 0;
  /** Samples of the next stripe are not looked at. */
  isVerticallyCausal = false;

  begin(width: number, height: number, isVerticallyCausal: boolean): void {
    const stripes = Math.ceil(height / STRIPE);
    this.width = width;
    this.height = height;
    this.stride = width + 2;
    this.isVerticallyCausal = isVerticallyCausal;
    this.flags.fill(0, 0, this.stride * (stripes + 2));
    this.magnitudes.fill(0, 0, width * stripes * STRIPE);
    this.resetContexts();
  }

  /** Table D.7. */
  resetContexts(): void {
    this.mq.contexts.fill(stateWord(0, 0));
    this.mq.contexts[0] = stateWord(4, 0);
    this.mq.contexts[RUN_LENGTH] = stateWord(3, 0);
    this.mq.contexts[UNIFORM] = stateWord(46, 0);
  }
}

/** The significance of the sample itself, and of the eight round it. */
export const OWN = 0x10;
export const AROUND = 0x1ef;
export const REFINED = 1 << 20;
const NEGATIVE_BIT = 19;
const VISITED = 1 << 21;
const NORTH_NEGATIVE_BIT = 18;
const SOUTH_NEGATIVE_BIT = 31;

/** A bit for each of the first 0 to 4 rows: bit 3i for row i. */
export const ROWS = [0, 0x1, 0x9, 0x49, 0x249] as const;
const ALL_VISITED = ROWS[4] << 21;

/** What a word gains when the sample at `shift` (three times its row) becomes significant. */
export const gained = (shift: number, negative: number): number => (OWN | (negative << NEGATIVE_BIT)) << shift;

export const visited = (shift: number): number => VISITED << shift;

export const withoutVisits = (word: number): number => word & ~ALL_VISITED;

export const isNegative = (word: number, row: number): number => (word >>> (NEGATIVE_BIT + 3 * row)) & 1;

/** `shift` / 3. */
export const rowOf = (shift: number): number => (shift * 11) >> 5;

/** The rows that are not significant and have a neighbour that is: a bit each, as in `ROWS`. */
export function rowsToTry(word: number): number {
  const anyInRow = (word | (word >>> 1) | (word >>> 2)) & 0x9249;
  return (anyInRow | (anyInRow >>> 3) | (anyInRow >>> 6)) & ~(word >>> 4) & ROWS[4];
}

/** The rows that are significant and were not visited in this plane. */
export const rowsToRefine = (word: number): number => (word >>> 4) & ~(word >>> 21) & ROWS[4];

/** The rows that are neither significant nor visited. */
export const rowsLeft = (word: number): number => ~((word >>> 4) | (word >>> 21)) & ROWS[4];

/** Tells the words round about that a sample of the word at `at` has become significant; its own word is the caller's to change. */
export function tellNeighbours(flags: Int32Array, at: number, stride: number, shift: number, negative: number, isCausal: boolean): void {
  flags[at - 1] = flags[at - 1]! | (0x20 << shift);
  flags[at + 1] = flags[at + 1]! | (0x08 << shift);
  if (shift === 0) {
    if (isCausal) return;
    const above = at - stride;
    flags[above - 1] = flags[above - 1]! | (1 << 17);
    flags[above] = flags[above]! | (1 << 16) | (negative << SOUTH_NEGATIVE_BIT);
    flags[above + 1] = flags[above + 1]! | (1 << 15);
  } else if (shift === 9) {
    const below = at + stride;
    flags[below - 1] = flags[below - 1]! | (1 << 2);
    flags[below] = flags[below]! | (1 << 1) | (negative << NORTH_NEGATIVE_BIT);
    flags[below + 1] = flags[below + 1]! | 1;
  }
}

/** Index into the sign contexts: significance and sense of the four samples that touch the one at `shift` by a side. */
export function signIndex(flags: Int32Array, at: number, word: number, shift: number): number {
  const round = word >>> shift;
  const north = shift === 0 ? word >>> NORTH_NEGATIVE_BIT : round >>> (NEGATIVE_BIT - 3);
  const west = flags[at - 1]! >>> (NEGATIVE_BIT + shift);
  const east = flags[at + 1]! >>> (NEGATIVE_BIT + shift);
  const south = round >>> (NEGATIVE_BIT + 3);
  return (round & 0xaa) | (north & 1) | ((west & 1) << 2) | ((east & 1) << 4) | ((south & 1) << 6);
}

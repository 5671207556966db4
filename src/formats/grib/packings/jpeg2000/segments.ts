import { BYPASS, TERMINATE } from "./coding-style.ts";

/** With bypass the first so many passes of a code-block are arithmetically coded in one segment (ISO/IEC 15444-1 table D.9). */
const PASSES_BEFORE_BYPASS = 10;

/** How many more passes the codeword segment takes that `pass` (counted from 0 in its code-block) is in, itself included. */
export function passesLeftInSegment(pass: number, blockStyle: number): number {
  if ((blockStyle & TERMINATE) !== 0) return 1;
  if ((blockStyle & BYPASS) === 0) return Number.POSITIVE_INFINITY;
  if (pass < PASSES_BEFORE_BYPASS) return PASSES_BEFORE_BYPASS - pass;
  return isRaw(pass, blockStyle) && pass % 3 === 1 ? 2 : 1;
}

/** Whether a pass stands as bare bits: with bypass, the significance and refinement passes from the fifth plane on. */
export function isRaw(pass: number, blockStyle: number): boolean {
  return (blockStyle & BYPASS) !== 0 && pass >= PASSES_BEFORE_BYPASS && pass % 3 !== 0;
}

import type { Lifting } from "./lifting.ts";

/** The lifting steps of the irreversible wavelet (ISO/IEC 15444-1 table F.4) and its scale. */
const ALPHA = -1.586134342059924;
const BETA = -0.052980118572961;
const GAMMA = 0.882911075530934;
const DELTA = 0.443506852043971;
const K = 1.230174104914001;

/** The steps in the order in which they are undone (equation F-7), and whether each changes the samples at even places. */
const STEPS: readonly (readonly [number, 0 | 1])[] = [
  [DELTA, 0],
  [GAMMA, 1],
  [BETA, 0],
  [ALPHA, 1],
];

/** The irreversible wavelet (F.3.8.2). A line of one sample is only halved where it is a high one. Ends are mirrored. */
export const irreversible97: Lifting = { scales, weaveLine, weaveColumns };

function scales(length: number): { readonly low: number; readonly high: number } {
  return length === 1 ? { low: 1, high: 0.5 } : { low: K, high: 1 / K };
}

function weaveLine(out: Float64Array, at: number, length: number, parity: number): void {
  if (length === 1) return;
  const last = at + length - 1;
  for (const [factor, odd] of STEPS) {
    let i = at + (parity ^ odd);
    if (i === at) {
      out[i] = out[i]! - 2 * factor * out[i + 1]!;
      i += 2;
    }
    for (; i < last; i += 2) out[i] = out[i]! - factor * (out[i - 1]! + out[i + 1]!);
    if (i === last) out[i] = out[i]! - 2 * factor * out[i - 1]!;
  }
}

function weaveColumns(out: Float64Array, width: number, rows: number, parity: number): void {
  if (rows === 1) return;
  for (const [factor, odd] of STEPS) {
    for (let row = parity ^ odd; row < rows; row += 2) {
      const above = row > 0 ? row - 1 : 1;
      const below = row + 1 < rows ? row + 1 : rows - 2;
      lift(out, row * width, above * width, below * width, width, factor);
    }
  }
}

function lift(out: Float64Array, at: number, above: number, below: number, width: number, factor: number): void {
  for (let i = 0; i < width; i++) out[at + i] = out[at + i]! - factor * (out[above + i]! + out[below + i]!);
}

/**
 * One line of the reversible wavelet, put together (ISO/IEC 15444-1 F.3.8.1, equations F-5 and F-6): low samples go to even places, high
 * ones to odd places, beginning with the place `parity`, 0 or 1. Ends are mirrored. Whole numbers; sums must hold in 32 bits.
 */
export function weaveLine53(
  out: Int32Array,
  at: number,
  length: number,
  parity: number,
  low: Int32Array,
  lowAt: number,
  high: Int32Array,
  highAt: number,
): void {
  if (length === 1) {
    out[at] = parity === 0 ? low[lowAt]! : high[highAt]! >> 1;
    return;
  }
  const lows = (length + 1 - parity) >> 1;
  const lastHigh = highAt + length - lows - 1;
  let left = high[highAt]!;
  let nextHigh = highAt + parity;
  let right = high[Math.min(nextHigh, lastHigh)]!;
  let even = low[lowAt]! - ((left + right + 2) >> 2);
  let to = at;
  if (parity === 1) out[to++] = left + even;
  out[to++] = even;
  for (let k = 1; k < lows; k++, to += 2) {
    nextHigh++;
    left = right;
    right = high[Math.min(nextHigh, lastHigh)]!;
    const next = low[lowAt + k]! - ((left + right + 2) >> 2);
    out[to] = left + ((even + next) >> 1);
    out[to + 1] = next;
    even = next;
  }
  if (to < at + length) out[to] = right + even;
}

/** The same down the columns of `rows` rows of `width` samples, in place: low and high rows stand at their places already. */
export function weaveColumns53(out: Int32Array, width: number, rows: number, parity: number): void {
  if (rows === 1) {
    if (parity === 1) for (let i = 0; i < width; i++) out[i]! >>= 1;
    return;
  }
  for (let row = parity; row < rows; row += 2) {
    // Mirrored at the ends: the row above the first is the one below it.
    const above = row > 0 ? row - 1 : 1;
    const below = row + 1 < rows ? row + 1 : rows - 2;
    liftLow(out, row * width, above * width, below * width, width);
    if (row > 0) liftHigh(out, (row - 1) * width, (row > 1 ? row - 2 : row) * width, row * width, width);
  }
  if (((rows + parity) & 1) === 0) liftHigh(out, (rows - 1) * width, (rows - 2) * width, (rows - 2) * width, width);
}

function liftLow(out: Int32Array, at: number, above: number, below: number, width: number): void {
  for (let i = 0; i < width; i++) out[at + i] = out[at + i]! - ((out[above + i]! + out[below + i]! + 2) >> 2);
}

function liftHigh(out: Int32Array, at: number, above: number, below: number, width: number): void {
  for (let i = 0; i < width; i++) out[at + i] = out[at + i]! + ((out[above + i]! + out[below + i]!) >> 1);
}

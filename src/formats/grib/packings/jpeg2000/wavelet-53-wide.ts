import type { Lifting } from "./lifting.ts";

/**
 * The reversible wavelet (ISO/IEC 15444-1 F.3.8.1, equations F-5 and F-6) for samples of so many bits that its sums don't hold in 32: as
 * in wavelet-53.ts, but on whole numbers of double precision.
 */
export const reversible53Wide: Lifting = { scales: () => ({ low: 1, high: 1 }), weaveLine, weaveColumns };

function weaveLine(out: Float64Array, at: number, length: number, parity: number): void {
  if (length === 1) {
    if (parity === 1) out[at] = Math.floor(out[at]! / 2);
    return;
  }
  for (const odd of [0, 1] as const) {
    for (let i = parity ^ odd; i < length; i += 2) {
      const before = at + (i > 0 ? i - 1 : 1);
      const after = at + (i + 1 < length ? i + 1 : length - 2);
      out[at + i] = lifted(odd, out[at + i]!, out[before]! + out[after]!);
    }
  }
}

function weaveColumns(out: Float64Array, width: number, rows: number, parity: number): void {
  if (rows === 1) {
    if (parity === 1) for (let i = 0; i < width; i++) out[i] = Math.floor(out[i]! / 2);
    return;
  }
  for (const odd of [0, 1] as const) {
    for (let row = parity ^ odd; row < rows; row += 2) {
      const above = (row > 0 ? row - 1 : 1) * width;
      const below = (row + 1 < rows ? row + 1 : rows - 2) * width;
      for (let i = 0; i < width; i++) out[row * width + i] = lifted(odd, out[row * width + i]!, out[above + i]! + out[below + i]!);
    }
  }
}

const lifted = (odd: 0 | 1, own: number, beside: number): number =>
  odd === 0 ? own - Math.floor((beside + 2) / 4) : own + Math.floor(beside / 2);

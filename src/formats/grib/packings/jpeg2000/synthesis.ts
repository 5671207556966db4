import type { Lifting } from "./lifting.ts";
import type { Band, Resolution } from "./tile-layout.ts";
import { weaveColumns53, weaveLine53 } from "./wavelet-53.ts";
import { reversible53Wide } from "./wavelet-53-wide.ts";
import { irreversible97 } from "./wavelet-97.ts";

/**
 * The most bits of a sample for which every sum of the reversible wavelet holds in 32. By the sums of their filters' absolute weights
 * the low samples of any resolution are at most 1.75 times, the high ones 3 times as large as the image's each way: 5.25 times 2^27, and
 * a sum of two is below 2^31. Samples that are high both ways are refused from 2^30 on, for their bit-planes.
 */
const MAX_NARROW_BITS = 28;

/**
 * Puts a tile's samples together from its bands, resolution after resolution (ISO/IEC 15444-1 F.3.1 to F.3.3), before the shift of level:
 * whole numbers, row after row of the tile. Those that don't hold in 32 bits are cut off.
 */
export function synthesise(resolutions: readonly Resolution[], isReversible: boolean, sampleBits: number): Int32Array {
  if (!isReversible) return rounded(synthesiseBy(irreversible97, resolutions, (band) => band.step / 2));
  return sampleBits <= MAX_NARROW_BITS ? synthesise53(resolutions) : rounded(synthesiseBy(reversible53Wide, resolutions, () => 1));
}

/** The reversible wavelet in 32 bits. */
function synthesise53(resolutions: readonly Resolution[]): Int32Array {
  let low = resolutions[0]!.bands[0]!.coefficients;
  for (let r = 1; r < resolutions.length; r++) {
    const { width, rows, parityX, parityY, lowWidth, across, down, both } = levelOf(resolutions, r);
    const highWidth = width - lowWidth;
    const out = new Int32Array(width * rows);
    for (let row = 0; row < rows; row++) {
      const isHigh = ((row + parityY) & 1) === 1;
      const from = rowInBand(row, parityY);
      const left = isHigh ? down.coefficients : low;
      const right = isHigh ? both.coefficients : across.coefficients;
      weaveLine53(out, row * width, width, parityX, left, from * lowWidth, right, from * highWidth);
    }
    weaveColumns53(out, width, rows, parityY);
    low = out;
  }
  return low;
}

/** Any wavelet in double precision; `unitOf` says what a band's whole numbers stand for. */
function synthesiseBy(lifting: Lifting, resolutions: readonly Resolution[], unitOf: (band: Band) => number): Float64Array {
  const lowest = resolutions[0]!.bands[0]!;
  const unit = unitOf(lowest);
  let low: Float64Array = Float64Array.from(lowest.coefficients, (coefficient) => coefficient * unit);
  for (let r = 1; r < resolutions.length; r++) {
    const { width, rows, parityX, parityY, lowWidth, across, down, both } = levelOf(resolutions, r);
    const highWidth = width - lowWidth;
    const scaleX = lifting.scales(width);
    const scaleY = lifting.scales(rows);
    const out = new Float64Array(width * rows);
    for (let row = 0; row < rows; row++) {
      const from = rowInBand(row, parityY);
      const lowAt = row * width + parityX;
      const highAt = row * width + 1 - parityX;
      if (((row + parityY) & 1) === 0) {
        spread(out, lowAt, low, from * lowWidth, lowWidth, scaleX.low * scaleY.low);
        spread(out, highAt, across.coefficients, from * highWidth, highWidth, unitOf(across) * scaleX.high * scaleY.low);
      } else {
        spread(out, lowAt, down.coefficients, from * lowWidth, lowWidth, unitOf(down) * scaleX.low * scaleY.high);
        spread(out, highAt, both.coefficients, from * highWidth, highWidth, unitOf(both) * scaleX.high * scaleY.high);
      }
      lifting.weaveLine(out, row * width, width, parityX);
    }
    lifting.weaveColumns(out, width, rows, parityY);
    low = out;
  }
  return low;
}

/** Which row of its bands comes to a row: low rows stand at even places, high ones at odd places. */
const rowInBand = (row: number, parityY: number): number => ((row + parityY) >> 1) - ((row + parityY) & 1 ? 0 : parityY);

/** Puts a row at every second place, scaled. */
function spread(out: Float64Array, at: number, row: ArrayLike<number>, from: number, count: number, scale: number): void {
  for (let i = 0, to = at; i < count; i++, to += 2) out[to] = row[from + i]! * scale;
}

/** The nearest whole numbers; halfway to the even one, as IEEE 754 rounds. */
function rounded(from: Float64Array): Int32Array {
  const most = 2 ** 31 - 1;
  const out = new Int32Array(from.length);
  for (let i = 0; i < out.length; i++) {
    const value = Math.max(-most, Math.min(most, from[i]!));
    const nearest = Math.round(value);
    out[i] = nearest - value === 0.5 && (nearest & 1) === 1 ? nearest - 1 : nearest;
  }
  return out;
}

interface Level {
  readonly width: number;
  readonly rows: number;
  /** Of the first column and the first row on the resolution's own grid. */
  readonly parityX: number;
  readonly parityY: number;
  /** Columns of the next lower resolution. */
  readonly lowWidth: number;
  readonly across: Band;
  readonly down: Band;
  readonly both: Band;
}

function levelOf(resolutions: readonly Resolution[], r: number): Level {
  const { x0, y0, x1, y1, bands } = resolutions[r]!;
  const lower = resolutions[r - 1]!;
  const [across, down, both] = bands as readonly [Band, Band, Band];
  return { width: x1 - x0, rows: y1 - y0, parityX: x0 & 1, parityY: y0 & 1, lowWidth: lower.x1 - lower.x0, across, down, both };
}

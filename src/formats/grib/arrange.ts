import type { GribScan, GribValues } from "./grib-field.ts";
import { walkLines } from "./grids/scan.ts";
import type { PackedValues } from "./packings/packing-reader.ts";

/**
 * Spreads values from the message's order over the grid: rows from the south, each from west to east. `bitmap` has a bit for each
 * point in the message's order, 1 where there is a value, and as many ones as there are values. `packed` is used up: its arrays may be
 * those that are given back.
 */
export function arrange(packed: PackedValues, bitmap: Uint8Array | null, scan: GribScan): GribValues {
  const points = scan.ni * scan.nj;
  if (bitmap === null && inRowsEastward(scan)) {
    const { values, missing } = packed;
    if (!scan.jPositive) {
      turnRowsOver(values, scan.ni);
      if (missing !== null) turnRowsOver(missing, scan.ni);
    }
    return { values, missing: missing ?? new Uint8Array(points) };
  }
  const spread: Spread = { ...packed, bitmap, to: { values: new Float64Array(points), missing: new Uint8Array(points) }, next: 0, bit: 0 };
  walkLines(scan, (first, step, length) => {
    if (step !== 1) spreadLine(spread, first, step, length);
    else if (bitmap === null) copyRow(spread, first, length);
    else spreadRow(spread, bitmap, first, length);
  });
  return spread.to;
}

/** Whether row follows row, each from west to east. */
export const inRowsEastward = (scan: GribScan): boolean => !scan.iNegative && !scan.jConsecutive && !scan.alternating;

/** The last row first. */
function turnRowsOver(array: Float64Array | Uint8Array, columns: number): void {
  const row = array.slice(0, columns);
  for (let low = 0, high = array.length - columns; low < high; low += columns, high -= columns) {
    row.set(array.subarray(low, low + columns));
    array.copyWithin(low, high, high + columns);
    array.set(row, high);
  }
}

/** Values on their way: `next` is the place of the next one in the message, `bit` that of the next point. */
interface Spread extends PackedValues {
  readonly bitmap: Uint8Array | null;
  readonly to: GribValues;
  next: number;
  bit: number;
}

/** A line of any step, point by point. */
function spreadLine(spread: Spread, first: number, step: number, length: number): void {
  const { bitmap, values, missing, to } = spread;
  let { next, bit } = spread;
  for (let i = 0, at = first; i < length; i++, bit++, at += step) {
    if (bitmap !== null && ((bitmap[bit >>> 3]! >>> (7 - (bit & 7))) & 1) === 0) to.missing[at] = 1;
    else {
      if (missing !== null && missing[next] === 1) to.missing[at] = 1;
      else to.values[at] = values[next]!;
      next++;
    }
  }
  spread.next = next;
  spread.bit = bit;
}

/** A row eastward, without a bitmap. */
function copyRow(spread: Spread, first: number, length: number): void {
  const { values, missing, to, next } = spread;
  spread.next = next + length;
  to.values.set(values.subarray(next, spread.next), first);
  if (missing !== null) to.missing.set(missing.subarray(next, spread.next), first);
}

/** A row eastward, by runs: bytes of the bitmap that are all ones or all noughts are taken together with those alike that follow. */
function spreadRow(spread: Spread, bitmap: Uint8Array, first: number, length: number): void {
  const { values, missing, to } = spread;
  const endBit = spread.bit + length;
  const shift = first - spread.bit;
  let { next, bit } = spread;
  while (bit < endBit) {
    const byte = bitmap[bit >>> 3]!;
    if ((bit & 7) === 0 && endBit - bit >= 8 && (byte === 0x00 || byte === 0xff)) {
      const from = bit;
      do bit += 8;
      while (endBit - bit >= 8 && bitmap[bit >>> 3] === byte);
      if (byte === 0x00) to.missing.fill(1, from + shift, bit + shift);
      else {
        const until = next + bit - from;
        if (bit - from < SHORT_RUN) for (let i = next, at = from + shift; i < until; i++, at++) to.values[at] = values[i]!;
        else to.values.set(values.subarray(next, until), from + shift);
        if (missing !== null) to.missing.set(missing.subarray(next, until), from + shift);
        next = until;
      }
      continue;
    }
    if (((byte >>> (7 - (bit & 7))) & 1) === 0) to.missing[bit + shift] = 1;
    else {
      to.values[bit + shift] = values[next]!;
      if (missing !== null) to.missing[bit + shift] = missing[next]!;
      next++;
    }
    bit++;
  }
  spread.next = next;
  spread.bit = endBit;
}

/** Below so many values a loop is quicker than a call. */
const SHORT_RUN = 64;

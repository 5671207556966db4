import type { Rows } from "./packing-reader.ts";
import { type LinearScaling, unpackScaled } from "./unpack-bits.ts";

/** Unpacks numbers of `bits` bits straight into rows: turning the rows over afterwards would cost half as much again. */
export function unpackRowsScaled(data: Uint8Array, bits: number, scaling: LinearScaling, { values, columns, lastRowFirst }: Rows): void {
  const count = values.length;
  for (let row = 0, firstBit = 0; row < count; row += columns, firstBit += columns * bits) {
    const from = lastRowFirst ? count - columns - row : row;
    unpackScaled({ data, firstBit, bits }, scaling, values, from, from + columns);
  }
}

import { type ComplexLayout, LARGEST_EXACT } from "./layout.ts";

/** What template 7.3 puts before the groups: as many first values as the order, and the least difference, which was taken off all. */
export interface Descriptors {
  readonly firsts: readonly number[];
  readonly least: number;
  /** Their bytes in all. */
  readonly bytes: number;
}

/** Reads the descriptors. The least difference is sign and magnitude (template 7.3, note 4); the first values, being packed ones, have no sign. */
export function readDescriptors(layout: ComplexLayout, data: Uint8Array): Descriptors | string {
  const { order, descriptorOctets: octets } = layout;
  if (order === 0) return { firsts: [], least: 0, bytes: 0 };
  const bytes = (order + 1) * octets;
  if (bytes > data.length) return `The first values and the least difference take ${bytes} bytes, and there are ${data.length}.`;
  const unsigned = (k: number): number => data.subarray(k * octets, (k + 1) * octets).reduce((sum, byte) => sum * 256 + byte, 0);
  const signBit = 2 ** (8 * octets - 1);
  const magnitude = unsigned(order);
  const least = octets > 0 && magnitude >= signBit ? signBit - magnitude : magnitude;
  return { firsts: Array.from({ length: order }, (_, k) => unsigned(k)), least, bytes };
}

/**
 * Turns packed numbers into values, in place: sums up their differences (template 5.3, note 1; missing values are passed over), then
 * (reference + number × step) / divisor. False where the sums leave the numbers that are exact; the values are then worthless.
 */
export function restore(layout: ComplexLayout, descriptors: Descriptors, values: Float64Array, missing: Uint8Array | null): boolean {
  const { reference, step, divisor } = layout.scaling;
  const { firsts, least } = descriptors;
  const { order } = layout;
  const count = values.length;
  if (order === 0) {
    for (let i = 0; i < count; i++) {
      if (missing === null || missing[i] === 0) values[i] = (reference + values[i]! * step) / divisor;
    }
    return true;
  }
  let i = 0;
  let number = 0;
  let rise = 0;
  for (let seen = 0; seen < order && i < count; i++) {
    if (missing !== null && missing[i] === 1) continue;
    rise = firsts[seen]! - number;
    number = firsts[seen]!;
    values[i] = (reference + number * step) / divisor;
    seen++;
  }
  let highest = number;
  let lowest = number;
  if (order === 1) {
    for (; i < count; i++) {
      if (missing !== null && missing[i] === 1) continue;
      number += values[i]! + least;
      if (number > highest) highest = number;
      else if (number < lowest) lowest = number;
      values[i] = (reference + number * step) / divisor;
    }
  } else {
    for (; i < count; i++) {
      if (missing !== null && missing[i] === 1) continue;
      rise += values[i]! + least;
      number += rise;
      if (number > highest) highest = number;
      else if (number < lowest) lowest = number;
      values[i] = (reference + number * step) / divisor;
    }
  }
  return highest <= LARGEST_EXACT && lowest >= -LARGEST_EXACT;
}

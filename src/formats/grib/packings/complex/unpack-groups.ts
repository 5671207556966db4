import type { PackedValues } from "../packing-reader.ts";
import { unpackWhole } from "../unpack-bits.ts";
import { type Groups, viewOf } from "./groups.ts";
import type { ComplexLayout } from "./layout.ts";

/**
 * The packed numbers, each with its group's reference added; 0 where missing. Missing values are numbers of their own: within a group
 * all bits set (primary) or all but the last (secondary); in a group without bits, the reference itself with the bits that references
 * have (template 5.2, notes 8 to 10). The two kinds are not told apart.
 */
export function unpackGroups(layout: ComplexLayout, groups: Groups, valueCount: number): PackedValues {
  const { groupCount, missingKinds } = layout;
  const data = groups.values;
  const view = viewOf(data);
  const values = new Float64Array(valueCount);
  const missing = missingKinds === 0 ? null : new Uint8Array(valueCount);
  const leastMissingReference = POWERS_OF_TWO[layout.scaling.bits]! - missingKinds;
  let from = 0;
  let bit = 0;
  for (let first = 0; first < groupCount; ) {
    const count = groups.load(first);
    for (let g = 0; g < count; g++) {
      const reference = groups.references[g]!;
      const width = groups.widths[g]! | 0;
      const to = (from + groups.lengths[g]!) | 0;
      if (missing === null) unpackWhole(data, view, bit, width, values, from, to, reference);
      else if (width > 0) {
        unpackWhole(data, view, bit, width, values, from, to, 0);
        addToPresent(reference, POWERS_OF_TWO[width]! - missingKinds, values, missing, from, to);
      } else if (reference < leastMissingReference) values.fill(reference, from, to);
      else missing.fill(1, from, to);
      bit += width * (to - from);
      from = to;
    }
    first += count;
  }
  return { values, missing };
}

/** Far quicker than raising two to a power for each of many small groups. */
const POWERS_OF_TWO = Float64Array.from({ length: 33 }, (_, bits) => 2 ** bits);

/** Numbers from `leastMissing` on mean missing; the others get `base` added. */
function addToPresent(base: number, leastMissing: number, values: Float64Array, missing: Uint8Array, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const number = values[i]!;
    if (number < leastMissing) values[i] = number + base;
    else {
      values[i] = 0;
      missing[i] = 1;
    }
  }
}

import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import { type Scaling, scalingIn } from "./simple.ts";

/**
 * The scaling of a packing whose numbers are those of simple packing, coded some other way: at most 32 bits, and a finite value for
 * every number of so many bits. `packingName` is for the issue.
 */
export function checkedScaling(octets: Octets, packingName: string, path: string): Parsed<Scaling> {
  const scaling = scalingIn(octets);
  const { bits, reference, divisor } = scaling;
  if (bits > 32) {
    return bad(issue(path, "packing-not-read", `${packingName} packing with ${bits} bits a value is not read; 32 is the most.`));
  }
  if (!Number.isFinite(reference) || !Number.isFinite(largestValue(scaling)) || !Number.isFinite(divisor)) {
    return bad(issue(path, "file-lies", "The scaling of the packed values gives no finite numbers."));
  }
  return good(scaling);
}

/** The value of the largest number that has no more than its bits, at least one. No smaller number gives a larger value. */
export function largestValue({ bits, reference, step, divisor }: Scaling): number {
  return (reference + (2 ** bits - 1) * step) / divisor;
}

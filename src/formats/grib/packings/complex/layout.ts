import { bad, good, issue, type Parsed } from "../../../../core/answers/index.ts";
import type { Octets } from "../../octets.ts";
import { type Scaling, scalingIn } from "../simple.ts";

const TEMPLATE_OCTETS = 47;
const DIFFERENCED_TEMPLATE_OCTETS = 49;

/** Section 5 of templates 5.2 and 5.3. */
export interface ComplexLayout {
  /** Its `bits` are those of a group's reference. */
  readonly scaling: Scaling;
  /** Code table 5.4: 0 the grid's rows are the groups, 1 general. */
  readonly splitting: number;
  /** Code table 5.5: how many kinds of missing value have a number of their own among the packed ones; 0, 1 or 2. */
  readonly missingKinds: number;
  /** 0: every value is R / 10^D, and section 7 is empty (common practice where all values are the same). */
  readonly groupCount: number;
  readonly widthBase: number;
  readonly widthBits: number;
  readonly lengthBase: number;
  readonly lengthStep: number;
  readonly lastLength: number;
  readonly lengthBits: number;
  /** Code table 5.6; 0 where the values themselves are packed. */
  readonly order: number;
  /** Octets of each first value and of the least difference. */
  readonly descriptorOctets: number;
}

/** The layout that the octets give; `checkLayout` must have let them through. */
export function layoutIn(octets: Octets, differenced: boolean): ComplexLayout {
  return {
    scaling: scalingIn(octets),
    splitting: octets.u8(22),
    missingKinds: octets.u8(23),
    groupCount: octets.u32(32),
    widthBase: octets.u8(36),
    widthBits: octets.u8(37),
    lengthBase: octets.u32(38),
    lengthStep: octets.u8(42),
    lastLength: octets.u32(43),
    lengthBits: octets.u8(47),
    order: differenced ? octets.u8(48) : 0,
    descriptorOctets: differenced ? octets.u8(49) : 0,
  };
}

/** The largest number that differences may add up to: below it, sums and differences of two are exact in double precision. */
export const LARGEST_EXACT = 2 ** 51;

/**
 * Holds the layout against itself. Rows as groups are read where their lengths stand in the message, as for other groups; where they
 * would have to be taken from the grid and the bitmap (template 5.2, note 1) they are not.
 */
export function checkLayout(
  octets: Octets,
  valueCount: number,
  differenced: boolean,
  path: string,
): Parsed<{ readonly bytesNeeded: null }> {
  const lies = (said: string): Parsed<never> => bad(issue(path, "file-lies", said));
  const notRead = (said: string): Parsed<never> => bad(issue(path, "packing-not-read", said));
  if (octets.length < (differenced ? DIFFERENCED_TEMPLATE_OCTETS : TEMPLATE_OCTETS)) {
    return lies(`Section 5 is only ${octets.length} octets long.`);
  }
  const layout = layoutIn(octets, differenced);
  const { scaling, splitting, missingKinds, groupCount, order, descriptorOctets } = layout;
  if (splitting > 1) return notRead(`Complex packing with groups split by method ${splitting} is not read.`);
  if (missingKinds > 2) return notRead(`Complex packing that marks missing values by method ${missingKinds} is not read.`);
  if (order > 2) return notRead(`Complex packing with differences of order ${order} is not read.`);
  if (descriptorOctets > 4) return notRead(`Complex packing with first values of ${descriptorOctets} octets is not read; 4 is the most.`);
  if (order === 0 && descriptorOctets > 0) return lies("The packed values are no differences, yet room is kept for the least difference.");
  const bits = Math.max(scaling.bits, layout.widthBits, layout.lengthBits);
  if (bits > 32) return notRead(`Complex packing with ${bits} bits for what describes a group is not read; 32 is the most.`);
  if (groupCount > valueCount) return lies(`${valueCount} values are packed in ${groupCount} groups.`);
  const rowsUnsaid = splitting === 0 && groupCount > 1 && layout.lengthBase === 0 && layout.lengthBits === 0;
  if (rowsUnsaid) return notRead("Complex packing with the grid's rows as groups, without their lengths, is not read.");
  const { reference, step, divisor } = scaling;
  if (!Number.isFinite(Math.abs(reference) + LARGEST_EXACT * step) || !Number.isFinite(divisor)) {
    return lies("The scaling of the packed values gives no finite numbers.");
  }
  return good({ bytesNeeded: null });
}

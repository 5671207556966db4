import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { GribPacking, GribSpan } from "../grib-field.ts";
import type { Octets } from "../octets.ts";
import { packingSection } from "../packings/edition1-head.ts";
import { checkEdition1SecondOrder, edition1SecondOrderPacking, SECOND_ORDER_HEAD_OCTETS } from "../packings/edition1-second-order.ts";
import { checkEdition1Simple, edition1SimplePacking, SIMPLE_HEAD_OCTETS } from "../packings/edition1-simple.ts";

/** The most octets of section 4 that are looked at before its values are. */
export const VALUES_HEAD_OCTETS = 32;

/** How section 4's values are packed and where they stand; `alternating` where every other line of the grid runs the other way. */
export interface Edition1Values {
  readonly packing: GribPacking;
  readonly data: GribSpan;
  readonly alternating: boolean;
}

/** What the other sections say that the values need. */
export interface ValuesOf {
  /** Section 1's D. */
  readonly decimalScale: number;
  readonly valueCount: number;
  /** How many values each line of the grid has, in the message's order. */
  readonly lineCounts: () => Uint32Array;
}

/** Octet 4's upper half (flag table 11). */
const SPHERICAL_HARMONICS = 0x80;
const SECOND_ORDER = 0x40;
const MORE_FLAGS = 0x10;

/** Section 4's head (Manual on Codes I.2, FM 92 GRIB edition 1), held against its length; or why its values aren't read. */
export function readEdition1Values(octets: Octets, section4: GribSpan, of: ValuesOf, path: string): Parsed<Edition1Values> {
  const notRead = (message: string): Parsed<never> => bad(issue(path, "packing-not-read", message));
  const flags = octets.u8(4);
  if ((flags & SPHERICAL_HARMONICS) !== 0) return notRead("The values are coefficients of spherical harmonics.");
  if ((flags & SECOND_ORDER) !== 0) return secondOrder(octets, section4, of, path);
  if ((flags & MORE_FLAGS) !== 0) return notRead("There is a matrix of values at each point, or they are packed in a centre's own way.");
  const section = packingSection(of.decimalScale, octets.bytes.subarray(0, SIMPLE_HEAD_OCTETS));
  const unusedBits = flags & 0x0f;
  const checked = checkEdition1Simple(section, of.valueCount, section4.lengthBytes, unusedBits, path);
  if (!checked.ok) return checked;
  return good({
    packing: { template: null, name: edition1SimplePacking.name, valueCount: of.valueCount, section },
    data: { offsetBytes: section4.offsetBytes + SIMPLE_HEAD_OCTETS, lengthBytes: checked.value.bytesNeeded },
    alternating: false,
  });
}

function secondOrder(octets: Octets, section4: GribSpan, of: ValuesOf, path: string): Parsed<Edition1Values> {
  if (octets.length < SECOND_ORDER_HEAD_OCTETS) return bad(issue(path, "file-lies", `Section 4 is only ${octets.length} octets long.`));
  const checked = checkEdition1SecondOrder(octets, path);
  if (!checked.ok) return checked;
  const { alternating, linesAreGroups } = checked.value;
  const section = packingSection(of.decimalScale, linesAreGroups ? of.lineCounts() : null);
  return good({
    packing: { template: null, name: edition1SecondOrderPacking.name, valueCount: of.valueCount, section },
    data: section4,
    alternating,
  });
}

import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { Octets } from "../octets.ts";
import { undoDifferences } from "./edition1-differences.ts";
import { GroupBits, type Groups } from "./edition1-groups.ts";
import { behindDecimalScale, edition1Scaling } from "./edition1-head.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";

/** Section 4 before the groups' widths. */
export const SECOND_ORDER_HEAD_OCTETS = 21;

/**
 * Edition 1's second-order packing (Manual on Codes I.2, FM 92 GRIB edition 1, section 4, and ECMWF's general extended form of it): values
 * stand in groups, each with a first-order number that all its values have in common and second-order numbers of its own width. Groups
 * are the grid's lines (row by row), marked by a secondary bitmap, or given by their lengths (extended), and there the values may be
 * differences of first to third order.
 *
 * `data` is the whole of section 4. The section is as `packingSection` makes it, with the lines' counts where lines are groups.
 */
export const edition1SecondOrderPacking: Pick<PackingReader, "name" | "unpack"> = { name: "edition 1 second-order", unpack };

/** Octet 14 (flag table 11-2, and ECMWF's bits for its extended form). */
const MATRIX = 0x40;
const SECONDARY_BITMAP = 0x20;
const DIFFERENT_WIDTHS = 0x10;
const EXTENDED = 0x08;
const ALTERNATING = 0x04;
const ORDER = 0x03;

/** Bits are counted in 32-bit numbers. */
const MOST_BYTES = 2 ** 28;
const MOST_BITS = 32;

/** Which form it is; `linesAreGroups` where the grid's lines must be known to unpack it. */
export function checkEdition1SecondOrder(
  section4: Octets,
  path: string,
): Parsed<{ readonly alternating: boolean; readonly linesAreGroups: boolean }> {
  const flags = section4.u8(14);
  if ((flags & MATRIX) !== 0) return bad(issue(path, "packing-not-read", "There is a matrix of values at each point."));
  const extended = (flags & EXTENDED) !== 0;
  const marked = (flags & SECONDARY_BITMAP) !== 0;
  if (extended && (marked || (flags & DIFFERENT_WIDTHS) === 0)) {
    return bad(issue(path, "packing-not-read", `Second-order packing with the flags ${flags} isn't known.`));
  }
  if (!extended && (flags & ORDER) !== 0) {
    return bad(issue(path, "packing-not-read", `Second-order packing with the flags ${flags} isn't known.`));
  }
  return good({ alternating: (flags & ALTERNATING) !== 0, linesAreGroups: !extended && !marked });
}

function unpack(section: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues> {
  const lie = (message: string): Parsed<never> => bad(issue(path, "file-lies", message));
  const section4 = new Octets(data);
  const scaling = edition1Scaling(section.s16(1), section4);
  if (scaling === null) return lie("The scaling of the packed values gives no finite numbers.");
  if (data.length > MOST_BYTES) return bad(issue(path, "file-too-large", `Section 4 is ${data.length} bytes long.`));
  const flags = section4.u8(14);
  const order = (flags & EXTENDED) === 0 ? 0 : flags & ORDER;
  if (order > valueCount) return lie(`${valueCount} values are packed as differences of order ${order}.`);

  const values = new Float64Array(valueCount);
  const bits = new GroupBits(data);
  const groups = groupsIn(section4, section, flags, valueCount - order, bits, order);
  if (typeof groups === "string") return lie(groups);
  const fault = bits.readGroups(groups, values, order);
  if (fault !== null) return lie(fault);
  if (groups.firsts !== null) undoDifferences(values, groups.firsts, groups.bias);
  const { reference, step, divisor } = scaling;
  for (let i = 0; i < valueCount; i++) values[i] = (reference + values[i]! * step) / divisor;
  if (!values.every(Number.isFinite)) return lie("The packed values give no finite numbers.");
  return good({ values, missing: null });
}

/** The groups' widths, lengths and first-order numbers; a string says what can't be true. `bits` is left where the second-order numbers begin. */
function groupsIn(section4: Octets, section: Octets, flags: number, count: number, bits: GroupBits, order: number): Groups | string {
  const firstOrderBits = section4.u8(11);
  const groupCount = section4.u16(17) + 65_536 * section4.u8(21);
  if (firstOrderBits > MOST_BITS) return `First-order values of ${firstOrderBits} bits are packed.`;
  if (groupCount > Math.max(count, section.length)) return `${count} values are said to be packed in ${groupCount} groups.`;
  bits.toOctet(22);
  if ((flags & EXTENDED) !== 0) return extendedGroups(groupCount, firstOrderBits, order, bits);
  const widths = (flags & DIFFERENT_WIDTHS) === 0 ? sameWidth(groupCount, bits) : bits.numbers(groupCount, 8);
  if (typeof widths === "string") return widths;
  const lengths = (flags & SECONDARY_BITMAP) === 0 ? lineLengths(section) : bits.markedLengths(count, groupCount);
  if (typeof lengths === "string") return lengths;
  if (lengths.length !== groupCount) return `${groupCount} groups are packed for a grid of ${lengths.length} lines.`;
  const references = bits.numbers(groupCount, firstOrderBits);
  return typeof references === "string" ? references : { widths, lengths, references, firsts: null, bias: 0 };
}

/** ECMWF's extended form: octets 22 and 23 the bits of widths and of lengths, then (24, 25) a count that isn't needed. */
function extendedGroups(groupCount: number, firstOrderBits: number, order: number, bits: GroupBits): Groups | string {
  const head = bits.numbers(4, 8);
  if (typeof head === "string") return head;
  const [widthBits, lengthBits] = [head[0]!, head[1]!];
  if (widthBits > MOST_BITS || lengthBits > MOST_BITS) return `Widths of ${widthBits} and lengths of ${lengthBits} bits are packed.`;
  const differences = order === 0 ? { firsts: null, bias: 0 } : bits.differenceStart(order);
  if (typeof differences === "string") return differences;
  const widths = bits.numbers(groupCount, widthBits);
  if (typeof widths === "string") return widths;
  const lengths = bits.numbers(groupCount, lengthBits);
  if (typeof lengths === "string") return lengths;
  const references = bits.numbers(groupCount, firstOrderBits);
  return typeof references === "string" ? references : { widths, lengths, references, ...differences };
}

/** One width for all groups, in one octet. */
function sameWidth(groupCount: number, bits: GroupBits): Float64Array | string {
  const width = bits.numbers(1, 8);
  return typeof width === "string" ? width : new Float64Array(groupCount).fill(width[0]!);
}

function lineLengths(section: Octets): Float64Array {
  const counts = behindDecimalScale(section);
  return Float64Array.from({ length: counts.length / 4 }, (_, line) => counts.u32(1 + 4 * line));
}

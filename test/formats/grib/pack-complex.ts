import { OctetWriter } from "../../../src/formats/grib/octet-writer.ts";
import { assembled, sectionsOf, written } from "./sample-message.ts";

/** A whole number to be packed, or what is missing. */
export type Packable = number | "primary" | "secondary";

export interface ComplexSettings {
  /** 5.2 where left out; else 5.3 with differences of this order. */
  readonly order?: 1 | 2;
  /** Code table 5.5. */
  readonly missingKinds?: 0 | 1 | 2;
  /** Values in each group but the last, which has what is left. */
  readonly groupLength?: (group: number) => number;
  readonly lengthStep?: number;
  readonly splitting?: 0 | 1;
  /** More than as many as are needed. */
  readonly spareBits?: number;
  readonly descriptorOctets?: number;
  readonly reference?: number;
  readonly binaryScale?: number;
  readonly decimalScale?: number;
}

/**
 * Complex packing from the words of the WMO's templates 5.2, 5.3, 7.2 and 7.3 and their notes, slow and plain, sharing nothing with the
 * program's reader: sections 5 and 7 of whole numbers.
 */
export function packComplex(numbers: readonly Packable[], settings: ComplexSettings = {}): readonly [Uint8Array, Uint8Array] {
  const { order = 0, missingKinds = 0, groupLength = () => 7, lengthStep = 1, splitting = 1, spareBits = 0 } = settings;
  const { firsts, least, packed } = differenced(numbers, order);

  const groups: (readonly Packable[])[] = [];
  for (let from = 0; from < packed.length; ) {
    const group = packed.slice(from, from + groupLength(groups.length));
    groups.push(group);
    from += group.length;
  }
  const present = groups.map((group) => group.filter((one) => typeof one === "number"));
  const references = present.map((some) => some.reduce((a, b) => Math.min(a, b), some[0] ?? 0));
  // Room for the numbers that mean missing above every true one (note 11).
  const referenceBits = bitsFor(Math.max(0, ...references) + missingKinds) + spareBits;
  const widths = groups.map((group, g) => {
    const span = present[g]!.reduce((most, one) => Math.max(most, one - references[g]!), 0);
    const alike = group.every((one) => one === group[0]);
    return alike ? 0 : bitsFor(span + missingKinds) + spareBits;
  });
  const allSet = (bits: number, one: Packable): number => 2 ** bits - (one === "primary" ? 1 : 2);
  const codedReferences = groups.map((group, g) =>
    present[g]!.length > 0 || widths[g]! > 0 ? references[g]! : allSet(referenceBits, group[0]!),
  );

  const lengths = groups.map((group) => group.length);
  const lengthBase = lengths.slice(0, -1).reduce((a, b) => Math.min(a, b), lengths[0] ?? 0);
  const scaled = lengths.map((length, g) => (g === lengths.length - 1 ? 0 : (length - lengthBase) / lengthStep));
  const lengthBits = bitsFor(Math.max(0, ...scaled)) + spareBits;
  const widthBase = widths.reduce((a, b) => Math.min(a, b), widths[0] ?? 0);
  const widthBits = bitsFor(Math.max(0, ...widths) - widthBase) + spareBits;

  const descriptorOctets = settings.descriptorOctets ?? Math.ceil((bitsFor(Math.max(Math.abs(least), ...firsts)) + 1) / 8);
  const descriptors = new OctetWriter();
  if (order > 0) {
    for (const first of firsts) descriptors.unsigned(first, descriptorOctets);
    for (let left = firsts.length; left < order; left++) descriptors.unsigned(0, descriptorOctets);
    descriptors.signed(least, descriptorOctets);
  }
  const values = groups.flatMap((group, g) =>
    widths[g] === 0 ? [] : group.map((one) => inBits(typeof one === "number" ? one - references[g]! : allSet(widths[g]!, one), widths[g]!)),
  );
  const section7 = new OctetWriter().section(
    7,
    Uint8Array.from([
      ...descriptors.plain(),
      ...octets(codedReferences.map((one) => inBits(one, referenceBits))),
      ...octets(widths.map((one) => inBits(one - widthBase, widthBits))),
      ...octets(scaled.map((one) => inBits(one, lengthBits))),
      ...octets(values),
    ]),
  );

  const section5 = new OctetWriter()
    .unsigned(numbers.length, 4)
    .unsigned(order === 0 ? 2 : 3, 2)
    .float32(settings.reference ?? 0)
    .signed(settings.binaryScale ?? 0, 2)
    .signed(settings.decimalScale ?? 0, 2)
    .unsigned(referenceBits, 1)
    .unsigned(0, 1)
    .unsigned(splitting, 1)
    .unsigned(missingKinds, 1)
    .missing(8)
    .unsigned(groups.length, 4)
    .unsigned(widthBase, 1)
    .unsigned(widthBits, 1)
    .unsigned(lengthBase, 4)
    .unsigned(lengthStep, 1)
    .unsigned(lengths.at(-1) ?? 0, 4)
    .unsigned(lengthBits, 1);
  if (order > 0) section5.unsigned(order, 1).unsigned(descriptorOctets, 1);
  return [section5.section(5), section7];
}

/** A whole message on a grid of `rows` by `columns`, from the south; `presentBits` is the bitmap of section 6. */
export function complexMessage(
  numbers: readonly Packable[],
  rows: number,
  columns: number,
  settings: ComplexSettings = {},
  bitmap: Uint8Array | null = null,
): Uint8Array {
  const grid = { rows, columns, southDeg: -31, westDeg: 12, latitudeStepDeg: 0.01, longitudeStepDeg: 0.01 };
  const sections = new Map(sectionsOf(written({ grid, values: new Float64Array(rows * columns) })));
  const [section5, section7] = packComplex(numbers, settings);
  sections.set(5, section5);
  if (bitmap !== null) sections.set(6, new OctetWriter().unsigned(0, 1).section(6, bitmap));
  sections.set(7, section7);
  return assembled([...sections.values()]);
}

/** Differences of the order, of those that aren't missing; their least taken off; the first ones noughts (template 5.3, notes 1 and 2). */
function differenced(numbers: readonly Packable[], order: 0 | 1 | 2) {
  if (order === 0) return { firsts: [], least: 0, packed: numbers };
  const present = numbers.filter((one) => typeof one === "number");
  const differences = present.map((one, i) =>
    i < order ? 0 : order === 1 ? one - present[i - 1]! : one - 2 * present[i - 1]! + present[i - 2]!,
  );
  const least = differences.slice(order).reduce((a, b) => Math.min(a, b), differences[order] ?? 0);
  let next = 0;
  const packed = numbers.map((one): Packable => {
    if (typeof one !== "number") return one;
    const i = next++;
    return i < order ? 0 : differences[i]! - least;
  });
  return { firsts: present.slice(0, order), least, packed };
}

const bitsFor = (most: number): number => (most === 0 ? 0 : most.toString(2).length);
const inBits = (number: number, bits: number): string => (bits === 0 ? "" : number.toString(2).padStart(bits, "0"));

function octets(numbers: readonly string[]): Uint8Array {
  const digits = numbers.join("");
  return Uint8Array.from({ length: Math.ceil(digits.length / 8) }, (_, i) =>
    Number.parseInt(digits.slice(i * 8, i * 8 + 8).padEnd(8, "0"), 2),
  );
}

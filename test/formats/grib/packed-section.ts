import { Octets } from "../../../src/formats/grib/octets.ts";
import type { PackedValues, PackingReader } from "../../../src/formats/grib/packings/packing-reader.ts";
import { assembled, sectionsOf } from "./sample-message.ts";

/** What section 5 says in octets 12 to 20, and what the template has behind octet 21. */
export interface Section5 {
  readonly template: number;
  readonly valueCount: number;
  readonly bits: number;
  readonly reference?: number;
  /** Not negative. */
  readonly binaryScale?: number;
  readonly decimalScale?: number;
  readonly behind?: readonly number[];
}

export function section5({
  template,
  valueCount,
  bits,
  reference = 0,
  binaryScale = 0,
  decimalScale = 0,
  behind = [],
}: Section5): Uint8Array {
  const section = new Uint8Array(21 + behind.length);
  const view = new DataView(section.buffer);
  view.setUint32(0, section.length);
  view.setUint8(4, 5);
  view.setUint32(5, valueCount);
  view.setUint16(9, template);
  view.setFloat32(11, reference);
  view.setUint16(15, binaryScale);
  view.setUint16(17, decimalScale);
  view.setUint8(19, bits);
  section.set(behind, 21);
  return section;
}

/** A message with its values packed another way: sections 5 and 7 in the place of its own. */
export function repacked(message: Uint8Array, packing: Section5, data: Uint8Array): Uint8Array {
  const sections = new Map(sectionsOf(message));
  const section7 = new Uint8Array(5 + data.length);
  new DataView(section7.buffer).setUint32(0, section7.length);
  section7[4] = 7;
  section7.set(data, 5);
  sections.set(5, section5(packing));
  sections.set(7, section7);
  return assembled([...sections.values()], message[6]);
}

/** What a reader gives for a section 5 and the data: the values, or the code of the issue, whether from the check or the unpacking. */
export function unpackedBy(reader: PackingReader, packing: Section5, data: Uint8Array): Float64Array | string {
  const octets = new Octets(section5(packing));
  const checked = reader.check(octets, packing.valueCount, "here");
  if (!checked.ok) return checked.issues[0]!.code;
  const { bytesNeeded } = checked.value;
  const read = reader.unpack(octets, packing.valueCount, bytesNeeded === null ? data : data.subarray(0, bytesNeeded), "here");
  return read.ok ? valuesOnly(read.value) : read.issues[0]!.code;
}

function valuesOnly({ values, missing }: PackedValues): Float64Array {
  if (missing !== null) throw new Error("these packings can't say that a value is missing");
  return values;
}

/** mulberry32: a small generator of 32-bit numbers, so that every run sees the same mutations. */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (t ^ (t >>> 14)) >>> 0;
  };
}

/** One to three changes: a bit, a byte, a piece cut out, a piece doubled, the end cut off. */
export function mutatedBytes(bytes: Uint8Array, next: () => number): Uint8Array {
  let whole = [...bytes];
  for (let changes = 1 + (next() % 3); changes > 0 && whole.length > 0; changes--) {
    const at = next() % whole.length;
    const kind = next() % 8;
    if (kind < 3) whole[at]! ^= 1 << (next() % 8);
    else if (kind < 5) whole[at] = next() & 255;
    else if (kind === 5) whole.splice(at, 1 + (next() % 8));
    else if (kind === 6) whole.splice(at, 0, ...whole.slice(at, at + 1 + (next() % 16)));
    else whole = whole.slice(0, at);
  }
  return Uint8Array.from(whole);
}

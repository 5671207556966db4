import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { GribPacking } from "../grib-field.ts";
import { MAX_GRIB_POINTS } from "../limits.ts";
import { Octets } from "../octets.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";
import { simplePacking } from "./simple.ts";

const readers: ReadonlyMap<number, PackingReader> = new Map([simplePacking].map((reader) => [reader.template, reader]));

/** Section 5: how the values are packed and how many bytes of section 7 they need, or why they aren't read. */
export function readPacking(octets: Octets, path: string): Parsed<{ readonly packing: GribPacking; readonly bytesNeeded: number | null }> {
  if (octets.length < 11) return bad(issue(path, "file-lies", `Section 5 is only ${octets.length} octets long.`));
  const valueCount = octets.u32(6);
  const template = octets.u16(10);
  const reader = readers.get(template);
  if (reader === undefined) return bad(issue(path, "packing-not-read", `Packing 5.${template}${nameOf(template)} is not read.`));
  if (valueCount > MAX_GRIB_POINTS)
    return bad(issue(path, "file-too-large", `The field has ${valueCount} values; at most ${MAX_GRIB_POINTS} are read.`));
  const checked = reader.check(octets, valueCount, path);
  if (!checked.ok) return checked;
  const packing = { template, name: reader.name, valueCount, section: octets.bytes.slice() };
  return good({ packing, bytesNeeded: checked.value.bytesNeeded });
}

/** Section 7's values in the message's order. */
export function unpackValues(packing: GribPacking, data: Uint8Array, path: string): Parsed<PackedValues> {
  const reader = readers.get(packing.template);
  if (reader === undefined) throw new Error(`no reader for packing 5.${packing.template}, yet a field has it`);
  return reader.unpack(new Octets(packing.section), packing.valueCount, data, path);
}

/** Names of packings that skippers meet but that aren't read (WMO code table 5.0). */
const UNREAD: Readonly<Record<number, string>> = {
  2: "complex",
  3: "complex with spatial differencing",
  4: "IEEE floating point",
  40: "JPEG 2000",
  41: "PNG",
  42: "CCSDS",
};

function nameOf(template: number): string {
  const name = UNREAD[template];
  return name === undefined ? "" : ` (${name})`;
}

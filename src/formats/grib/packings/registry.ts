import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { GribPacking } from "../grib-field.ts";
import { MAX_GRIB_POINTS } from "../limits.ts";
import { Octets } from "../octets.ts";
import { ccsdsPacking } from "./ccsds.ts";
import { complexDifferencedPacking, complexPacking } from "./complex.ts";
import { edition1SecondOrderPacking } from "./edition1-second-order.ts";
import { edition1SimplePacking } from "./edition1-simple.ts";
import { ieeePacking } from "./ieee.ts";
import { jpeg2000Packing, oldJpeg2000Packing } from "./jpeg2000.ts";
import type { PackedValues, PackingReader, Rows } from "./packing-reader.ts";
import { oldPngPacking, pngPacking } from "./png.ts";
import { simplePacking } from "./simple.ts";

/** Every packing of edition 2 that is read; a line for each. */
const packings: readonly PackingReader[] = [
  simplePacking,
  complexPacking,
  complexDifferencedPacking,
  ieeePacking,
  ccsdsPacking,
  pngPacking,
  oldPngPacking,
  jpeg2000Packing,
  oldJpeg2000Packing,
];
const readers: ReadonlyMap<number, PackingReader> = new Map(packings.map((reader) => [reader.template, reader]));
/** Those of edition 1 have no template. */
const edition1Packings: readonly Pick<PackingReader, "name" | "unpack" | "unpackRows">[] = [
  edition1SimplePacking,
  edition1SecondOrderPacking,
];
const readersByName: ReadonlyMap<string, Pick<PackingReader, "unpack" | "unpackRows">> = new Map(
  [...packings, ...edition1Packings].map((reader) => [reader.name, reader]),
);

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
  return readerOf(packing).unpack(new Octets(packing.section), packing.valueCount, data, path);
}

/** Section 7's values straight into rows that take them all. Null where the packing can't: `unpackValues` can. */
export function unpackIntoRows(packing: GribPacking, data: Uint8Array, rows: Rows, path: string): Parsed<null> | null {
  return readerOf(packing).unpackRows?.(new Octets(packing.section), data, rows, path) ?? null;
}

function readerOf({ name }: GribPacking): Pick<PackingReader, "unpack" | "unpackRows"> {
  const reader = readersByName.get(name);
  if (reader === undefined) throw new Error(`no reader for the packing "${name}", yet a field has it`);
  return reader;
}

/** Packings of the WMO's code table 5.0 that hold no field of a forecast at sea, or that nobody sends (common practice). */
const UNREAD: ReadonlyMap<number, string> = new Map([
  [50, "spectral, simple"],
  [51, "spectral, complex"],
  [61, "simple with logarithmic pre-processing"],
  [200, "run length"],
]);

function nameOf(template: number): string {
  const name = UNREAD.get(template);
  return name === undefined ? "" : ` (${name})`;
}

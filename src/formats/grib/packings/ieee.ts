import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";

const TEMPLATE_OCTETS = 12;

/** Bytes a value for each precision (WMO code table 5.7): 1 is 32 bits, 2 is 64. */
const BYTES: Readonly<Record<number, number>> = { 1: 4, 2: 8 };

/**
 * Packing 5.4: the values themselves as IEEE floating-point numbers of 32 or 64 bits (Manual on Codes I.2, FM 92 GRIB, templates 5.4 and
 * 7.4). One that is not a number (NaN) is missing; an infinite one is no measure of anything, and the field is refused.
 */
export const ieeePacking: PackingReader = { template: 4, name: "IEEE floating point", check, unpack };

function check(octets: Octets, valueCount: number, path: string): Parsed<{ readonly bytesNeeded: number }> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 5 is only ${octets.length} octets long.`));
  const precision = octets.u8(12);
  const bytes = BYTES[precision];
  if (bytes !== undefined) return good({ bytesNeeded: valueCount * bytes });
  const name = precision === 3 ? "128 bits" : `precision ${precision}`;
  return bad(issue(path, "packing-not-read", `IEEE floating-point numbers of ${name} are not read; 32 and 64 bits are.`));
}

function unpack(octets: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues> {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const values = new Float64Array(valueCount);
  // Finite numbers less themselves are 0; any other makes the sum NaN.
  let sum = 0;
  if (octets.u8(12) === 1) {
    for (let i = 0, o = 0; i < valueCount; i++, o += 4) {
      const value = view.getFloat32(o);
      values[i] = value;
      sum += value - value;
    }
  } else {
    for (let i = 0, o = 0; i < valueCount; i++, o += 8) {
      const value = view.getFloat64(o);
      values[i] = value;
      sum += value - value;
    }
  }
  if (sum === 0) return good({ values, missing: null });
  const missing = new Uint8Array(valueCount);
  for (let i = 0; i < valueCount; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) {
      missing[i] = 1;
      values[i] = 0;
    } else if (!Number.isFinite(value)) return bad(issue(path, "file-lies", `Value ${i + 1} of the field is ${value}.`));
  }
  return good({ values, missing });
}

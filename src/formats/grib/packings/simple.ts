import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import type { PackedValues, PackingReader, Rows } from "./packing-reader.ts";
import { packedBytes } from "./unpack-bits.ts";
import { unpackRowsScaled } from "./unpack-rows.ts";

const TEMPLATE_OCTETS = 21;

/**
 * Packing 5.0, simple packing: Y × 10^D = R + X × 2^E (Manual on Codes I.2, FM 92 GRIB, regulation 92.9.4 and template 5.0). No bits a
 * value: every value is R, see `constantIn`.
 */
export const simplePacking: PackingReader = { template: 0, name: "simple", check, unpack, unpackRows };

/** How a packed number becomes a value: (`reference` + number × `step`) / `divisor`. */
export interface Scaling {
  /** Of a packed number; in complex packing, of a group's reference. */
  readonly bits: number;
  readonly reference: number;
  readonly step: number;
  readonly divisor: number;
}

/** Octets 12 to 20 of section 5, which most templates begin with. Check that the numbers are finite before they are used. */
export function scalingIn(octets: Octets): Scaling {
  const decimal = octets.s16(18);
  // A positive D divides by an exact power of ten; a negative one is folded into the rest.
  const factor = decimal < 0 ? 10 ** -decimal : 1;
  return {
    bits: octets.u8(20),
    reference: octets.f32(12) * factor + 0,
    step: 2 ** octets.s16(16) * factor,
    divisor: decimal > 0 ? 10 ** decimal : 1,
  };
}

/**
 * The value of a field without bits. The encoders in use (ecCodes, NCEP's g2 library, found by repacking and reading them) put the value
 * itself into R and leave D as it was; so it is read, though the formula would have it R / 10^D. Complex packing's constant fields are
 * written by the formula.
 */
export function constantIn(octets: Octets): number {
  return octets.f32(12) + 0;
}

function check(octets: Octets, valueCount: number, path: string): Parsed<{ readonly bytesNeeded: number }> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 5 is only ${octets.length} octets long.`));
  const { bits, reference, step, divisor } = scalingIn(octets);
  if (bits > 32) return bad(issue(path, "packing-not-read", `Simple packing with ${bits} bits a value is not read; 32 is the most.`));
  const largest = bits === 0 ? reference : reference + (2 ** bits - 1) * step;
  if (!Number.isFinite(reference) || !Number.isFinite(largest) || !Number.isFinite(divisor)) {
    return bad(issue(path, "file-lies", "The scaling of the packed values gives no finite numbers."));
  }
  return good({ bytesNeeded: packedBytes(valueCount, bits) });
}

function unpack(octets: Octets, valueCount: number, data: Uint8Array): Parsed<PackedValues> {
  const values = new Float64Array(valueCount);
  unpackRows(octets, data, { values, columns: valueCount, lastRowFirst: false });
  return good({ values, missing: null });
}

function unpackRows(octets: Octets, data: Uint8Array, rows: Rows): Parsed<null> {
  const scaling = scalingIn(octets);
  if (scaling.bits === 0) rows.values.fill(constantIn(octets));
  else unpackRowsScaled(data, scaling.bits, scaling, rows);
  return good(null);
}

import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import { ibmFloat } from "../edition1/numbers.ts";
import { Octets } from "../octets.ts";
import { behindDecimalScale, edition1Scaling } from "./edition1-head.ts";
import type { PackedValues, PackingReader, Rows } from "./packing-reader.ts";
import { packedBytes } from "./unpack-bits.ts";
import { unpackRowsScaled } from "./unpack-rows.ts";

/** Section 4 before the packed numbers. */
export const SIMPLE_HEAD_OCTETS = 11;

/**
 * Edition 1's simple packing: Y × 10^D = R + X × 2^E (Manual on Codes I.2, FM 92 GRIB edition 1, section 4); R is one of IBM's numbers.
 * No bits a value: every value is R, as in edition 2. Its section is as `packingSection` makes it, with section 4's first eleven octets.
 */
export const edition1SimplePacking: Pick<PackingReader, "name" | "unpack" | "unpackRows"> = {
  name: "edition 1 simple",
  unpack,
  unpackRows,
};

/** Whole records of so many octets are the most that section 4 is rounded up to (common practice); more is no padding. */
const MOST_PADDING_BYTES = 120;

/** Holds the head against the count of values and section 4's length, `unusedBits` of which are said to lie idle at its end. */
export function checkEdition1Simple(
  section: Uint8Array,
  valueCount: number,
  section4Bytes: number,
  unusedBits: number,
  path: string,
): Parsed<{ readonly bytesNeeded: number }> {
  const { bits, scaling } = headIn(new Octets(section));
  if (bits > 32) return bad(issue(path, "packing-not-read", `Simple packing with ${bits} bits a value is not read; 32 is the most.`));
  if (scaling === null || !Number.isFinite(scaling.reference + (2 ** bits - 1) * scaling.step)) {
    return bad(issue(path, "file-lies", "The scaling of the packed values gives no finite numbers."));
  }
  const bytesNeeded = packedBytes(valueCount, bits);
  const bytesThere = section4Bytes - SIMPLE_HEAD_OCTETS;
  // Nowhere else does edition 1 say how many values there are: far too many bytes are a wrong grid as much as too few.
  const idleBytes = bytesThere - bytesNeeded - (unusedBits >>> 3);
  if (bytesNeeded > bytesThere || (bits > 0 && idleBytes > MOST_PADDING_BYTES)) {
    return bad(
      issue(path, "file-lies", `The ${valueCount} values of ${bits} bits take ${bytesNeeded} bytes, and section 4 holds ${bytesThere}.`),
    );
  }
  return good({ bytesNeeded });
}

function headIn(section: Octets): { readonly bits: number; readonly scaling: ReturnType<typeof edition1Scaling> } {
  const section4 = behindDecimalScale(section);
  return { bits: section4.u8(11), scaling: edition1Scaling(section.s16(1), section4) };
}

function unpack(section: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues> {
  const values = new Float64Array(valueCount);
  const done = unpackRows(section, data, { values, columns: valueCount, lastRowFirst: false }, path);
  return done.ok ? good({ values, missing: null }) : done;
}

function unpackRows(section: Octets, data: Uint8Array, rows: Rows, path: string): Parsed<null> {
  const { bits, scaling } = headIn(section);
  if (scaling === null) return bad(issue(path, "file-lies", "The scaling of the packed values gives no finite numbers."));
  if (bits === 0) rows.values.fill(ibmFloat(behindDecimalScale(section), 7) + 0);
  else unpackRowsScaled(data, bits, scaling, rows);
  return good(null);
}

import type { Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";

/** The most octets of section 5 that a reader is given; every template in use is shorter. */
export const PACKING_SECTION_OCTETS = 256;

/** Values in the message's order. `missing` is 1 where the packing itself says that there is none (the value is then 0); null where it can't say so. */
export interface PackedValues {
  readonly values: Float64Array;
  readonly missing: Uint8Array | null;
}

/** Where values go that come row after row, each from west to east: rows of `columns`, `values` in all, the message's first row being the array's last or its first. */
export interface Rows {
  readonly values: Float64Array;
  readonly columns: number;
  readonly lastRowFirst: boolean;
}

/** Reads one data representation template (WMO code table 5.0). Another packing is another file with one of these, and a line in the registry. */
export interface PackingReader {
  readonly template: number;
  readonly name: string;
  /**
   * Holds section 5 against itself before anything is allocated. Gives how many bytes of section 7 the values need; null where only
   * unpacking can tell, so that the whole section is taken.
   */
  check(octets: Octets, valueCount: number, path: string): Parsed<{ readonly bytesNeeded: number | null }>;
  /**
   * The values in the product's units. `data` is section 7 behind its header, as long as `check` asked for; it may be a view of the file
   * and is not written to. Bytes that contradict themselves give `file-lies`, never a throw, and no more memory or time than in
   * proportion to `valueCount` and `data`.
   */
  unpack(octets: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues>;
  /** The same straight into rows, in packings that can and that have no missing values of their own. Every value of the rows is written. */
  unpackRows?(octets: Octets, data: Uint8Array, rows: Rows, path: string): Parsed<null>;
}

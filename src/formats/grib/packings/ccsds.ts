import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import { readCoding } from "./ccsds/coding.ts";
import { decodeSamples } from "./ccsds/decode-samples.ts";
import { checkedScaling } from "./checked-scaling.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";
import { constantIn } from "./simple.ts";

const TEMPLATE_OCTETS = 25;
const NAME = "CCSDS";

/**
 * Packing 5.42: whole numbers as of simple packing, coded by the lossless adaptive entropy coder of CCSDS 121.0-B-3 (Manual on Codes
 * I.2, FM 92 GRIB, template 5.42). Samples are taken without a sign, whatever the options say of it, since R is the least value.
 */
export const ccsdsPacking: PackingReader = { template: 42, name: NAME, check, unpack };

function check(octets: Octets, valueCount: number, path: string): Parsed<{ readonly bytesNeeded: number | null }> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 5 is only ${octets.length} octets long.`));
  const scaling = checkedScaling(octets, NAME, path);
  if (!scaling.ok) return scaling;
  if (scaling.value.bits === 0 || valueCount === 0) return good({ bytesNeeded: 0 });
  const coding = readCoding(octets, scaling.value.bits, path);
  return coding.ok ? good({ bytesNeeded: null }) : coding;
}

function unpack(octets: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues> {
  const scaling = checkedScaling(octets, NAME, path);
  if (!scaling.ok) return scaling;
  const values = new Float64Array(valueCount);
  const { bits } = scaling.value;
  if (bits === 0 || valueCount === 0) return good({ values: values.fill(constantIn(octets)), missing: null });
  const coding = readCoding(octets, bits, path);
  if (!coding.ok) return coding;
  const lie = decodeSamples(data, coding.value, scaling.value, values);
  return lie === null ? good({ values, missing: null }) : bad(issue(path, "file-lies", lie));
}

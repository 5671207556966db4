import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import { checkedScaling } from "./checked-scaling.ts";
import { decodeJpeg2000 } from "./jpeg2000/decode-image.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";
import { constantIn } from "./simple.ts";

const TEMPLATE_OCTETS = 23;
const NAME = "JPEG 2000";

/**
 * Packing 5.40: whole numbers as of simple packing, each a sample of a JPEG 2000 image of one component (Manual on Codes I.2, FM 92
 * GRIB, templates 5.40 and 7.40; the image by ISO/IEC 15444-1), whatever its width and height. Section 5 may name fewer bits than the
 * image's samples have; no sample may then need more. No bits, or no image: every value is R / 10^D.
 */
export const jpeg2000Packing: PackingReader = { template: 40, name: NAME, check, unpack };

/** The same under the number it had before the WMO gave it its own. */
export const oldJpeg2000Packing: PackingReader = { template: 40000, name: "JPEG 2000, by its old number", check, unpack };

function check(octets: Octets, valueCount: number, path: string): Parsed<{ readonly bytesNeeded: number | null }> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 5 is only ${octets.length} octets long.`));
  const scaling = checkedScaling(octets, NAME, path);
  if (!scaling.ok) return scaling;
  return good({ bytesNeeded: scaling.value.bits === 0 || valueCount === 0 ? 0 : null });
}

function unpack(octets: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues> {
  const scaling = checkedScaling(octets, NAME, path);
  if (!scaling.ok) return scaling;
  const { bits, reference, step, divisor } = scaling.value;
  if (bits === 0 || valueCount === 0) {
    return good({ values: new Float64Array(valueCount).fill(constantIn(octets)), missing: null });
  }
  if (data.length === 0) return good({ values: new Float64Array(valueCount).fill(reference / divisor), missing: null });
  const image = decodeJpeg2000(data, valueCount, path);
  if (!image.ok) return image;
  const { samples, least, most } = image.value;
  if (most > 2 ** bits - 1) return bad(issue(path, "file-lies", `A packed number is ${most}, more than its ${bits} bits can tell.`));
  if (!Number.isFinite((reference + least * step) / divisor)) {
    return bad(issue(path, "file-lies", "The scaling of the packed values gives no finite numbers."));
  }
  const values = new Float64Array(valueCount);
  for (let i = 0; i < valueCount; i++) values[i] = (reference + samples[i]! * step) / divisor;
  return good({ values, missing: null });
}

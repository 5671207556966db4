import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import type { GribField, GribScan, GribValues } from "./grib-field.ts";
import { walkLines } from "./grids/scan.ts";
import type { PackedValues } from "./packings/packing-reader.ts";
import { unpackValues } from "./packings/registry.ts";
import { pathOf } from "./read-message.ts";

/**
 * A field's values, in the units of the WMO's tables (SI): row after row from the south, each from west to east, whatever the order in
 * the message. Issues where the bitmap and the packed values contradict each other. `source` must be the one the field was read from.
 */
export async function decodeGribField(source: ByteSource, field: GribField): Promise<Parsed<GribValues>> {
  const path = pathOf(field.place);
  const points = field.pointCount;
  const bitmap = field.bitmap === null ? null : await source.read(field.bitmap.offsetBytes, Math.ceil(points / 8));
  const present = bitmap === null ? points : countBits(bitmap, points);
  if (present !== field.packing.valueCount) {
    const said = `The bitmap has ${present} points with a value, and ${field.packing.valueCount} values are packed.`;
    return bad(issue(path, "file-lies", said));
  }
  const data = await source.read(field.data.offsetBytes, field.data.lengthBytes);
  const packed = unpackValues(field.packing, data, path);
  if (!packed.ok) return packed;
  return good(arrange(packed.value, bitmap, field.grid.scan));
}

/** Ones among the first `count` bits, the first bit of the first byte first. */
function countBits(bits: Uint8Array, count: number): number {
  let ones = 0;
  for (let i = 0; i < count; i++) ones += (bits[i >>> 3]! >>> (7 - (i & 7))) & 1;
  return ones;
}

/** Spreads values in the message's order over the grid. */
function arrange(packed: PackedValues, bitmap: Uint8Array | null, scan: GribScan): GribValues {
  if (bitmap === null && isFromSouthWest(scan)) {
    return { values: packed.values, missing: packed.missing ?? new Uint8Array(packed.values.length) };
  }
  const values = new Float64Array(scan.ni * scan.nj);
  const missing = new Uint8Array(values.length);
  const { values: from, missing: gone } = packed;
  let next = 0;
  let bit = 0;
  walkLines(scan, (first, step, length) => {
    let to = first;
    for (let i = 0; i < length; i++, bit++, to += step) {
      if (bitmap !== null && ((bitmap[bit >>> 3]! >>> (7 - (bit & 7))) & 1) === 0) missing[to] = 1;
      else {
        if (gone !== null && gone[next] === 1) missing[to] = 1;
        else values[to] = from[next]!;
        next++;
      }
    }
  });
  return { values, missing };
}

/** Whether the message's order is ours: rows from the south, each from west to east. */
function isFromSouthWest(scan: GribScan): boolean {
  return !scan.iNegative && scan.jPositive && !scan.jConsecutive && !scan.alternating;
}

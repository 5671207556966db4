import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { arrange } from "./arrange.ts";
import type { GribField, GribValues } from "./grib-field.ts";
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
  const wholeBytes = count >>> 3;
  let ones = 0;
  for (let i = 0; i < wholeBytes; i++) ones += ONES_IN_BYTE[bits[i]!]!;
  for (let i = wholeBytes * 8; i < count; i++) ones += bitAt(bits, i);
  return ones;
}

const ONES_IN_BYTE = Uint8Array.from({ length: 256 }, (_, byte) => [...byte.toString(2)].filter((digit) => digit === "1").length);

function bitAt(bits: Uint8Array, index: number): number {
  return (bits[index >>> 3]! >>> (7 - (index & 7))) & 1;
}

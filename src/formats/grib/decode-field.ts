import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import type { ByteSource } from "../bytes/index.ts";
import { arrange, inRowsEastward } from "./arrange.ts";
import { FieldRoom } from "./field-room.ts";
import type { GribField, GribValues } from "./grib-field.ts";
import { unpackIntoRows, unpackValues } from "./packings/registry.ts";
import { pathOf } from "./read-message.ts";

/**
 * A field's values, in the units of the WMO's tables (SI): row after row from the south, each from west to east, whatever the order in
 * the message. Issues where the bitmap and the packed values contradict each other. `source` must be the one the field was read from.
 * With a `room` of the caller's the values may stand in it, and hold until it is decoded into again.
 */
export async function decodeGribField(source: ByteSource, field: GribField, room?: FieldRoom): Promise<Parsed<GribValues>> {
  const path = pathOf(field.place);
  const points = field.pointCount;
  const bitmap = field.bitmap === null ? null : await source.read(field.bitmap.offsetBytes, Math.ceil(points / 8));
  const present = bitmap === null ? points : countBits(bitmap, points);
  if (present !== field.packing.valueCount) {
    const said = `The bitmap has ${present} points with a value, and ${field.packing.valueCount} values are packed.`;
    return bad(issue(path, "file-lies", said));
  }
  const data = await source.read(field.data.offsetBytes, field.data.lengthBytes);
  const { scan } = field.grid;
  if (bitmap === null && inRowsEastward(scan)) {
    const into = (room ?? new FieldRoom()).take(points);
    const done = unpackIntoRows(field.packing, data, { values: into.values, columns: scan.ni, lastRowFirst: !scan.jPositive }, path);
    if (done !== null) return done.ok ? good(into) : done;
  }
  const packed = unpackValues(field.packing, data, path);
  if (!packed.ok) return packed;
  return good(arrange(packed.value, bitmap, scan));
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

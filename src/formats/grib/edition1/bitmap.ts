import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { WindowReader } from "../../bytes/index.ts";
import type { GribSpan } from "../grib-field.ts";
import { Octets } from "../octets.ts";

/** Which points have a value. Edition 1 doesn't say how many there are: they must be counted. */
export interface Bitmap {
  readonly span: GribSpan;
  /** Points with a value among `count` of them from point `from` on, in the message's order. */
  countOnes(from: number, count: number): number;
}

const HEAD_BYTES = 6;

/** Section 3 (Manual on Codes I.2, FM 92 GRIB edition 1): octets 5 and 6 are nought where the bits follow, else name one of the centre's own. */
export async function readBitmap(reader: WindowReader, section: GribSpan, points: number, path: string): Promise<Parsed<Bitmap>> {
  const number = new Octets(await reader.read(section.offsetBytes, HEAD_BYTES)).u16(5);
  if (number !== 0) {
    return bad(issue(path, "packing-not-read", `The bitmap is number ${number} of the centre's own, which isn't in the file.`));
  }
  const span = { offsetBytes: section.offsetBytes + HEAD_BYTES, lengthBytes: section.lengthBytes - HEAD_BYTES };
  if (span.lengthBytes * 8 < points) {
    return bad(issue(path, "file-lies", `The bitmap's ${span.lengthBytes} bytes are too few for ${points} points.`));
  }
  const bits = (await reader.read(span.offsetBytes, Math.ceil(points / 8))).slice();
  return good({ span, countOnes: (from, count) => onesIn(bits, from, count) });
}

function onesIn(bits: Uint8Array, from: number, count: number): number {
  let ones = 0;
  for (let i = from; i < from + count; i++) ones += (bits[i >>> 3]! >>> (7 - (i & 7))) & 1;
  return ones;
}

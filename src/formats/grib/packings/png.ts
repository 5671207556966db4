import { bad, good, issue, type Parsed } from "../../../core/answers/index.ts";
import type { Octets } from "../octets.ts";
import { checkedScaling, largestValue } from "./checked-scaling.ts";
import type { PackedValues, PackingReader } from "./packing-reader.ts";
import { canInflateTo, inflateInto } from "./png/inflate.ts";
import { type PngPicture, readPng } from "./png/png-chunks.ts";
import { unfilter } from "./png/unfilter.ts";
import type { Scaling } from "./simple.ts";
import { constantIn } from "./simple.ts";
import { unpackScaled } from "./unpack-bits.ts";

const TEMPLATE_OCTETS = 21;
const NAME = "PNG";

/**
 * Packing 5.41: whole numbers as of simple packing, each a point of a PNG picture: grey of 1, 2, 4, 8 or 16 bits, RGB as 24 and RGBA as
 * 32 bits (Manual on Codes I.2, FM 92 GRIB, template 5.41; the picture by ISO/IEC 15948). Section 5 may name fewer bits than the
 * picture's points have; no point may then need more.
 */
export const pngPacking: PackingReader = { template: 41, name: NAME, check, unpack };

/** The same under the number it had before the WMO gave it its own. */
export const oldPngPacking: PackingReader = { template: 40010, name: "PNG, by its old number", check, unpack };

function check(octets: Octets, valueCount: number, path: string): Parsed<{ readonly bytesNeeded: number | null }> {
  if (octets.length < TEMPLATE_OCTETS) return bad(issue(path, "file-lies", `Section 5 is only ${octets.length} octets long.`));
  const scaling = checkedScaling(octets, NAME, path);
  if (!scaling.ok) return scaling;
  return good({ bytesNeeded: scaling.value.bits === 0 || valueCount === 0 ? 0 : null });
}

function unpack(octets: Octets, valueCount: number, data: Uint8Array, path: string): Parsed<PackedValues> {
  const read = checkedScaling(octets, NAME, path);
  if (!read.ok) return read;
  const scaling = read.value;
  if (scaling.bits === 0 || valueCount === 0) {
    return good({ values: new Float64Array(valueCount).fill(constantIn(octets)), missing: null });
  }
  const pictured = readPng(data, path);
  if (!pictured.ok) return pictured;
  const picture = pictured.value;
  const lie = contradiction(picture, scaling.bits, valueCount);
  if (lie !== null) return bad(issue(path, "file-lies", lie));
  const rows = rowsOf(picture, path);
  if (!rows.ok) return rows;
  const values = new Float64Array(valueCount);
  scaleRows(rows.value, picture, scaling, values);
  if (scaling.bits < picture.pointBits && exceeds(values, scaling)) {
    return bad(issue(path, "file-lies", `A value takes more than its ${scaling.bits} bits.`));
  }
  return good({ values, missing: null });
}

function contradiction({ width, height, pointBits, deflated }: PngPicture, bits: number, valueCount: number): string | null {
  if (width * height !== valueCount) return `The PNG picture is ${width} by ${height}, and ${valueCount} values are packed.`;
  if (pointBits < bits) return `The PNG picture has ${pointBits} bits a point, and the values have ${bits}.`;
  const rowsBytes = height * (1 + Math.ceil((width * pointBits) / 8));
  return canInflateTo(deflated, rowsBytes) ? null : `The PNG picture's rows can't come out of ${deflated.length} bytes.`;
}

/** The picture's rows close together, each from a whole byte on. */
function rowsOf({ width, height, pointBits, deflated }: PngPicture, path: string): Parsed<Uint8Array> {
  const rowBytes = Math.ceil((width * pointBits) / 8);
  const rows = new Uint8Array(height * (1 + rowBytes));
  const lie = inflateInto(deflated, rows);
  if (lie !== null) return bad(issue(path, "file-lies", lie));
  if (!unfilter(rows, height, rowBytes, Math.max(1, pointBits >>> 3))) {
    return bad(issue(path, "file-lies", "A row of the PNG picture names a filter that there is not."));
  }
  if (rowsOverlap(rows, height, rowBytes, width * pointBits)) {
    const said = "The rows of the PNG picture overlap, as an old encoder wrote them: some of the values are lost.";
    return bad(issue(path, "packing-not-read", said));
  }
  return good(rows);
}

/**
 * An early encoder in wide use packed points of 1, 2 and 4 bits without beginning rows on whole bytes, and then let each row begin with
 * the byte in which the one before it ended. Told by bits behind a row's last point, which others leave at nought.
 */
function rowsOverlap(rows: Uint8Array, height: number, rowBytes: number, rowBits: number): boolean {
  const behind = 0xff >>> (rowBits & 7);
  if ((rowBits & 7) === 0 || height < 2) return false;
  let used = 0;
  for (let end = rowBytes; end < height * rowBytes; end += rowBytes) {
    if (rows[end - 1] !== rows[end]) return false;
    used |= rows[end - 1]! & behind;
  }
  return used !== 0;
}

function scaleRows(rows: Uint8Array, picture: PngPicture, scaling: Scaling, values: Float64Array): void {
  const { width, height, pointBits } = picture;
  if ((width * pointBits) % 8 === 0) {
    unpackScaled({ data: rows, firstBit: 0, bits: pointBits }, scaling, values);
    return;
  }
  const rowBytes = Math.ceil((width * pointBits) / 8);
  for (let y = 0; y < height; y++) {
    const row = values.subarray(y * width, (y + 1) * width);
    unpackScaled({ data: rows, firstBit: y * rowBytes * 8, bits: pointBits }, scaling, row);
  }
}

/** Whether a value is larger than its bits allow. */
function exceeds(values: Float64Array, scaling: Scaling): boolean {
  const most = largestValue(scaling);
  for (let i = 0; i < values.length; i++) if (values[i]! > most) return true;
  return false;
}

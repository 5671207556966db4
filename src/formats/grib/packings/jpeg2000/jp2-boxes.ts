import { good, type Parsed } from "../../../../core/answers/index.ts";
import { lies } from "./faults.ts";

const CODESTREAM_BOX = 0x6a70_3263;
const SIGNATURE_BOX = 0x6a50_2020;

/**
 * The codestream of a JP2 file (ISO/IEC 15444-1 annex I: boxes of a length, a type and their contents), or the bytes themselves where
 * they have no boxes. GRIB asks for the bare codestream; some writers wrap it.
 */
export function codestreamIn(bytes: Uint8Array, path: string): Parsed<Uint8Array> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || view.getUint32(4) !== SIGNATURE_BOX) return good(bytes);
  for (let offset = 0; offset + 8 <= bytes.length; ) {
    const said = view.getUint32(offset);
    const type = view.getUint32(offset + 4);
    const isLong = said === 1 && offset + 16 <= bytes.length;
    const length = said === 0 ? bytes.length - offset : isLong ? Number(view.getBigUint64(offset + 8)) : said;
    const header = isLong ? 16 : 8;
    if (length < header || length > bytes.length - offset) return lies(path, `a box of ${length} bytes has no room.`);
    if (type === CODESTREAM_BOX) return good(bytes.subarray(offset + header, offset + length));
    offset += length;
  }
  return lies(path, "its boxes hold no codestream.");
}

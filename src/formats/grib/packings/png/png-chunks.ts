import { bad, good, issue, type Parsed } from "../../../../core/answers/index.ts";
import { crc32 } from "./crc-32.ts";

/** A picture whose points are whole numbers of `pointBits` bits: grey, or RGB or RGBA with red on top. */
export interface PngPicture {
  readonly width: number;
  readonly height: number;
  readonly pointBits: number;
  /** Its rows, filtered and deflated: the data of the IDAT chunks, joined. */
  readonly deflated: Uint8Array;
}

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const HEADER_BYTES = 13;
/** Length, type and check. */
const FRAME_BYTES = 12;

const GREY = 0;
const RGB = 2;
const RGBA = 6;
/** Colour types as ISO/IEC 15948, table 11.1, names them, and those that pack no whole numbers. */
const COLOURS: Readonly<Record<number, string>> = { 0: "grey", 2: "RGB", 3: "palette", 4: "grey with alpha", 6: "RGBA" };

/**
 * Reads a PNG datastream (ISO/IEC 15948, sections 5 and 11) as far as its pixels, still deflated. Every check sum is held. Colours that
 * GRIB doesn't use, and interlaced pictures, are `packing-not-read`.
 */
export function readPng(data: Uint8Array, path: string): Parsed<PngPicture> {
  const lie = (said: string) => bad(issue(path, "file-lies", said));
  if (SIGNATURE.some((byte, i) => data[i] !== byte)) return lie("Section 7 holds no PNG picture.");
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const parts: Uint8Array[] = [];
  let header: Uint8Array | null = null;
  let previous = "";
  for (let offset = SIGNATURE.length; ; ) {
    const length = offset + FRAME_BYTES <= data.length ? view.getUint32(offset) : 0;
    if (offset + FRAME_BYTES + length > data.length) return lie("The PNG picture ends too soon.");
    const checked = data.subarray(offset + 4, offset + 8 + length);
    const type = String.fromCharCode(...checked.subarray(0, 4));
    if (crc32(checked) !== view.getUint32(offset + 8 + length)) return lie(`The PNG picture is damaged: the check of its ${type} fails.`);
    const content = checked.subarray(4);
    if ((type === "IHDR") !== (previous === "")) return lie("The PNG picture doesn't begin with the one header it must have.");
    if (type === "IEND") break;
    if (type === "IHDR") header = content;
    else if (type === "IDAT") {
      if (parts.length > 0 && previous !== "IDAT") return lie("The parts of the PNG picture don't stand together.");
      parts.push(content);
    } else if (type !== "PLTE" && (checked[0]! & 0x20) === 0) {
      return bad(issue(path, "packing-not-read", `PNG pictures with a part ${JSON.stringify(type)} are not read.`));
    }
    previous = type;
    offset += FRAME_BYTES + length;
  }
  if (header === null || header.length !== HEADER_BYTES) return lie("The PNG picture's header is not as long as it must be.");
  return withHeader(header, parts, path);
}

function withHeader(header: Uint8Array, parts: readonly Uint8Array[], path: string): Parsed<PngPicture> {
  const view = new DataView(header.buffer, header.byteOffset, header.byteLength);
  const [width, height] = [view.getUint32(0), view.getUint32(4)];
  const [depth, colour] = [view.getUint8(8), view.getUint8(9)];
  const [compression, filter, interlace] = [view.getUint8(10), view.getUint8(11), view.getUint8(12)];
  const pointBits = pointBitsOf(colour, depth);
  if (pointBits === null) {
    const said = `PNG pictures of colour type ${colour} (${COLOURS[colour] ?? "unknown"}) with ${depth} bits are not read.`;
    return bad(issue(path, "packing-not-read", said));
  }
  if (compression !== 0 || filter !== 0 || interlace > 1) {
    return bad(issue(path, "file-lies", "The PNG picture's header names methods that there are not."));
  }
  if (interlace === 1) return bad(issue(path, "packing-not-read", "Interlaced PNG pictures are not read."));
  return good({ width, height, pointBits, deflated: joined(parts) });
}

function pointBitsOf(colour: number, depth: number): number | null {
  if (colour === GREY) return [1, 2, 4, 8, 16].includes(depth) ? depth : null;
  if (depth !== 8) return null;
  if (colour === RGB) return 24;
  return colour === RGBA ? 32 : null;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  if (parts.length === 1) return parts[0]!;
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let offset = 0;
  for (const part of parts) {
    whole.set(part, offset);
    offset += part.length;
  }
  return whole;
}

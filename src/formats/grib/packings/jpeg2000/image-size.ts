import { good, type Parsed } from "../../../../core/answers/index.ts";
import { lies, notRead } from "./faults.ts";

/**
 * The SIZ marker's contents (ISO/IEC 15444-1 A.5.1): where the image and its tiles lie on the reference grid, `x1` and `y1` being the
 * first beyond, and how many bits a sample has.
 */
export interface ImageSize {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly tileX0: number;
  readonly tileY0: number;
  readonly tileWidth: number;
  readonly tileHeight: number;
  readonly tilesAcross: number;
  readonly tilesDown: number;
  readonly sampleBits: number;
  readonly isSigned: boolean;
}

/** A tile's number is told in 16 bits, the last one being reserved (A.4.2). */
const MAX_TILES = 65_535;

/** The most bits of a sample; fields have up to 24 (common practice), and so many fit into 32 bits with a sign. */
const MAX_SAMPLE_BITS = 31;

/** `segment` is the marker segment from behind its length. The image must have `valueCount` samples, one for each packed value. */
export function readImageSize(segment: Uint8Array, valueCount: number, path: string): Parsed<ImageSize> {
  if (segment.length < 39) return lies(path, `its size is told in ${segment.length} bytes.`);
  const view = new DataView(segment.buffer, segment.byteOffset, segment.byteLength);
  const at = (index: number): number => view.getUint32(2 + 4 * index);
  const [x1, y1, x0, y0] = [at(0), at(1), at(2), at(3)];
  const [tileWidth, tileHeight, tileX0, tileY0] = [at(4), at(5), at(6), at(7)];
  const components = view.getUint16(34);
  if (components !== 1) return notRead(path, `it has ${components} components, and a field has one.`);
  const [depth, stepX, stepY] = [segment[36]!, segment[37]!, segment[38]!];
  if (stepX !== 1 || stepY !== 1) return notRead(path, `its samples lie ${stepX} by ${stepY} apart.`);
  if (x1 <= x0 || y1 <= y0 || (x1 - x0) * (y1 - y0) !== valueCount) {
    return lies(path, `an image of ${x1 - x0} by ${y1 - y0} samples holds ${valueCount} packed values.`);
  }
  const reaches = tileX0 <= x0 && tileY0 <= y0 && tileX0 + tileWidth > x0 && tileY0 + tileHeight > y0;
  if (!reaches) return lies(path, "its first tile lies outside the image.");
  const sampleBits = (depth & 0x7f) + 1;
  if (sampleBits > MAX_SAMPLE_BITS) return notRead(path, `a sample has ${sampleBits} bits; ${MAX_SAMPLE_BITS} is the most.`);
  const tilesAcross = Math.ceil((x1 - tileX0) / tileWidth);
  const tilesDown = Math.ceil((y1 - tileY0) / tileHeight);
  if (tilesAcross * tilesDown > MAX_TILES) return lies(path, `it has ${tilesAcross} by ${tilesDown} tiles.`);
  const isSigned = (depth & 0x80) !== 0;
  return good({ x0, y0, x1, y1, tileX0, tileY0, tileWidth, tileHeight, tilesAcross, tilesDown, sampleBits, isSigned });
}

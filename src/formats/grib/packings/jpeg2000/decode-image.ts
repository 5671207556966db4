import { good, type Parsed } from "../../../../core/answers/index.ts";
import { BlockDecoder } from "./block-decoder.ts";
import { readCodestream, type TileStream } from "./codestream.ts";
import { lies } from "./faults.ts";
import type { ImageSize } from "./image-size.ts";
import { codestreamIn } from "./jp2-boxes.ts";
import { readPackets } from "./packets.ts";
import { synthesise } from "./synthesis.ts";
import { type Extent, layOutTile, type Resolution, tileExtent } from "./tile-layout.ts";

/** A decoded image: whole numbers row after row, from the top left. */
export interface Image {
  readonly width: number;
  readonly height: number;
  readonly sampleBits: number;
  readonly isSigned: boolean;
  readonly samples: Int32Array;
  /** The least and the greatest sample. */
  readonly least: number;
  readonly most: number;
}

/**
 * Decodes a JPEG 2000 codestream (ISO/IEC 15444-1), bare or in a JP2 wrapper, of one component and `sampleCount` samples.
 *
 * Issues: `file-lies` where the stream contradicts itself or ends before all its packets are there; `packing-not-read` where it is sound
 * and uses what is not read. Memory and time are in proportion to `sampleCount` and the bytes. A damaged code-block whose marks
 * don't tell of it can't be found out; where nothing was left out in coding, samples beyond their bits are refused.
 */
export function decodeJpeg2000(bytes: Uint8Array, sampleCount: number, path: string): Parsed<Image> {
  const bare = codestreamIn(bytes, path);
  if (!bare.ok) return bare;
  const stream = readCodestream(bare.value, sampleCount, path);
  if (!stream.ok) return stream;
  const { size, tiles } = stream.value;
  const samples = new Int32Array(sampleCount);
  const decoder = new BlockDecoder();
  for (const [index, tile] of tiles.entries()) {
    const extent = tileExtent(size, index);
    const resolutions = layOutTile(extent, tile, size.sampleBits, path);
    if (!resolutions.ok) return resolutions;
    const packets = readPackets(resolutions.value, tile, path);
    if (!packets.ok) return packets;
    const isWhole = decodeBlocks(decoder, resolutions.value, tile);
    if (isWhole === null) return lies(path, "a code-block's marks are damaged.");
    const isWithin = place(synthesise(resolutions.value, tile.coding.isReversible, size.sampleBits), extent, size, samples);
    if (!isWithin && isWhole && tile.coding.isReversible) return lies(path, `it has samples of more than ${size.sampleBits} bits.`);
  }
  const { x0, y0, x1, y1, sampleBits, isSigned } = size;
  let [least, most] = [samples[0]!, samples[0]!];
  for (const sample of samples) {
    if (sample < least) least = sample;
    else if (sample > most) most = sample;
  }
  return good({ width: x1 - x0, height: y1 - y0, sampleBits, isSigned, samples, least, most });
}

/** Whether every code-block was told to its last bit-plane; null where one is damaged. */
function decodeBlocks(decoder: BlockDecoder, resolutions: readonly Resolution[], { coding, packets }: TileStream): boolean | null {
  let isWhole = true;
  for (const { precincts } of resolutions) {
    for (const precinct of precincts) {
      for (const { band, told } of precinct.bands) {
        for (const block of told?.blocks ?? []) {
          if (block === null) continue;
          if (block.passes < 3 * block.planes - 2) isWhole = false;
          if (!decoder.decode(block, band, packets, coding.blockStyle, coding.isReversible)) return null;
        }
      }
    }
  }
  return isWhole;
}

/**
 * Shifts the level of a tile's samples (ISO/IEC 15444-1 G.1.2), keeps them within their bits as that paragraph asks, and puts them into
 * the image. Whether all were within.
 */
function place(from: Int32Array, tile: Extent, size: ImageSize, samples: Int32Array): boolean {
  const least = size.isSigned ? -(2 ** (size.sampleBits - 1)) : 0;
  const most = least + 2 ** size.sampleBits - 1;
  const shift = size.isSigned ? 0 : 2 ** (size.sampleBits - 1);
  const width = tile.x1 - tile.x0;
  let isWithin = true;
  for (let y = tile.y0, i = 0; y < tile.y1; y++) {
    let to = (y - size.y0) * (size.x1 - size.x0) + tile.x0 - size.x0;
    for (const end = to + width; to < end; to++, i++) {
      const sample = from[i]! + shift;
      if (sample < least || sample > most) isWithin = false;
      samples[to] = Math.max(least, Math.min(sample, most));
    }
  }
  return isWithin;
}

import { good, type Parsed } from "../../../../core/answers/index.ts";
import type { TileStream } from "./codestream.ts";
import type { CodingStyle } from "./coding-style.ts";
import { lies, notRead } from "./faults.ts";
import { HeaderBits } from "./header-bits.ts";
import { visitPackets } from "./progression.ts";
import { passesLeftInSegment } from "./segments.ts";
import { TagTree } from "./tag-tree.ts";
import { blockExtent, type CodeBlock, type Precinct, type PrecinctBand, type Resolution } from "./tile-layout.ts";

/** Code-blocks of more bit-planes overflow 32 bits; halves of the lowest plane take a bit, a sign where halves are kept another. */
const MAX_PLANES_REVERSIBLE = 31;
const MAX_PLANES_IRREVERSIBLE = 30;
/** No piece of a code-block is longer than 2^31 bytes. */
const MAX_LENGTH_BITS = 31;

/** A piece of a code-block that a packet header tells and whose bytes come behind it. */
interface ToldPiece {
  readonly block: CodeBlock;
  readonly passes: number;
  readonly length: number;
}

/**
 * Reads all the packets of a tile (ISO/IEC 15444-1 B.9, B.10) and hangs each code-block's pieces on it. Every packet must be there with
 * all its bytes, and nothing may be left over: a stream cut short would give a coarser field without a word.
 */
export function readPackets(resolutions: readonly Resolution[], { coding, packets }: TileStream, path: string): Parsed<null> {
  const bits = new HeaderBits(packets);
  const pieces: ToldPiece[] = [];
  let offset = 0;
  let failed: Parsed<null> | null = null;
  visitPackets(coding.progression, resolutions, coding.layers, (precinct, layer) => {
    if (coding.mayHaveStarts && packets[offset] === 0xff && packets[offset + 1] === 0x91) offset += 6;
    bits.startAt(offset);
    pieces.length = 0;
    const headed = readHeader(precinct, layer, coding, bits, pieces, path);
    if (!headed.ok) {
      failed = headed;
      return false;
    }
    offset = bits.end();
    if (coding.hasHeaderEnds && packets[offset] === 0xff && packets[offset + 1] === 0x92) offset += 2;
    for (const { block, passes, length } of pieces) {
      block.pieces.push(offset, length, passes);
      offset += length;
    }
    if (bits.isOverrun || offset > packets.length) failed = lies(path, "it is cut short: its last packets are missing.");
    return failed === null;
  });
  if (failed !== null) return failed;
  if (offset < packets.length) return lies(path, `${packets.length - offset} bytes are left over behind the last packet of a tile.`);
  return good(null);
}

function readHeader(
  precinct: Precinct,
  layer: number,
  coding: CodingStyle,
  bits: HeaderBits,
  pieces: ToldPiece[],
  path: string,
): Parsed<null> {
  if (bits.bit() === 0) return good(null);
  for (const part of precinct.bands) {
    if (part.blocksAcross === 0 || part.blocksDown === 0) continue;
    part.told ??= {
      blocks: new Array<CodeBlock | null>(part.blocksAcross * part.blocksDown).fill(null),
      inclusion: new TagTree(part.blocksAcross, part.blocksDown),
      zeroPlanes: new TagTree(part.blocksAcross, part.blocksDown),
    };
    for (let row = 0, i = 0; row < part.blocksDown; row++) {
      for (let column = 0; column < part.blocksAcross; column++, i++) {
        let block = part.told.blocks[i]!;
        if (block !== null) {
          if (bits.bit() === 0) continue;
        } else {
          if (!part.told.inclusion.isBelow(layer + 1, column, row, bits)) continue;
          const begun = beginBlock(part, part.told.zeroPlanes, column, row, coding.isReversible, bits, path);
          if (!begun.ok) return begun;
          block = begun.value;
          part.told.blocks[i] = block;
        }
        if (!readPieces(block, coding.blockStyle, bits, pieces)) return lies(path, "a code-block has more passes than bit-planes.");
        if (bits.isOverrun) return lies(path, "it is cut short: a packet's header is missing.");
      }
    }
  }
  return good(null);
}

/** A code-block told of for the first time: how many of its band's bit-planes are zero (B.10.5). */
function beginBlock(
  part: PrecinctBand,
  zeroPlanes: TagTree,
  column: number,
  row: number,
  isReversible: boolean,
  bits: HeaderBits,
  path: string,
): Parsed<CodeBlock> {
  let zero = 0;
  while (!zeroPlanes.isBelow(zero + 1, column, row, bits)) {
    zero++;
    if (zero >= part.band.planes) return lies(path, "a code-block has fewer bit-planes than none.");
  }
  const planes = part.band.planes - zero;
  const most = isReversible ? MAX_PLANES_REVERSIBLE : MAX_PLANES_IRREVERSIBLE;
  if (planes > most) return notRead(path, `a code-block has ${planes} bit-planes; ${most} is the most.`);
  return good({ ...blockExtent(part, column, row), planes, lengthBits: 3, passes: 0, pieces: [] });
}

/** How many passes a packet adds to a code-block and in how many bytes (B.10.6, B.10.7); false where that can't be. */
function readPieces(block: CodeBlock, blockStyle: number, bits: HeaderBits, pieces: ToldPiece[]): boolean {
  let remaining = readPassCount(bits);
  if (block.passes + remaining > 3 * block.planes - 2) return false;
  while (bits.bit() === 1) {
    block.lengthBits++;
    if (block.lengthBits > MAX_LENGTH_BITS) return false;
  }
  while (remaining > 0) {
    const passes = Math.min(remaining, passesLeftInSegment(block.passes, blockStyle));
    const lengthBits = block.lengthBits + 31 - Math.clz32(passes);
    if (lengthBits > MAX_LENGTH_BITS) return false;
    pieces.push({ block, passes, length: bits.bits(lengthBits) });
    block.passes += passes;
    remaining -= passes;
  }
  return true;
}

/** Table B.4. */
function readPassCount(bits: HeaderBits): number {
  if (bits.bit() === 0) return 1;
  if (bits.bit() === 0) return 2;
  const few = bits.bits(2);
  if (few < 3) return 3 + few;
  const more = bits.bits(5);
  return more < 31 ? 6 + more : 37 + bits.bits(7);
}

import { bad, good, issue, type Parsed } from "../../../../core/answers/index.ts";
import type { Octets } from "../../octets.ts";

/** How samples are coded: what template 5.42 says, and what follows from it. */
export interface CcsdsCoding {
  /** Bits of a sample. */
  readonly bits: number;
  readonly blockSamples: number;
  /** From one reference sample to the next. */
  readonly intervalBlocks: number;
  /** The bits that say how a block is coded. */
  readonly optionBits: number;
  /** Samples are predicted to be as the one before; what is coded is how they differ. */
  readonly predicted: boolean;
  /** The prediction takes samples as two's complement. */
  readonly signed: boolean;
  /** Each interval begins with a whole byte. */
  readonly wholeBytes: boolean;
}

/** Options mask (template 5.42, octet 22; the names are those of CCSDS 121.0-B-3). The order and number of a sample's bytes don't show in the code. */
const SIGNED = 0x01;
const THREE_BYTES = 0x02;
const HIGH_BYTE_FIRST = 0x04;
const PREDICTED = 0x08;
const RESTRICTED = 0x10;
const WHOLE_BYTES = 0x20;
/** Only tells an encoder to take any block size. */
const ANY_BLOCK_SIZE = 0x40;
const KNOWN = SIGNED | THREE_BYTES | HIGH_BYTE_FIRST | PREDICTED | RESTRICTED | WHOLE_BYTES | ANY_BLOCK_SIZE;

/** Octets 22 to 25 of section 5, or why samples so coded aren't read. */
export function readCoding(octets: Octets, bits: number, path: string): Parsed<CcsdsCoding> {
  const mask = octets.u8(22);
  const blockSamples = octets.u8(23);
  const intervalBlocks = octets.u16(24);
  if ((mask & ~KNOWN) !== 0) return bad(issue(path, "packing-not-read", `CCSDS packing with the options ${mask} is not read.`));
  if (blockSamples !== 8 && blockSamples !== 16 && blockSamples !== 32 && blockSamples !== 64) {
    return bad(issue(path, "packing-not-read", `CCSDS packing in blocks of ${blockSamples} is not read; 8, 16, 32 and 64 are.`));
  }
  if (intervalBlocks === 0) return bad(issue(path, "file-lies", "There are no blocks from one reference sample to the next."));
  const restricted = (mask & RESTRICTED) !== 0;
  // The restricted options are for samples of at most 4 bits; above 8 bits encoders leave the flag out of account (common practice).
  if (restricted && bits > 4 && bits <= 8) {
    return bad(issue(path, "file-lies", `The restricted options are for 4 bits at most, and the values have ${bits}.`));
  }
  return good({
    bits,
    blockSamples,
    intervalBlocks,
    optionBits: optionBits(bits, restricted),
    predicted: (mask & PREDICTED) !== 0,
    signed: (mask & SIGNED) !== 0,
    wholeBytes: (mask & WHOLE_BYTES) !== 0,
  });
}

/** CCSDS 121.0-B-3, table 5-1: the lengths of the keys that say how a block is coded, of the basic and the restricted options. */
function optionBits(bits: number, restricted: boolean): number {
  if (bits > 16) return 5;
  if (bits > 8) return 4;
  if (!restricted) return 3;
  return bits <= 2 ? 1 : 2;
}

import { good, type Parsed } from "../../../../core/answers/index.ts";
import { lies, notRead } from "./faults.ts";

/** Code-block styles (ISO/IEC 15444-1 table A.19). */
export const BYPASS = 1;
export const RESET = 2;
export const TERMINATE = 4;
export const VERTICALLY_CAUSAL = 8;
/** How the encoder ended its segments; they are read alike. */
const PREDICTABLE_TERMINATION = 16;
export const SEGMENTATION_SYMBOLS = 32;
const STYLES_READ = BYPASS | RESET | TERMINATE | VERTICALLY_CAUSAL | PREDICTABLE_TERMINATION | SEGMENTATION_SYMBOLS;

export type Progression = "LRCP" | "RLCP" | "RPCL" | "PCRL" | "CPRL";
const PROGRESSIONS: readonly Progression[] = ["LRCP", "RLCP", "RPCL", "PCRL", "CPRL"];

/** What the COD marker says of a tile (A.6.1). Widths and heights of precincts and code-blocks are powers of two, given by exponents. */
export interface CodingStyle {
  readonly progression: Progression;
  readonly layers: number;
  /** Packets may begin with an SOP marker. */
  readonly mayHaveStarts: boolean;
  /** Packet headers end with an EPH marker. */
  readonly hasHeaderEnds: boolean;
  /** How often the image was halved; one resolution more than that. */
  readonly levels: number;
  readonly blockWidthExponent: number;
  readonly blockHeightExponent: number;
  readonly blockStyle: number;
  readonly isReversible: boolean;
  /** From the lowest resolution up. */
  readonly precinctWidthExponents: readonly number[];
  readonly precinctHeightExponents: readonly number[];
}

const WHOLE_PRECINCT = 0xff;

/** COD. `segment` is the marker segment from behind its length. */
export function readCodingStyle(segment: Uint8Array, path: string): Parsed<CodingStyle> {
  if (segment.length < 10) return lies(path, `its coding style is told in ${segment.length} bytes.`);
  const flags = segment[0]!;
  const progression = PROGRESSIONS[segment[1]!];
  if (progression === undefined) return lies(path, `progression order ${segment[1]} is none.`);
  const layers = segment[2]! * 256 + segment[3]!;
  if (layers === 0) return lies(path, "it has no layer.");
  const order = { progression, layers, mayHaveStarts: (flags & 2) !== 0, hasHeaderEnds: (flags & 4) !== 0 };
  const blocks = readBlockStyle(segment.subarray(5), (flags & 1) !== 0, path);
  return blocks.ok ? good({ ...order, ...blocks.value }) : blocks;
}

/** COC (A.6.2): another style for the only component there is. */
export function readComponentStyle(segment: Uint8Array, tile: CodingStyle, path: string): Parsed<CodingStyle> {
  if (segment.length < 7 || segment[0] !== 0) return lies(path, "the coding style of its component can't be read.");
  const blocks = readBlockStyle(segment.subarray(2), (segment[1]! & 1) !== 0, path);
  return blocks.ok ? good({ ...tile, ...blocks.value }) : blocks;
}

type BlockStyle = Omit<CodingStyle, "progression" | "layers" | "mayHaveStarts" | "hasHeaderEnds">;

function readBlockStyle(bytes: Uint8Array, hasPrecincts: boolean, path: string): Parsed<BlockStyle> {
  const levels = bytes[0]!;
  const blockWidthExponent = bytes[1]! + 2;
  const blockHeightExponent = bytes[2]! + 2;
  const blockStyle = bytes[3]!;
  if (levels > 32) return lies(path, `it is halved ${levels} times.`);
  if (blockWidthExponent > 10 || blockHeightExponent > 10 || blockWidthExponent + blockHeightExponent > 12) {
    return lies(path, `code-blocks of 2^${blockWidthExponent} by 2^${blockHeightExponent} are too large.`);
  }
  if ((blockStyle & ~STYLES_READ) !== 0) return notRead(path, `code-blocks have style ${blockStyle}.`);
  if (bytes[4]! > 1) return lies(path, `wavelet ${bytes[4]} is none.`);
  if (hasPrecincts && bytes.length < 6 + levels) return lies(path, "its precincts are not all told.");
  const precincts = Array.from({ length: levels + 1 }, (_, r) => (hasPrecincts ? bytes[5 + r]! : WHOLE_PRECINCT));
  // Above the lowest resolution a precinct holds at least one sample of each band.
  if (precincts.some((both, r) => r > 0 && ((both & 15) === 0 || both >> 4 === 0))) return lies(path, "its precincts are too small.");
  return good({
    levels,
    blockWidthExponent,
    blockHeightExponent,
    blockStyle,
    isReversible: bytes[4] === 1,
    precinctWidthExponents: precincts.map((both) => both & 15),
    precinctHeightExponents: precincts.map((both) => both >> 4),
  });
}

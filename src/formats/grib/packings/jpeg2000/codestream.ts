import { good, type Parsed } from "../../../../core/answers/index.ts";
import { type CodingStyle, readCodingStyle, readComponentStyle } from "./coding-style.ts";
import { lies, notRead } from "./faults.ts";
import { type ImageSize, readImageSize } from "./image-size.ts";
import { isToldFor, type Quantisation, readQuantisation } from "./quantisation.ts";

/** One tile: how it is coded, and its packets, the tile-parts joined. */
export interface TileStream {
  readonly coding: CodingStyle;
  readonly quantisation: Quantisation;
  readonly packets: Uint8Array;
}

export interface Codestream {
  readonly size: ImageSize;
  /** Row after row; one for every tile of the image. */
  readonly tiles: readonly TileStream[];
}

/** Markers (ISO/IEC 15444-1 table A.2). */
const SOC = 0xff4f;
const CAP = 0xff50;
const SIZ = 0xff51;
const COD = 0xff52;
const COC = 0xff53;
const QCD = 0xff5c;
const QCC = 0xff5d;
const RGN = 0xff5e;
const POC = 0xff5f;
const PPM = 0xff60;
const PPT = 0xff61;
const SOT = 0xff90;
const SOD = 0xff93;
const EOC = 0xffd9;

const UNREAD: ReadonlyMap<number, string> = new Map([
  [CAP, "it needs capabilities beyond part 1 of the standard."],
  [RGN, "it has a region of interest."],
  [POC, "its order of packets changes on the way."],
  [PPM, "its packet headers stand apart."],
  [PPT, "its packet headers stand apart."],
]);

/** A style for all components, and one for the only component, which goes before it. */
interface Header {
  readonly coding: CodingStyle | null;
  readonly componentCoding: Uint8Array | null;
  readonly quantisation: Quantisation | null;
  readonly componentQuantisation: Quantisation | null;
}

const NO_HEADER: Header = { coding: null, componentCoding: null, quantisation: null, componentQuantisation: null };

interface OpenTile {
  header: Header;
  readonly parts: Uint8Array[];
}

/**
 * Reads the markers of a codestream (ISO/IEC 15444-1 annex A) of one component. Every tile must be there; a tile-part that ends beyond
 * the bytes is refused. Tile-parts are taken as they come. Nothing is allocated but in proportion to the bytes and the tiles told.
 */
export function readCodestream(bytes: Uint8Array, valueCount: number, path: string): Parsed<Codestream> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 4 || view.getUint16(0) !== SOC) return lies(path, "it doesn't begin as one.");
  let size: ImageSize | null = null;
  let main: Header = NO_HEADER;
  const tiles = new Map<number, OpenTile>();
  let offset = 2;
  while (offset + 2 <= bytes.length) {
    const marker = view.getUint16(offset);
    if (marker === EOC) break;
    const segment = segmentAt(bytes, offset);
    if (segment === null) return lies(path, `a marker at its byte ${offset} has no room.`);
    if (marker === SOT) {
      if (size === null) return lies(path, "a tile comes before the image's size.");
      const part = readTilePart(bytes, offset, segment, main, tiles, path);
      if (!part.ok) return part;
      offset = part.value;
      continue;
    }
    if (tiles.size > 0) return lies(path, `marker ${marker.toString(16)} stands between its tiles.`);
    if (marker === SIZ && size === null) {
      const read = readImageSize(segment, valueCount, path);
      if (!read.ok) return read;
      size = read.value;
    } else {
      const read = withMarker(main, marker, segment, path);
      if (!read.ok) return read;
      main = read.value;
    }
    offset += 4 + segment.length;
  }
  if (size === null) return lies(path, "it doesn't tell the image's size.");
  return allTiles(size, tiles, path);
}

/** A marker's segment from behind its length, or null where it has no room. */
function segmentAt(bytes: Uint8Array, offset: number): Uint8Array | null {
  if (bytes[offset] !== 0xff || offset + 4 > bytes.length) return null;
  const end = offset + 2 + bytes[offset + 2]! * 256 + bytes[offset + 3]!;
  return end < offset + 4 || end > bytes.length ? null : bytes.subarray(offset + 4, end);
}

function withMarker(header: Header, marker: number, segment: Uint8Array, path: string): Parsed<Header> {
  const unread = UNREAD.get(marker);
  if (unread !== undefined) return notRead(path, unread);
  if (marker === COD) {
    const coding = readCodingStyle(segment, path);
    return coding.ok ? good({ ...header, coding: coding.value }) : coding;
  }
  if (marker === COC) return good({ ...header, componentCoding: segment });
  if (marker === QCD) {
    const quantisation = readQuantisation(segment, path);
    return quantisation.ok ? good({ ...header, quantisation: quantisation.value }) : quantisation;
  }
  if (marker === QCC) {
    const quantisation = readQuantisation(segment.subarray(1), path);
    return quantisation.ok ? good({ ...header, componentQuantisation: quantisation.value }) : quantisation;
  }
  // Comments, lengths of packets and the like.
  return good(header);
}

/** A tile-part from its SOT marker on (A.4.2); gives where the next marker stands. */
function readTilePart(
  bytes: Uint8Array,
  start: number,
  sot: Uint8Array,
  main: Header,
  tiles: Map<number, OpenTile>,
  path: string,
): Parsed<number> {
  if (sot.length !== 8) return lies(path, `a tile-part begins with ${sot.length} bytes.`);
  const view = new DataView(sot.buffer, sot.byteOffset, sot.byteLength);
  const index = view.getUint16(0);
  const length = view.getUint32(2);
  if (length > bytes.length - start) return lies(path, `its tile ${index} ends beyond its bytes.`);
  const tile = tiles.get(index) ?? { header: NO_HEADER, parts: [] };
  tiles.set(index, tile);
  const limit = length === 0 ? bytes.length : start + length;
  let offset = start + 12;
  for (;;) {
    if (offset + 2 > limit) return lies(path, `its tile ${index} has no packets.`);
    if (bytes[offset] === 0xff && bytes[offset + 1] === (SOD & 0xff)) break;
    const segment = segmentAt(bytes, offset);
    if (segment === null || offset + 4 + segment.length > limit) return lies(path, `a marker of its tile ${index} has no room.`);
    const read = withMarker(tile.header, bytes[offset]! * 256 + bytes[offset + 1]!, segment, path);
    if (!read.ok) return read;
    tile.header = read.value;
    offset += 4 + segment.length;
  }
  if (tile.parts.length === 0) tile.header = joinedHeader(main, tile.header);
  const end = length === 0 ? endOfCodestream(bytes, offset) : limit;
  tile.parts.push(bytes.subarray(offset + 2, end));
  return good(end);
}

/** What a tile says goes before what the main header says; what is said for the component goes before both (A.6.1 to A.6.5). */
function joinedHeader(main: Header, tile: Header): Header {
  return {
    coding: tile.coding ?? main.coding,
    componentCoding: tile.componentCoding ?? (tile.coding === null ? main.componentCoding : null),
    quantisation: tile.quantisation ?? main.quantisation,
    componentQuantisation: tile.componentQuantisation ?? (tile.quantisation === null ? main.componentQuantisation : null),
  };
}

/** Where the EOC marker stands; its two bytes can't come about inside packets. The end of the bytes where it is missing. */
function endOfCodestream(bytes: Uint8Array, from: number): number {
  for (let i = bytes.indexOf(0xff, from); i >= 0; i = bytes.indexOf(0xff, i + 1)) if (bytes[i + 1] === (EOC & 0xff)) return i;
  return bytes.length;
}

function allTiles(size: ImageSize, open: ReadonlyMap<number, OpenTile>, path: string): Parsed<Codestream> {
  const tiles: TileStream[] = [];
  const wanted = size.tilesAcross * size.tilesDown;
  if (open.size !== wanted) return lies(path, `${open.size} of its ${wanted} tiles are there.`);
  for (let index = 0; index < wanted; index++) {
    const tile = open.get(index);
    if (tile === undefined) return lies(path, `its tile ${index} is missing.`);
    const { coding, componentCoding, quantisation, componentQuantisation } = tile.header;
    const steps = componentQuantisation ?? quantisation;
    if (coding === null || steps === null) return lies(path, `it doesn't tell how tile ${index} is coded.`);
    const style = componentCoding === null ? good(coding) : readComponentStyle(componentCoding, coding, path);
    if (!style.ok) return style;
    if (!isToldFor(style.value.levels, steps)) return lies(path, `tile ${index} lacks the steps of some of its bands.`);
    if (style.value.isReversible && steps.style !== "none") return notRead(path, "it quantises what its wavelet keeps whole.");
    tiles.push({ coding: style.value, quantisation: steps, packets: joined(tile.parts) });
  }
  return good({ size, tiles });
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

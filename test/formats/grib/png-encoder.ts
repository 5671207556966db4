/** Writes PNG pictures (ISO/IEC 15948) with Node's zlib, apart from the program; any filter for any row. */
import { crc32, deflateSync } from "node:zlib";
import { ascii, joined } from "./sample-message.ts";

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** 1, 2, 4, 8, 16 (grey), 24 (RGB) or 32 (RGBA). */
  readonly pointBits: number;
  /** Whole numbers, row after row. */
  readonly points: readonly number[];
}

export interface PngChoices {
  /** The filter of a row, 0 to 4; 0 where not said. */
  readonly filterOf?: (row: number) => number;
  /** The length of the IDAT chunks; all in one where not said. */
  readonly partBytes?: number;
  /** Octets of the header to be changed: depth 8, colour 9, compression 10, filter 11, interlace 12. */
  readonly header?: Readonly<Record<number, number>>;
  /** Chunks between header and data. */
  readonly extra?: readonly Uint8Array[];
  /** In the place of the deflated rows. */
  readonly zlib?: Uint8Array;
}

export function chunk(type: string, content: Uint8Array): Uint8Array {
  const checked = joined(ascii(type), content);
  return joined(bigEndian(content.length), checked, bigEndian(crc32(checked)));
}

const bigEndian = (value: number): Uint8Array => Uint8Array.from([value >>> 24, (value >>> 16) & 255, (value >>> 8) & 255, value & 255]);

export const SIGNATURE = Uint8Array.from([137, 80, 78, 71, 13, 10, 26, 10]);

export function pngOf(picture: Picture, { filterOf = () => 0, partBytes, header = {}, extra = [], zlib }: PngChoices = {}): Uint8Array {
  const { width, height, pointBits } = picture;
  const [depth, colour] = pointBits === 24 ? [8, 2] : pointBits === 32 ? [8, 6] : [pointBits, 0];
  const head = joined(bigEndian(width), bigEndian(height), Uint8Array.from([depth, colour, 0, 0, 0]));
  for (const [octet, value] of Object.entries(header)) head[Number(octet)] = value;
  const deflated = zlib ?? new Uint8Array(deflateSync(filteredRows(picture, filterOf)));
  const length = partBytes ?? Math.max(1, deflated.length);
  const parts: Uint8Array[] = [];
  for (let at = 0; at < deflated.length; at += length) parts.push(chunk("IDAT", deflated.subarray(at, at + length)));
  return joined(SIGNATURE, chunk("IHDR", head), ...extra, ...parts, chunk("IEND", new Uint8Array(0)));
}

/** Rows of whole bytes, each behind its filter's number: what is deflated. */
export function filteredRows(picture: Picture, filterOf: (row: number) => number): Uint8Array {
  const rows = rowsOf(picture);
  const back = Math.max(1, picture.pointBits / 8);
  return joined(
    ...rows.map((row, y) => {
      const at = (line: number, i: number): number => rows[line]?.[i] ?? 0;
      const filter = filterOf(y);
      const filtered = Uint8Array.from(row, (byte, i) => {
        const [left, above, aboveLeft] = [at(y, i - back), at(y - 1, i), at(y - 1, i - back)];
        return byte - [0, left, above, Math.floor((left + above) / 2), paeth(left, above, aboveLeft)][filter]!;
      });
      return joined(Uint8Array.from([filter]), filtered);
    }),
  );
}

/** Section 9.4: the nearest to left + above - above left; left before above before above left. */
function paeth(left: number, above: number, aboveLeft: number): number {
  const guess = left + above - aboveLeft;
  return [left, above, aboveLeft].reduce((best, one) => (Math.abs(guess - one) < Math.abs(guess - best) ? one : best));
}

function rowsOf({ width, height, pointBits, points }: Picture): readonly Uint8Array[] {
  return Array.from({ length: height }, (_, y) => {
    const bits = points
      .slice(y * width, (y + 1) * width)
      .map((point) => point.toString(2).padStart(pointBits, "0"))
      .join("");
    return Uint8Array.from({ length: Math.ceil(bits.length / 8) }, (_, i) =>
      Number.parseInt(bits.slice(i * 8, i * 8 + 8).padEnd(8, "0"), 2),
    );
  });
}

import type { Dice } from "./dice.ts";
import { changeBytes, joined, numberAt, putNumber, tellingNumber } from "./mutate-bytes.ts";

/**
 * Bob Jenkins' lookup3 (public domain, 2006), by which HDF5 checks its newer structures: without it mended every change of them would be
 * refused at the door. For bytes after one another, started from nought.
 */
export function lookup3(bytes: Uint8Array): number {
  const rotated = (value: number, by: number): number => (value << by) | (value >>> (32 - by));
  let [a, b, c] = [0, 0, 0].map(() => (0xdeadbeef + bytes.length) | 0) as [number, number, number];
  const word = (at: number): number => {
    let value = 0;
    for (let i = 3; i >= 0; i--) value = (value << 8) | (bytes[at + i] ?? 0);
    return value;
  };
  let at = 0;
  for (; bytes.length - at > 12; at += 12) {
    a = (a + word(at)) | 0;
    b = (b + word(at + 4)) | 0;
    c = (c + word(at + 8)) | 0;
    a = ((a - c) | 0) ^ rotated(c, 4);
    c = (c + b) | 0;
    b = ((b - a) | 0) ^ rotated(a, 6);
    a = (a + c) | 0;
    c = ((c - b) | 0) ^ rotated(b, 8);
    b = (b + a) | 0;
    a = ((a - c) | 0) ^ rotated(c, 16);
    c = (c + b) | 0;
    b = ((b - a) | 0) ^ rotated(a, 19);
    a = (a + c) | 0;
    c = ((c - b) | 0) ^ rotated(b, 4);
    b = (b + a) | 0;
  }
  if (bytes.length === at) return c >>> 0;
  a = (a + word(at)) | 0;
  b = (b + word(at + 4)) | 0;
  c = (c + word(at + 8)) | 0;
  c = ((c ^ b) - rotated(b, 14)) | 0;
  a = ((a ^ c) - rotated(c, 11)) | 0;
  b = ((b ^ a) - rotated(a, 25)) | 0;
  c = ((c ^ b) - rotated(b, 16)) | 0;
  a = ((a ^ c) - rotated(c, 4)) | 0;
  b = ((b ^ a) - rotated(a, 14)) | 0;
  c = ((c ^ b) - rotated(b, 24)) | 0;
  return c >>> 0;
}

/** A checked structure of the file: its stretch, the check sum in its last four bytes. */
interface Checked {
  readonly from: number;
  readonly to: number;
}

const lettersAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));

/** The newer object headers and their continuations, by their letters; kept are those whose check sums hold. */
function checkedOf(bytes: Uint8Array): Checked[] {
  const found: Checked[] = [];
  for (let at = 0; at + 8 < bytes.length; at++) {
    if (bytes[at] !== 0x4f) continue;
    const letters = lettersAt(bytes, at);
    if (letters === "OHDR") {
      const flags = bytes[at + 5]!;
      let head = 6 + ((flags & 0x20) !== 0 ? 16 : 0) + ((flags & 0x10) !== 0 ? 4 : 0);
      const width = 1 << (flags & 3);
      const size = numberAt(bytes, at + head, width, true);
      head += width;
      found.push({ from: at, to: at + head + size + 4 });
    } else if (letters === "OCHK") {
      for (let to = at + 8; to <= Math.min(bytes.length, at + 4096); to++) {
        if (lookup3(bytes.subarray(at, to - 4)) === numberAt(bytes, to - 4, 4, true)) {
          found.push({ from: at, to });
          break;
        }
      }
    }
  }
  return found.filter(({ from, to }) => to <= bytes.length && lookup3(bytes.subarray(from, to - 4)) === numberAt(bytes, to - 4, 4, true));
}

const known = new Map<Uint8Array, readonly Checked[]>();

/** An HDF5 file with one to four changes; those of checked structures have their sums mended, most times. */
export function mutateHdf5(bytes: Uint8Array, dice: Dice): Uint8Array {
  const checked = known.get(bytes) ?? checkedOf(bytes);
  known.set(bytes, checked);
  if (dice.onceIn(8)) {
    let plain: Uint8Array = bytes;
    for (let changes = 1 + dice.below(3); changes > 0; changes--) plain = changeBytes(plain, dice, true);
    return plain;
  }
  const copy = bytes.slice();
  for (let changes = 1 + dice.below(4); changes > 0; changes--) {
    const isInside = checked.length > 0 && !dice.onceIn(3);
    const { from, to } = isInside ? dice.pick(checked) : { from: 0, to: copy.length };
    const piece = copy.subarray(from, isInside ? to - 4 : to);
    // Changes that move what follows would only cut the file: all stays in its place here.
    const at = dice.below(piece.length);
    const width = dice.pick([1, 1, 1, 2, 4, 8]);
    putNumber(piece, at, width, tellingNumber(dice, width, numberAt(piece, at, width, true), copy.length), true);
    if (isInside && !dice.onceIn(12)) putNumber(copy, to - 4, 4, lookup3(copy.subarray(from, to - 4)), true);
  }
  return dice.onceIn(15) ? joined(copy.subarray(0, dice.below(copy.length))) : copy;
}

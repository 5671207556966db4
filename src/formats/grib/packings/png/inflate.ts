import { Inflate } from "fflate";

/** Deflate can't make more than this out of a byte (RFC 1951: 258 bytes by two bits, and a little for the block). */
const MOST_GROWTH = 1032;
const HEADER_BYTES = 2;
const CHECK_BYTES = 4;

/**
 * Inflates a zlib stream (RFC 1950) that must give exactly `out.length` bytes. It is fed in pieces so small that what one piece can
 * grow to stays in proportion to `out`, and left off as soon as it gives too much. Null, or why it can't be what it should.
 */
export function inflateInto(zlib: Uint8Array, out: Uint8Array): string | null {
  const [method, flags] = [zlib[0] ?? 0, zlib[1] ?? 0];
  const sound = (method & 15) === 8 && method >>> 4 <= 7 && (method * 256 + flags) % 31 === 0 && (flags & 0x20) === 0;
  if (!sound || zlib.length < HEADER_BYTES + CHECK_BYTES) return "The PNG picture's data are not a zlib stream.";
  const deflated = zlib.subarray(HEADER_BYTES, -CHECK_BYTES);
  const pieceBytes = Math.min(16_384, Math.max(256, Math.ceil(out.length / 256)));
  let filled = 0;
  let tooMuch = false;
  const stream = new Inflate((part) => {
    tooMuch ||= filled + part.length > out.length;
    if (tooMuch) return;
    out.set(part, filled);
    filled += part.length;
  });
  try {
    for (let at = 0; at < deflated.length && !tooMuch; at += pieceBytes) {
      stream.push(deflated.subarray(at, at + pieceBytes), at + pieceBytes >= deflated.length);
    }
  } catch {
    return "The PNG picture's data can't be inflated.";
  }
  if (tooMuch) return "The PNG picture's data hold more than its rows.";
  if (filled < out.length) return `The PNG picture's data end after ${filled} of ${out.length} bytes.`;
  const view = new DataView(zlib.buffer, zlib.byteOffset + zlib.length - CHECK_BYTES, CHECK_BYTES);
  return view.getUint32(0) === adler32(out) ? null : "The PNG picture is damaged: the check of its rows fails.";
}

/** Whether `length` bytes can come out of `zlib` at all: asked before they are allocated. */
export function canInflateTo(zlib: Uint8Array, length: number): boolean {
  return length <= zlib.length * MOST_GROWTH;
}

/** RFC 1950, section 8. Sums stay below 2^32 over 3800 bytes. */
function adler32(bytes: Uint8Array): number {
  let [a, b] = [1, 0];
  for (let from = 0; from < bytes.length; from += 3800) {
    const until = Math.min(from + 3800, bytes.length);
    for (let i = from; i < until; i++) {
      a += bytes[i]!;
      b += a;
    }
    a %= 65521;
    b %= 65521;
  }
  return b * 65536 + a;
}

import type { ByteSource } from "./byte-source.ts";
import { WindowReader } from "./window-reader.ts";

/** How much is read at a time of a file of many small messages, bytes: a trip to the disk costs more than the bytes it brings. */
export const READ_AHEAD_BYTES = 256 * 1024;

/**
 * The same bytes, read `windowBytes` at a time and kept until another place is asked for. A piece further than that from the one asked
 * for before is read by itself: what lies behind it is hardly wanted. What is read at once is not kept.
 */
export function readAhead(source: ByteSource, windowBytes: number = READ_AHEAD_BYTES): ByteSource {
  const reader = new WindowReader(source, windowBytes);
  let lastEnd = 0;
  const ahead: ByteSource = {
    sizeBytes: source.sizeBytes,
    read: (offsetBytes, lengthBytes) => {
      const isNear = Math.abs(offsetBytes - lastEnd) <= windowBytes;
      lastEnd = offsetBytes + lengthBytes;
      return (isNear ? reader : source).read(offsetBytes, lengthBytes);
    },
  };
  if (source.readNow) ahead.readNow = (offsetBytes, lengthBytes, into) => reader.readNow(offsetBytes, lengthBytes, into);
  return ahead;
}

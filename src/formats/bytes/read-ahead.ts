import type { ByteSource } from "./byte-source.ts";
import { WindowReader } from "./window-reader.ts";

/** How much is read at a time of a file of many small messages, bytes: a trip to the disk costs more than the bytes it brings. */
export const READ_AHEAD_BYTES = 256 * 1024;

/** The same bytes, read `windowBytes` at a time and kept until another place is asked for. */
export function readAhead(source: ByteSource, windowBytes: number = READ_AHEAD_BYTES): ByteSource {
  const reader = new WindowReader(source, windowBytes);
  return { sizeBytes: source.sizeBytes, read: (offsetBytes, lengthBytes) => reader.read(offsetBytes, lengthBytes) };
}

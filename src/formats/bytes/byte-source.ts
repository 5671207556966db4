/**
 * Bytes that are asked for piece by piece: a file, an upload, memory. Readers ask for what they need and never for the whole.
 *
 * `read` gives exactly `lengthBytes` bytes from `offsetBytes`; asking beyond the end is the asker's bug and throws. The bytes given may
 * be a view of what the source holds: the asker must not write to them.
 */
export interface ByteSource {
  readonly sizeBytes: number;
  read(offsetBytes: number, lengthBytes: number): Promise<Uint8Array>;
  /**
   * The same at once, where the source can: for readers that can't wait. Throws what `read` rejects with. `into`, of `lengthBytes`, is
   * room of the asker's that the source may put them in; it gives that back then.
   */
  readNow?(offsetBytes: number, lengthBytes: number, into?: Uint8Array): Uint8Array;
}

/** Throws, quoting the request, unless it lies inside a source of `sizeBytes`. */
export function checkRequest(sizeBytes: number, offsetBytes: number, lengthBytes: number): void {
  const whole = Number.isSafeInteger(offsetBytes) && Number.isSafeInteger(lengthBytes) && offsetBytes >= 0 && lengthBytes >= 0;
  if (!whole || offsetBytes + lengthBytes > sizeBytes) {
    throw new RangeError(`asked for ${lengthBytes} bytes from byte ${offsetBytes} of a source of ${sizeBytes} bytes`);
  }
}

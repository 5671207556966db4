import type { ByteSource } from "./byte-source.ts";

/**
 * Reads small pieces that lie near one another with few requests of the source: a window of bytes is kept, and moved where a piece
 * lies outside it. Pieces larger than the window are read by themselves. What is given may be a view; don't write to it.
 */
export class WindowReader {
  readonly source: ByteSource;
  readonly #windowBytes: number;
  #offset = 0;
  #held: Uint8Array = new Uint8Array(0);

  constructor(source: ByteSource, windowBytes: number) {
    this.source = source;
    this.#windowBytes = windowBytes;
  }

  async read(offsetBytes: number, lengthBytes: number): Promise<Uint8Array> {
    if (lengthBytes > this.#windowBytes) return await this.source.read(offsetBytes, lengthBytes);
    const from = offsetBytes - this.#offset;
    if (from >= 0 && from + lengthBytes <= this.#held.length) return this.#held.subarray(from, from + lengthBytes);
    const wanted = Math.max(lengthBytes, Math.min(this.#windowBytes, this.source.sizeBytes - offsetBytes));
    this.#held = await this.source.read(offsetBytes, wanted);
    this.#offset = offsetBytes;
    return this.#held.subarray(0, lengthBytes);
  }

  /** At once and past the window. Throws where the source can't: that is the asker's bug. */
  readNow(offsetBytes: number, lengthBytes: number, into?: Uint8Array): Uint8Array {
    if (!this.source.readNow) throw new Error(`a source of ${this.source.sizeBytes} bytes can't be read at once`);
    return this.source.readNow(offsetBytes, lengthBytes, into);
  }
}

/**
 * The bits of packet headers (ISO/IEC 15444-1 B.10.1), most significant first; after a byte 0xFF the next byte's first bit is stuffed
 * and passed over. Beyond the end every bit is 0 and `isOverrun` says so.
 */
export class HeaderBits {
  readonly #bytes: Uint8Array;
  #next = 0;
  #byte = 0;
  #left = 0;
  isOverrun = false;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  /** Begins a header at a byte. */
  startAt(offset: number): void {
    this.#next = offset;
    this.#byte = 0;
    this.#left = 0;
  }

  bit(): number {
    if (this.#left === 0) {
      this.#left = this.#byte === 0xff ? 7 : 8;
      if (this.#next >= this.#bytes.length) this.isOverrun = true;
      this.#byte = this.#bytes[this.#next++] ?? 0;
    }
    this.#left--;
    return (this.#byte >> this.#left) & 1;
  }

  /** `count` up to 31. */
  bits(count: number): number {
    let value = 0;
    for (let i = 0; i < count; i++) value = value * 2 + this.bit();
    return value;
  }

  /** Ends the header; gives where the byte behind it stands. A last byte of 0xFF has a stuffed byte behind it. */
  end(): number {
    if (this.#byte === 0xff) this.#next++;
    return this.#next;
  }
}

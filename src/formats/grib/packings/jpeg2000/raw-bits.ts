/**
 * Bits that bypass the arithmetic coder (ISO/IEC 15444-1 D.6): most significant first, the first bit after a byte 0xFF stuffed. Beyond the
 * end every bit is 1.
 */
export class RawBits {
  #bytes: Uint8Array = new Uint8Array(0);
  #next = 0;
  #end = 0;
  #byte = 0;
  #left = 0;

  begin(bytes: Uint8Array, offset: number, length: number): void {
    this.#bytes = bytes;
    this.#next = offset;
    this.#end = offset + length;
    this.#byte = 0;
    this.#left = 0;
  }

  bit(): number {
    if (this.#left === 0) {
      this.#left = this.#byte === 0xff ? 7 : 8;
      this.#byte = this.#next < this.#end ? this.#bytes[this.#next++]! : 0xff;
    }
    this.#left--;
    return (this.#byte >> this.#left) & 1;
  }
}

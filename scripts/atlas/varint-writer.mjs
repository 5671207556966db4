// @ts-check
/** Whole numbers as bytes: seven bits each, the least first, the eighth set where more follow; signed ones as 2n or −2n − 1. */
export class VarintWriter {
  /** @type {number[]} */
  #bytes = [];

  /** @param {number} number whole, 0 or more */
  add(number) {
    if (!(Number.isSafeInteger(number) && number >= 0)) throw new Error(`not a whole number from 0: ${number}`);
    let rest = number;
    for (; rest >= 128; rest = Math.floor(rest / 128)) this.#bytes.push((rest % 128) + 128);
    this.#bytes.push(rest);
  }

  /** @param {number} number */
  addSigned(number) {
    this.add(number < 0 ? -2 * number - 1 : 2 * number);
  }

  /** @param {Uint8Array} bytes their number first */
  addBytes(bytes) {
    this.add(bytes.length);
    for (const byte of bytes) this.#bytes.push(byte);
  }

  bytes() {
    return Uint8Array.from(this.#bytes);
  }
}

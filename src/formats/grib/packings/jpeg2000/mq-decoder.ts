import { NEXT_WORD } from "./mq-states.ts";

/** Bytes of 0xFF that must stand behind a segment: the decoder takes them for its end, and feeds ones. */
export const MQ_PADDING_BYTES = 2;

/**
 * The arithmetic decoder (ISO/IEC 15444-1 annex C, the same as in ISO/IEC 14492 annex E).
 *
 * Most symbols are the more probable one and move no bits. For these the interval A and the code register C both shrink by the
 * probability, so that only their `slack` need be followed: how much they may still shrink. A caller in a hot loop keeps the slack in a
 * variable of its own, and decodes a symbol so:
 *
 *     const word = contexts[context];
 *     slack -= word >> 8;
 *     let symbol = word & 1;
 *     if (slack < 0) {
 *       symbol = mq.settle(context, slack);
 *       slack = mq.slack;
 *     }
 *
 * and puts it back into `slack` when done.
 */
export class MqDecoder {
  /** State words (see mq-states.ts) by context. */
  readonly contexts: Int32Array;
  slack = 0;
  /** The slack when A and C were last brought up to date. */
  #slackThen = 0;
  #a = 0;
  #c = 0;
  #shiftsLeft = 0;
  #at = 0;
  #bytes: Uint8Array = new Uint8Array(MQ_PADDING_BYTES).fill(0xff);

  constructor(contexts: number) {
    this.contexts = new Int32Array(contexts);
  }

  /** Begins a segment (figure C.20): `bytes` from `offset` to its end and `MQ_PADDING_BYTES` of 0xFF. The contexts are left alone. */
  begin(bytes: Uint8Array, offset: number): void {
    this.#bytes = bytes;
    this.#at = offset;
    this.#c = bytes[offset]! << 16;
    this.#takeByte();
    this.#c <<= 7;
    this.#shiftsLeft -= 7;
    this.#a = 0x8000;
    this.#measureSlack();
  }

  decode(context: number): number {
    const word = this.contexts[context]!;
    const slack = this.slack - (word >> 8);
    if (slack < 0) return this.settle(context, slack);
    this.slack = slack;
    return word & 1;
  }

  /** A symbol for which the slack gave out (figures C.15 to C.18); `slack` is what it came to, below 0. */
  settle(context: number, slack: number): number {
    const word = this.contexts[context]!;
    const probability = word >> 8;
    const used = this.#slackThen - slack;
    const a = this.#a - used;
    // All ones where C lies in the part of the less probable symbol. The symbols change places where that part is the larger. Without
    // branches: what comes next can't be foretold.
    const inLess = ((this.#c >>> 16) - used) >> 31;
    const isLess = ((a - probability) >>> 31) ^ (inLess & 1);
    this.#c = (this.#c - ((used - (probability & inLess)) << 16)) | 0;
    const interval = a ^ ((a ^ probability) & inLess);
    this.contexts[context] = NEXT_WORD[(word & 0x7f) | (isLess << 7)]!;
    // Renormalisation (figure C.18): as many shifts as bring A to 0x8000 or more.
    let shifts = Math.clz32(interval) - 16;
    this.#a = interval << shifts;
    while (shifts > this.#shiftsLeft) {
      this.#c <<= this.#shiftsLeft;
      shifts -= this.#shiftsLeft;
      this.#takeByte();
    }
    this.#c <<= shifts;
    this.#shiftsLeft -= shifts;
    this.#measureSlack();
    return (word & 1) ^ isLess;
  }

  #measureSlack(): void {
    this.slack = Math.min(this.#a - 0x8000, this.#c >>> 16);
    this.#slackThen = this.slack;
  }

  /** Figure C.19: after 0xFF a byte above 0x8F is a marker, so the segment's end, else it brings 7 bits. */
  #takeByte(): void {
    const bytes = this.#bytes;
    if (bytes[this.#at] !== 0xff) {
      this.#c += bytes[++this.#at]! << 8;
      this.#shiftsLeft = 8;
    } else if (bytes[this.#at + 1]! > 0x8f) {
      this.#c += 0xff00;
      this.#shiftsLeft = 8;
    } else {
      this.#c += bytes[++this.#at]! << 9;
      this.#shiftsLeft = 7;
    }
  }
}

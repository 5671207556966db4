/** Beyond the code's end a block may still be looked at as far as this: 64 samples of 32 bits, its option, and a word in reserve. */
const SPARE_WORDS = 72;

/** The most bytes of code whose bits are counted in 31 bits. The largest field that is read takes a third of this. */
const MOST_BYTES = 2 ** 28 - 4 * SPARE_WORDS;

/** A code in words of 32 bits, the first bit of the first byte on top. Behind its end stand ones, so that no run of noughts goes on for ever. */
export interface CodeWords {
  readonly words: Int32Array;
  readonly bitCount: number;
}

export function codeWords(data: Uint8Array): CodeWords {
  const length = Math.min(data.length, MOST_BYTES);
  const whole = length >>> 2;
  const words = new Int32Array(whole + SPARE_WORDS).fill(-1, whole);
  const view = new DataView(data.buffer, data.byteOffset, length);
  for (let i = 0; i < whole; i++) words[i] = view.getInt32(i * 4);
  for (let o = whole * 4, shift = 24; o < length; o++, shift -= 8) words[whole]! ^= (data[o]! ^ 0xff) << shift;
  return { words, bitCount: length * 8 };
}

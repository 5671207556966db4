/**
 * The states of the arithmetic decoder (ISO/IEC 15444-1 table C.2): the probability of the less probable symbol, the next state after
 * the more and after the less probable symbol, and whether their senses are then swapped.
 */
const TABLE: readonly (readonly [number, number, number, 0 | 1])[] = [
  [0x5601, 1, 1, 1],
  [0x3401, 2, 6, 0],
  [0x1801, 3, 9, 0],
  [0x0ac1, 4, 12, 0],
  [0x0521, 5, 29, 0],
  [0x0221, 38, 33, 0],
  [0x5601, 7, 6, 1],
  [0x5401, 8, 14, 0],
  [0x4801, 9, 14, 0],
  [0x3801, 10, 14, 0],
  [0x3001, 11, 17, 0],
  [0x2401, 12, 18, 0],
  [0x1c01, 13, 20, 0],
  [0x1601, 29, 21, 0],
  [0x5601, 15, 14, 1],
  [0x5401, 16, 14, 0],
  [0x5101, 17, 15, 0],
  [0x4801, 18, 16, 0],
  [0x3801, 19, 17, 0],
  [0x3401, 20, 18, 0],
  [0x3001, 21, 19, 0],
  [0x2801, 22, 19, 0],
  [0x2401, 23, 20, 0],
  [0x2201, 24, 21, 0],
  [0x1c01, 25, 22, 0],
  [0x1801, 26, 23, 0],
  [0x1601, 27, 24, 0],
  [0x1401, 28, 25, 0],
  [0x1201, 29, 26, 0],
  [0x1101, 30, 27, 0],
  [0x0ac1, 31, 28, 0],
  [0x09c1, 32, 29, 0],
  [0x08a1, 33, 30, 0],
  [0x0521, 34, 31, 0],
  [0x0441, 35, 32, 0],
  [0x02a1, 36, 33, 0],
  [0x0221, 37, 34, 0],
  [0x0141, 38, 35, 0],
  [0x0111, 39, 36, 0],
  [0x0085, 40, 37, 0],
  [0x0049, 41, 38, 0],
  [0x0025, 42, 39, 0],
  [0x0015, 43, 40, 0],
  [0x0009, 44, 41, 0],
  [0x0005, 45, 42, 0],
  [0x0001, 45, 43, 0],
  [0x5601, 46, 46, 0],
];

/** A state and the sense of its more probable symbol in one word: probability << 8 | state << 1 | symbol. */
export const stateWord = (state: number, symbol: 0 | 1): number => (TABLE[state]![0] << 8) | (state << 1) | symbol;

/** The word after a symbol, by the low 7 bits of the word before; for the less probable symbol 128 further on. */
export const NEXT_WORD = new Int32Array(256);
export const AFTER_LESS_PROBABLE = 128;

for (const [state, [, more, less, swaps]] of TABLE.entries()) {
  for (const symbol of [0, 1] as const) {
    NEXT_WORD[2 * state + symbol] = stateWord(more, symbol);
    NEXT_WORD[AFTER_LESS_PROBABLE + 2 * state + symbol] = stateWord(less, swaps === symbol ? 0 : 1);
  }
}

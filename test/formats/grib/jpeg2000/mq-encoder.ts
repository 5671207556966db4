import { NEXT_WORD, stateWord } from "../../../../src/formats/grib/packings/jpeg2000/mq-states.ts";

/** The arithmetic encoder of ISO/IEC 15444-1 C.2 (figures C.3 to C.12), by its flow charts, for tests. */
export function encodedByMq(symbols: readonly { readonly context: number; readonly symbol: number }[], contexts: number): Uint8Array {
  const words = new Array<number>(contexts).fill(stateWord(0, 0));
  // The first byte stands before the segment.
  const out: number[] = [0];
  let [a, c, count] = [0x8000, 0, 12];
  const byteOut = (): void => {
    const last = out.length - 1;
    const stuff = (): void => {
      out.push(Math.floor(c / 2 ** 20) & 0xff);
      c %= 2 ** 20;
      count = 7;
    };
    if (out[last] === 0xff) {
      stuff();
      return;
    }
    if (c >= 0x8000000) {
      out[last]!++;
      if (out[last] === 0xff) {
        c %= 0x8000000;
        stuff();
        return;
      }
    }
    out.push(Math.floor(c / 2 ** 19) & 0xff);
    c %= 2 ** 19;
    count = 8;
  };
  for (const { context, symbol } of symbols) {
    const word = words[context]!;
    const probability = word >> 8;
    const isMore = symbol === (word & 1);
    a -= probability;
    if (isMore && a >= 0x8000) {
      c += probability;
      continue;
    }
    // The larger part goes to the more probable symbol (figures C.6 and C.7).
    if (isMore === a < probability) a = probability;
    else c += probability;
    words[context] = NEXT_WORD[(word & 0x7f) | (isMore ? 0 : 128)]!;
    while (a < 0x8000) {
      a *= 2;
      c *= 2;
      count--;
      if (count === 0) byteOut();
    }
  }
  // Flush (figure C.11): as many ones at the end of C as may be.
  const top = c + a;
  c = Math.floor(c / 0x10000) * 0x10000 + 0xffff;
  if (c >= top) c -= 0x8000;
  c *= 2 ** count;
  byteOut();
  c *= 2 ** count;
  byteOut();
  if (out.at(-1) === 0xff) out.pop();
  return Uint8Array.from(out.slice(1));
}

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { MqDecoder } from "../../../../src/formats/grib/packings/jpeg2000/mq-decoder.ts";
import { stateWord } from "../../../../src/formats/grib/packings/jpeg2000/mq-states.ts";
import { encodedByMq } from "./mq-encoder.ts";

const bytesOf = (hex: string): Uint8Array => Uint8Array.from(hex.split(" "), (byte) => Number.parseInt(byte, 16));

function decoder(bytes: Uint8Array, contexts: number): MqDecoder {
  const mq = new MqDecoder(contexts);
  mq.contexts.fill(stateWord(0, 0));
  mq.begin(Uint8Array.from([...bytes, 0xff, 0xff]), 0);
  return mq;
}

describe("arithmetic decoder", () => {
  test("the test sequence of ISO/IEC 14492 (ITU-T T.88) annex H.2, from memory: 256 symbols of one context", () => {
    const coded = bytesOf("84 c7 3b fc e1 a1 43 04 02 20 00 00 41 0d bb 86 f4 31 7f ff 88 ff 37 47 1a db 6a df ff ac");
    const plain = bytesOf("00 02 00 51 00 00 00 c0 03 52 87 2a aa aa aa aa 82 c0 20 00 fc d7 9e f6 bf 7f ed 90 4f 46 a3 bf");
    const mq = decoder(coded, 1);
    const decoded = plain.map(() => {
      let byte = 0;
      for (let i = 0; i < 8; i++) byte = 2 * byte + mq.decode(0);
      return byte;
    });
    expect([...decoded]).toEqual([...plain]);
  });

  test("what the standard's encoder codes reads back, for symbols of any odds in several contexts", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(4), fc.nat(99)), { maxLength: 3000 }),
        fc.array(fc.nat(100), { minLength: 5, maxLength: 5 }),
        (draws, odds) => {
          const symbols = draws.map(([context, draw]) => ({ context, symbol: draw < odds[context]! ? 1 : 0 }));
          const mq = decoder(encodedByMq(symbols, 5), 5);
          expect(symbols.map(({ context }) => mq.decode(context))).toEqual(symbols.map(({ symbol }) => symbol));
        },
      ),
      { numRuns: 60 },
    );
  });

  test("a decoder that is asked beyond its segment goes on with ones and never throws", () => {
    const mq = decoder(new Uint8Array(0), 1);
    for (let i = 0; i < 10_000; i++) expect(mq.decode(0) >> 1).toBe(0);
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { eachRun, piecesOf } from "../../../src/formats/netcdf/netcdf4/pieces.ts";

const axis = fc.record({ start: fc.nat(9), count: fc.integer({ min: 1, max: 9 }), chunk: fc.integer({ min: 1, max: 5 }) });

describe("the pieces of a block", () => {
  it("cover it, each value once, none larger than wanted but for a single chunk, no chunk twice along an axis that is cut", () => {
    fc.assert(
      fc.property(fc.array(axis, { maxLength: 4 }), fc.boolean(), fc.integer({ min: 1, max: 200 }), (axes, isChunked, most) => {
        const block = { start: axes.map((one) => one.start), count: axes.map((one) => one.count) };
        const chunks = isChunked ? axes.map((one) => one.chunk) : null;
        const total = block.count.reduce((product, many) => product * many, 1);
        const largest = Math.max(most, ...(chunks ? [chunks.reduce((product, length) => product * length, 1)] : []));
        const seen = new Uint8Array(total);
        let pieces = 0;
        for (const piece of piecesOf(block, chunks, most)) {
          pieces++;
          const size = piece.count.reduce((product, many) => product * many, 1);
          expect(size).toBeLessThanOrEqual(largest);
          let expected = 0;
          eachRun(block, piece, (inPiece, inBlock, values) => {
            expect(inPiece).toBe(expected);
            expected += values;
            for (let at = inBlock; at < inBlock + values; at++) seen[at]!++;
          });
          expect(expected).toBe(size);
          piece.start.forEach((start, index) => {
            const isWhole = piece.count[index] === block.count[index];
            if (!isWhole && start !== block.start[index]) expect(start % (chunks?.[index] ?? 1)).toBe(0);
          });
        }
        expect(seen.every((times) => times === 1)).toBe(true);
        if (total <= most) expect(pieces).toBe(1);
      }),
    );
  });
});

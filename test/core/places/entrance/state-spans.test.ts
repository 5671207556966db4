import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CHANGE_WITHIN_SECONDS, stateSpans } from "../../../../src/core/places/index.ts";

const every = (from: number, until: number, step: number): readonly number[] => {
  const moments = [];
  for (let at = from; at < until; at += step) moments.push(at);
  return [...moments, until];
};

describe("the spans of a state", () => {
  it("meet where it changes, to half a second, several changes between two looks too", () => {
    // 0 until 1000, 1 until 1090, 2 until 1150, 3 on: all between the looks at 900 and 1200.
    const stateAt = (at: number): number => (at < 1000 ? 0 : at < 1090 ? 1 : at < 1150 ? 2 : 3);
    const spans = stateSpans(stateAt, every(0, 3000, 300));
    expect(spans.map(({ state }) => state)).toEqual([0, 1, 2, 3]);
    expect(spans.map(({ from }) => Math.round(from))).toEqual([0, 1000, 1090, 1150]);
    expect(spans[3]?.until).toBe(3000);
  });

  it("cover all the time looked at, each instant in the state that holds there, whatever the changes", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 86400, noNaN: true }), { maxLength: 12 }),
        fc.double({ min: 0, max: 86400, noNaN: true }),
        (typed, asked) => {
          // Changes at least two looks apart, so that each is seen.
          const changes = typed.toSorted((a, b) => a - b).filter((at, k, all) => k === 0 || at - (all[k - 1] as number) > 700);
          const stateAt = (at: number): number => changes.filter((change) => change <= at).length % 3;
          const spans = stateSpans(stateAt, every(0, 86400, 300));
          expect(spans[0]?.from).toBe(0);
          expect(spans[spans.length - 1]?.until).toBe(86400);
          for (const [k, span] of spans.slice(1).entries())
            expect(span.from - (spans[k]?.until ?? Number.NaN)).toBeLessThanOrEqual(CHANGE_WITHIN_SECONDS);
          const held = spans.find(({ from, until }) => asked >= from && asked <= until);
          if (held !== undefined) expect(held.state).toBe(stateAt(asked));
        },
      ),
    );
  });

  it("need a moment to look at", () => {
    expect(() => stateSpans(() => 0, [])).toThrow("no moment");
    expect(stateSpans(() => 7, [5])).toEqual([{ from: 5, until: 5, state: 7 }]);
  });
});

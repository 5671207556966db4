import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  commonSpans,
  joinedSpans,
  movedSpans,
  type OpenSpan,
  spanAfter,
  spanAt,
  spanBefore,
  spansOutside,
} from "../../../src/core/calendar/index.ts";

const END = 200;
const span = fc
  .tuple(fc.integer({ min: 0, max: END }), fc.integer({ min: 0, max: 20 }))
  .map(([from, long]) => ({ from, until: from + long }));
const spans = fc.array(span, { maxLength: 8 });
/** A set told by the whole instants that are in it. */
const holds = (set: readonly OpenSpan[], at: number): boolean => set.some(({ from, until }) => from <= at && at <= until);
const everyInstant = Array.from({ length: END + 60 }, (_, k) => k - 20);

describe("sets of openings, against asking every instant", () => {
  it("joins, and finds what two have in common", () => {
    fc.assert(
      fc.property(spans, spans, (a, b) => {
        const [one, other] = [joinedSpans(a), joinedSpans(b)];
        const both = commonSpans(one, other);
        for (const at of everyInstant) {
          expect(holds(one, at)).toBe(holds(a, at));
          expect(holds(both, at)).toBe(holds(a, at) && holds(b, at));
        }
        for (let k = 1; k < both.length; k++) expect((both[k] as OpenSpan).from).toBeGreaterThan((both[k - 1] as OpenSpan).until);
      }),
    );
  });

  it("widens as every wait of whole seconds would", () => {
    fc.assert(
      fc.property(spans, fc.integer({ min: 0, max: 15 }), (a, wait) => {
        const wide = movedSpans(joinedSpans(a), 0, wait);
        for (const at of everyInstant) {
          const some = Array.from({ length: wait + 1 }, (_, back) => at - back).some((from) => holds(a, from));
          expect(holds(wide, at)).toBe(some);
        }
      }),
    );
  });

  it("leaves outside what begins shut and not what ends shut", () => {
    expect(spansOutside([{ from: 10, until: 20 }], { from: 0, until: 30 })).toEqual([
      { from: 0, until: 9 },
      { from: 20, until: 30 },
    ]);
    expect(spansOutside([{ from: 0, until: 20 }], { from: 0, until: 30 })).toEqual([{ from: 20, until: 30 }]);
    expect(spansOutside([], { from: 0, until: 30 })).toEqual([{ from: 0, until: 30 }]);
  });

  it("finds the opening at, before and after an instant", () => {
    fc.assert(
      fc.property(spans, fc.integer({ min: -10, max: END + 30 }), (a, at) => {
        const set = joinedSpans(a);
        expect(spanAt(set, at)).toEqual(set.find((one) => one.from <= at && at <= one.until) ?? null);
        expect(spanBefore(set, at)).toEqual(set.findLast((one) => one.until < at) ?? null);
        expect(spanAfter(set, at)).toEqual(set.find((one) => one.from > at) ?? null);
      }),
    );
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LineTold } from "../../../src/api/index.ts";
import { type FoldRules, foldRuns, foldShutByReason, reasonsOf } from "../../../src/figures/index.ts";
import { line, shut } from "../fixtures/board.ts";

const lines = fc.array(
  fc
    .record({ verdict: fc.constantFrom("open", "marginal", "closed", "notJudged"), reason: fc.constantFrom("gusts", "sea") })
    .map((said) => line(said)),
  { maxLength: 40 },
);

/** Each with an instant of its own, as on a board. */
function numbered(given: readonly LineTold[]): readonly LineTold[] {
  return given.map((one, index) => ({ ...one, departAt: `2027-04-07T${String(index).padStart(2, "0")}:00Z` }));
}

describe("folding a day's lines", () => {
  it("loses, doubles and moves no line", () => {
    fc.assert(
      fc.property(lines, fc.nat(39), (given, keep) => {
        const board = numbered(given);
        const rules: FoldRules = { ...foldShutByReason, keep: board[keep]?.departAt ?? null };
        const back = foldRuns(board, rules).flatMap((stretch) => (stretch.kind === "line" ? [stretch.line] : [...stretch.lines]));
        expect(back).toEqual(board);
      }),
    );
  });

  it("folds only runs of three and more, shut or not judged, of one verdict and reason, and never the one that is kept", () => {
    fc.assert(
      fc.property(lines, fc.nat(39), (given, keep) => {
        const board = numbered(given);
        const kept = board[keep]?.departAt ?? null;
        for (const stretch of foldRuns(board, { ...foldShutByReason, keep: kept })) {
          if (stretch.kind === "line") continue;
          expect(stretch.lines.length).toBeGreaterThanOrEqual(3);
          expect(stretch.last).toBe(stretch.lines.at(-1));
          expect(new Set(stretch.lines.map((one) => `${one.verdict} ${one.reason}`)).size).toBe(1);
          expect(["closed", "notJudged"]).toContain(stretch.lines[0].verdict);
          expect(stretch.lines.map((one) => one.departAt)).not.toContain(kept);
        }
      }),
    );
  });

  it("leaves no run unfolded that could be", () => {
    fc.assert(
      fc.property(lines, (given) => {
        const stretches = foldRuns(numbered(given), foldShutByReason);
        let run = 0;
        let before: LineTold | null = null;
        for (const stretch of stretches) {
          const one = stretch.kind === "line" ? stretch.line : null;
          const goes = one !== null && foldShutByReason.foldable(one);
          run = !goes ? 0 : before !== null && foldShutByReason.alike(before, one) ? run + 1 : 1;
          before = goes ? one : null;
          expect(run).toBeLessThan(3);
        }
      }),
    );
  });

  it("parts a run where the reason changes, though the verdict does not", () => {
    const board = numbered([
      ...Array.from({ length: 3 }, () => shut({ reason: "gusts" })),
      ...Array.from({ length: 4 }, () => shut({ reason: "dark" })),
    ]);
    expect(foldRuns(board, foldShutByReason).map((stretch) => (stretch.kind === "fold" ? stretch.lines.length : 1))).toEqual([3, 4]);
  });

  it("has nothing to fold in an empty day, and two lines stand as they are", () => {
    expect(foldRuns([], foldShutByReason)).toEqual([]);
    expect(foldRuns(numbered([shut(), shut()]), foldShutByReason).map((stretch) => stretch.kind)).toEqual(["line", "line"]);
  });

  it("tells each reason once, in the order they come", () => {
    expect(reasonsOf([shut({ reason: "sea" }), shut({ reason: "dark" }), shut({ reason: "sea" }), shut({ reason: "" })])).toEqual([
      "sea",
      "dark",
    ]);
  });
});

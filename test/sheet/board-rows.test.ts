import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boardRows, type Closeness, dayInWords, listed, verdictOfDay } from "../../src/sheet/board-rows.ts";
import { asManyAsFit, textHeightPx, thinned, thinnedWords } from "../../src/sheet/paper-space.ts";
import { days, line, shut } from "../figures/fixtures/board.ts";

const closenesses: readonly Closeness[] = ["reasons", "shutRuns", "allRuns", "brief"];
const [, wednesday, thursday] = days(4);
if (wednesday === undefined || thursday === undefined) throw new Error("the fixture has too few days");

describe("the rows of a day on paper", () => {
  it("are fewer the closer the board is set, and always tell of every departure", () => {
    const counts = closenesses.map((closeness) => {
      const rows = boardRows(wednesday, closeness, null);
      expect(rows.reduce((sum, row) => sum + row.count, 0)).toBe(24);
      return rows.length;
    });
    expect(counts).toEqual([...counts].sort((one, other) => other - one));
    expect(counts[0]).toBeGreaterThan(counts[2] ?? 0);
  });

  it("leave the chosen departure a row of its own, with its time in hand", () => {
    const chosen = wednesday.lines[2]?.departAt ?? "";
    for (const closeness of closenesses) {
      const row = boardRows(wednesday, closeness, chosen).find((one) => one.chosen);
      expect(row?.count).toBe(1);
      expect(row?.words).toContain("before dark at the entrance");
    }
  });

  it("show of a run its least margin, not its first", () => {
    const lines = [0.9, 0.2, 0.7].map((margin, index) => line({ margin, figure: `+${margin}`, departAt: `2027-04-07T0${index}:00Z` }));
    const [row] = boardRows({ ...wednesday, lines }, "allRuns", null);
    expect(row?.least.figure).toBe("+0.2");
    expect(row?.count).toBe(3);
  });

  it("say a day in a sentence", () => {
    expect(dayInWords(wednesday)).toBe(
      "open 00:00 to 05:00; marginal 06:00 to 07:00: dark at the entrance; shut 08:00 to 19:00: dark at the entrance; open 20:00 to 23:00",
    );
    expect(verdictOfDay(wednesday)).toBeNull();
    expect(verdictOfDay(thursday)).toBe("closed");
    expect(verdictOfDay({ ...thursday, lines: [] })).toBeNull();
  });

  it("count the tail of a long list of reasons", () => {
    expect(listed(["a", "b", "c", "d"], 2)).toBe("a, b and 2 more");
    expect(listed([], 2)).toBe("reason not told");
    expect(boardRows({ ...wednesday, lines: ["w", "x", "y", "z"].map((reason) => shut({ reason })) }, "shutRuns", null)[0]?.words).toBe(
      "shut: w, x, y and 1 more",
    );
  });
});

describe("room on paper", () => {
  it("thins a list evenly, and keeps its ends", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 2, max: 40 }), (length, most) => {
        const items = Array.from({ length }, (_, index) => index);
        const kept = thinned(items, most);
        expect(kept.length).toBeLessThanOrEqual(Math.max(most, 2) + 1);
        expect(kept[0]).toBe(items[0]);
        expect(kept.at(-1)).toBe(items.at(-1));
        if (length <= most) expect(kept).toEqual(items);
      }),
    );
    expect(thinnedWords(5, 10)).toBe("5 of 10 rows; all stand on the page.");
    expect(thinnedWords(10, 10)).toBe("");
  });

  it("keeps as many as fit, and counts the others", () => {
    expect(asManyAsFit([10, 20, 30, 1], 35, (height) => height)).toEqual({ kept: [10, 20], leftOff: 2 });
  });

  it("reckons a text higher the narrower its column, and nothing for no words", () => {
    const words = "Quicker than going on until 01:50, 26 miles across; after that go on.";
    expect(textHeightPx(words, 80, 10, 12)).toBeGreaterThan(textHeightPx(words, 200, 10, 12));
    expect(textHeightPx(words, 2000, 10, 12)).toBe(12);
    expect(textHeightPx(" ", 100, 10, 12)).toBe(0);
  });
});

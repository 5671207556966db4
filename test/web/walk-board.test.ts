import { describe, expect, it } from "vitest";
import { lineAt, linesOf, openingChoice, stepOf, walk } from "../../src/web/state/walk-board.ts";
import { boardOfDays } from "./boards.ts";

const board = boardOfDays(3, 2, "2030-06-02T04:00Z");

describe("walking the board", () => {
  it("goes a line with the arrows, over the edge of a day", () => {
    expect(walk(board, "2030-06-01T04:00Z", "line-down")).toBe("2030-06-01T06:00Z");
    expect(walk(board, "2030-06-01T22:00Z", "line-down")).toBe("2030-06-02T00:00Z");
    expect(walk(board, "2030-06-02T00:00Z", "line-up")).toBe("2030-06-01T22:00Z");
  });

  it("stays at either end", () => {
    expect(walk(board, "2030-06-01T00:00Z", "line-up")).toBe("2030-06-01T00:00Z");
    expect(walk(board, "2030-06-03T22:00Z", "line-down")).toBe("2030-06-03T22:00Z");
    expect(walk(board, "2030-06-03T22:00Z", "day-down")).toBe("2030-06-03T22:00Z");
  });

  it("goes a day at the same clock, and to the first and last line", () => {
    expect(walk(board, "2030-06-01T14:00Z", "day-down")).toBe("2030-06-02T14:00Z");
    expect(walk(board, "2030-06-02T14:00Z", "day-up")).toBe("2030-06-01T14:00Z");
    expect(walk(board, "2030-06-02T14:00Z", "first")).toBe("2030-06-01T00:00Z");
    expect(walk(board, "2030-06-02T14:00Z", "last")).toBe("2030-06-03T22:00Z");
  });

  it("passes over lines that a fold hides", () => {
    const hidden = new Set(["2030-06-01T06:00Z", "2030-06-01T08:00Z"]);
    const seen = ({ departAt }: { departAt: string }): boolean => !hidden.has(departAt);
    expect(walk(board, "2030-06-01T04:00Z", "line-down", seen)).toBe("2030-06-01T10:00Z");
    expect(walk(board, "2030-06-01T10:00Z", "line-up", seen)).toBe("2030-06-01T04:00Z");
    expect(walk(board, "2030-06-02T06:00Z", "day-up", seen)).toBe("2030-06-01T06:00Z");
  });

  it("leaves an empty board where it is", () => {
    expect(walk({ ...board, days: [] }, "2030-06-01T04:00Z", "line-down")).toBe("2030-06-01T04:00Z");
  });

  it("knows plain keys only", () => {
    expect(["ArrowDown", "ArrowUp", "PageDown", "PageUp", "Home", "End"].map(stepOf)).not.toContain(null);
    expect(["j", "k", "Enter", "Tab", " ", "toString"].map(stepOf)).toEqual([null, null, null, null, null, null]);
  });
});

describe("the departure a board opens with", () => {
  it("is the wanted one, else the nearest to it", () => {
    expect(openingChoice(board, "2030-06-01T10:00:00Z")).toBe("2030-06-01T10:00Z");
    expect(openingChoice(board, "2030-06-01T10:50Z")).toBe("2030-06-01T10:00Z");
    expect(openingChoice(board, "2031-01-01T00:00Z")).toBe("2030-06-03T22:00Z");
  });

  it("is else the one the answer is about, else the first, else none", () => {
    expect(openingChoice(board, null)).toBe("2030-06-02T04:00Z");
    expect(openingChoice({ ...board, best: null }, null)).toBe("2030-06-01T00:00Z");
    expect(openingChoice({ ...board, best: null, days: [] }, null)).toBeNull();
  });

  it("is found with its day", () => {
    expect(linesOf(board)).toHaveLength(36);
    expect(lineAt(board, "2030-06-02T04:00Z")?.day.date).toBe("2 June");
    expect(lineAt(board, "2030-06-02T05:00Z")).toBeNull();
  });
});

import { describe, expect, it } from "vitest";
import type { DayTold, LineTold } from "../../src/api/index.ts";
import { drawBoardDay, drawBoardLine } from "../../src/figures/index.ts";
import { dayChange } from "../../src/web/state/day-change.ts";
import { boardOfDays } from "./boards.ts";

const LOOK = { marginalBelow: 0.15, chosen: null, compact: false, fold: "shut" as const };
const [first] = boardOfDays(1, 2).days;
if (first === undefined) throw new Error("a board without a day");
const day: DayTold = {
  ...first,
  lines: first.lines.map((line, i) => (i > 2 && i < 8 ? { ...line, verdict: "closed", margin: -0.4, reason: "gusts" } : line)),
};

const withLine = (place: number, more: Partial<LineTold>): DayTold => ({
  ...day,
  lines: day.lines.map((line, i) => (i === place ? { ...line, ...more } : { ...line })),
});

/** The day's markup with the rows of these lines drawn anew, and nothing else touched. */
function rowsReplaced(after: DayTold, lines: readonly LineTold[]): string {
  return lines.reduce(
    (markup, line) => {
      const was = day.lines.find(({ departAt }) => departAt === line.departAt);
      if (was === undefined) throw new Error(`no line ${line.departAt}`);
      const look = { ...LOOK, kind: "wide" as const, weekday: after.weekday };
      return markup.replace(drawBoardLine(was, look), () => drawBoardLine(line, look));
    },
    drawBoardDay(day, LOOK),
  );
}

describe("what of a day is drawn anew", () => {
  it("is nothing where it is told the same", () => {
    expect(dayChange(day, withLine(0, {}))).toEqual({ kind: "same" });
  });

  // Every field of a line but those that folds hang on, on a line that stands by itself and on one within a fold.
  const told: Partial<LineTold>[] = [
    { margin: 0.2 },
    { figure: "+0.20" },
    { inTen: null },
    { words: "wind 19 kn" },
    { when: null },
    { hand: "2 h" },
    { door: null },
  ];
  it.each(told)("is the line alone where only %o is told of it, and that draws the whole day", (more) => {
    for (const place of [1, 4]) {
      const after = withLine(place, more);
      const change = dayChange(day, after);
      if (change.kind !== "lines") throw new Error(`not drawn by lines: ${change.kind}`);
      expect(change.lines).toEqual([after.lines[place]]);
      expect(rowsReplaced(after, change.lines)).toBe(drawBoardDay(after, LOOK));
    }
  });

  it.each<Partial<LineTold>>([{ verdict: "marginal" }, { reason: "wind" }, { light: "night" }, { clock: "06:01" }])(
    "is the line alone where %o is told of one that is never folded",
    (more) => {
      const after = withLine(1, more);
      expect(dayChange(day, after)).toEqual({ kind: "lines", lines: [after.lines[1]] });
      expect(rowsReplaced(after, [after.lines[1] as LineTold])).toBe(drawBoardDay(after, LOOK));
    },
  );

  it.each<Partial<LineTold>>([
    { verdict: "marginal" },
    { reason: "wind" },
    { light: "night" },
    { clock: "06:01" },
    { departAt: "2030-06-01T06:01Z" },
  ])("is the whole day where %o may fold its lines otherwise", (more) => {
    expect(dayChange(day, withLine(4, more))).toEqual({ kind: "whole" });
  });

  it("is the whole day where a line that stood by itself is shut", () => {
    expect(dayChange(day, withLine(1, { verdict: "closed" }))).toEqual({ kind: "whole" });
  });

  it("is the whole day where its head or the number of its lines has changed", () => {
    expect(dayChange(day, { ...day, sun: "06:00 to 18:00" })).toEqual({ kind: "whole" });
    expect(dayChange(day, { ...day, lines: day.lines.slice(1) })).toEqual({ kind: "whole" });
  });
});

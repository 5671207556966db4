import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type BoardLook, drawBoard, drawBoardDay, drawBoardKey, drawBoardLine, drawMarginBar, lineId } from "../../../src/figures/index.ts";
import { board, days, line, shut } from "../fixtures/board.ts";

const look: BoardLook = { marginalBelow: 0.15, chosen: null, compact: false, fold: "shut" };
const day = { weekday: "Tuesday", date: "6 April", sun: "06:08 to 17:40" };

function count(html: string, what: RegExp): number {
  return html.match(what)?.length ?? 0;
}

describe("the margin board", () => {
  it("has a table a day, a row and one button of one choice for each departure, folded ones too", () => {
    const told = board();
    const html = drawBoard(told.days, look);
    const lines = told.days.flatMap((one) => one.lines);
    expect(count(html, /<table /g)).toBe(told.days.length);
    expect(count(html, /<tr id="leave-[^"]*" data-at="/g)).toBe(lines.length);
    expect(count(html, /<input type="radio" name="departure" value="/g)).toBe(lines.length);
    for (const one of lines) expect(html).toContain(`<tr id="${lineId(one.departAt)}" data-at="${one.departAt}"`);
  });

  it("checks the chosen departure alone, and moving the choice changes nothing else", () => {
    const told = days(2);
    const [first, second] = told.flatMap((one) => one.lines);
    const at = (chosen: string | undefined): string => drawBoard(told, { ...look, chosen: chosen ?? null });
    expect(count(at(first?.departAt), / checked/g)).toBe(1);
    expect(count(at(undefined), / checked/g)).toBe(0);
    expect(at(first?.departAt).replace(" checked", "")).toBe(at(second?.departAt).replace(" checked", ""));
  });

  it("draws a line of the board as it draws it alone", () => {
    const told = days(1);
    const one = told[0]?.lines[14];
    if (one === undefined) throw new Error("no such line");
    const alone = drawBoardLine(one, { marginalBelow: 0.15, chosen: one.departAt, kind: "wide", weekday: told[0]?.weekday ?? "" });
    expect(drawBoard(told, { ...look, chosen: one.departAt })).toContain(alone);
  });

  it("says what a fold holds, how many, and names the rows it opens", () => {
    const lines = [8, 9, 10, 11].map((hour) =>
      shut({ clock: `${String(hour).padStart(2, "0")}:00`, departAt: `2027-04-06T${hour + 8}:00Z` }),
    );
    const html = drawBoardDay({ ...day, lines }, look);
    expect(html).toContain('aria-expanded="false" aria-controls="leave-20270406T1600Z-fold"');
    expect(html).toContain('<tbody class="fold-lines" id="leave-20270406T1600Z-fold" hidden>');
    expect(html).toContain("<span>08:00</span> <span>to 11:00</span>");
    expect(html).toContain("shut: dark at the entrance");
    expect(html).toContain("4 lines");
    const opened = drawBoardDay({ ...day, lines }, { ...look, fold: "opened" });
    expect(opened).toContain('aria-expanded="true"');
    expect(opened).not.toContain(" hidden>");
    expect(drawBoardDay({ ...day, lines }, { ...look, fold: "none" })).not.toContain("fold");
  });

  it("tells two departures of one clock apart, as on the day the clocks go back", () => {
    const lines = ["2027-10-31T00:00:00Z", "2027-10-31T01:00:00Z"].map((departAt) => line({ departAt, clock: "02:00" }));
    const html = drawBoardDay({ ...day, lines }, look);
    expect(html).toContain('id="leave-20271031T000000Z"');
    expect(html).toContain('id="leave-20271031T010000Z"');
  });

  it("has words for an empty board, and for an empty day", () => {
    expect(drawBoard([], look)).toContain("No departure was tried.");
    expect(drawBoardDay({ ...day, lines: [] }, look)).toContain("No departure was tried.");
  });

  it("says the verdict, the light, the figure, the chance, what decides and the door in words on every line", () => {
    const html = drawBoardDay({ ...day, lines: [line()] }, look).replace(/<[^>]*>/g, "|");
    for (const words of [
      "night",
      "20:00",
      "open",
      "+0.65",
      "8",
      "gusts 22 kn",
      "Wed 06:19",
      "10\u00a0h\u00a059",
      "before dark at the entrance",
    ]) {
      expect(html).toContain(words);
    }
    const compact = drawBoardDay({ ...day, lines: [line()] }, { ...look, compact: true }).replace(/<[^>]*>/g, "|");
    for (const words of ["night", "20:00", "open", "+0.65", "8 in 10", "gusts 22 kn", "Wed 06:19", "before dark at the entrance"]) {
      expect(compact).toContain(words);
    }
  });

  it("lets nothing told become a tag or leave its attribute", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom("<", ">", '"', "'", "&", "a", "script", " ", "=", "/") }),
        fc.boolean(),
        (text, compact) => {
          const hostile = `${text}<script>"'`;
          const one = line({
            clock: hostile,
            words: hostile,
            when: hostile,
            hand: hostile,
            door: hostile,
            figure: hostile,
            departAt: hostile,
          });
          const bad = { ...one, verdict: "closed", reason: hostile } as const;
          const html = drawBoardDay({ weekday: hostile, date: hostile, sun: hostile, lines: [one, bad, bad, bad] }, { ...look, compact });
          const plain = drawBoardDay(
            {
              weekday: "x",
              date: "x",
              sun: "x",
              lines: [one, bad, bad, bad].map((each) =>
                line({ ...each, clock: "x", words: "x", when: "x", hand: "x", door: "x", figure: "x", departAt: "x", reason: "x" }),
              ),
            },
            { ...look, compact },
          );
          expect(count(html, /</g)).toBe(count(plain, /</g));
          expect(count(html, /"/g)).toBe(count(plain, /"/g));
        },
      ),
    );
  });

  it("gives no element a style of its own: a page may forbid them", () => {
    expect(drawBoard(days(3), look) + drawBoardKey(board().key, 0.15)).not.toContain("style=");
  });

  it("draws a month of hourly lines in the time of a frame or two", () => {
    const month = days(31);
    drawBoard(month, look);
    const before = performance.now();
    drawBoard(month, look);
    // 744 lines; a few ms here, so that a slow and busy machine passes.
    expect(performance.now() - before).toBeLessThan(250);
  });
});

describe("a margin's bar", () => {
  const bar = (verdict: "open" | "marginal" | "closed" | "notJudged", margin: number | null): string =>
    drawMarginBar({ verdict, margin, marginalBelow: 0.15 }, "wide");
  const rect = (html: string): { x: number; width: number } => {
    const found = /<rect class="[^"]*" x="([-\d.]+)" y="[-\d.]+" width="([\d.]+)"/.exec(html);
    if (found === null) throw new Error(`no bar in ${html}`);
    return { x: Number(found[1]), width: Number(found[2]) };
  };

  it("is 48 px to 1, to the right of never when open and to the left when shut", () => {
    expect(rect(bar("open", 0.5))).toEqual({ x: 54, width: 24 });
    expect(rect(bar("closed", -0.5))).toEqual({ x: 30, width: 24 });
    expect(bar("open", 0.5)).toContain('<line class="bar-never" x1="54" x2="54" y1="-1" y2="101%"/>');
    expect(bar("open", 0.5)).toContain('<line class="bar-happy" x1="102"');
    expect(bar("open", 0.5)).toContain('<line class="bar-line" x1="61.2"');
  });

  it("is told apart by its ink and pattern: solid, half, hatched, dashed", () => {
    expect(bar("open", 0.5)).toContain("bar-open");
    expect(bar("marginal", 0.1)).toContain("bar-marginal");
    expect(bar("closed", -0.5)).toContain("bar-hatch");
    expect(bar("notJudged", null)).toContain("bar-unjudged");
    expect(bar("closed", null)).not.toContain("<rect");
  });

  it("stays in its cell, and shows where it is cut", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (margin) => {
        const html = bar(margin < 0 ? "closed" : "open", margin);
        const { x, width } = rect(html);
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x + width).toBeLessThanOrEqual(112);
        expect(html.includes("bar-cut")).toBe(margin < -1 || margin > 1.1);
      }),
    );
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { WayTold } from "../../src/api/index.ts";
import { drawLimits, drawReAim, drawRefuges, drawWaySample, drawWays, lineOfWay, refugesKey } from "../../src/figures/index.ts";
import { departure, reAim, refuges, way, ways } from "./fixtures/departure.ts";

function words(html: string): string {
  return html.replace(/<[^>]*>/g, " ").replace(/[ \n]+/g, " ");
}

function count(html: string, what: RegExp): number {
  return html.match(what)?.length ?? 0;
}

describe("limits", () => {
  it.each(["wide", "compact", "paper"] as const)("say how near, what, when and where of each: %s", (kind) => {
    const text = words(drawLimits(departure(), { marginalBelow: 0.15, kind }));
    for (const limit of departure().limits) {
      for (const said of [limit.limit, limit.figure, limit.when ?? "", limit.pastNever ?? ""]) expect(text).toContain(said);
    }
    expect(text).toContain("past never from Wed 06:40");
    expect(text).toContain("not judged : no source");
  });

  it("draw each as open, marginal, shut or not judged", () => {
    const html = drawLimits(departure(), { marginalBelow: 0.15, kind: "wide" });
    expect(["bar-open", "bar-marginal", "bar-hatch", "bar-unjudged"].map((bar) => count(html, new RegExp(`"${bar}"`, "g")))).toEqual([
      2, 1, 1, 1,
    ]);
  });

  it("say so where none is set", () => {
    expect(drawLimits({ limits: [] }, { marginalBelow: 0.15, kind: "wide" })).toContain("No limit is set.");
  });
});

describe("ways", () => {
  it("are told apart by line alone, the order by its weight", () => {
    const keys = ["oneHeading", "squareInLanes", "acrossThenTurn", "holdTrack", "bowOnDestination", "changingHeadings"];
    const lines = keys.map((key) => lineOfWay({ key, role: "other" }));
    lines.push(lineOfWay({ key: "fastest", role: "yardstick" }), lineOfWay({ key: "oneHeading", role: "order" }));
    expect(new Set(lines.map((line) => `${line.dash} ${line.widthPx}`)).size).toBe(lines.length);
    expect(Math.max(...lines.map((line) => line.widthPx))).toBe(lineOfWay({ key: "holdTrack", role: "order" }).widthPx);
    expect(drawWaySample({ key: "fastest", role: "yardstick" })).toContain('stroke-linecap="round"');
    expect(lineOfWay({ key: "not yet thought of", role: "other" }).dash).not.toBeNull();
  });

  it.each([true, false])("say time, cost, miles off the line and verdict of each, and why one fails: compact %s", (compact) => {
    const text = words(drawWays(ways(), { compact }));
    for (const said of [
      "9\u00a0h\u00a035",
      "under 1 min",
      "1.4",
      "3.0",
      "open, +0.65 by gusts",
      "+31 min",
      "the order",
      "a yardstick",
      "stream at 0.8",
      "stream at 1.25",
      "2.2 nm down-stream when clear",
    ]) {
      expect(text).toContain(said);
    }
    expect(text).toContain("does not arrive: the stream is stronger than the boat from 22 to 29 miles across");
  });

  it("leave out the fuel where no burn is known, and a table of other streams where none was tried", () => {
    const bare = (one: WayTold): WayTold => ({ ...one, fuel: "", otherwise: [] });
    const html = drawWays(ways().map(bare), { compact: false });
    expect(html).not.toContain("fuel");
    expect(html).not.toContain("otherwise");
    expect(drawWays([], { compact: false })).toContain("No way was tried.");
  });

  it("have as many cells as heads in every row", () => {
    for (const compact of [true, false]) {
      const html = drawWays([way(), ...ways()], { compact });
      const table = html.slice(0, html.indexOf("</table>"));
      const heads = count(table.slice(0, table.indexOf("</thead>")), /<th /g);
      for (const row of table.slice(table.indexOf("<tbody>")).split("</tr>").slice(0, -1)) {
        const cells = [...row.matchAll(/<t[dh](?: [^>]*?)?>/g)].map((cell) => Number(/colspan="(\d+)"/.exec(cell[0])?.[1] ?? 1));
        expect(cells.reduce((sum, span) => sum + span, 0)).toBe(heads);
      }
    }
  });
});

describe("headings to re-aim by", () => {
  it("mark the order wherever it still holds, bold and in the boat's ink", () => {
    const told = reAim();
    const html = drawReAim(told, { blocks: "side" });
    const same = told.tables
      .flatMap((table) => table.rows.flatMap((row) => row.headings))
      .filter((heading) => heading === told.order).length;
    expect(same).toBeGreaterThan(10);
    expect(count(html, /<b class="order">098<\/b>/g)).toBe(same);
    expect(count(drawReAim({ ...told, order: null }, { blocks: "side" }), /class="order"/g)).toBe(0);
  });

  it("rule mid-stream once in each table, between the rows it lies between", () => {
    const html = drawReAim(reAim(), { blocks: "side" });
    expect(count(html, /class="mid-stream"/g)).toBe(3);
    expect(html).toContain('<tr class="mid-stream"><th scope="row">28</th>');
    expect(count(drawReAim({ ...reAim(), axisAcrossNm: null }, { blocks: "side" }), /mid-stream/g)).toBe(0);
  });

  it("show the stream as foretold and fold the others on a phone, and lose no heading", () => {
    const html = drawReAim(reAim(), { blocks: "folded" });
    expect(count(html, /<details/g)).toBe(2);
    expect(html.indexOf("Stream as foretold")).toBeLessThan(html.indexOf("<details"));
    expect(count(html, /<td class="right/g)).toBe(count(drawReAim(reAim(), { blocks: "side" }), /<td class="right/g));
  });

  it("say that no heading leads there, and which side a column is", () => {
    const text = words(drawReAim(reAim(), { blocks: "side" }));
    expect(text).toContain("none leads there");
    expect(text).toContain("4 miles up-stream");
    expect(text).toContain("0 on the expected path");
  });
});

describe("ports of refuge", () => {
  it("mark the soonest, strike out what can't be entered with its reason first, and doubt what is not judged", () => {
    const html = drawRefuges(refuges(), { compact: false });
    expect(count(html, /<b class="soonest">/g)).toBe(10);
    expect(count(html, /<span class="why">dark<\/span><span class="unseen"> not to be entered, <\/span> <s>/g)).toBe(10);
    expect(count(html, /<b class="doubt">\?<\/b>/g)).toBe(3);
    expect(html).toContain("out of reach");
    expect(html).toContain("Nothing can be entered on arrival: heave to off Port Imber until light, 05:53.");
  });

  it("become a list of hours on a phone: the soonest stands, the others fold out", () => {
    const html = drawRefuges(refuges(), { compact: true });
    expect(count(html, /<summary>/g)).toBe(10);
    expect(count(html, /<summary>.*?<b class="soonest">.*?<\/summary>/g)).toBe(10);
    expect(count(html, /<li class="is-struckOut">/g)).toBe(10);
    expect(html).not.toContain("<table");
    const none = refuges(1);
    for (const cell of none.hours[0]?.cells ?? []) cell.soonest = false;
    expect(drawRefuges(none, { compact: true })).toContain("none can be entered");
  });

  it("say so where none is named, and by what the headings are", () => {
    expect(drawRefuges(refuges(0), { compact: false })).toContain("No port of refuge is named");
    expect(refugesKey({ ...refuges(), by: "magnetic" })).toContain("by magnetic");
  });
});

describe("all tables", () => {
  it("let nothing told become a tag, and carry no style of their own", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("<", ">", '"', "'", "&", "b", "script", " ", "=") }), (text) => {
        const hostile = `<script>${text}`;
        const html = [
          drawLimits(
            {
              limits: departure().limits.map((limit) => ({
                ...limit,
                limit: hostile,
                words: hostile,
                when: hostile,
                across: hostile,
                figure: hostile,
                pastNever: hostile,
              })),
            },
            { marginalBelow: 0.15, kind: "compact" },
          ),
          drawWays(
            [
              way({
                letter: hostile,
                name: hostile,
                takes: hostile,
                costs: hostile,
                up: hostile,
                fuel: hostile,
                verdictWords: hostile,
                orders: hostile,
                otherwise: [{ streamFactor: 1, words: hostile }],
              }),
              way({ arrives: false, why: hostile }),
            ],
            { compact: false },
          ),
          drawReAim(
            {
              ...reAim(2),
              tables: [{ streamFactor: 1, rows: [{ acrossNm: 1, clock: hostile, headings: [hostile, null, hostile, hostile, hostile] }] }],
              order: hostile,
            },
            { blocks: "side" },
          ),
          drawRefuges(
            {
              ...refuges(2, [hostile, hostile]),
              hours: [
                {
                  clock: hostile,
                  acrossNm: 1,
                  wait: hostile,
                  cells: [
                    { state: "enter", soonest: true, arrival: hostile, steer: hostile, why: hostile },
                    { state: "struckOut", soonest: false, arrival: hostile, steer: hostile, why: hostile },
                  ],
                },
              ],
            },
            { compact: true },
          ),
        ].join("");
        expect(html).not.toContain("<script");
        expect(html).not.toContain("style=");
      }),
    );
  });
});

/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import fc from "fast-check";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { BoardTold, DepartureTold } from "../../src/api/index.ts";
import { pageHeightPx, pageWidthPx, paperSheet } from "../../src/sheet/index.ts";
import { hasBrowser, openBrowser, stylesWithFaces } from "../figures/browser.ts";
import { board, days, line } from "../figures/fixtures/board.ts";
import { departure, reAim, refuges, section, way } from "../figures/fixtures/departure.ts";

const styles = stylesWithFaces("figures/look.css", "figures/section/section.css", "sheet/paper.css");
const printed = { printedAt: "Tue 6 Apr 2027, 08:00 UTC-8", zoneWords: "all times ship's time, UTC-8", styles };
const long = "The Outer Anchorage under Saint Somebody's Head beyond the Long Shoals of the Northern Approach";
const sentence = "A sentence that says at some length what a skipper could dispute, with 12 kn, 3.4 m and Wed 06:19 in it. ";

const cases: readonly (readonly [string, BoardTold, DepartureTold])[] = [
  ["a week of hourly departures", board(), departure()],
  ["a month of hourly departures", board({ days: days(31) }), departure()],
  ["one departure", board({ days: [{ weekday: "Tuesday", date: "6 April", sun: null, lines: [line()] }] }), departure()],
  ["no departure at all", board({ days: [], best: null }), departure()],
  [
    "no way across",
    board(),
    departure({
      section: null,
      reAim: null,
      refuges: null,
      standsOpen: false,
      order: ["No way leads across: the stream is stronger than the boat."],
      ways: [way({ arrives: false, why: "the stream is stronger than the boat", role: "other", takes: "", costs: "" })],
    }),
  ],
  [
    "long names",
    board({ name: `${long} to ${long}`, boat: `${long}, 5.6 kn through the water. 52.0 nm of open water, 119 true.` }),
    departure({ refuges: refuges(10, [long, `${long} West`, `${long} East`, long, long, long]) }),
  ],
  [
    "a passage of forty hours with eight ports",
    board(),
    departure({
      section: section(40),
      reAim: reAim(30),
      refuges: refuges(40, ["One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight"]),
    }),
  ],
  [
    "much to say",
    board({
      answer: Array.from({ length: 6 }, () => sentence),
      restsOn: Array.from({ length: 24 }, () => sentence),
      sources: Array.from({ length: 9 }, () => ({ words: sentence, loud: true })),
    }),
    departure({
      order: Array.from({ length: 9 }, () => sentence),
      gates: [sentence, sentence, sentence],
      inlets: [],
      wrong: Array.from({ length: 7 }, (_, index) => ({ name: `Case ${index}`, words: sentence.repeat(3) })),
      limits: Array.from({ length: 16 }, () => departure().limits[2]).flatMap((limit) => (limit === undefined ? [] : [limit])),
    }),
  ],
];

describe("the sheet of paper, as a document", () => {
  it("lets no name become a tag, a script or the end of its style", () => {
    const hostile = `<script>alert(1)</script>"'</style>`;
    const told = departure({
      leaving: hostile,
      order: [hostile],
      wrong: [{ name: hostile, words: hostile }],
      refuges: refuges(2, [hostile]),
    });
    const html = paperSheet(board({ name: hostile, boat: hostile, safety: hostile, answer: [hostile] }), told, { ...printed, styles: "" });
    expect(html).not.toContain("<script");
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(html).toContain("&lt;script&gt;");
  });

  it("says the safety words, that it is invented, and when it was printed", () => {
    const html = paperSheet(board(), departure(), printed);
    expect(html).toContain("A planning aid; not for navigation. Check official charts");
    expect(html).toContain("Invented, for demonstration");
    expect(html).toContain("Printed Tue 6 Apr 2027, 08:00 UTC-8");
    expect(paperSheet(board({ invented: false }), departure(), printed)).not.toContain("Invented, for demonstration");
  });

  it("says loudly that a departure is shut and that a source is stale", () => {
    expect(paperSheet(board(), departure({ standsOpen: false }), printed)).toContain("<b>Shut.</b>");
    expect(paperSheet(board(), departure(), printed)).toContain("<b>Look out</b> Stream bulletin");
  });

  it("counts what it leaves off", () => {
    const html = paperSheet(board({ restsOn: Array.from({ length: 40 }, () => sentence) }), departure(), printed);
    const kept = html.match(/class="rests">A sentence/g)?.length ?? 0;
    const leftOff = Number(/And (\d+) more, on the page/.exec(html)?.[1]);
    expect(kept).toBeGreaterThan(0);
    expect(kept + leftOff).toBe(40 + departure().restsOn.length - (html.match(/class="rests">(The order|Variation)/g)?.length ?? 0));
  });

  it("gives the log a row for each hour, with the miles foretold beside it", () => {
    const html = paperSheet(board(), departure(), printed);
    const log = html.slice(html.indexOf('class="plain hand-log'), html.indexOf('class="sign"'));
    expect(log.match(/<tr><th scope="row">/g)).toHaveLength(section().hours.length);
    expect(log).toContain('<th scope="row">23:00</th><td class="right">10</td>');
  });
});

/** Two pages, and nothing on them beyond their edges: what is beyond would not be printed. */
async function expectWhole(page: Page): Promise<void> {
  const boxes = await page.evaluate(() =>
    Array.from(document.querySelectorAll(".sheet-page"), (sheet) => {
      const outer = sheet.getBoundingClientRect();
      const inside = Array.from(sheet.querySelectorAll("*"), (element) => element.getBoundingClientRect()).filter((box) => box.width > 1.5);
      return {
        bottom: Math.max(...inside.map((box) => box.bottom)) - outer.top,
        right: Math.max(...inside.map((box) => box.right)) - outer.left,
      };
    }),
  );
  expect(boxes).toHaveLength(2);
  for (const box of boxes) {
    expect(box.bottom).toBeLessThanOrEqual(pageHeightPx + 1);
    expect(box.right).toBeLessThanOrEqual(pageWidthPx + 1);
  }
}

describe.skipIf(!hasBrowser)("the sheet of paper, printed", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
  });

  it.each(cases)("stands on two pages of A4 and of Letter, nothing cut: %s", async (_, boardTold, departureTold) => {
    const page = await browser.newPage({ viewport: { width: 900, height: 1200 } });
    await page.setContent(paperSheet(boardTold, departureTold, printed));
    await page.evaluate("document.fonts.ready");
    await page.emulateMedia({ media: "print" });
    await expectWhole(page);
    for (const format of ["A4", "Letter"]) {
      const pdf = (await page.pdf({ format })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(2);
    }
    await page.close();
  });

  it("cuts nothing, whatever is told", async () => {
    const page = await browser.newPage({ viewport: { width: 900, height: 1200 } });
    await page.emulateMedia({ media: "print" });
    const word = fc.constantFrom("gusts", "12 kn", "anchorage", "of the", "northern-approach", "Wed 06:19", "a mile", "down-stream");
    const said = (most: number): fc.Arbitrary<string> =>
      fc.array(word, { minLength: 1, maxLength: most }).map((words) => `${words.join(" ")}.`);
    const told = fc.record({
      answer: fc.array(said(25), { minLength: 1, maxLength: 5 }),
      order: fc.array(said(14), { minLength: 1, maxLength: 5 }),
      restsOn: fc.array(said(40), { maxLength: 14 }),
      wrong: fc.array(fc.record({ name: said(2), words: said(45) }), { maxLength: 6 }),
      ports: fc.array(said(3), { minLength: 1, maxLength: 8 }),
      hours: fc.integer({ min: 3, max: 48 }),
      dayCount: fc.integer({ min: 1, max: 31 }),
    });
    await fc.assert(
      fc.asyncProperty(told, async ({ answer, order, restsOn, wrong, ports, hours, dayCount }) => {
        const given = departure({
          order,
          wrong,
          section: section(hours),
          reAim: reAim(Math.min(hours, 30)),
          refuges: refuges(hours, ports),
        });
        await page.setContent(paperSheet(board({ answer, restsOn, days: days(dayCount) }), given, printed));
        await page.evaluate("document.fonts.ready");
        await expectWhole(page);
      }),
      { numRuns: 12 },
    );
    await page.close();
  });
});

/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawBoard, drawBoardKey, drawLimits, drawReAim, drawRefuges, drawWays } from "../../src/figures/index.ts";
import { root } from "../house/source-files.ts";
import { faces, hasBrowser, openBrowser, stylesWithFaces } from "./browser.ts";
import { board, days } from "./fixtures/board.ts";
import { departure, reAim, refuges, ways } from "./fixtures/departure.ts";

const styles = stylesWithFaces("figures/look.css", "figures/section/section.css");
const axe = readFileSync(join(root, "node_modules/axe-core/axe.min.js"), "utf8");
const chosen = "2027-04-07T05:00:00Z";

/** All figures of this room as they stand on a page of a width. */
function body(widthPx: number): string {
  const compact = widthPx < 640;
  return [
    drawBoard(board().days, { marginalBelow: 0.15, chosen, compact, fold: "shut" }),
    drawBoardKey(board().key, 0.15),
    drawLimits(departure(), { marginalBelow: 0.15, kind: compact ? "compact" : "wide" }),
    drawWays(ways(), { compact }),
    drawReAim(reAim(), { blocks: compact ? "folded" : "side" }),
    drawRefuges(refuges(), { compact }),
  ].join("");
}

function whole(inside: string, display: "day" | "night", padPx = 14): string {
  const around = `body{margin:0;padding:${padPx}px;background:var(--paper);color:var(--ink);font:17px/1.4 var(--serif)}`;
  return `<!doctype html><html lang="en" data-display="${display}"><head><meta charset="utf-8"><title>Figures</title><style>${faces()}${styles}${around}</style></head><body><main><h1>Figures</h1>${inside}</main></body></html>`;
}

describe.skipIf(!hasBrowser)("the tables in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
  });
  const open = async (html: string, widthPx: number): Promise<Page> => {
    const page = await browser.newPage({ viewport: { width: widthPx, height: 900 } });
    await page.setContent(html);
    await page.evaluate("document.fonts.ready");
    return page;
  };

  it.each([
    [360, "day"],
    [360, "night"],
    [1440, "day"],
    [1440, "night"],
  ] as const)("have no fault that axe finds: %i px by %s", async (widthPx, display) => {
    const page = await open(whole(body(widthPx), display), widthPx);
    await page.evaluate(axe);
    const faults: unknown = await page.evaluate(
      `axe.run({ rules: { region: { enabled: false } } }).then((found) => found.violations.map((one) => one.id + ": " + one.nodes.map((node) => node.html.slice(0, 120)).slice(0, 3).join(" | ")))`,
    );
    expect(faults).toEqual([]);
    await page.close();
  });

  it.each([360, 768, 1440])("need no sideways scrolling, and no text leaves its column: %i px", async (widthPx) => {
    const page = await open(whole(body(widthPx), "day", widthPx < 640 ? 14 : 48), widthPx);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(over).toBeLessThanOrEqual(0);
    const clashes = await page.evaluate(() => {
      const leaves = (cell: Element): boolean => {
        const texts = [cell, ...cell.querySelectorAll("*")].filter((one) => one.closest(".unseen, .barcell, input, button") === null);
        const own = cell.getBoundingClientRect();
        return texts.some((one) => {
          const range = document.createRange();
          const words = Array.from(one.childNodes).filter((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== "");
          return words.some((node) => {
            range.selectNodeContents(node);
            const text = range.getBoundingClientRect();
            return text.width > 0 && (text.left < own.left - 1 || text.right > own.right + 1);
          });
        });
      };
      const cells = Array.from(document.querySelectorAll("main tbody > tr > :is(td, th), thead > tr > th"));
      return cells
        .filter((cell) => cell.getBoundingClientRect().width > 1 && !cell.matches(".fold .leave") && leaves(cell))
        .map((cell) => cell.outerHTML.slice(0, 160));
    });
    expect(clashes).toEqual([]);
    await page.close();
  });

  it("move the choice by the arrow keys over the lines that can be seen, without moving any line", async () => {
    const page = await open(whole(body(1440), "day"), 1440);
    const heightBefore = await page.evaluate(() => document.documentElement.scrollHeight);
    await page.focus("input[name=departure]:checked");
    await page.keyboard.press("ArrowDown");
    expect(await page.evaluate(() => document.querySelector<HTMLInputElement>("input[name=departure]:checked")?.value)).toBe(
      "2027-04-07T06:00:00Z",
    );
    for (let times = 0; times < 30; times++) await page.keyboard.press("ArrowDown");
    const hidden = await page.evaluate(() => document.querySelector("input[name=departure]:checked")?.closest("tbody")?.hidden);
    expect(hidden).toBe(false);
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBe(heightBefore);
    await page.close();
  });

  it("show a chosen line that lies in a closed fold, alone of its fold", async () => {
    const page = await open(whole(body(1440), "day"), 1440);
    const seen = await page.evaluate(() => {
      const fold = document.querySelector<HTMLElement>(".fold-lines");
      const [first, second] = Array.from(fold?.querySelectorAll<HTMLInputElement>("input") ?? []);
      const before = fold?.getBoundingClientRect().height;
      if (second !== undefined) second.checked = true;
      const heights = [first, second].map((button) => button?.closest("tr")?.getBoundingClientRect().height ?? -1);
      return { before, heights };
    });
    expect(seen.before).toBe(0);
    expect(seen.heights[0]).toBe(0);
    expect(seen.heights[1]).toBeGreaterThan(15);
    await page.close();
  });

  it("mark the chosen line on a month's board within a frame of 16 ms", async () => {
    const inside = drawBoard(days(31), { marginalBelow: 0.15, chosen, compact: false, fold: "none" });
    const page = await open(whole(inside, "day"), 1440);
    const median = await page.evaluate(() => {
      const buttons = Array.from(document.querySelectorAll<HTMLInputElement>("input[name=departure]"));
      const times = buttons.slice(0, 41).map((button) => {
        const before = performance.now();
        button.checked = true;
        document.body.getBoundingClientRect();
        return performance.now() - before;
      });
      return times.sort((one, other) => one - other)[20];
    });
    console.info(`moving the choice among 744 lines: ${median?.toFixed(1)} ms to style and lay out`);
    expect(median).toBeLessThan(16);
    await page.close();
  });

  it("keep the rule of never unbroken down a block, folds and tall lines included", async () => {
    const page = await open(whole(body(1440), "day"), 1440);
    const gaps = await page.evaluate(() =>
      Array.from(document.querySelectorAll(".board-day"), (table) => {
        const rules = Array.from(table.querySelectorAll(".bar-never"), (rule) => rule.getBoundingClientRect()).filter(
          (box) => box.height > 2,
        );
        const open = rules.slice(1).filter((box, index) => box.top > (rules[index]?.bottom ?? 0) + 0.01);
        return { rules: rules.length, gaps: open.length, lefts: new Set(rules.map((box) => Math.round(box.left * 10))).size };
      }),
    );
    expect(gaps.length).toBeGreaterThan(5);
    for (const one of gaps) expect(one).toMatchObject({ gaps: 0, lefts: 1 });
    await page.close();
  });
});

import { existsSync, readFileSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { drawSection } from "../../../src/figures/section/draw-section.ts";
import { boxOfText, drawn, widths } from "./drawn.ts";
import { hardStraits } from "./fixtures.ts";

const CHROMIUM = "/usr/bin/chromium";
const root = new URL("../../../", import.meta.url);
const face = (family: string, file: string, weight: number): string => {
  const bytes = readFileSync(new URL(`node_modules/@fontsource/${file}`, root)).toString("base64");
  return `@font-face{font-family:"${family}";font-weight:${weight};src:url(data:font/woff2;base64,${bytes})}`;
};
const plex = "ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin";
const styles = (): string =>
  face("IBM Plex Sans Condensed", `${plex}-400-normal.woff2`, 400) +
  face("IBM Plex Sans Condensed", `${plex}-600-normal.woff2`, 600) +
  face("Source Serif 4", "source-serif-4/files/source-serif-4-latin-400-normal.woff2", 400) +
  readFileSync(new URL("src/figures/section/section.css", root), "utf8");

/** The ink of each text as the browser sets it: its em box less what stands empty over capitals and under descenders. */
const INK = `[...document.querySelectorAll("svg.section text")].map((text) => {
  const rect = text.getBoundingClientRect(), svg = text.closest("svg").getBoundingClientRect();
  const size = Number(text.getAttribute("font-size")), upright = text.hasAttribute("transform");
  const [over, under] = [0.25 * size, 0.05 * size];
  const box = { left: rect.left + (upright ? over : 0), right: rect.right - (upright ? under : 0), top: rect.top + (upright ? 0 : over), bottom: rect.bottom - (upright ? 0 : under) };
  return { words: text.textContent, ...box, width: text.getComputedTextLength(), inside: rect.left >= svg.left - 1 && rect.right <= svg.right + 1 && box.top >= svg.top - 1 && box.bottom <= svg.bottom + 1 };
})`;

type Ink = { words: string; left: number; right: number; top: number; bottom: number; width: number; inside: boolean };

const present = existsSync(CHROMIUM);
if (!present) console.warn(`skipped: no text of a section is measured in a browser, since there is no ${CHROMIUM}`);

describe.skipIf(!present)("a section in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"] });
  });
  afterAll(async () => {
    await browser.close();
  });

  it.each(widths)("has no text on another nor outside, and is as wide as was reckoned: %i wide", { timeout: 120_000 }, async (widthPx) => {
    const page = await browser.newPage({ viewport: { width: widthPx + 40, height: 900 } });
    await page.setContent(`<style>${styles()}</style><body></body>`);
    for (const [name, make] of Object.entries(hardStraits)) {
      const told = make();
      await page.evaluate(`document.body.innerHTML = ${JSON.stringify(drawSection(told, { widthPx }))}`);
      await page.evaluate("document.fonts.ready.then(() => null)");
      const inks = (await page.evaluate(INK)) as Ink[];
      expect(inks.length).toBeGreaterThan(10);
      const clashes = inks.flatMap((a, i) =>
        inks
          .slice(i + 1)
          .filter((b) => a.left < b.right - 0.5 && b.left < a.right - 0.5 && a.top < b.bottom - 0.5 && b.top < a.bottom - 0.5)
          .map((b) => `${a.words} on ${b.words}`),
      );
      expect([name, clashes]).toEqual([name, []]);
      expect([name, inks.filter(({ inside }) => !inside).map(({ words }) => words)]).toEqual([name, []]);
      const reckoned = drawn(told, { widthPx }).texts.map((text) => {
        const { left, right, top, bottom } = boxOfText(text);
        return text.attributes.transform === undefined ? right - left : bottom - top;
      });
      // In the figures' own faces the reckoned width is within a thirtieth; a face that stands in for them is narrower than was feared.
      inks.forEach(({ words, width }, i) => {
        expect([words, width <= reckoned[i]! + 0.6]).toEqual([words, true]);
        if (/^[ -~]+$/.test(words)) expect(Math.abs(width - reckoned[i]!)).toBeLessThan(1.5 + width / 30);
      });
    }
    await page.close();
  });
});

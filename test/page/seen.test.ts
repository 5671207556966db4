import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { root } from "../house/source-files.ts";
import { chosen, newHome, openPage, SOON, type Started, settled, startBrowser, startServer, whyNoPage } from "./started.ts";

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const WIDTHS = [360, 768, 1440] as const;

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string }[];
}

/** What axe finds wrong, a line each. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axeSource);
  const found = await page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run: (at: Document, options: object) => Promise<{ violations: Violation[] }> } };
    const { violations } = await axe.run(document, { resultTypes: ["violations"] });
    return violations.map(({ id, nodes }) => ({ id, nodes: nodes.map(({ html }) => ({ html })) }));
  });
  return found.map(({ id, nodes }) => `${id}: ${nodes.length} × ${nodes[0]?.html.slice(0, 160)}`);
}

async function setDisplay(page: Page, display: "day" | "night"): Promise<void> {
  if ((await page.getAttribute("html", "data-display")) !== display) await page.locator("#display").click();
}

describe.skipIf(whyNoPage !== null)("the page as it is seen", () => {
  const { home, remove } = newHome();
  let server: Started;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startServer(home), startBrowser()]);
    const { page } = await openPage(browser, server.address);
    await settled(page);
    await page.context().close();
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    await server?.kill();
    remove();
  });

  it.each(WIDTHS)("doesn't scroll sideways at %i px, and axe finds nothing, by day and by night", { timeout: 120_000 }, async (width) => {
    const { page } = await openPage(browser, server.address, { width, height: width < 500 ? 780 : 900, touch: width < 500 });
    await settled(page);
    for (const summary of await page.locator("#when details > summary, #wrong .unfolds > summary").all())
      if (await summary.isVisible()) await summary.click();
    for (const display of ["day", "night"] as const) {
      await setDisplay(page, display);
      await page.evaluate(() => document.fonts.ready);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      expect(await violations(page)).toEqual([]);
      await screenshot(page, `${width}-${display}`);
      if (width === 1440 && display === "day") await wholeSheet(page, "whole-sheet");
    }
    await page.context().close();
  });

  it("is red on black at night, every part of it, and stays so", { timeout: 60_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    await setDisplay(page, "night");
    await page.reload();
    await settled(page);
    expect(await page.getAttribute("html", "data-display")).toBe("night");
    const odd = await page.evaluate(() => {
      const found: string[] = [];
      for (const element of document.querySelectorAll("body, body *")) {
        if (element.getClientRects().length === 0) continue;
        const style = getComputedStyle(element);
        for (const key of ["color", "backgroundColor", "fill", "stroke", "borderTopColor", "borderBottomColor"] as const) {
          const parts = /rgba?\((\d+), (\d+), (\d+)(?:, ([\d.]+))?/.exec(style[key]);
          if (parts === null || parts[4] === "0") continue;
          const [r = 0, g = 0, b = 0] = parts.slice(1, 4).map(Number);
          // Black ink on nothing drawn is the browser's own default; anything bright must be red.
          if (g > 0.55 * r + 4 || b > 0.55 * r + 4) found.push(`${element.tagName}.${element.getAttribute("class")} ${key} ${style[key]}`);
        }
      }
      return [...new Set(found)].slice(0, 12);
    });
    expect(odd).toEqual([]);
    await page.context().close();
  });

  it("takes a dark computer's wish only as a default, says so, and is the skipper's to change", { timeout: 60_000 }, async () => {
    const context = await browser.newContext({ colorScheme: "dark" });
    const page = await context.newPage();
    await page.goto(server.address);
    await settled(page);
    expect(await page.getAttribute("html", "data-display")).toBe("night");
    expect(await page.textContent("#acts")).toContain("this computer asks for a dark display");
    await page.locator("#display").click();
    await page.reload();
    await settled(page);
    expect(await page.getAttribute("html", "data-display")).toBe("day");
    await context.close();
  });

  it("prints the two pages of paper, in day's inks though the page is at night", { timeout: 90_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    await setDisplay(page, "night");
    await page.waitForSelector("html[data-paper=ready]", { state: "attached", timeout: 30_000 });
    const pdf = await page.pdf({ format: "A4", preferCSSPageSize: true, printBackground: false });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(2);
    const at = await chosen(page);
    await page.goto(`${server.address}/api/passages/demo/paper?at=${at}`);
    await wholeSheet(page, "paper");
    await page.context().close();
  });

  it("does the whole job by keyboard alone", { timeout: 120_000 }, async () => {
    const { page } = await openPage(browser, server.address);
    await settled(page);
    const tabTo = async (selector: string): Promise<void> => {
      for (let presses = 0; presses < 120; presses += 1) {
        if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
        await page.keyboard.press("Tab");
      }
      throw new Error(`${selector} was not reached by tab`);
    };
    await tabTo("#display");
    await page.keyboard.press("Enter");
    expect(await page.getAttribute("html", "data-display")).toBe("night");
    await tabTo("#board input[type=radio]");
    const before = await chosen(page);
    await page.keyboard.press("ArrowDown");
    expect(await chosen(page)).not.toBe(before);
    await tabTo("#chosen summary");
    await page.keyboard.press("Enter");
    expect(await page.locator("#chosen table").isVisible()).toBe(true);
    await tabTo("#field-limits-gust-never");
    const typed = await page.inputValue("#field-limits-gust-never");
    await page.keyboard.press("Control+a");
    await page.keyboard.type("25 kn");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.textContent("#saved"), SOON).toBe("Saved");
    await tabTo("#undo");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.inputValue("#field-limits-gust-never"), SOON).toBe(typed);
    await tabTo("#after summary");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.textContent("#after .after-body"), { timeout: 60_000 }).toMatch(/\w+ .*\./);
    await page.context().close();
  });

  it("is large enough to touch on a phone", { timeout: 60_000 }, async () => {
    const { page } = await openPage(browser, server.address, { width: 360, height: 780, touch: true });
    await settled(page);
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>("button, a.act, summary, input.field, #board tr[data-at]")]
        .filter((one) => one.getClientRects().length > 0 && !one.classList.contains("visually-hidden"))
        .map((one) => ({
          what: `${one.tagName}.${one.className} ${one.textContent?.slice(0, 30)}`,
          high: one.getBoundingClientRect().height,
        }))
        .filter(({ high }) => high < 43.5)
        .map(({ what, high }) => `${what}: ${high.toFixed(0)} px`),
    );
    expect(small.slice(0, 8)).toEqual([]);
    await page.context().close();
  });
});

/** Pictures for the documentation, made only when they are asked for. */
async function screenshot(page: Page, name: string): Promise<void> {
  if (process.env["ATHWART_SCREENSHOTS"] !== "1") return;
  const folder = join(root, "docs/page");
  mkdirSync(folder, { recursive: true });
  await page.evaluate(() => window.scrollTo(0, 0));
  await page.screenshot({ path: join(folder, `${name}.png`) });
}

/** The same of all of it; what follows the window while it is scrolled stands in its place. */
async function wholeSheet(page: Page, name: string): Promise<void> {
  if (process.env["ATHWART_SCREENSHOTS"] !== "1") return;
  await page.addStyleTag({ content: ".leaving, .notice { position: static !important }" });
  await page.screenshot({ path: join(root, "docs/page", `${name}.jpg`), type: "jpeg", quality: 72, fullPage: true });
}

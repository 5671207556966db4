/// <reference lib="dom" />
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { type InletTold, inletToldOf } from "../../src/api/index.ts";
import { inletsOf, prepare } from "../../src/core/plan/index.ts";
import { drawInlet } from "../../src/figures/index.ts";
import { readPassage } from "../../src/formats/passage/index.ts";
import { root } from "../house/source-files.ts";
import { faces, hasBrowser, openBrowser, stylesWithFaces } from "./browser.ts";

/** The first bar of examples/inlet on Thursday 8 April, passed at 08:30 by its clock. */
function told(): InletTold {
  const text = readFileSync(join(root, "examples/inlet/passage.yaml"), "utf8");
  const read = readPassage(text, { name: "passage.yaml" });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const prepared = prepare(read.value.passage, { water: [null], weather: [null] });
  if (!prepared.ok) throw new Error(JSON.stringify(prepared.issues));
  const stop = inletsOf(prepared.value)[0];
  if (stop === undefined) throw new Error("no gate");
  return inletToldOf(prepared.value, stop, Date.UTC(2027, 3, 8, 16, 30) / 1000, "passed 08:30");
}

const count = (html: string, what: RegExp): number => html.match(what)?.length ?? 0;

describe("the inlet clock as a figure", () => {
  let inlet: InletTold;
  beforeAll(() => {
    inlet = told();
  });

  it("says when it is open, strikes out the shut half hours with why, and says what it rests on", () => {
    const html = drawInlet(inlet, { widthPx: 708 });
    const shut = inlet.rows.filter(({ verdict }) => verdict === "shut");
    expect(shut.length).toBeGreaterThan(20);
    expect(count(html, /<s>/g)).toBe(shut.length);
    expect(count(html, /<td>open<\/td>/g)).toBe(inlet.rows.length - shut.length);
    const text = html.replace(/<[^>]*>/g, " ").replace(/\s+/g, " ");
    expect(text).toContain("The bar of Gull Narrow is open until 00:07, 08:08 to 11:57 and from 19:10 UTC-8.");
    expect(text).toContain("passed 08:30");
    expect(text).toContain("taken as the chart&#39;s datum".replace("&#39;", html.includes("&#39;") ? "&#39;" : "'"));
    expect(html).not.toMatch(/NaN|Infinity|undefined|style=/);
  });

  it("draws a box for each spell, the shut ones hatched, the clock where each begins, and the boat", () => {
    const html = drawInlet(inlet, { widthPx: 708 });
    expect(count(html, /class="inlet-open"/g)).toBe(3);
    expect(count(html, /class="inlet-shut"/g)).toBe(2);
    expect(count(html, /class="inlet-hatch"/g)).toBe(2);
    for (const clock of ["08:08", "11:57", "19:10"]) expect(html).toContain(`>${clock}</text>`);
    expect(count(html, /class="inlet-there"/g)).toBe(1);
    expect(count(html, /class="inlet-night"/g)).toBe(2);
  });

  it("leaves out what isn't stated, and the boat where she isn't there that day", () => {
    const bare = {
      ...inlet,
      thereAt: 1.4,
      points: inlet.points.map((point) => ({ ...point, streamKn: null })),
      rows: inlet.rows.map((row) => ({ ...row, stream: "", wind: "" })),
    };
    const html = drawInlet(bare, { widthPx: 332 });
    expect(html).not.toContain("stream, kn");
    expect(html).not.toContain("wind against ebb");
    expect(html).not.toContain("inlet-there");
  });

  it.skipIf(!hasBrowser).each([332, 708])("stands within its width, no text on another, at %i px", async (widthPx) => {
    const browser = await openBrowser();
    try {
      const page = await browser.newPage({ viewport: { width: widthPx + 28, height: 900 } });
      const styles = `${faces()}${stylesWithFaces("figures/look.css", "figures/inlet/inlet.css")}body{margin:14px;background:var(--paper);color:var(--ink);font:17px/1.4 var(--serif)}`;
      await page.setContent(
        `<!doctype html><html lang="en" data-display="day"><head><title>Inlet</title><style>${styles}</style></head><body>${drawInlet(inlet, { widthPx })}</body></html>`,
      );
      await page.evaluate("document.fonts.ready");
      const boxes = await page.evaluate(() =>
        [...document.querySelectorAll(".inlet-strip text")].map((one) => {
          const { left, right, top, bottom } = one.getBoundingClientRect();
          return { words: one.textContent, left, right, top: top + 3, bottom: bottom - 3 };
        }),
      );
      for (const [k, one] of boxes.entries()) {
        expect(one.left, String(one.words)).toBeGreaterThanOrEqual(0);
        expect(one.right, String(one.words)).toBeLessThanOrEqual(widthPx + 28);
        for (const other of boxes.slice(k + 1)) {
          const meets = one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
          expect(meets, `${one.words} on ${other.words}`).toBe(false);
        }
      }
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(widthPx + 28);
    } finally {
      await browser.close();
    }
  });
});

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { root } from "../house/source-files.ts";

const css = readFileSync(join(root, "src/figures/look.css"), "utf8");

/** The inks of the first rule with a selector, or of the rule in `@media print`. */
function inks(start: string): Readonly<Record<string, string>> {
  const from = css.indexOf(start);
  if (from < 0) throw new Error(`no rule ${start}`);
  const body = css.slice(css.indexOf("{", from) + 1, css.indexOf("--on-night", from) + 40);
  return Object.fromEntries([...body.matchAll(/--([a-z-]+): (#[0-9a-f]{6})/g)].map((match) => [match[1] ?? "", match[2] ?? ""]));
}

/** WCAG 2.2, relative luminance. */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** WCAG 2.2, contrast ratio. */
function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const displays = {
  day: inks(':root,\n[data-display="day"] {'),
  night: inks('\n[data-display="night"] {'),
  paper: inks("\n.paper {"),
  printed: inks("@media print"),
};

describe("the inks", () => {
  it("are reckoned by the formula: black on white is 21, and grey #767676 4.54", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 6);
    expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
  });

  it.each(Object.entries(displays))("let every text be read, at 4.5 to 1 at least: %s", (_, ink) => {
    for (const text of ["ink", "second-ink", "boat", "water"])
      expect(contrast(ink[text] ?? "", ink["paper"] ?? ""), text).toBeGreaterThanOrEqual(4.5);
    for (const ground of ["water-fill", "land"]) expect(contrast(ink["ink"] ?? "", ink[ground] ?? ""), ground).toBeGreaterThanOrEqual(4.5);
    expect(contrast(ink["on-night"] ?? "", ink["night"] ?? "")).toBeGreaterThanOrEqual(4.5);
    expect(contrast(ink["paper"] ?? "", ink["ink"] ?? "")).toBeGreaterThanOrEqual(4.5);
  });

  it("let the bars be told from the paper, at 3 to 1 at least", () => {
    for (const name of ["day", "night", "paper", "printed"] as const) {
      expect(contrast(displays[name]["mid-ink"] ?? "", displays[name]["paper"] ?? "")).toBeGreaterThanOrEqual(3);
    }
  });

  it("are at night red alone: no blue or green light to speak of", () => {
    for (const [name, hex] of Object.entries(displays.night)) {
      const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
      expect(green + blue, name).toBeLessThanOrEqual(red);
    }
  });

  it("are those of the paper when the page is printed, by night too", () => {
    expect(displays.printed).toEqual(displays.paper);
  });
});

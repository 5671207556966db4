import { type textWidthPx, wrapped } from "../figures/index.ts";

/**
 * The room on a page, px at 96 to the inch: what A4 (210 × 297 mm) and Letter (216 × 279 mm) both hold within margins of 11 mm at the sides
 * and 8 mm above and below.
 */
export const pageWidthPx = 708;
export const pageHeightPx = 994;

export type Face = Parameters<typeof textWidthPx>[2];

/** How high a text stands in a column. */
export function textHeightPx(text: string, widthPx: number, sizePx: number, lineHeightPx: number, face: Face = "serif"): number {
  // A little less than the column: where a browser breaks a line differs by a letter from where we think it does.
  return text.trim() === "" ? 0 : Math.max(1, wrapped(text, widthPx * 0.975, sizePx, face).length) * lineHeightPx;
}

/** As many of a list as fit into a height, and how many were left off. */
export function asManyAsFit<Item>(
  items: readonly Item[],
  heightPx: number,
  heightOf: (item: Item) => number,
): { readonly kept: readonly Item[]; readonly leftOff: number } {
  const kept: Item[] = [];
  let used = 0;
  for (const item of items) {
    used += heightOf(item);
    if (used > heightPx) break;
    kept.push(item);
  }
  return { kept, leftOff: items.length - kept.length };
}

/** At most so many of a list, evenly taken, the first and the last among them. */
export function thinned<Item>(items: readonly Item[], most: number): readonly Item[] {
  if (items.length <= most) return items;
  const step = Math.ceil((items.length - 1) / Math.max(1, most - 1));
  return items.filter((_, index) => index % step === 0 || index === items.length - 1);
}

/** Words for a table of which only some rows are shown; empty where all are. */
export function thinnedWords(shown: number, all: number): string {
  return shown === all ? "" : `${shown} of ${all} rows; all stand on the page.`;
}

import { escapeHtml } from "../figures/index.ts";

/** When and by whose time a sheet was printed. */
export interface Printed {
  /** As it is read: `Tue 6 Apr 2027, 08:00 UTC-8`. */
  readonly printedAt: string;
  /** `all times ship's time, UTC-8`. */
  readonly zoneWords: string;
}

/** What stands on a page of the sheet, or on a part of it, and how high we think it stands, px. */
export interface SheetPage {
  readonly html: string;
  readonly heightPx: number;
}

/** A section under its rule: number and name, and a word at the right. */
export function paperSection(number: string, name: string, aside: string, body: string): string {
  return `<section><div class="paper-rule"><b>${number}</b><h2>${escapeHtml(name)}</h2><span class="aside">${escapeHtml(aside)}</span></div>${body}</section>`;
}

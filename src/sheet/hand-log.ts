import type { SectionTold } from "../api/index.ts";
import { escapeHtml, unseen } from "../figures/index.ts";
import { thinned, thinnedWords } from "./paper-space.ts";
import type { SheetPage } from "./sheet-page.ts";

/** A row that a hand can write in, px, and one that has room to spare. */
const leastRowPx = 15;
const mostRowPx = 24;
const headPx = 24;

/** Rows of a log that is kept without a passage foretold. */
const blankRows = 8;

/** Rows that a log shows at most, where others want the room. */
const enoughRows = 12;

/** The least room for a log: a row an hour, for a long passage a row for every second or third. */
export function leastLogHeightPx(section: Pick<SectionTold, "hours"> | null): number {
  return headPx + leastRowPx * (section === null ? blankRows : thinned(section.hours, enoughRows).length);
}

/**
 * A log to be filled in by hand beside the miles foretold for each hour, as high as there is room for.
 *
 * @param section null: the rows are blank
 */
export function handLog(section: Pick<SectionTold, "hours"> | null, roomPx: number): SheetPage {
  const hours = section === null ? [] : section.hours;
  const most = Math.max(4, Math.floor((roomPx - headPx) / leastRowPx));
  const shown = thinned(hours, most);
  const rows =
    section === null
      ? Array.from({ length: Math.min(most, blankRows) }, () => row("", "", ""))
      : shown.map((hour) => row(hour.clock, miles(hour.acrossNm), offWords(hour.offNm)));
  const heightPx = Math.max(leastRowPx, Math.min(mostRowPx, Math.floor((roomPx - headPx) / Math.max(1, rows.length))));
  const heads = [
    "clock",
    "across, foretold",
    "off the line",
    "clock",
    "across",
    "off the line",
    "heading",
    "log",
    "wind, sea, barometer",
    "by",
  ];
  const head = heads.map((name, index) => `<th scope="col"${index === 1 || index === 2 ? ' class="right"' : ""}>${name}</th>`).join("");
  const more = thinnedWords(shown.length, hours.length);
  const html = `<table class="plain hand-log rows-${heightPx}"><caption>Log by hand, beside what is foretold${more === "" ? "" : `: ${more}`}</caption><thead><tr>${head}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
  return { html, heightPx: headPx + rows.length * heightPx };
}

function row(clock: string, across: string, off: string): string {
  const blank = `<td class="blank">${unseen("to be filled in")}</td>`;
  return `<tr><th scope="row">${escapeHtml(clock)}</th><td class="right">${across}</td><td class="right">${off}</td>${blank.repeat(7)}</tr>`;
}

function miles(nm: number): string {
  return nm < 10 ? nm.toFixed(1) : nm.toFixed(0);
}

function offWords(nm: number): string {
  return Math.abs(nm) < 0.05 ? "on it" : `${Math.abs(nm).toFixed(1)} ${nm > 0 ? "up" : "down"}`;
}

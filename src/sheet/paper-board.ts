import type { BoardTold, DayTold } from "../api/index.ts";
import { drawMarginBar, escapeHtml, reasonsOf, unseen, verdictWord } from "../figures/index.ts";
import { type BoardRow, boardRows, type Closeness, dayInWords, listed, verdictOfDay } from "./board-rows.ts";
import { asManyAsFit, pageWidthPx, textHeightPx } from "./paper-space.ts";

/** A board drawn for paper, and how high we think it stands. */
export interface PaperBoard {
  readonly html: string;
  readonly heightPx: number;
}

const gapPx = 26;
const columnPx = (pageWidthPx - gapPx) / 2;
/** Beside the words stand day, light, clock, bar, figure and chance in ten: see `paper.css`. */
const besideWordsPx = 46 + 8 + 28 + 50 + 30 + 15 + 7;
const dayPx = 46;
const boardTypePx = 9;
const lineHeightPx = 11;
const rowPaddingPx = 1.5;
const headPx = 15;

interface DrawnRow {
  readonly cells: string;
  readonly className: string;
  readonly heightPx: number;
}

/** A day's rows with its name, or several days that are told together. */
interface DayBlock {
  readonly name: string;
  readonly sun: string | null;
  readonly rows: readonly DrawnRow[];
}

/**
 * The board in two columns, as closely set as it must be to fit into a height: every open departure with shut runs folded; all runs of one
 * verdict folded, with the time in hand and without; each day in a sentence; neighbouring days of which the same is said together. What even then has no room is counted, never dropped in silence.
 */
export function paperBoard(board: Pick<BoardTold, "days" | "marginalBelow">, chosen: string | null, mostPx: number): PaperBoard {
  if (board.days.every((day) => day.lines.length === 0)) return { html: `<p class="quiet">No departure was tried.</p>`, heightPx: 14 };
  const closenesses: readonly Closeness[] = ["reasons", "shutRuns", "allRuns", "brief"];
  for (const closeness of closenesses) {
    const set = setInColumns(
      board.days.map((day) => rowsBlock(day, board, closeness, chosen)),
      "bars",
    );
    if (set.heightPx <= mostPx) return set;
  }
  const sentences = setInColumns(
    board.days.map((day) => sentenceBlock(day)),
    "words",
  );
  if (sentences.heightPx <= mostPx) return sentences;
  const merged = mergedDays(board.days);
  const together = setInColumns(merged, "words");
  if (together.heightPx <= mostPx) return together;
  const { kept, leftOff } = asManyAsFit(merged, 2 * (mostPx - headPx) - 60, blockHeight);
  const rest = setInColumns(kept, "words");
  return {
    html: `${rest.html}<p class="note quiet">${leftOff} more stretches of days stand on the page.</p>`,
    heightPx: rest.heightPx + 14,
  };
}

function rowsBlock(day: DayTold, board: Pick<BoardTold, "marginalBelow">, closeness: Closeness, chosen: string | null): DayBlock {
  const rows = boardRows(day, closeness, chosen).map((row) => ({
    cells: rowCells(row, board.marginalBelow),
    className: `line is-${row.first.verdict}${row.chosen ? " is-chosen" : ""}`,
    heightPx:
      textHeightPx(spokenWords(row), columnPx - besideWordsPx, boardTypePx, lineHeightPx, row.chosen ? "sansBold" : "sans") + rowPaddingPx,
  }));
  return { name: nameOf(day), sun: day.sun, rows: rows.length > 0 ? rows : [wordsRow("no departure was tried")] };
}

function nameOf(day: DayTold): string {
  return `${day.weekday.slice(0, 3)} ${day.date.replace(/^(\d+ \p{L}{3})\p{L}*$/u, "$1")}`;
}

function spokenWords(row: BoardRow): string {
  return row.count === 1 ? row.words : `to ${row.last.clock} ${row.words}`;
}

function rowCells(row: BoardRow, marginalBelow: number): string {
  const { first, last, least } = row;
  const until = row.count === 1 ? "" : `<b>to ${escapeHtml(last.clock)}</b> `;
  const bar = drawMarginBar({ verdict: first.verdict, margin: least.margin, marginalBelow }, "paper");
  const ten = least.inTen === null ? "" : String(least.inTen);
  return (
    `<td class="light light-${first.light}">${unseen(first.light)}</td><th scope="row" class="leave">${escapeHtml(first.clock)}</th>` +
    `<td class="barcell">${unseen(verdictWord(first.verdict))}${bar}</td><td class="figure">${escapeHtml(least.figure)}</td><td class="ten">${ten}</td>` +
    `<td class="words">${until}${escapeHtml(row.words)}</td>`
  );
}

function sentenceBlock(day: DayTold): DayBlock {
  return { name: nameOf(day), sun: null, rows: [wordsRow(day.lines.length === 0 ? "no departure was tried" : dayInWords(day))] };
}

function wordsRow(words: string): DrawnRow {
  return {
    cells: `<td class="words" colspan="6">${escapeHtml(words)}</td>`,
    className: "line",
    heightPx: textHeightPx(words, columnPx - dayPx - 6, boardTypePx, lineHeightPx, "sans") + rowPaddingPx,
  };
}

/** Days in a row of which the same is said, told together; the others each in a sentence. */
function mergedDays(days: readonly DayTold[]): readonly DayBlock[] {
  const runs: { first: DayTold; last: DayTold; sameness: string; days: DayTold[] }[] = [];
  for (const day of days) {
    const sameness = verdictOfDay(day) ?? dayInWords(day);
    const run = runs.at(-1);
    if (run?.sameness === sameness) {
      run.last = day;
      run.days.push(day);
    } else runs.push({ first: day, last: day, sameness, days: [day] });
  }
  return runs.map((run) => {
    if (run.days.length === 1) return sentenceBlock(run.first);
    const verdict = verdictOfDay(run.first);
    const reasons = verdict === "open" ? "" : `: ${listed(reasonsOf(run.days.flatMap((day) => day.lines)), 3)}`;
    const words = verdict === null ? `each day ${dayInWords(run.first)}` : `${verdictWord(verdict)} all through${reasons}`;
    return { name: nameOf(run.first), sun: null, rows: [wordsRow(`to ${nameOf(run.last)}: ${words}`)] };
  });
}

function blockHeight(block: DayBlock): number {
  const rows = block.rows.reduce((sum, row) => sum + row.heightPx, 0);
  // The day's name, and the sun under it, may stand higher than its rows.
  return Math.max(rows, block.sun !== null && block.rows.length > 1 ? 22 : 11) + 4;
}

/** Days in their order in two columns, parted where the higher column is lowest. */
function setInColumns(blocks: readonly DayBlock[], kind: "bars" | "words"): PaperBoard {
  const heights = blocks.map(blockHeight);
  const sum = (from: number, to: number): number => heights.slice(from, to).reduce((total, height) => total + height, 0);
  let parted = blocks.length;
  for (let at = 1; at < blocks.length; at++) {
    if (Math.max(sum(0, at), sum(at, blocks.length)) < Math.max(sum(0, parted), sum(parted, blocks.length))) parted = at;
  }
  const columns = [blocks.slice(0, parted), blocks.slice(parted)].filter((column) => column.length > 0);
  const html = `<div class="paper-board">${columns.map((column) => drawColumn(column, kind)).join("")}</div>`;
  return { html, heightPx: Math.max(sum(0, parted), sum(parted, blocks.length)) + headPx };
}

function drawColumn(blocks: readonly DayBlock[], kind: "bars" | "words"): string {
  const heads =
    kind === "words"
      ? `<th scope="col">day</th><th scope="col" colspan="6">leaving</th>`
      : `<th scope="col">day</th><td class="light"></td><th scope="col" class="leave">leave</th><th scope="col" class="barcell"><span class="heads"><span>shut</span><span>open</span></span></th>` +
        `<th scope="col" class="figure">${unseen("margin")}</th><th scope="col" class="ten">in 10</th><th scope="col" class="words">what decides, and when; in hand</th>`;
  const cols = `<colgroup><col class="c-day"><col class="c-light"><col class="c-time"><col class="c-bar"><col class="c-figure"><col class="c-ten"><col></colgroup>`;
  return `<table class="board-day">${cols}<thead><tr>${heads}</tr></thead>${blocks.map(drawDay).join("")}</table>`;
}

function drawDay(block: DayBlock): string {
  const sun = block.sun === null || block.rows.length < 2 ? "" : `<span class="sun">${escapeHtml(block.sun)}</span>`;
  const rows = block.rows.map((row, index) => {
    const day =
      index === 0 ? `<th scope="rowgroup" class="day-cell" rowspan="${block.rows.length}"><b>${escapeHtml(block.name)}</b>${sun}</th>` : "";
    return `<tr class="${row.className}">${day}${row.cells}</tr>`;
  });
  return `<tbody>${rows.join("")}</tbody>`;
}

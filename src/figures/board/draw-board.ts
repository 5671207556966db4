import type { BoardTold, DayTold } from "../../api/index.ts";
import { escapeHtml, unseen } from "../html/escape.ts";
import { drawFold, type Fold } from "./draw-fold.ts";
import { drawBoardLine, type LineLook } from "./draw-line.ts";
import { foldRuns, foldShutByReason } from "./fold-runs.ts";

/** How a board is set. */
export interface BoardLook {
  readonly marginalBelow: number;
  /** The chosen departure, ISO 8601; null for none. */
  readonly chosen: string | null;
  /** Two rows of words a line, for columns narrower than 600 px. */
  readonly compact: boolean;
  /** `shut`: runs of shut lines stand folded; `opened`: they can be folded, and stand open; `none`: every line, no folds. */
  readonly fold: "shut" | "opened" | "none";
}

/** The narrowest column, px, in which a line has room for all its words: below it a board is `compact`. */
export const narrowestWidePx = 600;

/**
 * A day of departures as a table set like a page of a tide table.
 *
 * @returns a `section`; its lines are `tr[data-at]`, its folds `button[aria-controls]` beside `tbody[id]`
 */
export function drawBoardDay(day: DayTold, look: BoardLook): string {
  const lineLook: LineLook = { ...look, kind: look.compact ? "compact" : "wide", weekday: day.weekday };
  const head = `<caption>${dayHead(day)}</caption>${columns(look.compact)}`;
  if (day.lines.length === 0)
    return `<section class="day"><table class="board-day">${head}</table><p class="quiet">No departure was tried.</p></section>`;
  return `<section class="day"><table class="board-day${look.compact ? " is-compact" : ""}">${head}${bodies(day, look, lineLook)}</table></section>`;
}

/** All days of a board, in a grid, as one choice among departures. */
export function drawBoard(days: BoardTold["days"], look: BoardLook): string {
  if (days.length === 0) return `<p class="quiet">No departure was tried.</p>`;
  return `<div class="board" role="radiogroup" aria-label="Departure">${days.map((day) => drawBoardDay(day, look)).join("")}</div>`;
}

/** A day's name, and when its sun is up. */
export function dayHead(day: DayTold): string {
  const sun = day.sun === null ? "" : `<span class="sun">sun ${escapeHtml(day.sun)}</span>`;
  return `<span class="day-name"><b>${escapeHtml(day.weekday)}</b> ${escapeHtml(day.date)}</span>${sun}`;
}

function bodies(day: DayTold, look: BoardLook, lineLook: LineLook): string {
  const lines = (html: readonly string[]): string => (html.length === 0 ? "" : `<tbody>${html.join("")}</tbody>`);
  if (look.fold === "none") return lines(day.lines.map((line) => drawBoardLine(line, lineLook)));
  let body = "";
  let waiting: string[] = [];
  const fold = (one: Fold): void => {
    body += lines(waiting) + drawFold(one, lineLook, look.fold === "opened");
    waiting = [];
  };
  for (const stretch of foldRuns(day.lines, foldShutByReason)) {
    if (stretch.kind === "fold") fold(stretch);
    else waiting.push(drawBoardLine(stretch.line, lineLook));
  }
  return body + lines(waiting);
}

function columns(compact: boolean): string {
  const shutOpen = `<th scope="col" class="barcell"><span class="heads"><span>shut</span><span>open</span></span></th>`;
  const light = `<td class="light"></td>`;
  if (compact) {
    return (
      `<colgroup><col class="c-light"><col class="c-time"><col class="c-bar"><col></colgroup>` +
      `<thead><tr>${light}<th scope="col" class="leave">leave</th>${shutOpen}<th scope="col" class="words">what decides; in hand</th></tr></thead>`
    );
  }
  return (
    `<colgroup><col class="c-light"><col class="c-time"><col class="c-bar"><col class="c-figure"><col class="c-ten"><col><col class="c-hand"></colgroup>` +
    `<thead><tr>${light}<th scope="col" class="leave">leave</th>${shutOpen}<th scope="col" class="figure">${unseen("margin")}</th>` +
    `<th scope="col" class="ten">in 10</th><th scope="col" class="words">what decides, and when</th><th scope="col" class="inhand">in hand</th></tr></thead>`
  );
}

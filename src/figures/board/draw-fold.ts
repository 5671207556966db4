import type { LineTold } from "../../api/index.ts";
import { escapeHtml, unseen } from "../html/escape.ts";
import { drawBoardLine, type LineLook, lightCell } from "./draw-line.ts";
import type { Stretch } from "./fold-runs.ts";
import { reasonsOf } from "./fold-runs.ts";
import { type BarKind, barSizes, drawBarRules } from "./margin-bar.ts";
import { lineId, verdictWord } from "./say-line.ts";

export type Fold = Extract<Stretch, { kind: "fold" }>;

/** The id of the rows that a fold holds. */
export function foldId(fold: Fold): string {
  return `${lineId(fold.lines[0].departAt)}-fold`;
}

/** What a fold says: `shut: dark at the entrance`. */
export function foldWords(fold: Fold): string {
  const reasons = reasonsOf(fold.lines).join(", ");
  const verdict = verdictWord(fold.lines[0].verdict);
  return reasons === "" || reasons === verdict ? verdict : `${verdict}: ${reasons}`;
}

/**
 * A run of shut lines as one: its first and its last clock held by a bracket on the shut side, and what they have in common once, across
 * the block. A button opens it: the rows it names by `aria-controls` lose their `hidden`. While they are hidden the chosen one among
 * them is shown all the same (by the style sheet).
 *
 * @param opened whether its lines are shown at first
 */
export function drawFold(fold: Fold, look: LineLook, opened: boolean): string {
  const rows = fold.lines.map((line) => drawBoardLine(line, look)).join("");
  const id = foldId(fold);
  const button = `<button type="button" class="unfold" aria-expanded="${opened}" aria-controls="${id}">`;
  const words = `${button}<span class="fold-words">${escapeHtml(foldWords(fold))}</span><span class="fold-count">${fold.lines.length} lines</span></button>`;
  return `<tbody class="fold">${foldRow(fold, look, words)}</tbody><tbody class="fold-lines" id="${id}"${opened ? "" : " hidden"}>${rows}</tbody>`;
}

/** The same on paper: in a line, nothing to open. */
export function drawPaperFold(fold: Fold, look: LineLook, words: string): string {
  const [first] = fold.lines;
  return (
    `<tr class="line fold-row is-${first.verdict}">${lightCell(first)}<th scope="row" class="leave">${escapeHtml(first.clock)}</th>` +
    `<td class="barcell">${drawBarRules(look.marginalBelow, "paper", span(first, "paper"))}</td>` +
    `<td class="words" colspan="4"><b>to ${escapeHtml(fold.last.clock)}</b> ${escapeHtml(words)}</td></tr>`
  );
}

function foldRow(fold: Fold, look: LineLook, words: string): string {
  const [first] = fold.lines;
  const clocks = `<span>${escapeHtml(first.clock)}</span> <span>to ${escapeHtml(fold.last.clock)}</span>`;
  return (
    `<tr class="fold-row is-${first.verdict}">${foldLight(fold.lines)}<th scope="row" class="leave">${clocks}</th>` +
    `<td class="barcell">${drawBarRules(look.marginalBelow, look.kind, span(first, look.kind))}</td>` +
    `<td class="words" colspan="${look.kind === "compact" ? 1 : 4}">${words}</td></tr>`
  );
}

/** The strip of a fold shows the light at its first line above and at its last below; a day in between is not lost. */
function foldLight(lines: readonly LineTold[]): string {
  const first = lines[0]?.light ?? "day";
  const last = lines.at(-1)?.light ?? "day";
  return `<td class="light"><span class="light-part light-${first}"></span><span class="light-part light-${last}"></span>${unseen(first === last ? first : `${first} to ${last}`)}</td>`;
}

/** A bracket that holds the two clocks together; on paper a line along the shut side. Dashed where it was not judged. */
function span(line: LineTold, kind: BarKind): string {
  const className = line.verdict === "notJudged" ? "span-unjudged" : "span-shut";
  if (kind === "paper") return `<line class="${className}" x1="4" x2="${barSizes.paper.neverPx - 2}" y1="50%" y2="50%"/>`;
  const right = kind === "wide" ? 22 : 20;
  const foot = (y: string): string => `<line class="${className}" x1="${right - 6}" x2="${right}" y1="${y}" y2="${y}"/>`;
  return `${foot("24%")}<line class="${className}" x1="${right}" x2="${right}" y1="24%" y2="76%"/>${foot("76%")}`;
}

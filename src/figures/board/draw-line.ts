import type { LineTold } from "../../api/index.ts";
import { classes, escapeHtml, unseen } from "../html/escape.ts";
import { type BarKind, drawMarginBar } from "./margin-bar.ts";
import { beforeDoor, lineId, verdictWord } from "./say-line.ts";

/** How a line is set. */
export interface LineLook {
  /** The margin below which a departure is marginal: the dotted rule. */
  readonly marginalBelow: number;
  /** The chosen departure, ISO 8601; null for none. */
  readonly chosen: string | null;
  /** `wide`: a column for everything; `compact`: two rows of words, for a phone; `paper`: small, and nothing to press. */
  readonly kind: BarKind;
  /** The weekday, read aloud before the clock. */
  readonly weekday: string;
}

/** The name that all departures' buttons share: together they are one choice. */
export const departureChoice = "departure";

/**
 * A departure as a row of the board: light, clock, bar, margin, chance in ten, what decides, time in hand. The clock is a radio button; all
 * of the board make one choice, so one of them is reached by tab and the arrow keys move along the lines that can be seen. The look of the
 * chosen line hangs on its button being checked, on nothing else: to choose, set `checked`.
 */
export function drawBoardLine(line: LineTold, look: LineLook): string {
  const chosen = line.departAt === look.chosen;
  const open = `<tr id="${lineId(line.departAt)}" data-at="${escapeHtml(line.departAt)}" class="${classes("line", `is-${line.verdict}`, look.kind === "paper" && chosen && "is-chosen")}">`;
  return (
    open +
    lightCell(line) +
    clockCell(line, look, chosen) +
    (look.kind === "compact" ? compactCells(line, look) : wideCells(line, look)) +
    "</tr>"
  );
}

/** The strip down the block's left edge: night, twilight or day. */
export function lightCell(line: LineTold): string {
  return `<td class="light light-${line.light}">${unseen(line.light)}</td>`;
}

function clockCell(line: LineTold, look: LineLook, chosen: boolean): string {
  const clock = escapeHtml(line.clock);
  const ten = look.kind === "compact" && line.inTen !== null ? `<span class="quiet below">${line.inTen} in 10</span>` : "";
  if (look.kind === "paper") return `<th scope="row" class="leave">${clock}</th>`;
  const button = `<input type="radio" name="${departureChoice}" value="${escapeHtml(line.departAt)}"${chosen ? " checked" : ""}>`;
  return `<th scope="row" class="leave"><label>${button}<span>${unseen(`${look.weekday} `)}${clock}</span></label>${ten}</th>`;
}

function barAndVerdict(line: LineTold, look: LineLook): string {
  return (
    unseen(verdictWord(line.verdict)) +
    drawMarginBar({ verdict: line.verdict, margin: line.margin, marginalBelow: look.marginalBelow }, look.kind)
  );
}

function whatDecides(line: LineTold): string {
  return escapeHtml(line.words) + (line.when === null ? "" : ` <span class="when">${escapeHtml(line.when)}</span>`);
}

function inHand(line: LineTold): string {
  const door = beforeDoor(line);
  const words = door === "" ? "" : ` <span class="quiet">${escapeHtml(door)}</span>`;
  return line.hand === "" ? "" : `<span class="hand">${escapeHtml(line.hand)}</span>${words}`;
}

function wideCells(line: LineTold, look: LineLook): string {
  return (
    `<td class="barcell">${barAndVerdict(line, look)}</td>` +
    `<td class="figure">${escapeHtml(line.figure)}</td>` +
    `<td class="ten">${line.inTen === null ? "" : line.inTen}</td>` +
    // Where nothing is in hand the words have its room.
    (line.hand === ""
      ? `<td class="words" colspan="2">${whatDecides(line)}</td>`
      : `<td class="words">${whatDecides(line)}</td><td class="inhand">${inHand(line)}</td>`)
  );
}

function compactCells(line: LineTold, look: LineLook): string {
  // The figure stands on the side of the rule that the bar leaves empty.
  const side = line.margin !== null && line.margin < 0 ? "figure-right" : "figure-left";
  const hand = inHand(line);
  return (
    `<td class="barcell">${barAndVerdict(line, look)}<span class="figure ${side}">${escapeHtml(line.figure)}</span></td>` +
    `<td class="words">${whatDecides(line)}${hand === "" ? "" : `<span class="below">${unseen("in hand ")}${hand}</span>`}</td>`
  );
}

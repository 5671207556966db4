import { addDays, firstInstantAtOrPast, formatInstant } from "../../core/calendar/index.ts";
import { type LightDay, lightAt, lightOver } from "../../core/earth/index.ts";
import type { LeaveAnswer } from "../../core/plan/index.ts";
import { epochSeconds } from "../../core/units/index.ts";
import { type BoardRow, MARGINAL_BELOW } from "../../core/window/index.ts";
import {
  clock,
  dayAndClock,
  decidedInWords,
  feltName,
  handInWords,
  margin,
  reasonInWords,
  shortlyDecided,
  zoneLabel,
} from "../../words/index.ts";
import { chanceFigure } from "./chance-text.ts";
import { gateLines } from "./gates-text.ts";
import { cell } from "./wrap.ts";

/** A bar's cell stands for this much of a margin: the skipper's line lies one cell right of the rule. */
const MARGIN_A_CELL = MARGINAL_BELOW;
const LEFT_CELLS = 6;
const RIGHT_CELLS = 8;
/** Runs of at least this many lines shut by the same limit are folded into one. */
const FOLD_FROM = 3;

/** The board as text: a block a day, a line a departure; long runs shut by the same limit folded unless `every`. */
export function boardText(answer: LeaveAnswer, every: boolean): string {
  const { prepared, rows } = answer;
  const zone = prepared.passage.shipZone;
  const days = new Map<string, BoardRow[]>();
  for (const row of rows) {
    const day = formatInstant(epochSeconds(row.departAt), zone).isoDate;
    days.set(day, [...(days.get(day) ?? []), row]);
  }
  return [...days.values()].map((day) => dayText(answer, day, every)).join("\n\n");
}

function dayText(answer: LeaveAnswer, rows: readonly BoardRow[], every: boolean): string {
  const { passage } = answer.prepared;
  const zone = passage.shipZone;
  const first = rows[0] as BoardRow;
  const pieces = formatInstant(epochSeconds(first.departAt), zone);
  const day = { from: firstInstantAtOrPast(pieces.date, 0, zone), until: firstInstantAtOrPast(addDays(pieces.date, 1), 0, zone) };
  const light = lightOver(day, passage.to.position);
  const head = `${pieces.weekdayLong} ${pieces.date.day} ${pieces.monthLong}`;
  const lines = [
    `${cell(head, 32)}${cell(sunText(light, zone), 48, "right")}`,
    `  leave  shut │ open margin in10 ${cell("what decides, and when", 39)} in hand`,
  ];
  for (let i = 0; i < rows.length; i++) {
    const [before, now] = [rows[i - 1], rows[i] as BoardRow].map((row) => (row === undefined ? null : zoneLabel(row.departAt, zone)));
    if (before !== null && before !== now) lines.push(`  the clocks change: ${before} before, ${now} from here on`);
    const same = every ? 1 : runLength(rows, i, zone);
    if (same >= FOLD_FROM) {
      lines.push(foldedLine(rows.slice(i, i + same), answer));
      i += same - 1;
    } else lines.push(rowLine(rows[i] as BoardRow, answer), ...gateLines(rows[i] as BoardRow));
  }
  return lines.join("\n");
}

/** The sun at the entrance, by the ship's clock as everything on the board. */
function sunText(light: LightDay, zone: string): string {
  const { sun } = light;
  if (sun.kind === "aboveThroughout") return "sun up all day";
  if (sun.kind === "belowThroughout") return "no sun all day";
  const up = sun.upAt === null ? "no sunrise" : clock(sun.upAt, zone);
  const down = sun.downAt === null ? "no sunset" : clock(sun.downAt, zone);
  return `sun at the entrance ${up} to ${down}`;
}

/** What shuts a closed row, for folding; null for rows that are not closed by a limit. */
function shutBy(row: BoardRow): string | null {
  const { kind, decidedBy } = row.verdict;
  if (kind === "closed" && decidedBy.kind === "margin") return feltName(decidedBy.margin.limit.felt);
  if (decidedBy.kind === "gate" || decidedBy.kind === "gateNotJudged")
    return `${kind} ${decidedBy.fault.kind} ${decidedBy.fault.gate.name}`;
  if (decidedBy.kind === "noPassage") return `not judged: ${decidedBy.why.code}`;
  if (decidedBy.kind === "currentNotFit") return `not judged: ${decidedBy.why.code}`;
  if (decidedBy.kind === "notJudged") return `not judged: ${decidedBy.margin.limit.felt} ${decidedBy.margin.why.code}`;
  return null;
}

function runLength(rows: readonly BoardRow[], from: number, zone: string): number {
  const first = rows[from] as BoardRow;
  const reason = shutBy(first);
  if (reason === null) return 1;
  const clocks = zoneLabel(first.departAt, zone);
  const alike = (row: BoardRow | undefined): boolean =>
    row !== undefined && shutBy(row) === reason && zoneLabel(row.departAt, zone) === clocks;
  let length = 1;
  while (alike(rows[from + length])) length++;
  return length;
}

/** The strip at the left: ink for night at departure, half ink for twilight. */
function nightMark(row: BoardRow, answer: LeaveAnswer): string {
  const light = lightAt(epochSeconds(row.departAt), answer.prepared.passage.from.position);
  return light === "night" ? "█" : light === "day" ? " " : "▒";
}

/** The ink of a bar tells its verdict without colour: full, half, light, or dashes for what is not judged. */
export function barText(row: BoardRow): string {
  const { kind, smallestMargin, decidedBy } = row.verdict;
  if (decidedBy.kind === "noPassage" && kind !== "closed") return `${"-".repeat(LEFT_CELLS)}│${"-".repeat(RIGHT_CELLS)}`;
  // A gate has no margin: it is shut.
  const value = decidedBy.kind === "gate" ? -2 : (smallestMargin ?? (kind === "closed" ? -2 : 0));
  const ink = kind === "open" ? "█" : kind === "marginal" ? "▒" : "░";
  const left = value < 0 ? Math.min(LEFT_CELLS, Math.ceil(-value / MARGIN_A_CELL)) : 0;
  const right = value > 0 ? Math.min(RIGHT_CELLS, Math.max(1, Math.floor(value / MARGIN_A_CELL + 1e-9))) : 0;
  return `${" ".repeat(LEFT_CELLS - left)}${ink.repeat(left)}│${ink.repeat(right)}${" ".repeat(RIGHT_CELLS - right)}`;
}

function rowLine(row: BoardRow, answer: LeaveAnswer): string {
  const zone = answer.prepared.passage.shipZone;
  const { smallestMargin } = row.verdict;
  const figure = smallestMargin === null || row.verdict.decidedBy.kind === "gate" ? "" : margin(smallestMargin);
  const hand = handInWords(row);
  const decided = decidedInWords(row, zone);
  const words = shortlyDecided(row, decided.words);
  const { at } = decided;
  const what = at === null ? cell(words, 39) : `${cell(words, 29)} ${dayAndClock(at, zone)}`;
  return `${nightMark(row, answer)} ${clock(row.departAt, zone)} ${barText(row)} ${cell(figure, 5, "right")} ${cell(chanceFigure(answer, row), 2, "right")} ${what} ${cell(hand, 7, "right")}`.trimEnd();
}

function foldedLine(rows: readonly BoardRow[], answer: LeaveAnswer): string {
  const zone = answer.prepared.passage.shipZone;
  const first = rows[0] as BoardRow;
  const last = rows[rows.length - 1] as BoardRow;
  const state = first.verdict.kind === "closed" ? "shut: " : "";
  return `  ${clock(first.departAt, zone)} to ${clock(last.departAt, zone)}  ${state}${reasonInWords(first)}`;
}

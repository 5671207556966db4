import type { LeaveAnswer } from "../core/plan/index.ts";
import { type BoardRow, type Spell, spellsOf } from "../core/window/index.ts";
import { decidedInWords, doorInWords, feltName } from "./say-limit.ts";
import { clock, dayAndClock, duration, longDayAndClock } from "./say-time.ts";

/** The answer in a few sentences: when to leave, what shuts, when it opens again. */
export function leaveInWords(answer: LeaveAnswer): readonly string[] {
  const zone = answer.prepared.passage.shipZone;
  const arrivalZone = answer.prepared.passage.arrivalZone;
  const spells = spellsOf(answer.rows);
  const open = spells.filter((spell) => spell.kind === "open");
  if (answer.rows.length === 0)
    return ["There is no departure to try: wind and current have no time in common with the departures asked for."];
  const first = open[0];
  if (first === undefined) return noneOpen(answer.rows, spells, zone);
  const sentences = [`Leave ${spanInWords(first, zone, true)}.`];
  const best = bestOf(first.rows);
  const { inHand, arrivalAt } = best;
  if (arrivalAt !== null) {
    const hand =
      inHand === null
        ? ""
        : inHand.seconds === null
          ? ", with no door met as far as was tried"
          : `, with ${duration(inHand.seconds)} in hand before ${doorInWords(inHand.door)}`;
    sentences.push(
      `At ${clock(best.departAt, zone)} the passage takes ${duration(arrivalAt - best.departAt)}: arrive ${dayAndClock(arrivalAt, arrivalZone)}${hand}.`,
    );
  }
  const after = spells[spells.indexOf(first) + 1];
  if (after !== undefined) sentences.push(shutInWords(after, zone));
  if (open.length > 1) {
    const again = open.slice(1).map((spell) => spanInWords(spell, zone, false));
    const listed = again.length > 3 ? [...again.slice(0, 3), `${again.length - 3} more`] : again;
    sentences.push(`Open again ${listed.join("; ")}.`);
  }
  return sentences;
}

/** Of neighbouring open departures the one with the most time in hand after a margin that is not small: the largest product of both, margins counted to 1. */
export function bestOf(rows: readonly BoardRow[]): BoardRow {
  const worth = (row: BoardRow): number =>
    Math.min(1, row.verdict.smallestMargin ?? 0) * (row.inHand === null ? 0 : (row.inHand.seconds ?? 24 * 3600));
  return rows.reduce((best, row) => (worth(row) > worth(best) ? row : best));
}

function spanInWords(spell: Spell, zone: string, long: boolean): string {
  const say = long ? longDayAndClock : dayAndClock;
  const from = (spell.rows[0] as BoardRow).departAt;
  const until = (spell.rows[spell.rows.length - 1] as BoardRow).departAt;
  return from === until ? `${long ? "" : "at "}${say(from, zone)}` : `${say(from, zone)} to ${say(until, zone)}`;
}

function shutInWords(spell: Spell, zone: string): string {
  const row = spell.rows[0] as BoardRow;
  const { decidedBy } = row.verdict;
  const from = dayAndClock(row.departAt, zone);
  if (decidedBy.kind === "margin")
    return `From ${from} it is ${spell.kind === "closed" ? "shut" : "marginal"}: ${feltName(decidedBy.margin.limit.felt)}.`;
  return `From ${from} it is ${spell.kind === "closed" ? "shut" : "marginal"}: ${decidedInWords(row, zone).words}.`;
}

function noneOpen(rows: readonly BoardRow[], spells: readonly Spell[], zone: string): readonly string[] {
  const marginal = spells.filter((spell) => spell.kind === "marginal");
  const counts = new Map<string, number>();
  for (const row of rows) {
    const { decidedBy } = row.verdict;
    const reason = decidedBy.kind === "margin" ? feltName(decidedBy.margin.limit.felt) : decidedInWords(row, zone).words;
    counts.set(reason, (counts.get(reason) ?? 0) + 1);
  }
  const commonest = [...counts].sort((a, b) => b[1] - a[1])[0];
  const why = commonest === undefined ? "" : ` The commonest reason: ${commonest[0]} (${commonest[1]} of ${rows.length}).`;
  if (marginal.length === 0) return [`No departure is open.${why}`];
  return [`No departure is open. Marginal: ${marginal.map((spell) => spanInWords(spell, zone, false)).join("; ")}.${why}`];
}

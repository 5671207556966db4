import { DEPARTURE_SPACING_SECONDS, type LeaveAnswer, MOST_DEPARTURES } from "../core/plan/index.ts";
import { type BoardRow, type Spell, spellsOf } from "../core/window/index.ts";
import { arrivalsInWords, shareInWords } from "./say-chance.ts";
import { decidedInWords, doorInWords, reasonInWords } from "./say-limit.ts";
import { clock, dayAndClock, dayAndClockNear, duration, longDayAndClockNear, zoneLabel } from "./say-time.ts";

/** The answer in a few sentences: when to leave, what shuts, when it opens again. */
export function leaveInWords(answer: LeaveAnswer): readonly string[] {
  const zone = answer.prepared.passage.shipZone;
  const arrivalZone = answer.prepared.passage.arrivalZone;
  const spells = spellsOf(answer.rows);
  const open = spells.filter((spell) => spell.kind === "open");
  if (answer.rows.length === 0)
    return ["There is no departure to try: wind and current have no time in common with the departures asked for."];
  const first = open[0];
  const cut = cutShort(answer) ? [`No more than ${MOST_DEPARTURES} departures are tried: a month of them.`] : [];
  const begins = (answer.rows[0] as BoardRow).departAt;
  if (first === undefined) return [...noneOpen(answer.rows, zone), ...cut];
  const sentences = [`Leave ${spanInWords(first, begins, zone, true)}.`];
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
      `At ${clock(best.departAt, zone)} the passage takes ${duration(arrivalAt - best.departAt)}: arrive ${arrivalInWords(arrivalAt, arrivalZone, best.departAt, zone)}${hand}.`,
    );
    const chance = answer.chances[answer.rows.indexOf(best)] ?? null;
    if (chance !== null && chance.good.count > 0) {
      const arrive = arrivalsInWords(chance, arrivalZone);
      const arriving = arrive === null ? "" : `, arriving ${arrive}`;
      sentences.push(
        chance.good.count === chance.good.of
          ? `All ${chance.good.of} crossings tried arrive with nothing past never${arriving}.`
          : `Chance ${shareInWords(chance.good)}${arriving}.`,
      );
    }
    const assumed = best.advised?.assumedWaterShare ?? 0;
    if (assumed > 0)
      sentences.push(`For ${Math.max(1, Math.round(assumed * 100))} % of its time in open water the current is not known and is assumed.`);
  }
  const after = spells[spells.indexOf(first) + 1];
  if (after !== undefined) sentences.push(shutInWords(after, begins, zone));
  if (open.length > 1) {
    const again = open.slice(1).map((spell) => spanInWords(spell, begins, zone, false));
    const listed = again.length > 3 ? [...again.slice(0, 3), `${again.length - 3} more`] : again;
    sentences.push(`Open again ${listed.join("; ")}.`);
  }
  return [...sentences, ...cut];
}

/** Whether there would have been more departures to try. */
function cutShort({ departures, prepared }: LeaveAnswer): boolean {
  const last = departures[departures.length - 1];
  const { leaveUntil } = prepared.passage;
  return (
    last !== undefined && departures.length >= MOST_DEPARTURES && (leaveUntil === null || last + DEPARTURE_SPACING_SECONDS <= leaveUntil)
  );
}

/** An arrival by the clock there, its zone named where it is not the one that the departure was told in: `Wed 10:33 UTC-5`. */
export function arrivalInWords(arrivalAt: number, arrivalZone: string, departAt: number, shipZone: string): string {
  const label = zoneLabel(arrivalAt, arrivalZone);
  const named = label === zoneLabel(departAt, shipZone) ? "" : ` ${label}`;
  return `${dayAndClock(arrivalAt, arrivalZone)}${named}`;
}

/** Of neighbouring open departures the one with the most time in hand after a margin that is not small: the largest product of both, margins counted to 1. */
export function bestOf(rows: readonly BoardRow[]): BoardRow {
  const worth = (row: BoardRow): number =>
    Math.min(1, row.verdict.smallestMargin ?? 0) * (row.inHand === null ? 0 : (row.inHand.seconds ?? 24 * 3600));
  return rows.reduce((best, row) => (worth(row) > worth(best) ? row : best));
}

/** From the first to the last departure of a spell; `begins` is the board's first, from which weekdays are counted. */
function spanInWords(spell: Spell, begins: number, zone: string, long: boolean): string {
  const say = (at: number): string => (long ? longDayAndClockNear : dayAndClockNear)(at, begins, zone);
  const from = (spell.rows[0] as BoardRow).departAt;
  const until = (spell.rows[spell.rows.length - 1] as BoardRow).departAt;
  return from === until ? `${long ? "" : "at "}${say(from)}` : `${say(from)} to ${say(until)}`;
}

const UNKNOWN: ReadonlySet<string> = new Set<BoardRow["verdict"]["decidedBy"]["kind"]>([
  "noPassage",
  "notJudged",
  "gateNotJudged",
  "currentNotFit",
]);

/** Whether a row is marginal only because something about it is not known. */
export function isUnknown(row: BoardRow): boolean {
  const { kind, decidedBy } = row.verdict;
  return kind === "marginal" && UNKNOWN.has(decidedBy.kind);
}

function shutInWords(spell: Spell, begins: number, zone: string): string {
  const row = spell.rows[0] as BoardRow;
  const { decidedBy } = row.verdict;
  const from = dayAndClockNear(row.departAt, begins, zone);
  // The words of what is not known say so themselves.
  if (isUnknown(row)) return `From ${from}: ${decidedInWords(row, zone).words}.`;
  const state = spell.kind === "closed" ? "shut" : "marginal";
  const why = decidedBy.kind === "margin" || decidedBy.kind === "gate" ? reasonInWords(row) : decidedInWords(row, zone).words;
  return `From ${from} it is ${state}: ${why}.`;
}

function noneOpen(rows: readonly BoardRow[], zone: string): readonly string[] {
  const begins = (rows[0] as BoardRow).departAt;
  const counts = new Map<string, number>();
  for (const row of rows) {
    const reason = reasonInWords(row);
    counts.set(reason, (counts.get(reason) ?? 0) + 1);
  }
  const commonest = [...counts].sort((a, b) => b[1] - a[1])[0];
  const why = commonest === undefined ? "" : ` The commonest reason: ${commonest[0]} (${commonest[1]} of ${rows.length}).`;
  const listed = (name: string, wanted: (row: BoardRow) => boolean): string => {
    const spans = neighbours(rows, wanted).map((some) => spanInWords({ kind: "marginal", rows: some }, begins, zone, false));
    return spans.length === 0 ? "" : ` ${name}: ${spans.join("; ")}.`;
  };
  const marginal = listed("Marginal", (row) => row.verdict.kind === "marginal" && !isUnknown(row));
  return [`No departure is open.${marginal}${listed("Not known", isUnknown)}${why}`];
}

/** Runs of neighbouring rows that are wanted. */
function neighbours(rows: readonly BoardRow[], wanted: (row: BoardRow) => boolean): readonly (readonly BoardRow[])[] {
  const runs: BoardRow[][] = [];
  rows.forEach((row, i) => {
    if (!wanted(row)) return;
    const before = rows[i - 1];
    if (before !== undefined && wanted(before)) runs[runs.length - 1]?.push(row);
    else runs.push([row]);
  });
  return runs;
}

import { alongOf } from "../../core/passage/index.ts";
import type { LeaveAnswer } from "../../core/plan/index.ts";
import type { BoardRow, Margin, WorstPlace } from "../../core/window/index.ts";
import {
  arrivalInWords,
  byInWords,
  dayAndClock,
  decidedInWords,
  duration,
  feltName,
  fullTime,
  handPartsInWords,
  limitInWords,
  margin as marginFigure,
  miles,
  noAnswerInWords,
  wayName,
  worstInWords,
} from "../../words/index.ts";
import { gatesText } from "./gates-text.ts";
import { cell, wrap } from "./wrap.ts";

/**
 * All that is known of one departure's verdict: every limit with its margin, time and place, the ways that fail, each part of the time in
 * hand, and the nearest open departures. `one` is that departure tried by itself, `board` all of them.
 */
export function whyText(one: LeaveAnswer, board: LeaveAnswer): string {
  const row = one.rows[0] as BoardRow;
  const parts = [
    wrap(verdictText(one, row)),
    limitsText(one, row),
    wrap(waysText(one, row)),
    gatesText(row),
    wrap(handPartsInWords(row)),
    wrap(nearestText(row, board)),
  ];
  return parts.filter((part) => part !== "").join("\n\n");
}

function verdictText({ prepared }: LeaveAnswer, row: BoardRow): string {
  const { shipZone, arrivalZone } = prepared.passage;
  const { words, at } = decidedInWords(row, shipZone);
  const state = row.verdict.kind === "closed" ? "shut" : row.verdict.kind;
  const arrives =
    row.arrivalAt === null
      ? ""
      : ` At the berth ${arrivalInWords(row.arrivalAt, arrivalZone, row.departAt, shipZone)}, after ${duration(row.arrivalAt - row.departAt)}.`;
  return `Leaving ${fullTime(row.departAt, shipZone)}: ${state}${byInWords(words)}${at === null ? "" : `, ${dayAndClock(at, shipZone)}`}.${arrives}`;
}

/** Every limit, those not judged first, then the nearest to its never. */
function limitsText(answer: LeaveAnswer, row: BoardRow): string {
  if (row.margins.length === 0) return "";
  const known = (one: Margin): number => (one.kind === "judged" ? one.margin : Number.NEGATIVE_INFINITY);
  const sorted = row.margins.toSorted((a, b) => known(a) - known(b));
  const head = `  margin  ${cell("the worst of it", 36)} ${cell("when", 9)}  miles across`;
  return [head, ...sorted.flatMap((one) => limitLines(answer, row, one))].join("\n");
}

const UNDER = " ".repeat(10);

function limitLines(answer: LeaveAnswer, row: BoardRow, one: Margin): readonly string[] {
  const zone = answer.prepared.passage.shipZone;
  if (one.kind === "judged") return worstLines(answer, row, one, one);
  const why = wrap(`${feltName(one.limit.felt)}: ${noAnswerInWords(one.why, zone)}`, 80, UNDER, `  ${cell("–", 6, "right")}  `);
  return one.knownPart === null ? [why] : [why, `${UNDER}where it is known:`, ...worstLines(answer, row, one, one.knownPart)];
}

function worstLines({ prepared }: LeaveAnswer, row: BoardRow, { limit }: Margin, worst: WorstPlace): readonly string[] {
  const zone = prepared.passage.shipZone;
  const { xMetres, yMetres } = prepared.plane.toPlane(worst.where);
  const along = alongOf(prepared.line, xMetres, yMetres);
  const across = along < 0 || along > prepared.line.lengthMetres ? "in harbour" : miles(along);
  const met = worstInWords(limit, worst, row.advised?.track ?? null);
  const past = worst.firstPastNeverAt === null ? "" : `; past never from ${dayAndClock(worst.firstPastNeverAt, zone)}`;
  return [
    `  ${cell(marginFigure(worst.margin), 6, "right")}  ${cell(met, 36)} ${cell(dayAndClock(worst.at, zone), 9)}  ${across}`,
    wrap(`limit: ${limitInWords(limit)}${past}`, 80, UNDER),
  ];
}

/** The way that is advised, and why others don't arrive. */
function waysText(answer: LeaveAnswer, row: BoardRow): string {
  const zone = answer.prepared.passage.shipZone;
  const ways = answer.kept[0]?.run.ways ?? [];
  const fails = ways.flatMap((way) => (way.kind === "fails" ? [`${wayName(way.name)}: ${noAnswerInWords(way.why, zone)}`] : []));
  const advised = row.advised === null ? "No way across arrives" : `The way: ${wayName(row.advised.name)}`;
  return `${advised}.${fails.length === 0 ? "" : ` ${row.advised === null ? "" : "Not to be had: "}${fails.join("; ")}.`}`;
}

/** The open departures next before and after, where this one isn't. */
function nearestText(row: BoardRow, board: LeaveAnswer): string {
  if (row.verdict.kind === "open") return "";
  const zone = board.prepared.passage.shipZone;
  const open = board.rows.filter((one) => one.verdict.kind === "open");
  const before = open.filter((one) => one.departAt < row.departAt).at(-1);
  const after = open.find((one) => one.departAt > row.departAt);
  if (before === undefined && after === undefined) return "No departure that was tried is open.";
  const earlier = before === undefined ? "" : `${duration(row.departAt - before.departAt)} earlier, ${dayAndClock(before.departAt, zone)}`;
  const later = after === undefined ? "" : `${duration(after.departAt - row.departAt)} later, ${dayAndClock(after.departAt, zone)}`;
  return `Open next: ${[earlier, later].filter((part) => part !== "").join("; ")}.`;
}

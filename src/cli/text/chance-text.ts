import { chanceErrorsOf, type LeaveAnswer } from "../../core/plan/index.ts";
import type { BoardRow } from "../../core/window/index.ts";
import { chanceInWords, forecastsInWords, fullTime, tenthsOf } from "../../words/index.ts";
import { wrap } from "./wrap.ts";

/** The board's figure for a departure: how many in ten are good; a dash where it is not judged, nothing where there is none. */
export function chanceFigure(answer: LeaveAnswer, row: BoardRow): string {
  const tenths = tenthsOf(answer, row);
  return tenths === null ? "" : tenths === "notJudged" ? "-" : String(tenths);
}

/** The chance of one departure in full, with what its forecasts say by themselves. */
export function chanceText(answer: LeaveAnswer, row: BoardRow | undefined): string {
  const chance = row === undefined ? null : (answer.chances[answer.rows.indexOf(row)] ?? null);
  if (row === undefined || chance === null) return "";
  const forecasts = chance.forecasts === null ? "" : ` ${forecastsInWords(chance.forecasts)}`;
  const leaving = fullTime(row.departAt, answer.prepared.passage.shipZone);
  return wrap(`Leaving ${leaving}: ${chanceInWords(chance, row.departAt, answer.prepared).replace(/^The/, "the")}${forecasts}`);
}

/** What the board's column of tenths means. */
export function tenthsInWords({ prepared, chances }: LeaveAnswer): string {
  if (chances.every((one) => one === null)) return "";
  return ` In10: of ten such departures so many arrive with nothing past never, by ${chanceErrorsOf(prepared.passage).samples} crossings tried with a late start, another speed, heading, water and wind than foretold, the sea as foretold.`;
}

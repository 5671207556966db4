import { formatInstant } from "../../core/calendar/index.ts";
import { chanceErrorsOf, type LeaveAnswer, type LeaveBoard } from "../../core/plan/index.ts";
import { epochSeconds } from "../../core/units/index.ts";
import { type BoardRow, MARGINAL_BELOW, spellsOf } from "../../core/window/index.ts";
import {
  assumptionsInWords,
  bestOf,
  boatAndLineInWords,
  chanceAssumptionsInWords,
  chanceInWords,
  clock,
  coarseWeatherInWords,
  forecastsAgreeInWords,
  handMeansInWords,
  leaveInWords,
  notFitInWords,
  SAFETY_WORDS,
  seamsUnderInWords,
  streamDoubtsUnder,
  unsetLimitsInWords,
  zonesInWords,
} from "../../words/index.ts";
import { iso } from "../instant.ts";
import { BoardSky } from "./board-sky.ts";
import type { BoardTold, DayTold, LimitTold } from "./board-told.ts";
import { lineToldOf } from "./line-told-of.ts";
import { sourcesToldOf } from "./sources-told-of.ts";

/** What the skipper typed, as it is shown to be changed. */
export interface TypedFigures {
  readonly limits: readonly LimitTold[];
  readonly toSet: readonly LimitTold[];
  readonly speed: BoardTold["speed"];
}

/**
 * The board told. Chances may still be wanting: then a first board. `nowAt`: UTC epoch seconds, by which the age of sources is told; null
 * where it is not to be. `sky` remembers sun and light, which no limit changes; for one passage.
 */
export function boardToldOf(
  board: LeaveBoard & Partial<LeaveAnswer>,
  typed: TypedFigures,
  nowAt: number | null,
  sky: BoardSky = new BoardSky(board.prepared.passage),
): BoardTold {
  const nothing = board.rows.map(() => null);
  const answer: LeaveAnswer = { ...board, chances: board.chances ?? nothing, keptChances: board.keptChances ?? nothing };
  const { prepared, rows } = answer;
  const { passage } = prepared;
  const open = spellsOf(rows).find((spell) => spell.kind === "open");
  const best = open === undefined ? null : bestOf(open.rows);
  const first = rows[0]?.departAt ?? passage.leaveFrom ?? prepared.weather.wind.covers.from;
  return {
    schema: "athwart.board/1",
    name: passage.name,
    invented: passage.invented,
    boat: boatAndLineInWords(prepared),
    zones: zonesInWords(prepared, first, rows.at(-1)?.arrivalAt ?? rows.at(-1)?.departAt ?? first),
    zone: passage.shipZone,
    answer: [...leaveInWords(answer)],
    best: best === null ? null : iso(best.departAt),
    days: daysToldOf(answer, sky),
    marginalBelow: MARGINAL_BELOW,
    key: keyOf(answer),
    speed: typed.speed,
    limits: [...typed.limits],
    toSet: [...typed.toSet],
    unset: unsetLimitsInWords(passage.limits),
    asides: [
      forecastsAgreeInWords(answer),
      best === null ? "" : chanceOf(answer, best),
      coarseWeatherInWords(answer),
      ...notFitInWords(answer.prepared),
      streamDoubtsUnder(answer),
      seamsUnderInWords(answer),
    ].filter((words) => words !== ""),
    sources: sourcesToldOf(prepared, nowAt),
    restsOn: [...assumptionsInWords(prepared), ...chanceAssumptionsInWords(answer)],
    safety: SAFETY_WORDS,
  };
}

function daysToldOf(answer: LeaveAnswer, sky: BoardSky): DayTold[] {
  const { shipZone } = answer.prepared.passage;
  const days = new Map<string, BoardRow[]>();
  for (const row of answer.rows) {
    const day = formatInstant(epochSeconds(row.departAt), shipZone).isoDate;
    const rows = days.get(day);
    if (rows === undefined) days.set(day, [row]);
    else rows.push(row);
  }
  return [...days.values()].map((rows) => dayToldOf(answer, rows, sky));
}

function dayToldOf(answer: LeaveAnswer, rows: readonly BoardRow[], sky: BoardSky): DayTold {
  const { departAt } = rows[0] as BoardRow;
  const { date, weekdayLong, monthLong } = formatInstant(epochSeconds(departAt), answer.prepared.passage.shipZone);
  return {
    weekday: weekdayLong,
    date: `${date.day} ${monthLong}`,
    sun: sky.sunOf(departAt),
    lines: rows.map((row) => lineToldOf(answer, row, sky)),
  };
}

function chanceOf(answer: LeaveAnswer, row: BoardRow): string {
  const chance = answer.chances[answer.rows.indexOf(row)] ?? null;
  if (chance === null) return "";
  return `At ${clock(row.departAt, answer.prepared.passage.shipZone)}: ${chanceInWords(chance, row.departAt, answer.prepared).replace(/^The/, "the")}`;
}

function keyOf({ prepared, chances }: LeaveAnswer): string[] {
  const { limits } = prepared.passage;
  return [
    handMeansInWords(),
    ...(chances.every((one) => one === null)
      ? []
      : [
          `In ten: of ten such departures so many arrive with nothing past never, by ${chanceErrorsOf(prepared.passage).samples} crossings tried with a late start, another speed, heading, water and wind than foretold, the sea as foretold.`,
        ]),
    ...(limits.some((one) => one.felt === "windAgainstCurrentMps2") ? ["kn²: knots of wind against the set times knots of stream."] : []),
  ];
}

import type { EpochSeconds } from "../units/index.ts";
import {
  type BoardRow,
  type Chance,
  type CrossingsTried,
  chanceOf,
  judgeBoard,
  type KeptChance,
  type KeptDeparture,
  keepChance,
  type Limit,
  type MarginMemo,
  type OrderToTry,
  orderToTry,
  type Progress,
} from "../window/index.ts";
import { departureTimes, timesAfter } from "./departure-times.ts";
import { LeaveWork } from "./leave-work.ts";
import type { Prepared } from "./prepare.ts";
import { type Seam, seamFinder } from "./seams.ts";

/** The departures of a passage, tried, felt, judged and decided. */
export interface LeaveBoard {
  readonly prepared: Prepared;
  readonly departures: readonly EpochSeconds[];
  /** One a departure, and after them those of the day that follows, which only serve the time in hand. */
  readonly kept: readonly KeptDeparture[];
  readonly rows: readonly BoardRow[];
  /** Of each row: where two runs of a forecast are joined under its passage, for want of one that covers it whole. */
  readonly seams: readonly (readonly Seam[])[];
}

/** The board with its chances: the whole answer. */
export interface LeaveAnswer extends LeaveBoard {
  /** Of each row, before any limit; null where it was closed when the crossings were tried, or no way arrives. */
  readonly keptChances: readonly (KeptChance | null)[];
  /** Of each row. */
  readonly chances: readonly (Chance | null)[];
}

/** Tries every departure; null when stopped by `progress`. */
export function tryDepartures(prepared: Prepared, progress?: Progress): LeaveAnswer | null {
  return tryThese(prepared, departureTimes(prepared), progress);
}

/** Tries one departure of any time, with its time in hand. */
export function tryDeparture(prepared: Prepared, departAt: EpochSeconds): LeaveAnswer {
  const answer = tryThese(prepared, [departAt]);
  if (answer === null) throw new Error("a departure was stopped without being asked to");
  return answer;
}

function tryThese(prepared: Prepared, departures: readonly EpochSeconds[], progress?: Progress): LeaveAnswer | null {
  const work = new LeaveWork(prepared);
  const tasks = keepTasks(departures);
  const kept: KeptDeparture[] = [];
  for (const { departAt, onlyLater } of tasks) {
    kept.push(work.keep(departAt, onlyLater));
    if (progress?.(kept.length, tasks.length) === true) return null;
  }
  const board = judgeLeave(prepared, departures, kept);
  return withChances(
    board,
    ordersToTry(board).map((order) => work.tryOrder(order)),
  );
}

/** One departure to be run and felt. */
export interface KeepTask {
  readonly departAt: EpochSeconds;
  readonly onlyLater: boolean;
}

/** All that is to be run for departures: those themselves and, for their time in hand, those of the day that follows. */
export function keepTasks(departures: readonly EpochSeconds[]): readonly KeepTask[] {
  const last = departures[departures.length - 1];
  const later = last === undefined ? [] : timesAfter(last);
  return [...departures.map((departAt) => ({ departAt, onlyLater: false })), ...later.map((departAt) => ({ departAt, onlyLater: true }))];
}

/** The board of departures that were run and felt; the chances are still to come. `memo`: as for `judgeBoard`. */
export function judgeLeave(
  prepared: Prepared,
  departures: readonly EpochSeconds[],
  kept: readonly KeptDeparture[],
  memo?: MarginMemo,
): LeaveBoard {
  const rows = judgeBoard(kept, prepared.passage.limits, prepared.weather, memo);
  const seamsUnder = seamFinder(prepared);
  const seams = rows.map((_, i) => {
    const planned = kept[i]?.planned ?? null;
    return planned === null ? [] : seamsUnder(planned);
  });
  return { prepared, departures, kept, rows, seams };
}

/** The orders of the departures that are not closed, in order of time: of those the chance is told. */
export function ordersToTry({ rows, kept }: LeaveBoard): readonly OrderToTry[] {
  return rows.flatMap((row, i) => {
    const order = row.verdict.kind === "closed" ? null : orderToTry(kept[i] as KeptDeparture);
    return order === null ? [] : [order];
  });
}

/** The whole answer, from the crossings that were tried for `ordersToTry`. */
export function withChances(board: LeaveBoard, tried: readonly CrossingsTried[]): LeaveAnswer {
  const { limits } = board.prepared.passage;
  const byDeparture = new Map(tried.map((one) => [one.departAt, one]));
  const keptChances = board.rows.map(({ departAt }, i) => {
    const one = byDeparture.get(departAt);
    return one === undefined ? null : keepChance(one, board.kept[i] as KeptDeparture, limits);
  });
  return { ...board, keptChances, chances: judgeChances(keptChances, limits) };
}

/** Judges the chances of a board by limits: quick, nothing is run again. */
export function judgeChances(keptChances: readonly (KeptChance | null)[], limits: readonly Limit[]): readonly (Chance | null)[] {
  return keptChances.map((kept) => (kept === null ? null : chanceOf(kept, limits)));
}

import type { EpochSeconds } from "../units/index.ts";
import { type BoardRow, judgeBoard, type KeptDeparture, keepDepartures, type Progress } from "../window/index.ts";
import { departureTimes, timesAfter } from "./departure-times.ts";
import type { Prepared } from "./prepare.ts";
import { type Seam, seamFinder } from "./seams.ts";

/** The departures of a passage, tried, felt, judged and decided. */
export interface LeaveAnswer {
  readonly prepared: Prepared;
  readonly departures: readonly EpochSeconds[];
  /** One a departure, and after them those of the day that follows, which only serve the time in hand. */
  readonly kept: readonly KeptDeparture[];
  readonly rows: readonly BoardRow[];
  /** Of each row: where two runs of a forecast are joined under its passage, for want of one that covers it whole. */
  readonly seams: readonly (readonly Seam[])[];
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
  const last = departures[departures.length - 1];
  const kept = keepDepartures(prepared.trialOf, departures, prepared.weather, progress, last === undefined ? [] : timesAfter(last));
  if (kept === null) return null;
  const rows = judgeBoard(kept, prepared.passage.limits, prepared.weather);
  const seamsUnder = seamFinder(prepared);
  const seams = rows.map((_, i) => {
    const planned = kept[i]?.planned ?? null;
    return planned === null ? [] : seamsUnder(planned);
  });
  return { prepared, departures, kept, rows, seams };
}

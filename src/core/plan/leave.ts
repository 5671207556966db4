import type { EpochSeconds } from "../units/index.ts";
import { type BoardRow, type KeptDeparture, judgeBoard, keepDepartures, type Progress } from "../window/index.ts";
import { departureTimes } from "./departure-times.ts";
import type { Prepared } from "./prepare.ts";

/** The departures of a passage, tried, felt, judged and decided. */
export interface LeaveAnswer {
  readonly prepared: Prepared;
  readonly departures: readonly EpochSeconds[];
  readonly kept: readonly KeptDeparture[];
  readonly rows: readonly BoardRow[];
}

/** Tries every departure; null when stopped by `progress`. */
export function tryDepartures(prepared: Prepared, progress?: Progress): LeaveAnswer | null {
  const departures = departureTimes(prepared);
  const kept = keepDepartures(prepared.trialOf, departures, prepared.weather, progress);
  if (kept === null) return null;
  return { prepared, departures, kept, rows: judgeBoard(kept, prepared.passage.limits, prepared.weather) };
}

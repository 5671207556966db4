import { offsetMinutesAt } from "../calendar/index.ts";
import { type EpochSeconds, epochSeconds } from "../units/index.ts";
import { LATEST_TRIED_SECONDS } from "../window/index.ts";
import type { Prepared } from "./prepare.ts";

export const DEPARTURE_SPACING_SECONDS = 3600;
/** The most departures tried at once: a month by the hour. */
export const MOST_DEPARTURES = 31 * 24 + 1;

/**
 * The departures to try: on the whole hours of ship's time from `leave.from` to `leave.until`, else over all that both wind and current
 * cover. Empty where that is no time at all.
 */
export function departureTimes(prepared: Prepared): readonly EpochSeconds[] {
  const { passage, weather, current } = prepared;
  const covers = [weather.wind.covers, ...(current.covers === null ? [] : [current.covers])];
  const from = passage.leaveFrom ?? Math.max(...covers.map((span) => span.from));
  const until = passage.leaveUntil ?? Math.min(...covers.map((span) => span.until));
  const offset = offsetMinutesAt(epochSeconds(from), passage.shipZone) * 60;
  const first = Math.ceil((from + offset) / DEPARTURE_SPACING_SECONDS) * DEPARTURE_SPACING_SECONDS - offset;
  const times: EpochSeconds[] = [];
  for (let at = first; at <= until && times.length < MOST_DEPARTURES; at += DEPARTURE_SPACING_SECONDS) times.push(epochSeconds(at));
  return times;
}

/** The departures after one that are tried for its time in hand, so that no door just beyond the last departure asked for is missed. */
export function timesAfter(departAt: number): readonly EpochSeconds[] {
  const many = LATEST_TRIED_SECONDS / DEPARTURE_SPACING_SECONDS;
  return Array.from({ length: many }, (_, k) => epochSeconds(departAt + (k + 1) * DEPARTURE_SPACING_SECONDS));
}

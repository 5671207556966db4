import type { Parsed } from "../core/answers/index.ts";
import { parseLocalTime } from "../core/calendar/index.ts";
import type { Prepared } from "../core/plan/index.ts";
import { type EpochSeconds, epochSeconds } from "../core/units/index.ts";

const WEEKDAY = /\b(?:mon|tue|wed|thu|fri|sat|sun)/i;

/**
 * A departure as typed after a flag, ship's time where it names no zone. A weekday counts from the first departure; an hour alone could be
 * any day of the forecast, and is asked about.
 */
export function departureTyped(text: string, flag: string, { passage, weather }: Prepared): Parsed<EpochSeconds> {
  const counted = WEEKDAY.test(text) ? { reference: passage.leaveFrom ?? epochSeconds(weather.wind.covers.from) } : {};
  return parseLocalTime(text, passage.shipZone, flag, counted);
}

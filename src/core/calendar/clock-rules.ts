import { epochSeconds } from "../units/index.ts";
import { joinedSpans, type OpenSpan } from "./open-spans.ts";
import { type DayHours, inSeason, openings, type Season, type WeeklyHours } from "./timetable.ts";
import { addDays, compareDates, dateAt, firstInstantAtOrPast, isoDate, type LocalDate, type Weekday, weekdayOf } from "./wall-time.ts";

/** When something opens on a day, by the clock there: all through some hours, or at times, each for so many seconds (0: at the instant alone). */
export type RuleOfDay =
  | ({ readonly kind: "hours" } & DayHours)
  | { readonly kind: "times"; readonly minutes: readonly number[]; readonly staysSeconds: number };

/** A rule that holds on some weekdays, all the year or in a season. */
export interface ClockRule {
  readonly weekdays: readonly Weekday[];
  readonly season: Season | null;
  readonly opens: RuleOfDay;
}

/** A week by the clock, any of whose rules opens; on holidays `onHolidays` holds instead, and where that is empty nothing opens. */
export interface ClockRules {
  /** A zone that `parseZone` reads. */
  readonly zone: string;
  readonly rules: readonly ClockRule[];
  readonly holidays: readonly LocalDate[];
  readonly onHolidays: readonly RuleOfDay[];
}

/**
 * When rules by the clock open within a stretch of time. Hours as `openings` has them; times as the local clock first reads them, or,
 * where the clocks are put forward over one, the moment they are. Throws on days and hours that do not exist.
 */
export function ruleSpans(clock: ClockRules, within: OpenSpan): readonly OpenSpan[] {
  if (!(within.until > within.from)) return [];
  const { zone, holidays } = clock;
  const hours: WeeklyHours[] = clock.rules.flatMap(({ weekdays, season, opens }) =>
    opens.kind === "hours" ? [{ ...opens, weekdays, season }] : [],
  );
  const holidayHours = clock.onHolidays.flatMap((opens) => (opens.kind === "hours" ? [opens] : []));
  const bounds = { from: epochSeconds(within.from), until: epochSeconds(within.until) };
  const byHours = openings({ zone, hours, holidays, holidayHours }, bounds);
  return joinedSpans([...byHours, ...timeSpans(clock, within)]);
}

function timeSpans({ zone, rules, holidays, onHolidays }: ClockRules, within: OpenSpan): readonly OpenSpan[] {
  const free = new Set(holidays.map(isoDate));
  const found: OpenSpan[] = [];
  // From the day before: an opening may last past midnight.
  let date = addDays(dateAt(epochSeconds(within.from), zone), -1);
  const last = dateAt(epochSeconds(within.until), zone);
  for (; compareDates(date, last) <= 0; date = addDays(date, 1)) {
    const weekday = weekdayOf(date);
    const holding = free.has(isoDate(date))
      ? onHolidays
      : rules.filter((rule) => rule.weekdays.includes(weekday) && inSeason(date, rule.season)).map((rule) => rule.opens);
    for (const opens of holding) {
      if (opens.kind !== "times") continue;
      for (const minutes of opens.minutes) {
        const at = firstInstantAtOrPast(date, minutes * 60, zone);
        const from = Math.max(within.from, at);
        const until = Math.min(within.until, at + opens.staysSeconds);
        if (from <= until) found.push({ from, until });
      }
    }
  }
  return found;
}

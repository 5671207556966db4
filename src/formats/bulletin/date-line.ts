import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import {
  addDays,
  compareDates,
  dateAt,
  firstInstantAtOrPast,
  firstWeekday,
  formatInstant,
  isoDate,
  type LocalDate,
  resolveWallTime,
  WEEKDAYS,
  weekdayOf,
} from "../../core/calendar/index.ts";
import type { EpochSeconds, Interval } from "../../core/units/index.ts";
import type { WrittenDay, WrittenStretch } from "./forecast-line.ts";

/** From when and in which zone a letter's days are counted. */
export interface LetterClock {
  readonly issuedAt: EpochSeconds;
  readonly zone: string;
}

export interface DatedStretch extends Interval {
  /** The local day it begins on. */
  readonly fromDate: LocalDate;
}

/**
 * Dates a stretch. A weekday is the first such day on or after the day of issue; `previous` is the day the last line of the same kind
 * began on, or null. Two readings (`letter-date-doubtful`) where that day's stretch was over when the letter was issued, or where the
 * line would go back to a day before the previous line's. Also `letter-until-before-from`, `time-skipped`, `time-ambiguous`.
 */
export function dateStretch(stretch: WrittenStretch, clock: LetterClock, previous: LocalDate | null, path: string): Parsed<DatedStretch> {
  const issueDate = dateAt(clock.issuedAt, clock.zone);
  const fromDate = dayAfter(stretch.fromDay, issueDate);
  const untilDate = stretch.untilDay === null ? fromDate : dayAfter(stretch.untilDay, fromDate);
  const from = moment(fromDate, stretch.fromSecond, clock.zone, path);
  const until = moment(untilDate, stretch.untilSecond, clock.zone, path);
  if (!from.ok || !until.ok) return bad(...(from.ok ? [] : from.issues), ...(until.ok ? [] : until.issues));
  if (until.value <= from.value) return bad(issue(path, "letter-until-before-from", "it ends before it begins"));
  if (stretch.fromDay.kind === "weekday") {
    const over = until.value <= clock.issuedAt;
    const back = previous !== null && compareDates(fromDate, previous) < 0;
    if (over || back) {
      const why = over ? `was over when the letter was issued, ${said(clock)}` : `is before the line above`;
      return bad(
        issue(path, "letter-date-doubtful", `the day may be ${dayName(fromDate)}, which ${why}, or ${dayName(addDays(fromDate, 7))}`),
      );
    }
  }
  return good({ from: from.value, until: until.value, fromDate });
}

function dayAfter(day: WrittenDay, from: LocalDate): LocalDate {
  return day.kind === "date" ? day.date : firstWeekday(day.weekday, from);
}

/** Midnight is the moment a day begins, whatever the clocks do over it; another time must come once and once only. */
function moment(date: LocalDate, secondOfDay: number, zone: string, path: string): Parsed<EpochSeconds> {
  if (secondOfDay === 0 || secondOfDay === 86400) return good(firstInstantAtOrPast(date, secondOfDay, zone));
  return resolveWallTime(date, secondOfDay, zone, path);
}

function said(clock: LetterClock): string {
  const pieces = formatInstant(clock.issuedAt, clock.zone);
  return `${pieces.weekdayShort} ${pieces.isoDate} ${pieces.time} ${pieces.offsetLabel}`;
}

const dayName = (date: LocalDate): string => `${WEEKDAYS[weekdayOf(date) - 1]!.slice(0, 3)} ${isoDate(date)}`;

import type { EpochSeconds, Interval } from "../units/index.ts";
import { addDays, compareDates, dateAt, firstInstantAtOrPast, isoDate, type LocalDate, type Weekday, weekdayOf } from "./wall-time.ts";

/** A part of the year, both days included; it may pass the year's end (1 November to 31 March). */
export interface Season {
  readonly from: { readonly month: number; readonly day: number };
  readonly until: { readonly month: number; readonly day: number };
}

/** Hours on the local clock, minutes after midnight, 0 to 1440. `untilMinutes` at or below `fromMinutes` is on the next day. */
export interface DayHours {
  readonly fromMinutes: number;
  readonly untilMinutes: number;
}

/** Hours that hold on some weekdays, all the year or in a season. */
export interface WeeklyHours extends DayHours {
  readonly weekdays: readonly Weekday[];
  readonly season: Season | null;
}

/**
 * When an office, a bridge or a lock is open, on its own clock. Hours belong to the day they begin on: those of the eve run on into a
 * holiday, those of a holiday into the next day.
 */
export interface Timetable {
  /** A zone that `parseZone` reads. */
  readonly zone: string;
  readonly hours: readonly WeeklyHours[];
  /** Days on which `hours` do not hold. */
  readonly holidays: readonly LocalDate[];
  /** The hours on every holiday; none: closed. */
  readonly holidayHours: readonly DayHours[];
}

/**
 * The stretches of time within `within` in which a timetable is open, in UTC, sorted, apart from one another. Hours open and close when
 * the local clock first reads them or, where the clocks are put forward over them, the moment they are; hours that so shrink to nothing
 * are left out. Throws on hours outside 0 to 1440 and on days that do not exist.
 */
export function openings(timetable: Timetable, within: Interval): Interval[] {
  if (!(within.until > within.from)) return [];
  const holidays = new Set(timetable.holidays.map(isoDate));
  const found: Interval[] = [];
  // From two days before: hours that pass midnight belong to the day before, and the first day may be cut.
  let date = addDays(dateAt(within.from, timetable.zone), -2);
  const last = dateAt(within.until, timetable.zone);
  for (; compareDates(date, last) <= 0; date = addDays(date, 1)) {
    for (const hours of hoursOn(date, timetable, holidays)) {
      const from = Math.max(within.from, momentOn(date, hours.fromMinutes, timetable.zone)) as EpochSeconds;
      const nextDay = hours.untilMinutes <= hours.fromMinutes ? 1440 : 0;
      const until = Math.min(within.until, momentOn(date, hours.untilMinutes + nextDay, timetable.zone)) as EpochSeconds;
      if (until > from) found.push({ from, until });
    }
  }
  return joined(found);
}

function hoursOn(date: LocalDate, timetable: Timetable, holidays: ReadonlySet<string>): readonly DayHours[] {
  if (holidays.has(isoDate(date))) return timetable.holidayHours;
  const weekday = weekdayOf(date);
  return timetable.hours.filter((hours) => hours.weekdays.includes(weekday) && inSeason(date, hours.season));
}

/** Whether a day falls into a season; null: any day does. */
export function inSeason(date: LocalDate, season: Season | null): boolean {
  if (season === null) return true;
  const day = date.month * 100 + date.day;
  const from = season.from.month * 100 + season.from.day;
  const until = season.until.month * 100 + season.until.day;
  return from <= until ? day >= from && day <= until : day >= from || day <= until;
}

function momentOn(date: LocalDate, minutes: number, zone: string): EpochSeconds {
  if (!(minutes >= 0 && minutes <= 2880)) throw new Error(`not minutes of a day: ${minutes}`);
  return firstInstantAtOrPast(date, minutes * 60, zone);
}

/** Sorted, with what touches or overlaps made one. */
function joined(intervals: readonly Interval[]): Interval[] {
  const result: Interval[] = [];
  for (const next of intervals.toSorted((a, b) => a.from - b.from)) {
    const last = result.at(-1);
    if (last === undefined || next.from > last.until) result.push(next);
    else if (next.until > last.until) result[result.length - 1] = { from: last.from, until: next.until };
  }
  return result;
}

import { Temporal } from "temporal-polyfill";
import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { type EpochSeconds, epochSeconds } from "../units/index.ts";
import { offsetName, temporalZone } from "./zone.ts";

/** A day of the calendar, months 1 to 12. */
export interface LocalDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** ISO weekdays: Monday is 1, Sunday 7. */
export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;

/** Whether the calendar has the day. */
export function isRealDate(date: LocalDate): boolean {
  return (
    date.month >= 1 &&
    date.month <= 12 &&
    date.day >= 1 &&
    date.day <= Temporal.PlainYearMonth.from({ year: date.year, month: date.month }).daysInMonth
  );
}

/** The weekday of a day. */
export function weekdayOf(date: LocalDate): Weekday {
  return plainDate(date).dayOfWeek as Weekday;
}

/** The day so many days later. */
export function addDays(date: LocalDate, days: number): LocalDate {
  const { year, month, day } = plainDate(date).add({ days });
  return { year, month, day };
}

/** Negative when `a` is the earlier day, 0 when they are the same. */
export function compareDates(a: LocalDate, b: LocalDate): number {
  return a.year - b.year || a.month - b.month || a.day - b.day;
}

/** `2027-04-08`. */
export function isoDate(date: LocalDate): string {
  return `${String(date.year).padStart(4, "0")}-${String(date.month).padStart(2, "0")}-${String(date.day).padStart(2, "0")}`;
}

/** The day that an instant falls on in a zone. */
export function dateAt(at: EpochSeconds, zone: string): LocalDate {
  const { year, month, day } = zoned(at, zone);
  return { year, month, day };
}

/** The instants at which a zone's clock reads a day and seconds of the day (86400 is the next midnight): none when the clock skips it, two when it comes twice. */
export function instantsOfWallTime(date: LocalDate, secondOfDay: number, zone: string): EpochSeconds[] {
  const wall = wallTime(date, secondOfDay);
  const id = temporalZone(zone);
  const earlier = wall.toZonedDateTime(id, { disambiguation: "earlier" });
  const later = wall.toZonedDateTime(id, { disambiguation: "later" });
  if (!earlier.toPlainDateTime().equals(wall)) return [];
  const instants = [secondsOf(earlier)];
  if (later.epochMilliseconds !== earlier.epochMilliseconds) instants.push(secondsOf(later));
  return instants;
}

/**
 * The first instant at which a zone's clock reads a day and seconds of the day, or past them: where the clocks are put forward over the
 * time, the moment they are.
 */
export function firstInstantAtOrPast(date: LocalDate, secondOfDay: number, zone: string): EpochSeconds {
  const wall = wallTime(date, secondOfDay);
  const earlier = wall.toZonedDateTime(temporalZone(zone), { disambiguation: "earlier" });
  if (earlier.toPlainDateTime().equals(wall)) return secondsOf(earlier);
  const jump = earlier.getTimeZoneTransition("next");
  if (jump === null) throw new Error(`no change of clocks found after ${earlier.toString()}`);
  return secondsOf(jump);
}

/** One wall time as one instant; `time-skipped` or `time-ambiguous` (with both readings) where there is none or two. */
export function resolveWallTime(date: LocalDate, secondOfDay: number, zone: string, path: string): Parsed<EpochSeconds> {
  const instants = instantsOfWallTime(date, secondOfDay, zone);
  if (instants.length === 1) return good(instants[0]!);
  const said = `${isoDate(addDays(date, Math.floor(secondOfDay / 86400)))} ${clock(secondOfDay % 86400)}`;
  if (instants.length === 2) {
    const readings = instants.map((at) => `${clock(secondOfDay % 86400)} ${offsetName(offsetMinutesAt(at, zone))} (${isoInstant(at)})`);
    return bad(issue(path, "time-ambiguous", `${said} comes twice in ${zone}: ${readings.join(" or ")}`));
  }
  const jumpAt = firstInstantAtOrPast(date, secondOfDay, zone);
  const before = clock(secondOfLocalDay(jumpAt, offsetMinutesAt(epochSeconds(jumpAt - 1), zone)));
  const after = clock(secondOfLocalDay(jumpAt, offsetMinutesAt(jumpAt, zone)));
  return bad(issue(path, "time-skipped", `${said} never comes in ${zone}: the clocks go from ${before} to ${after}`));
}

function secondOfLocalDay(at: EpochSeconds, offsetMinutes: number): number {
  return (((at + offsetMinutes * 60) % 86400) + 86400) % 86400;
}

/** A zone's offset from UTC at an instant, minutes, east positive. */
export function offsetMinutesAt(at: EpochSeconds, zone: string): number {
  return zoned(at, zone).offsetNanoseconds / 60e9;
}

/** `2027-04-08T16:00Z`, with seconds where there are any. */
export function isoInstant(at: EpochSeconds): string {
  const seconds = Math.round(at);
  const text = new Date(seconds * 1000).toISOString();
  return text.replace(seconds % 60 === 0 ? /:\d\d\.000Z$/ : /\.000Z$/, "Z");
}

/** An instant on a zone's clock. */
export function zoned(at: EpochSeconds, zone: string): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(Math.round(at * 1000)).toZonedDateTimeISO(temporalZone(zone));
}

function plainDate(date: LocalDate): Temporal.PlainDate {
  return Temporal.PlainDate.from({ year: date.year, month: date.month, day: date.day }, { overflow: "reject" });
}

function wallTime(date: LocalDate, secondOfDay: number): Temporal.PlainDateTime {
  return plainDate(date).toPlainDateTime().add({ seconds: secondOfDay });
}

function secondsOf(at: Temporal.ZonedDateTime): EpochSeconds {
  return epochSeconds(at.epochMilliseconds / 1000);
}

/** `06:00`, with seconds where there are any. */
function clock(secondOfDay: number): string {
  const two = (number: number) => String(number).padStart(2, "0");
  const seconds = secondOfDay % 60;
  return `${two(Math.floor(secondOfDay / 3600))}:${two(Math.floor(secondOfDay / 60) % 60)}${seconds === 0 ? "" : `:${two(seconds)}`}`;
}

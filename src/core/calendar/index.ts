/**
 * Calendar: zones, local dates and times as people write them, and local timetables as intervals in UTC. Instants are `EpochSeconds`;
 * a zone is a name that `parseZone` reads (`UTC-10`, `Pacific/Tahiti`). Where a date or a time has two readings it is asked about.
 */
export * from "./clock-rules.ts";
export { formatInstant, type InstantPieces, MONTHS, WEEKDAYS } from "./instant-pieces.ts";
export * from "./open-spans.ts";
export { type DayHours, openings, type Season, type Timetable, type WeeklyHours } from "./timetable.ts";
export {
  addDays,
  compareDates,
  dateAt,
  firstInstantAtOrPast,
  isoDate,
  isoInstant,
  isRealDate,
  type LocalDate,
  offsetMinutesAt,
  resolveWallTime,
  type Weekday,
  weekdayOf,
} from "./wall-time.ts";
export { type LeadingDate, parseLocalDate, takeDate } from "./written-date.ts";
export { parseSeason, parseWeekdays } from "./written-days.ts";
export { firstWeekday, type LeadingTime, parseLocalTime, parseTimeAndZone, takeTime } from "./written-time.ts";
export { offsetName, parseZone } from "./zone.ts";

import { formatInstant } from "../core/calendar/index.ts";
import { epochSeconds } from "../core/units/index.ts";

/** A no-break space: a duration or a quantity never parts at a line's end. */
const NBSP = "\u00a0";

/** `20:00` in a zone. */
export function clock(at: number, zone: string): string {
  return formatInstant(epochSeconds(at), zone).time;
}

/** `Thu 20:00` in a zone. */
export function dayAndClock(at: number, zone: string): string {
  const pieces = formatInstant(epochSeconds(at), zone);
  return `${pieces.weekdayShort} ${pieces.time}`;
}

/** A weekday alone says which day it is for less than this, seconds. */
const WEEKDAY_SERVES_SECONDS = 6 * 86400;

/** `Thu 20:00` in a zone, with its date where it lies so far from `near` that another Thursday may be meant: `Thu 8 Apr 20:00`. */
export function dayAndClockNear(at: number, near: number, zone: string): string {
  if (Math.abs(at - near) < WEEKDAY_SERVES_SECONDS) return dayAndClock(at, zone);
  const { weekdayShort, date, monthShort, time } = formatInstant(epochSeconds(at), zone);
  return `${weekdayShort} ${date.day} ${monthShort} ${time}`;
}

/** `Thursday 20:00` in a zone, with its date where it lies so far from `near` that another Thursday may be meant. */
export function longDayAndClockNear(at: number, near: number, zone: string): string {
  const { weekdayLong, date, monthLong, time } = formatInstant(epochSeconds(at), zone);
  return Math.abs(at - near) < WEEKDAY_SERVES_SECONDS ? `${weekdayLong} ${time}` : `${weekdayLong} ${date.day} ${monthLong} ${time}`;
}

/** `Thursday 8 April 2027` in a zone. */
export function longDate(at: number, zone: string): string {
  const { weekdayLong, date, monthLong } = formatInstant(epochSeconds(at), zone);
  return `${weekdayLong} ${date.day} ${monthLong} ${date.year}`;
}

/** `Thu 8 Apr 2027, 20:00 UTC-8`: everything, for a time that stands alone. */
export function fullTime(at: number, zone: string): string {
  const { weekdayShort, date, monthShort, time, offsetLabel } = formatInstant(epochSeconds(at), zone);
  return `${weekdayShort} ${date.day} ${monthShort} ${date.year}, ${time} ${offsetLabel}`;
}

/** The zone's offset at an instant: `UTC-8`. */
export function zoneLabel(at: number, zone: string): string {
  return formatInstant(epochSeconds(at), zone).offsetLabel;
}

/** `7 h 20`, `45 min`; seconds are rounded to the minute. */
export function duration(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60);
  const sign = seconds < 0 && minutes > 0 ? "−" : "";
  if (minutes < 60) return `${sign}${minutes}${NBSP}min`;
  return `${sign}${Math.floor(minutes / 60)}${NBSP}h${NBSP}${String(minutes % 60).padStart(2, "0")}`;
}

/** A difference with its sign: `+14 min`, `−3 min`, `0 min`. */
export function signedDuration(seconds: number): string {
  return Math.round(seconds / 60) > 0 ? `+${duration(seconds)}` : duration(seconds);
}

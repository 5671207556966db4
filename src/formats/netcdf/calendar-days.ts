/** The Julian calendar's last day was 4 October 1582; the next day was 15 October in the Gregorian. */
const FIRST_GREGORIAN = { year: 1582, month: 10, day: 15 };

/** The Julian day number that begins at noon of 1970-01-01. */
const JULIAN_DAY_OF_1970 = 2440588;

/**
 * Days from 1970-01-01 to a date, negative before. By way of the Julian day number, by the method of Richards,
 * *Explanatory Supplement to the Astronomical Almanac* (3rd ed., 2013), chapter 15. `mixed` (CF's "standard" or "gregorian" calendar): dates
 * before 1582-10-15 are Julian, so that "since 1-1-1" lies two days before the proleptic Gregorian date of that name.
 */
export function daysFromDate(year: number, month: number, day: number, calendar: "mixed" | "proleptic"): number {
  const { year: y0, month: m0, day: d0 } = FIRST_GREGORIAN;
  const isJulian = calendar === "mixed" && (year < y0 || (year === y0 && (month < m0 || (month === m0 && day < d0))));
  const g = year + 4716 - (month < 3 ? 1 : 0);
  const f = (month + 9) % 12;
  const julianDay = Math.floor((1461 * g) / 4) + Math.floor((153 * f + 2) / 5) + day - 1 - 1401;
  const century = Math.floor((g + 184) / 100);
  const dayNumber = isJulian ? julianDay : julianDay - Math.floor((3 * century) / 4) + 38;
  return dayNumber - JULIAN_DAY_OF_1970;
}

const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Whether there is such a date (29 February only in leap years of either calendar). */
export function isDate(year: number, month: number, day: number, calendar: "mixed" | "proleptic"): boolean {
  if (month < 1 || month > 12 || day < 1) return false;
  const isGregorian = calendar === "proleptic" || year > FIRST_GREGORIAN.year;
  const isLeap = year % 4 === 0 && (!isGregorian || year % 100 !== 0 || year % 400 === 0);
  const days = month === 2 && isLeap ? 29 : DAYS_IN_MONTH[month - 1]!;
  return day <= days;
}

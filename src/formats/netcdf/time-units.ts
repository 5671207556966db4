import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { daysFromDate, isDate } from "./calendar-days.ts";

/** How a file counts time: `seconds of the epoch = originAt + number × secondsPerUnit`, rounded to the nearest second. */
export interface TimeUnits {
  readonly originAt: number;
  readonly secondsPerUnit: number;
}

/** Spellings of units of time in UDUNITS-2 and in the files met; months and years are no fixed time and are refused. */
const secondsPerUnit: ReadonlyMap<string, number> = new Map([
  ...["day", "days", "d"].map((word) => [word, 86400] as const),
  ...["hour", "hours", "hr", "hrs", "h"].map((word) => [word, 3600] as const),
  ...["minute", "minutes", "min", "mins"].map((word) => [word, 60] as const),
  ...["second", "seconds", "sec", "secs", "s"].map((word) => [word, 1] as const),
  ...["millisecond", "milliseconds", "msec", "msecs", "ms"].map((word) => [word, 0.001] as const),
]);

const SINCE = /^\s*([a-z]+)\s+(?:since|after|from|ref|@)\s+(.+?)\s*$/i;
const DATE = /^([+-]?\d{1,4})-(\d{1,2})(?:-(\d{1,2}))?(?:(?:\s+|\s*[tT]\s*)(.*))?$/;
const COMPACT_DATE = /^(\d{4})(\d{2})(\d{2})(?:(?:\s+|\s*[tT]\s*)(.*))?$/;
const CLOCK = /^(\d{1,2})(?::?(\d{1,2})(?::?(\d{1,2}(?:\.\d*)?))?)?\s*(.*)$/;
const ZONE = /^(?:(?:utc|gmt|z)?\s*(?:([+-])(\d{1,2})(?::?(\d{2}))?)?)$/i;

/** Whether a unit reads as a time: "hours since …". */
export const looksLikeTimeUnits = (units: string): boolean => /^\s*[a-z]+\s+(since|after|from|ref|@)\s+/i.test(units);

/**
 * Reads the units of a time coordinate as CF 1.11, 4.4 gives them (after UDUNITS-2): "hours since 2000-01-01 00:00", "Hour since
 * 2023-02-28T00:00:00Z", "days since 2006-1-1", with a zone as `Z`, `UTC` or ±h:mm (none means UTC). `calendar` is the attribute's text, empty for none.
 */
export function readTimeUnits(path: string, units: string, calendar: string): Parsed<TimeUnits> {
  const kind = calendarKind(calendar);
  if (kind === null) {
    return bad(issue(path, "calendar-not-read", `Its calendar is "${calendar}", which is not that of real dates.`));
  }
  const doubtful = (): Parsed<TimeUnits> => bad(issue(path, "time-not-read", `The unit of time "${units}" can't be read.`));
  const since = SINCE.exec(units);
  const each = since ? secondsPerUnit.get(since[1]!.toLowerCase()) : undefined;
  if (!since || each === undefined) return doubtful();
  const date = DATE.exec(since[2]!) ?? COMPACT_DATE.exec(since[2]!);
  if (!date) return doubtful();
  const [year, month, day] = [Number(date[1]), Number(date[2]), Number(date[3] ?? 1)];
  if (!isDate(year, month, day, kind)) return doubtful();
  const seconds = secondsOfClock(date[4]?.trim() ?? "");
  if (seconds === null) return doubtful();
  return good({ originAt: daysFromDate(year, month, day, kind) * 86400 + seconds, secondsPerUnit: each });
}

/** Seconds of the UTC epoch, to the nearest second: files write fractions of days that fall a little short. */
export const secondsFrom = (units: TimeUnits, count: number): number => Math.round(units.originAt + count * units.secondsPerUnit);

/** Five decimals of a day are 0.9 s: fractions written as text, and what is computed from them, are off by this much (common practice). */
const DAY_FRACTION_SECONDS = 1;

/**
 * How far rounding may have moved times, seconds: half of the last binary digit of the largest count in single precision, and a little
 * for fractions of days. 0 for counts that are exact.
 */
export function roundingSeconds(units: TimeUnits, counts: Float64Array, isSingle: boolean): number {
  let slack = units.secondsPerUnit === 86400 ? DAY_FRACTION_SECONDS : 0;
  if (isSingle) {
    let largest = 0;
    for (const count of counts) largest = Math.max(largest, Math.abs(count));
    // 24 binary digits: the last of a number in [2^n, 2^(n+1)) is worth 2^(n−23).
    if (largest > 0) slack += 0.5 * 2 ** (Math.floor(Math.log2(largest)) - 23) * units.secondsPerUnit;
  }
  return slack;
}

/** What forecasts step by, seconds, the coarser first. */
const WHOLE_STEPS = [3600, 1800, 900, 600, 300, 60];

/**
 * Times moved to the whole hours, or halves, quarters and so on down to minutes, that all of them lie within `slackSeconds` of; as they
 * are where there is no such step, or where the slack is so wide that any time would fit one.
 */
export function withoutRounding(times: Float64Array, slackSeconds: number): Float64Array {
  if (slackSeconds <= 0) return times;
  for (const step of WHOLE_STEPS) {
    if (step < 4 * slackSeconds) return times;
    const moved = times.map((at) => step * Math.round(at / step));
    if (moved.every((at, index) => Math.abs(at - times[index]!) <= slackSeconds + 0.5)) return moved;
  }
  return times;
}

/** CF 1.11, 4.4.1. No calendar means the standard one. */
function calendarKind(calendar: string): "mixed" | "proleptic" | null {
  const word = calendar.trim().toLowerCase();
  if (word === "" || word === "standard" || word === "gregorian" || word === "utc") return "mixed";
  return word === "proleptic_gregorian" ? "proleptic" : null;
}

/** "06:30:00.0 +2:00" to seconds after midnight UTC; null when it can't be read. */
function secondsOfClock(text: string): number | null {
  if (text === "") return 0;
  const clock = CLOCK.exec(text);
  const [hours, minutes, seconds] = clock ? [Number(clock[1]), Number(clock[2] ?? 0), Number(clock[3] ?? 0)] : [0, 0, 0];
  const zone = ZONE.exec(clock ? clock[4]!.trim() : text);
  if (!zone || hours > 24 || minutes > 59 || seconds >= 61) return null;
  const eastSeconds = zone[1] ? (zone[1] === "-" ? -1 : 1) * (Number(zone[2]) * 3600 + Number(zone[3] ?? 0) * 60) : 0;
  return hours * 3600 + minutes * 60 + seconds - eastSeconds;
}

import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { type EpochSeconds, quoted, tidy } from "../units/index.ts";
import { formatInstant, WEEKDAYS } from "./instant-pieces.ts";
import { addDays, dateAt, isoDate, type LocalDate, resolveWallTime, weekdayOf } from "./wall-time.ts";
import { type LeadingDate, takeDate } from "./written-date.ts";
import { parseZone } from "./zone.ts";

/** A time of day taken from the beginning of a text: seconds after midnight (86400 for 2400); and what is left. */
export interface LeadingTime {
  readonly secondOfDay: number;
  readonly rest: string;
}

const CLOCK = /^(?:(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?|(\d{2})(\d{2}))(?!\d)(?: ?(?:hours|hrs|h)\b\.?)?/i;

/** Takes a time of day: `0600`, `06:00`, `6:00`, `06:00:30`, `0600h`, `2400`. Null where there is none, an issue where it is no real one. */
export function takeTime(written: string, text: string, path: string): LeadingTime | Issue | null {
  const found = CLOCK.exec(written);
  if (found === null) return null;
  const hours = Number(found[1] ?? found[4]);
  const minutes = Number(found[2] ?? found[5]);
  const seconds = Number(found[3] ?? 0);
  const secondOfDay = hours * 3600 + minutes * 60 + seconds;
  if (minutes > 59 || seconds > 59 || secondOfDay > 86400)
    return issue(path, "date-not-real", `${quoted(text)}: there is no such time of day`);
  return { secondOfDay, rest: written.slice(found[0].length) };
}

/**
 * A date and a time as written → an instant. `2027-04-08 0600`, `2027-04-08T06:00Z`, `2027-04-08 0600 UTC-10`, `8 Apr 2027 0600`,
 * `TUE 06 APR 2027 1910 UTC-10`, `0930 local`, `THU 0600`. `zone` holds where the text names none (`zone-missing` when it is null). A
 * weekday or a time alone is counted from `reference`: the first such day on or after the day the reference falls on; when it is that
 * very day and the time is past, there are two readings and it is asked about (`date-doubtful`).
 */
export function parseLocalTime(
  text: string,
  zone: string | null,
  path: string,
  options: { readonly reference?: EpochSeconds } = {},
): Parsed<EpochSeconds> {
  const read = parseTimeAndZone(text, zone, path, options);
  return read.ok ? good(read.value.at) : read;
}

/** As `parseLocalTime`, and also the zone that the text itself names (null where it names none). */
export function parseTimeAndZone(
  text: string,
  zone: string | null,
  path: string,
  options: { readonly reference?: EpochSeconds } = {},
): Parsed<{ readonly at: EpochSeconds; readonly zoneNamed: string | null }> {
  const notRead = (what = "a date and a time") => bad(issue(path, "time-not-understood", `${quoted(text)} is not understood as ${what}`));
  const written = tidy(text);
  if (written.length > 100) return notRead();
  const leading = takeDate(written, text, path);
  if ("code" in leading) return bad(leading);
  const afterDate = leading.rest.replace(leading.date === null ? /^ ?at /i : /^(?:t(?=\d)|,? ?(?:at )?)/i, "");
  const time = takeTime(afterDate, text, path);
  if (time === null)
    return afterDate === "" && leading.date !== null
      ? bad(issue(path, "time-missing", `${quoted(text)} has a date but no time`))
      : notRead();
  if ("code" in time) return bad(time);
  const named = zoneAfter(time.rest, /^t\d/i.test(leading.rest), text, path);
  if (named === null) return notRead();
  if (!named.ok) return named;
  const holds = named.value ?? zone;
  if (holds === null) return bad(issue(path, "zone-missing", `${quoted(text)} names no zone`));
  if (leading.date === null && options.reference === undefined) return bad(issue(path, "date-missing", `${quoted(text)} has no date`));
  const at =
    leading.date === null
      ? nextAfter(options.reference!, leading, time.secondOfDay, holds, text, path)
      : resolveWallTime(leading.date, time.secondOfDay, holds, path);
  return at.ok ? good({ at: at.value, zoneNamed: named.value }) : at;
}

/**
 * The zone that stands after the time: its name; null for `local` or none; a null answer where it can't be one at all. A bare offset
 * is read after the `T` of the standard form only: "06:00-12:00" is a stretch of time to most people.
 */
function zoneAfter(afterTime: string, standardForm: boolean, text: string, path: string): Parsed<string | null> | null {
  const rest = afterTime.trim();
  if (rest === "" || /^(?:local|local time|lt)$/i.test(rest)) return good(null);
  const bareOffset = /^[+-]\d{2}:?\d{2}$/.test(rest);
  if (bareOffset ? !standardForm : !/^[a-z]/i.test(rest)) return null;
  const zone = parseZone(bareOffset ? `UTC${rest}` : rest, path);
  if (zone.ok || afterTime.startsWith(" ") || bareOffset) return zone;
  return bad(issue(path, "time-not-understood", `${quoted(text)} is not understood as a date and a time`));
}

/** The day a weekday means, counted from an instant on: the first such day on or after the day that the instant falls on. */
export function firstWeekday(weekday: number, from: LocalDate): LocalDate {
  return addDays(from, (weekday - weekdayOf(from) + 7) % 7);
}

function nextAfter(
  reference: EpochSeconds,
  leading: LeadingDate,
  secondOfDay: number,
  zone: string,
  text: string,
  path: string,
): Parsed<EpochSeconds> {
  const today = dateAt(reference, zone);
  const date = leading.weekday === null ? today : firstWeekday(leading.weekday, today);
  const at = resolveWallTime(date, secondOfDay, zone, path);
  if (!at.ok || at.value >= reference) return at;
  const later = addDays(date, leading.weekday === null ? 1 : 7);
  const said = [date, later].map((day) => `${WEEKDAYS[weekdayOf(day) - 1]!.slice(0, 3)} ${isoDate(day)}`);
  const from = formatInstant(reference, zone);
  return bad(
    issue(
      path,
      "date-doubtful",
      `${quoted(text)} may be ${said.join(" or ")}, counted from ${from.isoDate} ${from.time} ${from.offsetLabel}`,
    ),
  );
}

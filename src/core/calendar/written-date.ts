import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { quoted, tidy } from "../units/index.ts";
import { MONTHS, WEEKDAYS } from "./instant-pieces.ts";
import { isoDate, isRealDate, type LocalDate, type Weekday, weekdayOf } from "./wall-time.ts";

/** What stood at the beginning of a text: a weekday, a date, both or neither; and what is left. */
export interface LeadingDate {
  readonly weekday: Weekday | null;
  readonly date: LocalDate | null;
  readonly rest: string;
}

const WEEKDAY = /^(mon(?:day)?|tue(?:s|sday)?|wed(?:s|nesday)?|thu(?:r|rs|rsday)?|fri(?:day)?|sat(?:urday)?|sun(?:day)?)\b[.,]? ?/i;
// Years of four figures from 1900 to 2199: "8 Apr 0600" has a time and no year.
const ISO = /^((?:19|20|21)\d{2})-(\d{2})-(\d{2})(?!\d)/;
const DAY_MONTH = /^(\d{1,2})(?:st|nd|rd|th)?[ -]([a-z]{3,9})\.?,?[ -]((?:19|20|21)\d{2})(?!\d)/i;
const MONTH_DAY = /^([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? ((?:19|20|21)\d{2})(?!\d)/i;
const FIGURES = /^(\d{1,2})([/.-])(\d{1,2})\2((?:19|20|21)\d{2})(?!\d)/;

/**
 * Takes a weekday and a date from the beginning of a tidied text: `THU`, `Thursday`, `2027-04-08`, `8 Apr 2027`, `April 8, 2027`,
 * `TUE 06 APR 2027`, `13/04/2027`. `04/05/2027` has two readings and is an issue (`date-ambiguous`), as are a day that does not exist
 * (`date-not-real`) and a weekday that the date does not fall on (`weekday-mismatch`). `text` is what was typed, for the messages.
 */
export function takeDate(written: string, text: string, path: string): LeadingDate | Issue {
  const day = WEEKDAY.exec(written);
  const weekday =
    day === null ? null : ((WEEKDAYS.findIndex((name) => name.toLowerCase().startsWith(day[1]!.slice(0, 3).toLowerCase())) + 1) as Weekday);
  const body = day === null ? written : written.slice(day[0].length);
  const found = readDate(body, text, path);
  if (found === null) return { weekday, date: null, rest: body };
  if ("code" in found) return found;
  const { date, rest } = found;
  if (!isRealDate(date)) return issue(path, "date-not-real", `${quoted(text)}: there is no ${isoDate(date)}`);
  if (weekday !== null && weekdayOf(date) !== weekday) {
    return issue(path, "weekday-mismatch", `${quoted(text)}: ${isoDate(date)} is a ${WEEKDAYS[weekdayOf(date) - 1]!}`);
  }
  return { weekday, date, rest };
}

/** A date alone, as for a holiday. Codes: those of `takeDate`, and `time-not-understood` where it is no date. */
export function parseLocalDate(text: string, path: string): Parsed<LocalDate> {
  const taken = takeDate(tidy(text), text, path);
  if ("code" in taken) return bad(taken);
  if (taken.date === null || taken.rest !== "")
    return bad(issue(path, "time-not-understood", `${quoted(text)} is not understood as a date`, "Write it as 2027-04-08."));
  return good(taken.date);
}

function readDate(body: string, text: string, path: string): { date: LocalDate; rest: string } | Issue | null {
  const rest = (found: RegExpExecArray) => body.slice(found[0].length);
  const iso = ISO.exec(body);
  if (iso !== null) return { date: { year: Number(iso[1]), month: Number(iso[2]), day: Number(iso[3]) }, rest: rest(iso) };
  const dayFirst = DAY_MONTH.exec(body);
  if (dayFirst !== null) return named(dayFirst[1]!, dayFirst[2]!, dayFirst[3]!, rest(dayFirst));
  const monthFirst = MONTH_DAY.exec(body);
  if (monthFirst !== null) return named(monthFirst[2]!, monthFirst[1]!, monthFirst[3]!, rest(monthFirst));
  const figures = FIGURES.exec(body);
  if (figures === null) return null;
  const [first, second, year] = [Number(figures[1]), Number(figures[3]), Number(figures[4])];
  const readings = [
    { year, month: second, day: first },
    { year, month: first, day: second },
  ].filter(isRealDate);
  const [one, other] = readings;
  if (one === undefined) return issue(path, "date-not-real", `${quoted(text)}: there is no such day`);
  if (other !== undefined && first !== second)
    return issue(path, "date-ambiguous", `${quoted(text)} may be ${isoDate(one)} or ${isoDate(other)}`);
  return { date: one, rest: rest(figures) };
}

function named(day: string, monthName: string, year: string, rest: string): { date: LocalDate; rest: string } | null {
  const name = monthName.toLowerCase().replace(/^sept$/, "sep");
  const month = MONTHS.findIndex((full) => full.toLowerCase() === name || full.slice(0, 3).toLowerCase() === name) + 1;
  return month === 0 ? null : { date: { year: Number(year), month, day: Number(day) }, rest };
}

import { type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { type LocalDate, takeDate, takeTime, type Weekday } from "../../core/calendar/index.ts";
import { parseSea, parseWindRange, type SeaRange, tidy, type WindRange } from "../../core/units/index.ts";

/** A day as a forecast line names it: a weekday, or a date. */
export type WrittenDay = { readonly kind: "weekday"; readonly weekday: Weekday } | { readonly kind: "date"; readonly date: LocalDate };

/** A stretch of local time as written. `untilDay` null: the day it begins on. Seconds of the day run to 86400, the next midnight. */
export interface WrittenStretch {
  readonly fromDay: WrittenDay;
  readonly fromSecond: number;
  readonly untilDay: WrittenDay | null;
  readonly untilSecond: number;
}

/** A forecast line, read but not yet dated: `THU 1800-FRI 0600 N-NE 15-20 G28 SEA 3-4 ft @ 7 s`. At least one of wind and sea stands. */
export interface ForecastLine {
  readonly stretch: WrittenStretch;
  readonly wind: WindRange | null;
  readonly sea: SeaRange | null;
}

const TO = /^ ?(?:-|to\b|until\b) ?/i;
const HOUR = /^(\d{1,2})(?![\d:.])(?: ?h\b)?/i;
const SEA = /(?:^|[ ,;])seas?:? /i;

/** Reads a line of a letter: the issues in it, or null when it has not the form of a forecast line at all. */
export function readForecastLine(text: string, path: string): Parsed<ForecastLine> | null {
  const written = tidy(text)
    .replace(/^[-*•] /, "")
    .replace(/[.,;]+$/, "");
  const issues: Issue[] = [];
  const stretched = takeStretch(written, text, path, issues);
  if (stretched === null) return issues.length > 0 ? { ok: false, issues } : null;
  const body = stretched.rest.replace(/^ ?[:,;]? ?/, "");
  const sea = SEA.exec(body);
  const windText = (sea === null ? body : body.slice(0, sea.index)).replace(/^winds?:? /i, "").replace(/[ ,;.]+$/, "");
  if (sea === null && windText === "") return null;
  const wind = windText === "" ? null : parseWindRange(windText, path);
  const seas = sea === null ? null : parseSea(body.slice(sea.index + sea[0].length), path);
  for (const part of [wind, seas]) if (part !== null && !part.ok) issues.push(...part.issues);
  if (issues.length > 0 || wind?.ok === false || seas?.ok === false) return { ok: false, issues };
  return { ok: true, value: { stretch: stretched.stretch, wind: wind?.value ?? null, sea: seas?.value ?? null } };
}

/** The stretch of time at the beginning of a line; null where there is none, with an issue on the list where that is plain. */
function takeStretch(written: string, text: string, path: string, issues: Issue[]): { stretch: WrittenStretch; rest: string } | null {
  const first = takeDay(written, text, path, issues);
  if (first === null) return null;
  const afterDay = first.rest.replace(/^ ?[:,]? ?/, "");
  const to = TO.exec(first.rest);
  if (to !== null) {
    const last = takeDay(first.rest.slice(to[0].length), text, path, issues);
    // "SAT-SUN": whole days. Times after two days could be either day's.
    if (last === null || takeClock(last.rest.trimStart(), text, path, []) !== null) return null;
    return { stretch: { fromDay: first.day, fromSecond: 0, untilDay: last.day, untilSecond: 86400 }, rest: last.rest };
  }
  const from = takeClock(afterDay, text, path, issues);
  if (issues.length > 0) return null;
  if (from === null) return { stretch: { fromDay: first.day, fromSecond: 0, untilDay: null, untilSecond: 86400 }, rest: first.rest };
  const until = TO.exec(from.rest);
  if (until === null) {
    if (!from.hourOnly) issues.push(issue(path, "letter-until-missing", "the line says when it begins but not when it ends"));
    return null;
  }
  const afterTo = from.rest.slice(until[0].length);
  const untilDay = takeDay(afterTo, text, path, issues);
  const end = takeClock(untilDay === null ? afterTo : untilDay.rest.trimStart(), text, path, issues);
  if (end === null || issues.length > 0) return null;
  if (untilDay === null && end.secondOfDay <= from.secondOfDay) {
    issues.push(issue(path, "letter-until-before-from", "it ends before it begins"));
    return null;
  }
  const stretch = { fromDay: first.day, fromSecond: from.secondOfDay, untilDay: untilDay?.day ?? null, untilSecond: end.secondOfDay };
  return { stretch, rest: end.rest };
}

function takeDay(written: string, text: string, path: string, issues: Issue[]): { day: WrittenDay; rest: string } | null {
  const taken = takeDate(written, text, path);
  if ("code" in taken) {
    issues.push(taken);
    return null;
  }
  if (taken.date !== null) return { day: { kind: "date", date: taken.date }, rest: taken.rest };
  return taken.weekday === null ? null : { day: { kind: "weekday", weekday: taken.weekday }, rest: taken.rest };
}

/** A time of day, `0600` or `06:00`, or hours alone as in `00-06`. */
function takeClock(
  written: string,
  text: string,
  path: string,
  issues: Issue[],
): { secondOfDay: number; rest: string; hourOnly: boolean } | null {
  const time = takeTime(written, text, path);
  if (time !== null) {
    if (!("code" in time)) return { ...time, hourOnly: false };
    issues.push(time);
    return null;
  }
  const hour = HOUR.exec(written);
  if (hour === null) return null;
  const hours = Number(hour[1]);
  if (hours > 24) return null;
  return { secondOfDay: hours * 3600, rest: written.slice(hour[0].length), hourOnly: true };
}

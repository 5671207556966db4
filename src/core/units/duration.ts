import { bad, type Issue, issue, type Parsed } from "../answers/index.ts";
import { commaIssue, notUnderstood } from "./amount.ts";
import { type Bounds, withinBounds } from "./bounds.ts";
import { LONGEST_QUANTITY, quoted, tidy } from "./written.ts";

const READS = "d, h, min or s (1 h 30 min, 90 min, 1:30)";
const HOURS = 1;
const SECONDS = 3;
/** Days, hours, minutes, seconds: seconds in each, and how many of it the next greater unit holds. */
const SECONDS_IN = [86400, 3600, 60, 1];
const FULL_AT = [Number.POSITIVE_INFINITY, 24, 60, 60];
const UNIT_NAMES = [
  ["d", "day", "days"],
  ["h", "hr", "hrs", "hour", "hours"],
  ["m", "min", "mins", "minute", "minutes"],
  ["s", "sec", "secs", "second", "seconds"],
];

/**
 * `1 h 30`, `90 min`, `1:30` (hours and minutes), `1:30:15`, `45 s`, `2 d 6 h` → seconds. Greater units come first; only the last may
 * have decimals; a last number without a unit is the next smaller one after hours or minutes. A bare nought needs no unit.
 */
export function parseDuration(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  const written = tidy(text).toLowerCase();
  if (written.length > LONGEST_QUANTITY) return bad(notUnderstood(text, path, "a duration", READS));
  const comma = commaIssue(written, text, path);
  if (comma !== null) return bad(comma);
  const minus = /^- ?/.exec(written);
  const body = minus === null ? written : written.slice(minus[0].length);
  const seconds = body.includes(":") ? fromClock(body, text, path) : fromParts(body, text, path);
  if (typeof seconds !== "number") return bad(seconds);
  return withinBounds(minus === null ? seconds : -seconds, bounds, "s", text, path);
}

function fromClock(body: string, text: string, path: string): number | Issue {
  const found = /^(\d+):(\d\d)(?::(\d\d))? ?(?:h|hrs?|hours?)?$/.exec(body);
  if (found === null) return notUnderstood(text, path, "a duration", READS);
  const minutes = Number(found[2]);
  const seconds = Number(found[3] ?? 0);
  if (minutes >= 60 || seconds >= 60) return tooMany(text, path);
  return Number(found[1]) * 3600 + minutes * 60 + seconds;
}

function fromParts(body: string, text: string, path: string): number | Issue {
  let rest = body;
  let total = 0;
  let previous: number | null = null;
  while (rest !== "") {
    const found = /^(\d+(?:\.\d+)?|\.\d+) ?([a-z]*)(?:$|[ ,]+|(?=\d))/.exec(rest);
    if (found === null) return notUnderstood(text, path, "a duration", READS);
    const number = Number(found[1]);
    const name = found[2]!;
    rest = rest.slice(found[0].length);
    let unit: number;
    if (name !== "") {
      unit = UNIT_NAMES.findIndex((names) => names.includes(name));
      if (unit < 0) return issue(path, "unit-unknown", `${quoted(text)}: “${name}” is no unit of time; it is read in ${READS}`);
    } else if (previous !== null && previous >= HOURS && previous < SECONDS && rest === "") {
      unit = previous + 1;
    } else if (previous === null && rest === "" && number === 0) {
      return 0;
    } else {
      return issue(path, "unit-missing", `${quoted(text)} has no unit; a duration is read in ${READS}`);
    }
    if (previous !== null && unit <= previous) return notUnderstood(text, path, "a duration", READS);
    if (previous !== null && number >= FULL_AT[unit]!) return tooMany(text, path);
    if (rest !== "" && found[1]!.includes(".")) return notUnderstood(text, path, "a duration", READS);
    total += number * SECONDS_IN[unit]!;
    previous = unit;
  }
  return previous === null ? notUnderstood(text, path, "a duration", READS) : total;
}

function tooMany(text: string, path: string): Issue {
  return issue(path, "out-of-range", `${quoted(text)}: hours after days go up to 24, minutes and seconds after a greater unit up to 60`);
}

import { bad, good, issue, type Parsed } from "../answers/index.ts";
import { quoted, tidy } from "../units/index.ts";
import { MONTHS, WEEKDAYS } from "./instant-pieces.ts";
import type { Season } from "./timetable.ts";
import { isRealDate, type Weekday } from "./wall-time.ts";

const ALL: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];

/** `daily`, `mon-fri`, `sat, sun`, `Fri-Mon` (over the week's end) → weekdays in order, each once. Code: `unknown-word`. */
export function parseWeekdays(text: string, path: string): Parsed<readonly Weekday[]> {
  const written = tidy(text).toLowerCase();
  if (/^(?:daily|every day)$/.test(written)) return good(ALL);
  const found = new Set<Weekday>();
  for (const part of written.split(/ ?(?:,| and ) ?/)) {
    const [first, last, ...more] = part.split(/ ?(?:-| to ) ?/).map(weekdayNamed);
    if (first == null || last === null || more.length > 0) {
      return bad(issue(path, "unknown-word", `${quoted(text)} is not understood as weekdays`, "Write mon-fri, sat, sun or daily."));
    }
    const many = last === undefined ? 0 : (last - first + 7) % 7;
    for (let k = 0; k <= many; k++) found.add((((first - 1 + k) % 7) + 1) as Weekday);
  }
  return good(ALL.filter((day) => found.has(day)));
}

function weekdayNamed(name: string): Weekday | null {
  if (!/^[a-z]{3,9}$/.test(name)) return null;
  const place = WEEKDAYS.findIndex((full) => full.toLowerCase().startsWith(name === "weds" ? "wed" : name));
  return place < 0 ? null : ((place + 1) as Weekday);
}

/** `1 May to 30 Sep`, `15 Nov - 31 Mar` → a part of the year. Codes: `date-not-real`, and `time-not-understood` where it is no season. */
export function parseSeason(text: string, path: string): Parsed<Season> {
  const found = /^(\d{1,2}) ([a-z]{3,9})\.? ?(?:to|until|-) ?(\d{1,2}) ([a-z]{3,9})\.?$/i.exec(tidy(text));
  const from = found === null ? null : dayNamed(found[1] as string, found[2] as string);
  const until = found === null ? null : dayNamed(found[3] as string, found[4] as string);
  if (from === null || until === null) {
    return bad(issue(path, "time-not-understood", `${quoted(text)} is not understood as a season`, "Write it as 1 May to 30 Sep."));
  }
  for (const day of [from, until]) {
    // A leap year has every day there is.
    if (!isRealDate({ year: 2024, ...day })) return bad(issue(path, "date-not-real", `${quoted(text)}: there is no such day`));
  }
  return good({ from, until });
}

function dayNamed(day: string, monthName: string): { readonly month: number; readonly day: number } | null {
  const name = monthName.toLowerCase().replace(/^sept$/, "sep");
  const month = MONTHS.findIndex((full) => full.toLowerCase() === name || full.slice(0, 3).toLowerCase() === name) + 1;
  return month === 0 ? null : { month, day: Number(day) };
}

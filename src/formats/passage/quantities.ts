import { bad, good, issue, type Parsed } from "../../core/answers/index.ts";
import { takeTime } from "../../core/calendar/index.ts";
import type { WhereCurrentUnknown } from "../../core/plan/index.ts";
import type { StatedSwell } from "../../core/sea/index.ts";
import { METRES_PER_FOOT, nearestWord, parseLength, parseSea, quoted, tidy } from "../../core/units/index.ts";
import { EASIEST_SECONDS_PER_METRE } from "../../core/window/index.ts";

const YES = ["yes", "true"];
const NO = ["no", "false"];

/** `yes`, `no`, `true`, `false` in any case. */
export function parseYesNo(text: string, path: string): Parsed<boolean> {
  const word = text.trim().toLowerCase();
  if (YES.includes(word)) return good(true);
  if (NO.includes(word)) return good(false);
  return bad(issue(path, "unknown-word", `\`${path}\` is yes or no, not “${text.slice(0, 40)}”`));
}

/** A line's number in a letter, from 1. */
export function parseLineNumber(text: string, path: string): Parsed<number> {
  const number = /^[1-9]\d{0,5}$/.test(text.trim()) ? Number(text) : null;
  return number === null
    ? bad(issue(path, "unknown-word", `“${text.slice(0, 40)}” is not a line's number, which counts from 1`))
    : good(number);
}

/** `refuse`, `still`, `nearest within 5 nm`. */
export function parseWhereUnknown(text: string, path: string): Parsed<WhereCurrentUnknown> {
  const written = text.trim();
  if (written === "refuse" || written === "still") return good({ kind: written });
  const within = /^nearest within (.+)$/.exec(written);
  if (within === null) {
    const near = nearestWord(written, ["refuse", "still"]);
    const hint = near === null ? "" : `; did you mean \`${near}\`?`;
    return bad(issue(path, "unknown-word", `\`${path}\` is refuse, still or nearest within 5 nm, not “${written.slice(0, 40)}”${hint}`));
  }
  const distance = parseLength(within[1] ?? "", path, { positive: true });
  return distance.ok ? good({ kind: "nearest", withinMetres: distance.value }) : distance;
}

/** `1.2 m @ 11 s`, or `none`. Of ranges the upper height and the shorter period: the worse ends. */
export function parseSwell(text: string, path: string): Parsed<StatedSwell | "none"> {
  if (text.trim() === "none") return good("none");
  const sea = /\d/.test(text) ? parseSea(text, path) : null;
  if (sea?.ok === false) return sea;
  const { heightHighMetres: heightMetres, periodLowSeconds: periodSeconds } = sea?.value ?? { heightHighMetres: 0, periodLowSeconds: null };
  if (periodSeconds === null || !(heightMetres > 0))
    return bad(issue(path, "unknown-word", `\`${path}\` is a height with its period, as 1.2 m @ 11 s, or none, not ${quoted(text)}`));
  return good({ heightMetres, periodSeconds });
}

/** The period of a sea over its height, `1.5 s/ft` or `5 s/m` → seconds a metre, above 0. */
export function parsePeriodToHeight(text: string, path: string): Parsed<number> {
  const written = /^(\d+(?:\.\d+)?) ?s ?\/ ?(ft|m)$/.exec(tidy(text));
  const figure = Number(written?.[1]);
  const secondsPerMetre = written?.[2] === "ft" ? figure / METRES_PER_FOOT : figure;
  if (written !== null && secondsPerMetre > 0 && secondsPerMetre < EASIEST_SECONDS_PER_METRE) return good(secondsPerMetre);
  return bad(issue(path, "quantity-not-understood", `${quoted(text)} is no period over a height, which is read as 1.5 s/ft or 5 s/m`));
}

/** Height over length of a sea, `1/20` or `0.05` → a plain number above 0. */
export function parseSteepness(text: string, path: string): Parsed<number> {
  const written = /^(?:1 ?[/:] ?(\d{1,4}(?:\.\d{1,4})?)|(0\.\d{1,6}))$/.exec(text.trim());
  const value = written?.[1] !== undefined ? 1 / Number(written[1]) : Number(written?.[2] ?? Number.NaN);
  if (value > 0 && value < 1) return good(value);
  return bad(issue(path, "quantity-not-understood", `${quoted(text)} is no steepness, which is read as 1/20 or 0.05`));
}

/** A file's name: not empty, no control characters. Absolute names and parent folders are allowed. */
export function parseFileName(text: string, path: string): Parsed<string> {
  return text.trim() === "" ? bad(issue(path, "empty-value", "no file is named here")) : good(text);
}

/** A time of day, `0700`, `07:00`, `2400`, `0700 local` → seconds after midnight. */
export function parseTimeOfDay(text: string, path: string): Parsed<number> {
  const taken = takeTime(tidy(text), text, path);
  if (taken !== null && "code" in taken) return bad(taken);
  if (taken === null || !/^(?: ?local)?$/i.test(taken.rest)) {
    return bad(issue(path, "time-not-understood", `${quoted(text)} is no time of day, which is read as 0700 or 07:00`));
  }
  return good(taken.secondOfDay);
}

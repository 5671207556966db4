import { bad, type Code, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { compareDates, type LocalDate, parseLocalTime, parseZone } from "../../core/calendar/index.ts";
import { type EpochSeconds, type Interval, quoted, tidy } from "../../core/units/index.ts";
import type { SeaPeriod, WindPeriod } from "../../core/weather/index.ts";
import { dateStretch, type LetterClock } from "./date-line.ts";
import { type ForecastLine, readForecastLine } from "./forecast-line.ts";
import { issueTextOf, type Statement, settleHead, zoneTextOf } from "./letter-head.ts";
import { type Noted, notedSpans } from "./noted-spans.ts";

/** What a line of a letter was read as. `aside`: begins with # or >. Lines are counted from 1, blank ones included. */
export type LetterLine =
  | { readonly number: number; readonly text: string; readonly readAs: "blank" | "aside" | "rule" | "issued" | "zone" | "struckOut" }
  | {
      readonly number: number;
      readonly text: string;
      readonly readAs: "forecast";
      readonly wind: WindPeriod | null;
      readonly sea: SeaPeriod | null;
    };

export interface Letter {
  readonly issuedAt: EpochSeconds;
  /** The zone its times are in. */
  readonly zone: string;
  /** By beginning. They may overlap or leave gaps: see `noted`. */
  readonly wind: readonly WindPeriod[];
  readonly sea: readonly SeaPeriod[];
  readonly lines: readonly LetterLine[];
  /** Where two periods overlap and where none stands between the first and the last. */
  readonly noted: readonly Noted[];
}

export interface LetterOptions {
  /** The zone stated beside the letter, as typed, where the letter names none; else null. */
  readonly zone: string | null;
  /** The issue time stated beside the letter, as typed, where the letter has none; else null. */
  readonly issued: string | null;
  /** Numbers of the lines that the skipper strikes out. */
  readonly strikeOutLines: readonly number[];
  /** The letter's place, for issues: its lines are `<path> line 7`. */
  readonly path: string;
}

/** A forecaster's letter is a page or two; more is another file. */
const LONGEST_LETTER = 200_000;

const EXAMPLE_LINE = "THU 0600-1200 NE 12-16 G20 SEA 2-3 ft @ 9 s";

interface PlainLine {
  readonly number: number;
  readonly text: string;
  readonly struck: boolean;
}

/** A line with what it was taken for before anything is dated. */
type ReadLine =
  | (PlainLine & { readonly kind: "blank" | "aside" | "rule" | "other" })
  | (PlainLine & { readonly kind: "issued" | "zone"; readonly statement: Statement })
  | (PlainLine & { readonly kind: "forecast"; readonly forecast: Parsed<ForecastLine> });

/**
 * Reads a forecaster's plain letter: a line `Issued 2027-04-06 1910 UTC-10`, maybe `All times UTC-10`, and lines such as
 * `THU 0600-1200 NE 12-16 G20`, `THU 1800-FRI 0600 N-NE 15-20 SEA 3-4 ft @ 7 s`, `SAT SE 8-12` (the whole day). Blank lines, lines that begin
 * with # or >, and lines of dashes are passed over; any other line that is not understood is an issue until its number is struck out.
 * Nothing is guessed: all issues are returned at once.
 */
export function readLetter(text: string, options: LetterOptions): Parsed<Letter> {
  const { path } = options;
  if (text.length > LONGEST_LETTER || text.includes("\0")) return bad(issue(path, "letter-not-text", "this is not a letter in plain text"));
  const struck = new Set(options.strikeOutLines);
  const lines = text
    .replace(/^\uFEFF/, "")
    .split(/\r\n|\n|\r/)
    .map((line, index) => readLine(line, index + 1, struck.has(index + 1), path));
  const issues: Issue[] = [];
  const kept = lines.filter((line) => !line.struck);
  const head = settleHead(
    statements(kept, "issued"),
    statements(kept, "zone"),
    {
      issued: options.issued === null ? null : { place: `${path}, issued`, text: options.issued },
      zone: options.zone === null ? null : { place: `${path}, zone`, text: options.zone },
    },
    path,
  );
  for (const one of head.issues) {
    const line = kept.find((other) => "statement" in other && other.statement.place === one.path);
    issues.push(line === undefined ? one : inLine(one, line, path));
  }
  const clock = head.zone === null || head.issuedAt === null ? null : { zone: head.zone, issuedAt: head.issuedAt };
  const previous: Previous = { wind: null, sea: null };
  const read: LetterLine[] = [];
  for (const line of lines) {
    const outcome = settleLine(line, clock, previous, path);
    if (line.struck) {
      if (isNeedless(line, outcome, kept, options))
        issues.push(needless(line.number, line.kind === "blank" ? "it is blank" : `it was understood: ${quoted(line.text)}`, path));
      read.push({ number: line.number, text: line.text, readAs: "struckOut" });
    } else if (!outcome.ok) issues.push(...outcome.issues);
    else if (outcome.value !== null) read.push(outcome.value);
  }
  for (const number of struck) {
    if (!Number.isInteger(number) || number < 1 || number > lines.length)
      issues.push(needless(number, `the letter has ${lines.length} lines`, path));
  }
  if (!kept.some((line) => line.kind === "forecast")) issues.push(issue(path, "letter-no-forecast", "no forecast line was found"));
  if (issues.length > 0 || clock === null) return bad(...told(issues, struck, path));
  const forecasts = read.filter((line) => line.readAs === "forecast");
  const wind = sorted(forecasts.flatMap((line) => (line.wind === null ? [] : [line.wind])));
  const sea = sorted(forecasts.flatMap((line) => (line.sea === null ? [] : [line.sea])));
  return good({ ...clock, wind, sea, lines: read, noted: [...notedSpans("wind", wind), ...notedSpans("sea", sea)] });
}

function readLine(text: string, number: number, struck: boolean, path: string): ReadLine {
  const written = tidy(text);
  const line = { number, text, struck };
  if (written === "") return { ...line, kind: "blank" };
  if (/^[#>]/.test(written)) return { ...line, kind: "aside" };
  if (/^[-_=]{2,}$/.test(written.replaceAll(" ", ""))) return { ...line, kind: "rule" };
  const place = placeOf(number, path);
  const issued = issueTextOf(written);
  if (issued !== null) return { ...line, kind: "issued", statement: { place, text: issued } };
  const zone = zoneTextOf(written);
  if (zone !== null) return { ...line, kind: "zone", statement: { place, text: zone } };
  const forecast = readForecastLine(text, place);
  return forecast === null ? { ...line, kind: "other" } : { ...line, kind: "forecast", forecast };
}

/** The local days on which the last lines that gave wind and sea began. */
interface Previous {
  wind: LocalDate | null;
  sea: LocalDate | null;
}

/** A line as it goes into the letter; null where its time can't be told because the head is wanting. */
function settleLine(line: ReadLine, clock: LetterClock | null, previous: Previous, path: string): Parsed<LetterLine | null> {
  const { number, text } = line;
  if (line.kind === "other") return bad(notUnderstood(line, "it is neither an issue line nor a forecast line", path));
  if (line.kind !== "forecast") return good({ number, text, readAs: line.kind });
  if (!line.forecast.ok) return bad(...line.forecast.issues.map((one) => inLine(one, line, path)));
  if (clock === null) return good(null);
  const { wind, sea, stretch } = line.forecast.value;
  const before = later(wind === null ? null : previous.wind, sea === null ? null : previous.sea);
  const dated = dateStretch(stretch, clock, before, placeOf(number, path));
  if (!dated.ok) return bad(...dated.issues.map((one) => inLine(one, line, path)));
  const { from, until, fromDate } = dated.value;
  if (!line.struck && wind !== null) previous.wind = fromDate;
  if (!line.struck && sea !== null) previous.sea = fromDate;
  return good({
    number,
    text,
    readAs: "forecast",
    wind: wind === null ? null : { from, until, ...wind },
    sea: sea === null ? null : { from, until, ...sea },
  });
}

/** Striking out serves a line that is not understood or doubtful, and one of two statements of the same thing. */
function isNeedless(line: ReadLine, outcome: Parsed<LetterLine | null>, kept: readonly ReadLine[], options: LetterOptions): boolean {
  if (!("statement" in line)) return outcome.ok && outcome.value !== null;
  const beside = line.kind === "issued" ? options.issued : options.zone;
  if (beside !== null || kept.some((other) => other.kind === line.kind)) return false;
  const { text, place } = line.statement;
  return line.kind === "issued" ? parseLocalTime(text, "UTC", place).ok : parseZone(text, place).ok;
}

function statements(lines: readonly ReadLine[], kind: "issued" | "zone"): Statement[] {
  return lines.flatMap((line) => ("statement" in line && line.kind === kind ? [line.statement] : []));
}

function later(a: LocalDate | null, b: LocalDate | null): LocalDate | null {
  if (a === null || b === null) return a ?? b;
  return compareDates(a, b) < 0 ? b : a;
}

const placeOf = (number: number, path: string): string => `${path} line ${number}`;

function inLine(one: Issue, line: PlainLine, path: string): Issue {
  const plainFailures: readonly Code[] = ["quantity-not-understood", "time-not-understood"];
  if (plainFailures.includes(one.code)) return notUnderstood(line, one.message, path);
  return issue(
    placeOf(line.number, path),
    one.code,
    `line ${line.number} ${quoted(line.text)}: ${one.message}`,
    `${one.whatToDo} Or add ${line.number} to strikeOut.`,
  );
}

function notUnderstood(line: PlainLine, why: string, path: string): Issue {
  return issue(
    placeOf(line.number, path),
    "letter-line-not-understood",
    `line ${line.number} ${quoted(line.text)} is not understood: ${why}`,
  );
}

/** In the order of their lines, what concerns the whole letter first; lines that are not understood have one cure together, to copy. */
function told(issues: readonly Issue[], struck: ReadonlySet<number>, path: string): Issue[] {
  const lineOf = (one: Issue): number => {
    const rest = one.path.startsWith(`${path} line `) ? Number(one.path.slice(path.length + 6)) : 0;
    return Number.isInteger(rest) ? rest : 0;
  };
  const lines = new Set(issues.flatMap((one) => (one.code === "letter-line-not-understood" ? [lineOf(one)] : [])));
  const theLines = lines.size === 1 ? "the line" : "these lines";
  const out = [...new Set([...struck, ...lines])].toSorted((a, b) => a - b).join(", ");
  const cure = `If ${theLines} may be left out, write \`strikeOut: [${out}]\` beside \`letter:\` in the passage file; else mend ${lines.size === 1 ? "it" : "them"}, as ${EXAMPLE_LINE}.`;
  return issues
    .map((one) => (one.code === "letter-line-not-understood" ? { ...one, whatToDo: cure } : one))
    .toSorted((a, b) => lineOf(a) - lineOf(b));
}

function needless(number: number, why: string, path: string): Issue {
  return issue(`${path}, strikeOut`, "letter-strike-out-needless", `line ${number} is struck out, but ${why}`);
}

const sorted = <T extends Interval>(periods: readonly T[]): T[] => periods.toSorted((a, b) => a.from - b.from || a.until - b.until);

import { bad, type Issue, issue, type Parsed } from "../answers/index.ts";
import { type Bounds, withinBounds } from "./bounds.ts";
import { nearestWord } from "./nearest-word.ts";
import { LONGEST_QUANTITY, plainNumber, quoted, tidy } from "./written.ts";

/** The units of one kind of quantity, each with what one of it is in the SI unit. */
export interface UnitTable {
  /** "a length", "a speed". */
  readonly quantity: string;
  /** The units that are read, for messages: "m, ft or nm". */
  readonly reads: string;
  /** The SI unit that is returned, for messages. */
  readonly si: string;
  /** By name in lower case. */
  readonly units: Readonly<Record<string, number>>;
  /** Names with two readings, by exact case first, then in lower case. */
  readonly doubtful?: Readonly<Record<string, DoubtfulUnit>>;
}

export interface DoubtfulUnit {
  readonly code: "unit-doubtful" | "bare-gallon";
  /** Each reading: its unit written out, and its factor to the SI unit. */
  readonly readings: readonly (readonly [name: string, factor: number])[];
}

const NUMBER = /^([+-]?) ?(\d+(?:\.\d*)?|\.\d+)/;

/** What a unit's name stands for, or the issue why it stands for nothing. `number` serves the message. */
export function unitFactor(name: string, number: number, table: UnitTable, text: string, path: string): number | Issue {
  const exact = name.trim().replace(/\.$/, "");
  const lower = exact
    .toLowerCase()
    .replace(/ ?([/^²·]) ?/g, "$1")
    .replace(/ per /g, "/");
  const doubt = own(table.doubtful, exact) ?? own(table.doubtful, lower);
  if (doubt !== undefined) {
    const readings = doubt.readings.map(([unit, factor]) => `${plainNumber(number * factor)} ${table.si} (${unit})`);
    return issue(path, doubt.code, `${quoted(text)} may be ${readings.join(" or ")}`);
  }
  const factor = own(table.units, lower);
  if (factor !== undefined) return factor;
  if (exact === "") return issue(path, "unit-missing", `${quoted(text)} has no unit; ${table.quantity} is read in ${table.reads}`);
  if (!/^[a-zµ°'"%²³/^·. ]+[23]?$/i.test(exact)) return notUnderstood(text, path, table.quantity, table.reads);
  const near = nearestWord(lower, Object.keys(table.units));
  const hint = near === null ? "" : ` (did you mean ${near}?)`;
  return issue(path, "unit-unknown", `${quoted(text)}: “${exact}” is no unit of ${table.quantity}${hint}; it is read in ${table.reads}`);
}

/**
 * A number with one unit, as text → the SI value within its bounds. Nothing may be left over. A bare nought needs no unit. Codes:
 * `unit-missing`, `unit-unknown`, `unit-doubtful`, `bare-gallon`, `comma-in-number`, `quantity-not-understood`, `out-of-range`.
 */
export function parseAmount(text: string, path: string, table: UnitTable, bounds: Bounds = {}): Parsed<number> {
  const written = tidy(text);
  if (written.length > LONGEST_QUANTITY) return bad(notUnderstood(text, path, table.quantity, table.reads));
  const comma = commaIssue(written, text, path);
  if (comma !== null) return bad(comma);
  const found = NUMBER.exec(written);
  if (found === null) return bad(notUnderstood(text, path, table.quantity, table.reads));
  const number = Number(found[2]) * (found[1] === "-" ? -1 : 1);
  const rest = written.slice(found[0].length);
  const factor = rest === "" && number === 0 ? 1 : unitFactor(rest, number, table, text, path);
  if (typeof factor !== "number") return bad(factor);
  return withinBounds(number * factor, bounds, table.si, text, path);
}

/** A number with no unit, as text → the number within its bounds. Codes: `comma-in-number`, `quantity-not-understood`, `out-of-range`. */
export function parseNumber(text: string, path: string, bounds: Bounds = {}): Parsed<number> {
  const written = tidy(text);
  if (written.length > LONGEST_QUANTITY) return bad(notUnderstood(text, path, "a number", "digits"));
  const comma = commaIssue(written, text, path);
  if (comma !== null) return bad(comma);
  const found = NUMBER.exec(written);
  if (found === null || found[0].length !== written.length)
    return bad(notUnderstood(text, path, "a plain number", "digits with a decimal point"));
  return withinBounds(Number(found[2]) * (found[1] === "-" ? -1 : 1), bounds, "", text, path);
}

/** A comma between two digits, which is asked about, or null. */
export function commaIssue(written: string, text: string, path: string): Issue | null {
  const found = /(\d[\d.]*),(\d+)/.exec(written);
  if (found === null) return null;
  const decimal = `${found[1]}.${found[2]}`;
  const readings = found[2]!.length === 3 ? `${decimal} or ${found[1]}${found[2]}` : `${decimal}, or two numbers`;
  return issue(path, "comma-in-number", `${quoted(text)}: “${found[0]}” may be ${readings}`);
}

export function notUnderstood(text: string, path: string, quantity: string, reads: string): Issue {
  return issue(path, "quantity-not-understood", `${quoted(text)} is not understood as ${quantity}, which is read in ${reads}`);
}

function own<T>(table: Readonly<Record<string, T>> | undefined, name: string): T | undefined {
  return table !== undefined && Object.hasOwn(table, name) ? table[name] : undefined;
}

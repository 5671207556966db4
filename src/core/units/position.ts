import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { wrap180Deg } from "./angles.ts";
import { LONGEST_QUANTITY, quoted, tidy } from "./written.ts";

/** One of the two angles of a position: degrees, north and east positive, and which of the two it is. */
interface Coordinate {
  readonly degrees: number;
  readonly is: "latitude" | "longitude";
}

const READS = "17 32.4S 149 50.2W, as 17 32 24S 149 50 12W or in decimal degrees as -17.54 -149.84";
const NUMBER = (digits: number) => String.raw`(\d{1,${digits}}(?:\.\d+)?)(?![\d.])`;
// Degrees, minutes and seconds, each parted from the next and closed by its own mark or none; "0832.4" run together is not read.
const ANGLE = `([+-]?)${NUMBER(3)}(?:[° ]+${NUMBER(2)}(?:[' ]+${NUMBER(2)}[" ]*|[' ]*)|[° ]*)`;
const LETTER_LAST = new RegExp(`^${ANGLE}([NSEW])[ ,;]*${ANGLE}([NSEW])$`);
const LETTER_FIRST = new RegExp(`^([NSEW]) ?${ANGLE}[,;]? ?([NSEW]) ?${ANGLE}$`);
const DECIMAL_PAIR = /^([+-]?\d{1,3}(?:\.\d+)?)°?(?:[,;] ?| )([+-]?\d{1,3}(?:\.\d+)?)°?$/;

/**
 * `26 46.2N 079 20W`, `17°32.4'S, 149°50.2'W`, `17 32 24 S 149 50 12 W`, `S17 32.4 W149 50.2`, `17.54S 149.84W`, `-17.54, -149.84`
 * → degrees, north and east positive, longitude in [-180, 180). Degrees and minutes always need their letters; a pair of decimal
 * degrees needs none (latitude first, the sign says the hemisphere).
 */
export function parsePosition(text: string, path: string): Parsed<{ readonly latitudeDeg: number; readonly longitudeDeg: number }> {
  const notRead = () =>
    bad(issue(path, "quantity-not-understood", `${quoted(text)} is not understood as a position, which is read as ${READS}`));
  const written = plain(text);
  if (written.length > LONGEST_QUANTITY) return notRead();
  const comma = /\d,\d/.exec(written);
  if (comma !== null && !/^[+-]?\d+\.\d+°?,\d+\.\d+°?$/.test(written)) {
    return bad(
      issue(path, "comma-in-number", `${quoted(text)}: the comma in “${comma[0]}” may part two numbers or stand for a decimal point`),
    );
  }
  const issues: Issue[] = [];
  const pair = pairOf(written, text, path, issues);
  if (issues.length > 0) return bad(...issues);
  if (pair === null) {
    if (/\d/.test(written) && /^[\d.,;+\-°'" ]+$/.test(written)) {
      return bad(issue(path, "hemisphere-missing", `${quoted(text)} does not say N or S and E or W; a position is read as ${READS}`));
    }
    return notRead();
  }
  const [latitude, longitude] = pair;
  if (Math.abs(latitude) > 90) issues.push(issue(path, "out-of-range", `${quoted(text)}: a latitude goes up to 90°`));
  if (Math.abs(longitude) > 180) issues.push(issue(path, "out-of-range", `${quoted(text)}: a longitude goes up to 180°`));
  return issues.length > 0 ? bad(...issues) : good({ latitudeDeg: latitude, longitudeDeg: wrap180Deg(longitude) });
}

/** Tidied, in capitals, with words for the signs and the hemispheres replaced. */
function plain(text: string): string {
  return tidy(text)
    .toUpperCase()
    .replace(/\b(?:LATITUDE|LAT|LONGITUDE|LONG|LON)\b[.:]? ?/g, "")
    .replace(/ ?(?<![A-Z])DEG(?:REES?|S)?(?![A-Z])\.? ?/g, "° ")
    .replace(/ ?(?<![A-Z])MIN(?:UTES?|S)?(?![A-Z])\.? ?/g, "' ")
    .replace(/\b(NORTH|SOUTH|EAST|WEST)\b/g, (word) => word[0]!)
    .trim();
}

/** Latitude and longitude in degrees; null when the text has no such form; issues are put on the list. */
function pairOf(written: string, text: string, path: string, issues: Issue[]): readonly [number, number] | null {
  const last = LETTER_LAST.exec(written);
  const first = last === null ? LETTER_FIRST.exec(written) : null;
  if (last !== null) {
    return byLetter(
      [coordinate(last.slice(1, 5), last[5]!, text, path, issues), coordinate(last.slice(6, 10), last[10]!, text, path, issues)],
      text,
      path,
      issues,
    );
  }
  if (first !== null) {
    return byLetter(
      [coordinate(first.slice(2, 6), first[1]!, text, path, issues), coordinate(first.slice(7, 11), first[6]!, text, path, issues)],
      text,
      path,
      issues,
    );
  }
  const pair = DECIMAL_PAIR.exec(written);
  if (pair === null || ![pair[1]!, pair[2]!].every((part) => /[.+-]/.test(part))) return null;
  return [Number(pair[1]), Number(pair[2])];
}

function coordinate(parts: readonly (string | undefined)[], letter: string, text: string, path: string, issues: Issue[]): Coordinate {
  const [sign, degrees, minutes, seconds] = parts;
  const refuse = (why: string) => issues.push(issue(path, "quantity-not-understood", `${quoted(text)}: ${why}`));
  if (sign !== "") refuse("a sign and a letter both say the hemisphere; write one of them");
  if (minutes !== undefined && degrees!.includes(".")) refuse("degrees with decimals are followed by minutes");
  if (seconds !== undefined && minutes?.includes(".") === true) refuse("minutes with decimals are followed by seconds");
  if (Number(minutes ?? 0) >= 60) issues.push(issue(path, "out-of-range", `${quoted(text)}: minutes go up to 60`));
  if (Number(seconds ?? 0) >= 60) issues.push(issue(path, "out-of-range", `${quoted(text)}: seconds go up to 60`));
  const size = Number(degrees) + Number(minutes ?? 0) / 60 + Number(seconds ?? 0) / 3600;
  return { degrees: letter === "S" || letter === "W" ? 0 - size : size, is: letter === "N" || letter === "S" ? "latitude" : "longitude" };
}

function byLetter(pair: readonly [Coordinate, Coordinate], text: string, path: string, issues: Issue[]): readonly [number, number] | null {
  const latitude = pair.find((one) => one.is === "latitude");
  const longitude = pair.find((one) => one.is === "longitude");
  if (latitude !== undefined && longitude !== undefined) return [latitude.degrees, longitude.degrees];
  issues.push(issue(path, "hemisphere-missing", `${quoted(text)} has two ${latitude === undefined ? "longitudes" : "latitudes"}`));
  return null;
}

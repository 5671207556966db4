import { bad, type Issue, issue, type Parsed } from "../answers/index.ts";
import { commaIssue, notUnderstood } from "./amount.ts";
import { type Bounds, withinBounds } from "./bounds.ts";
import { LONGEST_QUANTITY, quoted, tidy } from "./written.ts";

export interface AngleOptions extends Bounds {
  /**
   * `eastWest`: a variation or a deviation, which must say E or W (but a nought need not). `plain`: E and W have no place.
   * Either is read unless given.
   */
  readonly sense?: "eastWest" | "plain";
}

const READS = "degrees (52 deg, 52°, 12 E, 12°30'W)";
const ANGLE = /^([+-]?) ?(\d+(?:\.\d+)?|\.\d+) ?(°|degrees?|degs?\.?)? ?(?:(\d+(?:\.\d+)?) ?')? ?(e|east|w|west)?$/i;

/** `52 deg`, `52°`, `-6 deg`, `12 E`, `12°30'W` → degrees; with E or W east is positive. A bare nought needs no unit. */
export function parseAngle(text: string, path: string, options: AngleOptions = {}): Parsed<number> {
  const degrees = readAngle(text, path, options.sense ?? null);
  return typeof degrees === "number" ? withinBounds(degrees, options, "°", text, path) : bad(degrees);
}

function readAngle(text: string, path: string, sense: AngleOptions["sense"] | null): number | Issue {
  const written = tidy(text);
  if (written.length > LONGEST_QUANTITY) return notUnderstood(text, path, "an angle", READS);
  const comma = commaIssue(written, text, path);
  if (comma !== null) return comma;
  const found = ANGLE.exec(written);
  if (found === null) return notUnderstood(text, path, "an angle", READS);
  const [, sign, whole, degreeSign, minutes, side] = found;
  if (minutes !== undefined && whole!.includes(".")) return notUnderstood(text, path, "an angle", READS);
  if (minutes !== undefined && Number(minutes) >= 60) return issue(path, "out-of-range", `${quoted(text)}: minutes go up to 60`);
  const size = Number(whole) + Number(minutes ?? 0) / 60;
  if (side === undefined) {
    if (size === 0) return 0;
    if (sense === "eastWest") return issue(path, "sense-missing", `${quoted(text)} says neither E nor W`);
    if (degreeSign === undefined) return issue(path, "unit-missing", `${quoted(text)} has no unit; an angle is read in ${READS}`);
    return sign === "-" ? -size : size;
  }
  if (sense === "plain" || sign !== "") return notUnderstood(text, path, "an angle here", sense === "plain" ? "52 deg or 52°" : READS);
  return /^w/i.test(side) ? -size : size;
}

import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { commaIssue, notUnderstood, unitFactor } from "./amount.ts";
import { turnDeg, wrap360Deg } from "./angles.ts";
import { degFromCompassPoint } from "./compass-point.ts";
import { rangePattern, type WrittenRange, writtenRange } from "./number-range.ts";
import { speedUnits } from "./speed.ts";
import { LONGEST_QUANTITY, quoted, tidy } from "./written.ts";

/**
 * A wind as a forecaster writes it. The direction is an arc, clockwise from `fromDegTrue` over `arcDeg` (0 for a single direction, 360
 * for variable and for calm); the speed is a range in m/s; `gustMps` is null where none is given.
 */
export interface WindRange {
  readonly fromDegTrue: number;
  readonly arcDeg: number;
  readonly speedLowMps: number;
  readonly speedHighMps: number;
  readonly gustMps: number | null;
}

/** The strongest gust on record outside a tornado, Barrow Island 1996 (World Meteorological Organization, archive of extremes). More is a slip. */
export const STRONGEST_WIND_MPS = 113.2;

const READS = "NE 12-16 G20, NE-E 10-15, 225 8 m/s, VRB 5 or calm";
const UNIT = "[a-z]+(?:/[a-z]+)?";
const RANGE = rangePattern(`(?!to\\b|g\\d|gust)${UNIT}`);
const GUST = new RegExp(`^(.*?)[ ,]*(?<![a-z])g(?:usts?|usting)?(?: up)?(?: to)? ?${RANGE}$`, "i");
const SPEED = new RegExp(`^${RANGE}$`, "i");
const DEGREES = /^(\d{3})°? ?t?(?: ?(?:-|to) ?(\d{3})°? ?t?)?$/i;

/**
 * `NE 12-16 G20`, `NE-E 10-15`, `N to NE 12 to 16 gusting 20`, `E 20-25G32`, `225 15 kn`, `VRB 5`, `calm` → a wind in SI. A speed
 * without a unit is in knots, the trade's unit for wind; one unit written once holds for wind and gust. A range of directions runs the
 * shorter way round; opposite ends are asked about. Of a range of gusts the greater counts. All issues at once.
 */
export function parseWindRange(text: string, path: string): Parsed<WindRange> {
  const written = tidy(text);
  const notRead = () => bad(notUnderstood(text, path, "a wind", READS));
  if (written.length > LONGEST_QUANTITY) return notRead();
  if (/^calm$/i.test(written)) return good({ fromDegTrue: 0, arcDeg: 360, speedLowMps: 0, speedHighMps: 0, gustMps: null });
  const comma = commaIssue(written, text, path);
  if (comma !== null) return bad(comma);
  const gusting = GUST.exec(written);
  const gust = gusting === null ? null : writtenRange(gusting[2], gusting[3], gusting[4], gusting[5]);
  const parts = partsOf(gusting === null ? written : gusting[1]!);
  if (parts === null) return notRead();
  const issues: Issue[] = [];
  const arc = arcOf(parts.direction, text, path, issues);
  if (arc === null) return notRead();
  if (parts.speed === "") issues.push(issue(path, "wind-speed-missing", `${quoted(text)} has a direction but no speed`));
  const speeds = SPEED.exec(parts.speed);
  const speed = speeds === null ? null : writtenRange(speeds[1], speeds[2], speeds[3], speeds[4]);
  if (speed === null && parts.speed !== "") return notRead();
  const windUnit = speed?.highUnit ?? "";
  const gustUnit = gust?.highUnit ?? "";
  const wind = speed === null ? null : endsOf(speed, windUnit || gustUnit || "kn", text, path, issues);
  const gusts = gust === null ? null : endsOf(gust, gustUnit || windUnit || "kn", text, path, issues);
  if (wind !== null && gusts !== null && gusts[1] < wind[1])
    issues.push(issue(path, "gust-below-wind", `${quoted(text)}: the gust is below the wind`));
  if (issues.length > 0 || wind === null) return bad(...issues);
  return good({ ...arc, speedLowMps: wind[0], speedHighMps: wind[1], gustMps: gusts === null ? null : gusts[1] });
}

/** Direction and speed as text: letters up to the first digit, or three figures before a space. */
function partsOf(written: string): { direction: string; speed: string } | null {
  const lettered = /^([a-z][a-z /-]*?) ?((?:\d|\.\d).*)?$/i.exec(written);
  if (lettered !== null) return { direction: lettered[1]!, speed: lettered[2] ?? "" };
  const figures = /^(\d{3}°? ?t?(?: ?(?:-|to) ?\d{3}°? ?t?)?)(?: (?:at )?(.*))?$/i.exec(written);
  if (figures !== null) return { direction: figures[1]!, speed: figures[2] ?? "" };
  return SPEED.test(written) ? { direction: "", speed: written } : null;
}

/** The arc of directions; null when the words are none. */
function arcOf(direction: string, text: string, path: string, issues: Issue[]): { fromDegTrue: number; arcDeg: number } | null {
  const nothing = { fromDegTrue: 0, arcDeg: 0 };
  if (direction === "") {
    issues.push(issue(path, "wind-direction-missing", `${quoted(text)} has a speed but no direction`));
    return nothing;
  }
  if (/^(?:vrb|var|variable)$/i.test(direction)) return { fromDegTrue: 0, arcDeg: 360 };
  const ends = endsOfArc(direction);
  if (ends === null) return null;
  if (ends.some((end) => end > 360)) {
    issues.push(issue(path, "out-of-range", `${quoted(text)}: a direction runs from 000 to 360`));
    return nothing;
  }
  const [first, last] = ends;
  const turn = turnDeg(first, last);
  if (Math.abs(turn) === 180) {
    issues.push(issue(path, "arc-doubtful", `${quoted(text)}: the wind may go from one end to the other clockwise or anticlockwise`));
    return nothing;
  }
  return { fromDegTrue: wrap360Deg(turn < 0 ? last : first), arcDeg: Math.abs(turn) };
}

function endsOfArc(direction: string): readonly [number, number] | null {
  const figures = DEGREES.exec(direction);
  if (figures !== null) return [Number(figures[1]), Number(figures[2] ?? figures[1])];
  const single = degFromCompassPoint(direction);
  if (single !== null) return [single, single];
  const parts = direction.split(/ ?(?:-|\/| to ) ?/i);
  const ends = parts.map((part) => degFromCompassPoint(part));
  return parts.length === 2 && ends[0] != null && ends[1] != null ? [ends[0], ends[1]] : null;
}

/** Both ends of a range of speeds in m/s, or null with the issues put on the list. */
function endsOf(range: WrittenRange, unitElse: string, text: string, path: string, issues: Issue[]): readonly [number, number] | null {
  const number = [Number(range.low), Number(range.high)] as const;
  const low = unitFactor(range.lowUnit || unitElse, number[0], speedUnits, text, path);
  const high = unitFactor(range.highUnit || unitElse, number[1], speedUnits, text, path);
  if (typeof low !== "number" || typeof high !== "number") {
    issues.push(...[low, high].filter((one) => typeof one !== "number").slice(0, 1));
    return null;
  }
  const ends = [number[0] * low, number[1] * high] as const;
  if (ends[0] > ends[1])
    issues.push(issue(path, "range-upside-down", `${quoted(text)}: the range ${range.low}-${range.high} begins with its greater end`));
  if (!(Math.max(...ends) <= STRONGEST_WIND_MPS)) issues.push(issue(path, "out-of-range", `${quoted(text)}: no wind is that strong`));
  return ends;
}

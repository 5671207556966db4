import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import { FASTEST_SAIL_SPEED_MPS, type SailPoint, STRONGEST_TABLE_WIND_MPS, sailTable } from "../../core/boat/index.ts";
import { knotsFromMps, mpsFromKnots } from "../../core/units/index.ts";
import { cellNumber, isHole, quoted, type TableLine, tableLines } from "./table-cells.ts";

const KNOTS = /\s*(kn|kt|kts|knots)$/i;
const DEGREES = /\s*(°|º|deg|degrees)$/i;
/** Lines that a certificate prints beside the speeds: best angles and speed made good to windward and downwind. */
const MADE_GOOD = /^(beat|run|gybe|jibe|tack|up|upwind|down|downwind|vmg|best|opt)/i;

/** A text longer than this is no table of speeds. */
const MOST_CHARACTERS = 200_000;
const MOST_WINDS = 100;
const MOST_ANGLES = 200;
const FASTEST_KNOTS = Math.round(knotsFromMps(FASTEST_SAIL_SPEED_MPS));
const STRONGEST_KNOTS = Math.round(knotsFromMps(STRONGEST_TABLE_WIND_MPS));

interface Header {
  readonly windsKnots: readonly number[];
  readonly issues: readonly Issue[];
}

/** Where in the text: `sail table line 4 column 3`; columns are cells, from 1. */
function placeOf(source: string, line: TableLine, column: number | null): string {
  return column === null ? `${source} line ${line.lineNumber}` : `${source} line ${line.lineNumber} column ${column}`;
}

function readHeader(source: string, line: TableLine, hasCorner: boolean): Header {
  const issues: Issue[] = [];
  const windsKnots: number[] = [];
  const corner = line.cells[0];
  if (hasCorner && /\d/.test(corner)) {
    const message = `The first cell is ${quoted(corner)}; it must be a word such as "angle", apart from the wind speeds.`;
    issues.push(issue(placeOf(source, line, 1), "sail-table-layout", message));
  }
  line.cells.slice(hasCorner ? 1 : 0).forEach((cell, i) => {
    const place = placeOf(source, line, i + (hasCorner ? 2 : 1));
    const knots = cellNumber(cell, KNOTS);
    const before = windsKnots.at(-1) ?? -1;
    if (knots === null) {
      issues.push(issue(place, "sail-table-wind", `The first line must hold wind speeds in knots; found ${quoted(cell)}.`));
    } else if (!(knots >= 0 && knots <= STRONGEST_KNOTS)) {
      issues.push(issue(place, "sail-table-wind", `The wind speed is ${quoted(cell)}; it must be from 0 to ${STRONGEST_KNOTS} kn.`));
    } else if (knots <= before) {
      issues.push(issue(place, "sail-table-wind", `The wind speed ${knots} kn comes after ${before} kn; wind speeds must ascend.`));
    }
    windsKnots.push(knots ?? Number.NaN);
  });
  if (windsKnots.length === 0 || windsKnots.length > MOST_WINDS) {
    const message = `The first line holds ${windsKnots.length} wind speeds; it must hold from 1 to ${MOST_WINDS}.`;
    issues.push(issue(placeOf(source, line, null), "sail-table-layout", message));
  }
  return { windsKnots, issues };
}

/** The line's angle in degrees, or null with the issue pushed. */
function readAngle(source: string, line: TableLine, beforeDeg: number, issues: Issue[]): number | null {
  const cell = line.cells[0];
  const place = placeOf(source, line, 1);
  const angleDeg = cellNumber(cell, DEGREES);
  if (angleDeg === null) {
    if (MADE_GOOD.test(cell)) {
      const message = `The line begins with ${quoted(cell)}, not an angle: best beat and run are no speeds at a true wind angle.`;
      issues.push(issue(placeOf(source, line, null), "sail-table-made-good", message));
    } else {
      issues.push(issue(place, "sail-table-angle", `A line must begin with its true wind angle in degrees; found ${quoted(cell)}.`));
    }
    return null;
  }
  if (!(angleDeg >= 0 && angleDeg <= 180)) {
    issues.push(issue(place, "sail-table-angle", `The true wind angle is ${quoted(cell)}; it must be from 0 to 180 degrees.`));
    return null;
  }
  if (angleDeg === beforeDeg) {
    issues.push(issue(place, "sail-table-duplicate", `The true wind angle ${angleDeg}° is given twice.`));
  } else if (angleDeg < beforeDeg) {
    issues.push(issue(place, "sail-table-angle", `The true wind angle ${angleDeg}° comes after ${beforeDeg}°; angles must ascend.`));
  }
  return angleDeg;
}

function readSpeed(place: string, cell: string, angleDeg: number, windKnots: number, issues: Issue[]): number {
  const at = `at ${angleDeg}° in ${windKnots} kn of wind`;
  const knots = cellNumber(cell, KNOTS);
  if (isHole(cell)) {
    issues.push(issue(place, "sail-table-hole", `No speed is given ${at} (found ${quoted(cell)}).`));
  } else if (knots === null) {
    issues.push(issue(place, "sail-table-speed", `The speed ${at} is ${quoted(cell)}, which is no number of knots.`));
  } else if (!(knots >= 0 && knots <= FASTEST_KNOTS)) {
    issues.push(issue(place, "sail-table-speed", `The speed ${at} is ${quoted(cell)}; it must be from 0 to ${FASTEST_KNOTS} kn.`));
  } else if (windKnots === 0 && knots > 0) {
    issues.push(issue(place, "sail-table-speed", `The speed ${at} is ${quoted(cell)}, in no wind at all.`));
  }
  return knots ?? Number.NaN;
}

/**
 * Reads a plain sail table: in the first line a word and the true wind speeds in knots, in each line after it a true wind angle in
 * degrees and as many speeds through the water in knots. Separated by tabs, semicolons, commas or spaces; `#` opens a remark. Winds and
 * angles ascend. Returns the points in m/s, or every issue with its line and column (`source` names the text).
 */
export function parseSailTable(text: string, source = "sail table"): Parsed<readonly SailPoint[]> {
  if (text.length > MOST_CHARACTERS) {
    const message = `The text has ${text.length} characters; a sail table has at most ${MOST_CHARACTERS}.`;
    return bad(issue(source, "sail-table-layout", message));
  }
  const [first, ...rest] = tableLines(text);
  if (first === undefined || rest.length === 0 || rest.length > MOST_ANGLES) {
    const message = `The text has ${rest.length} lines of speeds under its first line; it must have from 1 to ${MOST_ANGLES}.`;
    return bad(issue(source, "sail-table-layout", message));
  }
  // Without a word in the corner the first line is one cell shorter than the others.
  const hasCorner = cellNumber(first.cells[0], KNOTS) === null || first.cells.length === rest[0].cells.length;
  const { windsKnots, issues: headerIssues } = readHeader(source, first, hasCorner);
  if (headerIssues.length > 0) return bad(...headerIssues);

  const issues: Issue[] = [];
  const points: SailPoint[] = [];
  let beforeDeg = -1;
  for (const line of rest) {
    const angleDeg = readAngle(source, line, beforeDeg, issues);
    if (angleDeg === null) continue;
    beforeDeg = angleDeg;
    if (line.cells.length > windsKnots.length + 1) {
      const message = `The line has ${line.cells.length - 1} speeds; the first line has ${windsKnots.length} wind speeds.`;
      issues.push(issue(placeOf(source, line, null), "sail-table-layout", message));
      continue;
    }
    windsKnots.forEach((windKnots, j) => {
      const speedKnots = readSpeed(placeOf(source, line, j + 2), line.cells[j + 1] ?? "", angleDeg, windKnots, issues);
      points.push({ trueWindAngleDeg: angleDeg, trueWindMps: mpsFromKnots(windKnots), speedMps: mpsFromKnots(speedKnots) });
    });
  }
  if (issues.length > 0) return bad(...issues);
  const table = sailTable(points, source);
  return table.ok ? good(points) : table;
}

import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { commaIssue, notUnderstood, type UnitTable, unitFactor } from "./amount.ts";
import { METRES_PER_FOOT } from "./conversions.ts";
import { rangePattern, writtenRange } from "./number-range.ts";
import { LONGEST_QUANTITY, quoted, tidy } from "./written.ts";

/** A sea as a forecaster writes it: ranges of significant height in metres and of period in seconds (null where none is given). */
export interface SeaRange {
  readonly heightLowMetres: number;
  readonly heightHighMetres: number;
  readonly periodLowSeconds: number | null;
  readonly periodHighSeconds: number | null;
}

/** Greater significant heights and longer periods of wind waves than these are slips of the pen (common practice). */
export const GREATEST_SEA_METRES = 30;
export const LONGEST_PERIOD_SECONDS = 30;

const heights: UnitTable = {
  quantity: "a height of sea",
  reads: "ft or m",
  si: "m",
  units: {
    ft: METRES_PER_FOOT,
    foot: METRES_PER_FOOT,
    feet: METRES_PER_FOOT,
    "'": METRES_PER_FOOT,
    m: 1,
    metre: 1,
    metres: 1,
    meter: 1,
    meters: 1,
  },
};

const READS = "2-3 ft @ 9 s, 1.2 m 7 s or 1 m";
const SEA = new RegExp(`^${rangePattern("(?!to\\b|at\\b)[a-z]+|'")}(?: ?(?:@|at|,)? ?${rangePattern("s|secs?|seconds?")})?$`, "i");

/** `2-3 ft @ 9 s`, `1.2 m 7s`, `2-3ft 6-8 s`, `1 m` → a sea in SI. Heights and periods need their units. All issues at once. */
export function parseSea(text: string, path: string): Parsed<SeaRange> {
  const written = tidy(text);
  if (written.length > LONGEST_QUANTITY) return bad(notUnderstood(text, path, "a sea", READS));
  const comma = commaIssue(written, text, path);
  if (comma !== null) return bad(comma);
  const found = SEA.exec(written);
  const height = found === null ? null : writtenRange(found[1], found[2], found[3], found[4]);
  if (found === null || height === null) return bad(notUnderstood(text, path, "a sea", READS));
  const period = writtenRange(found[5], found[6], found[7], found[8]);
  const issues: Issue[] = [];
  const low = unitFactor(height.lowUnit, Number(height.low), heights, text, path);
  const high = unitFactor(height.highUnit, Number(height.high), heights, text, path);
  const bad1 = [low, high].find((one): one is Issue => typeof one !== "number");
  if (bad1 !== undefined) issues.push(bad1);
  if (period !== null && period.highUnit === "")
    issues.push(issue(path, "unit-missing", `${quoted(text)}: the period has no unit; write s after it`));
  if (typeof low !== "number" || typeof high !== "number") return bad(...issues);
  const sea = {
    heightLowMetres: Number(height.low) * low,
    heightHighMetres: Number(height.high) * high,
    periodLowSeconds: period === null ? null : Number(period.low),
    periodHighSeconds: period === null ? null : Number(period.high),
  };
  issues.push(...slips(sea, text, path));
  return issues.length > 0 ? bad(...issues) : good(sea);
}

function slips(sea: SeaRange, text: string, path: string): Issue[] {
  const issues: Issue[] = [];
  const low = sea.periodLowSeconds ?? 1;
  const high = sea.periodHighSeconds ?? 1;
  if (sea.heightLowMetres > sea.heightHighMetres)
    issues.push(issue(path, "range-upside-down", `${quoted(text)}: the heights begin with the greater`));
  if (low > high) issues.push(issue(path, "range-upside-down", `${quoted(text)}: the periods begin with the longer`));
  if (!(sea.heightHighMetres <= GREATEST_SEA_METRES)) issues.push(issue(path, "out-of-range", `${quoted(text)}: no sea is that high`));
  if (!(low > 0 && high <= LONGEST_PERIOD_SECONDS))
    issues.push(issue(path, "out-of-range", `${quoted(text)}: a sea's period lies between 0 and ${LONGEST_PERIOD_SECONDS} s`));
  return issues;
}

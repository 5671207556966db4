import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { knotsFromMps, mpsFromKnots } from "../units/index.ts";
import type { SailPoint } from "./boat-spec.ts";

/**
 * A boat's speed under sail: a full grid of true wind angles and true wind speeds over the water, both strictly ascending. The speed
 * at `anglesDeg[i]`, `windsMps[j]` is `speedsMps[i * windsMps.length + j]`, m/s through the water.
 */
export interface SailTable {
  readonly anglesDeg: Float64Array;
  readonly windsMps: Float64Array;
  readonly speedsMps: Float64Array;
}

/** No displacement cruising boat goes faster, nor is a table wanted for more wind; more is a slip of the pen. Common practice. */
export const FASTEST_SAIL_SPEED_MPS: number = mpsFromKnots(30);
export const STRONGEST_TABLE_WIND_MPS: number = mpsFromKnots(100);

/** A table must reach at least this far off the bow, or it can't say how the boat goes downwind. Common practice. */
export const WIDEST_ANGLE_AT_LEAST_DEG = 120;

/** So many holes are named one by one; the rest are counted. */
const HOLES_NAMED = 20;

/** A grid with more places than this is no table of speeds under sail; it is refused before room is made for it. */
const MOST_PLACES = 20_000;

const short = (value: number): string => String(Number(value.toPrecision(4)));
const knots = (mps: number): string => `${short(knotsFromMps(mps))} kn`;

function pointIssues(points: readonly SailPoint[], path: string): Issue[] {
  const issues: Issue[] = [];
  points.forEach((point, i) => {
    const { trueWindAngleDeg: angle, trueWindMps: wind, speedMps: speed } = point;
    const at = `${path}[${i}]`;
    if (!(angle >= 0 && angle <= 180)) {
      issues.push(issue(`${at}.trueWindAngle`, "sail-table-angle", `The true wind angle is ${short(angle)}°; it must be from 0 to 180°.`));
    }
    if (!(wind >= 0 && wind <= STRONGEST_TABLE_WIND_MPS)) {
      const limit = knots(STRONGEST_TABLE_WIND_MPS);
      issues.push(issue(`${at}.trueWindSpeed`, "sail-table-wind", `The true wind speed is ${knots(wind)}; it must be from 0 to ${limit}.`));
    }
    if (!(speed >= 0 && speed <= FASTEST_SAIL_SPEED_MPS)) {
      const limit = knots(FASTEST_SAIL_SPEED_MPS);
      issues.push(issue(`${at}.speed`, "sail-table-speed", `The boat's speed is ${knots(speed)}; it must be from 0 to ${limit}.`));
    } else if (wind === 0 && speed > 0) {
      issues.push(issue(`${at}.speed`, "sail-table-speed", `The boat's speed is ${knots(speed)} in no wind at all.`));
    } else if (angle === 0 && speed > 0) {
      issues.push(issue(`${at}.speed`, "sail-table-speed", `The boat's speed is ${knots(speed)} with the wind dead ahead.`));
    }
  });
  return issues;
}

function gridIssues(found: Float64Array, angles: Float64Array, winds: Float64Array, path: string): Issue[] {
  const issues: Issue[] = [];
  const widest = angles.at(-1) ?? 0;
  if (angles.length < 2 || widest < WIDEST_ANGLE_AT_LEAST_DEG || !((winds.at(-1) ?? 0) > 0)) {
    const has = angles.length === 0 ? "no speeds" : `${angles.length} true wind angle(s) up to ${short(widest)}°`;
    const needs = `at least two, the widest ${WIDEST_ANGLE_AT_LEAST_DEG}° or more, and a wind above 0`;
    issues.push(issue(path, "sail-table-too-small", `The sail table has ${has}; it needs ${needs}.`));
  }
  let holes = 0;
  found.forEach((speed, k) => {
    if (!Number.isNaN(speed)) return;
    holes += 1;
    if (holes > HOLES_NAMED) return;
    const angle = angles[Math.floor(k / winds.length)];
    const wind = winds[k % winds.length];
    issues.push(issue(path, "sail-table-hole", `No speed is given at ${short(angle)}° in ${knots(wind)} of wind.`));
  });
  if (holes > HOLES_NAMED) {
    const message = `${holes - HOLES_NAMED} more places of the grid of ${angles.length} angles and ${winds.length} wind speeds are empty.`;
    issues.push(issue(path, "sail-table-hole", message));
  }
  return issues;
}

/** A table's points in any order → the full grid, or all that is wrong with them. `path` is where the points were given. */
export function sailTable(points: readonly SailPoint[], path = "boat.sail.rows"): Parsed<SailTable> {
  const issues = pointIssues(points, path);
  if (issues.length > 0) return bad(...issues);

  const anglesDeg = Float64Array.from(new Set(points.map((point) => point.trueWindAngleDeg))).sort();
  const windsMps = Float64Array.from(new Set(points.map((point) => point.trueWindMps))).sort();
  if (anglesDeg.length * windsMps.length > MOST_PLACES) {
    const message = `${points.length} points lie at ${anglesDeg.length} angles and in ${windsMps.length} wind speeds: no full table.`;
    return bad(issue(path, "sail-table-hole", message));
  }
  const speedsMps = new Float64Array(anglesDeg.length * windsMps.length).fill(Number.NaN);
  points.forEach((point, i) => {
    const k = anglesDeg.indexOf(point.trueWindAngleDeg) * windsMps.length + windsMps.indexOf(point.trueWindMps);
    if (!Number.isNaN(speedsMps[k])) {
      const where = `${short(point.trueWindAngleDeg)}° in ${knots(point.trueWindMps)} of wind`;
      issues.push(issue(`${path}[${i}]`, "sail-table-duplicate", `The speed at ${where} is given twice.`));
    }
    speedsMps[k] = point.speedMps;
  });
  issues.push(...gridIssues(speedsMps, anglesDeg, windsMps, path));
  return issues.length > 0 ? bad(...issues) : good({ anglesDeg, windsMps, speedsMps });
}

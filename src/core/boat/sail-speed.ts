import { RAD_PER_DEG } from "../units/index.ts";
import type { SailTable } from "./sail-table.ts";

/** Angles that meet the closest row but for rounding count as on it. */
const ANGLE_ROUNDING_DEG = 1e-9;

/** Any angle off the bow, degrees, to 0 … 180: a boat sails alike on either side. */
function offBowDeg(angleDeg: number): number {
  const folded = Math.abs(angleDeg) % 360;
  return folded > 180 ? 360 - folded : folded;
}

/** Speed on one row of the table: linear between wind speeds, linear to nothing below the lowest, held above the highest. */
function rowSpeedMps(table: SailTable, row: number, windMps: number): number {
  const winds = table.windsMps;
  const first = row * winds.length;
  const last = winds.length - 1;
  if (windMps >= winds[last]) return table.speedsMps[first + last];
  if (windMps < winds[0]) return (table.speedsMps[first] * windMps) / winds[0];
  let above = 1;
  while (winds[above] <= windMps) above += 1;
  const share = (windMps - winds[above - 1]) / (winds[above] - winds[above - 1]);
  const low = table.speedsMps[first + above - 1];
  return low + share * (table.speedsMps[first + above] - low);
}

/**
 * Speed under sail through the water, m/s, at a true wind angle (degrees off the bow, either side) and a true wind speed over the water
 * (m/s). Allocates nothing. Between the table's angles and wind speeds it is bilinear; at its edges:
 *
 * - closer to the wind than the closest row: 0, the boat does not point so high (boards to windward are not one heading);
 * - wider than the widest row: what gybing between its two sides makes good, V·cos(widest)/cos(angle), which the table vouches for;
 * - less wind than the lowest column: in proportion to the wind, to nothing in a calm (common practice);
 * - more wind than the highest column: the speed in the highest, never more (`sailCoverage` tells it).
 */
export function sailSpeedMps(table: SailTable, trueWindAngleDeg: number, windMps: number): number {
  const angle = offBowDeg(trueWindAngleDeg);
  const angles = table.anglesDeg;
  const last = angles.length - 1;
  if (!(angle <= 180) || !(windMps >= 0)) throw new Error(`no sail speed at ${trueWindAngleDeg} degrees in ${windMps} m/s`);
  if (angle < angles[0] - ANGLE_ROUNDING_DEG) return 0;
  if (angle >= angles[last]) {
    return (rowSpeedMps(table, last, windMps) * Math.cos(angles[last] * RAD_PER_DEG)) / Math.cos(angle * RAD_PER_DEG);
  }
  let wider = 1;
  while (angles[wider] <= angle) wider += 1;
  const share = Math.max(0, (angle - angles[wider - 1]) / (angles[wider] - angles[wider - 1]));
  const close = rowSpeedMps(table, wider - 1, windMps);
  return close + share * (rowSpeedMps(table, wider, windMps) - close);
}

/** Where a wind lies in a sail table: on it, or beyond one or two of its edges. */
export interface SailCoverage {
  readonly angle: "on-table" | "too-close-to-sail" | "wider-than-table";
  readonly wind: "on-table" | "lighter-than-table" | "stronger-than-table";
}

/** By which rule of `sailSpeedMps` a speed was found, so that it can be said. */
export function sailCoverage(table: SailTable, trueWindAngleDeg: number, windMps: number): SailCoverage {
  const { anglesDeg, windsMps } = table;
  const angle = offBowDeg(trueWindAngleDeg);
  return {
    angle:
      angle < anglesDeg[0] - ANGLE_ROUNDING_DEG
        ? "too-close-to-sail"
        : angle > anglesDeg[anglesDeg.length - 1]
          ? "wider-than-table"
          : "on-table",
    wind: windMps < windsMps[0] ? "lighter-than-table" : windMps > windsMps[windsMps.length - 1] ? "stronger-than-table" : "on-table",
  };
}

// @ts-check
/** Wind at 10 m and the greatest gust of each step, by lead, then member, then east, north and gust: a whole file of GRIB edition 2. */
import { EAST, GREATEST, GUST, instant, joined, memberOf, NORTH, ofRun, pointsOf, TEN_METRES } from "./grib-grid.mjs";

/** @typedef {import("./grib-grid.mjs").Grib2Message} Grib2Message */
/** @typedef {import("./lots.mjs").Departure} Departure */
/** @typedef {import("./frame.mjs").Position} Position */

/**
 * @param {(message: Grib2Message) => Uint8Array} write
 * @param {object} of
 * @param {number} of.runAt seconds of the UTC epoch
 * @param {number[]} of.leadHours
 * @param {number} of.stepHours
 * @param {import("./grib-grid.mjs").Grid} of.grid
 * @param {Departure[]} of.forecasts the control first
 * @param {(position: Position, leadHours: number, departure: Departure) => { eastMps: number, northMps: number }} of.windMotionAt
 * @param {(position: Position, leadHours: number, overHours: number, departure: Departure) => number} of.greatestGustMps
 * @returns {Uint8Array}
 */
export function windMessages(write, { runAt, leadHours, stepHours, grid, forecasts, windMotionAt, greatestGustMps }) {
  const parts = [];
  const points = pointsOf(grid);
  const at = (/** @type {number} */ lead) => instant(runAt, lead);
  for (const lead of leadHours) {
    for (const [member, departure] of forecasts.entries()) {
      const common = {
        ...ofRun(runAt, grid),
        discipline: 0,
        category: 2,
        level: TEN_METRES,
        ensemble: memberOf(member, forecasts.length),
        decimalScale: 2,
      };
      const motions = points.map((position) => windMotionAt(position, lead, departure));
      parts.push(write({ ...common, number: EAST, validFrom: at(lead), values: Float64Array.from(motions, (one) => one.eastMps) }));
      parts.push(write({ ...common, number: NORTH, validFrom: at(lead), values: Float64Array.from(motions, (one) => one.northMps) }));
      if (lead === 0) continue;
      const gusts = points.map((position) => greatestGustMps(position, lead, stepHours, departure));
      const interval = { validUntil: at(lead), processCode: GREATEST };
      parts.push(write({ ...common, number: GUST, validFrom: at(lead - stepHours), interval, values: Float64Array.from(gusts) }));
    }
  }
  return joined(parts);
}

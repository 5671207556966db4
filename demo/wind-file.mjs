// @ts-check
/** `wind.grib2`: wind at 10 m every three hours and the greatest gust of each three, ten members, on a grid of a quarter of a degree. */
import { departures } from "./members.mjs";
import { windMessages } from "./shared/wind-messages.mjs";
import { leadHours, RUN_AT, STEP_HOURS } from "./strait.mjs";
import { greatestGustMps, windMotionAt } from "./weather.mjs";

/** @typedef {import("./shared/grib-grid.mjs").Grib2Message} Grib2Message */

export const WIND_GRID = { rows: 11, columns: 13, southDeg: -34.75, westDeg: -120, latitudeStepDeg: 0.25, longitudeStepDeg: 0.25 };

/**
 * The whole file.
 * @param {(message: Grib2Message) => Uint8Array} write
 * @returns {Uint8Array}
 */
export function windFile(write) {
  return windMessages(write, {
    runAt: RUN_AT,
    leadHours: leadHours(),
    stepHours: STEP_HOURS,
    grid: WIND_GRID,
    forecasts: departures(),
    windMotionAt,
    greatestGustMps,
  });
}

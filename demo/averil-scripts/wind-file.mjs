// @ts-check
/** `wind.grib2`: wind at 10 m every three hours and the greatest gust of each three, five forecasts, on a grid of a quarter of a degree. */
import { departuresByLot } from "../shared/lots.mjs";
import { windMessages } from "../shared/wind-messages.mjs";
import { leadHours, RUN_AT, STEP_HOURS } from "./strait.mjs";
import { greatestGustMps, windMotionAt } from "./weather.mjs";

export const WIND_GRID = { rows: 6, columns: 7, southDeg: -38.75, westDeg: 92.25, latitudeStepDeg: 0.25, longitudeStepDeg: 0.25 };
const MEMBER_COUNT = 5;
const FIRST_LOT = 20270218;

/** One departure a forecast, the control first. */
export const departures = () => departuresByLot(FIRST_LOT, MEMBER_COUNT);

/**
 * The whole file.
 * @param {(message: import("../shared/grib-grid.mjs").Grib2Message) => Uint8Array} write
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

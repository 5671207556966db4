// @ts-check
/**
 * `letter.txt`: what a forecaster would write of the same week at mid-strait. Figures are the control's, rounded as people round, with
 * the front four hours earlier; the sea is grown from that wind.
 */
import { windSeaAt } from "./shared/wind-sea.mjs";
import { LEAD_HOURS, MIDDLE, ZONE_HOURS } from "./strait.mjs";
import { CONTROL, PARTING, windAt } from "./weather.mjs";

/** The front in the letter comes about four hours before the control's: at 1300 rather than 1700. */
const EARLIER_HOURS = 5.4;
const EARLIER = { ...CONTROL, late: -EARLIER_HOURS / PARTING.frontHours };

/** The forecaster's periods in ship's time, days counted from Tuesday 6 April. `0` to `24` hours; cut at the front. */
const PERIODS = [
  [0, 6, 0, 18],
  [0, 18, 1, 6],
  [1, 6, 1, 18],
  [1, 18, 2, 6],
  [2, 6, 2, 13],
  [2, 13, 2, 16],
  [2, 16, 2, 22],
  [2, 22, 3, 6],
  [3, 6, 3, 18],
  [3, 18, 4, 6],
  [4, 6, 4, 18],
  [4, 18, 4, 24],
  [5, 0, 5, 6],
  [5, 6, 5, 12],
  [5, 12, 5, 24],
  [6, 0, 6, 12],
  [6, 12, 6, 24],
  [7, 0, 7, 12],
  [7, 12, 7, 24],
  [8, 0, 8, 4],
].map((period) => /** @type {[number, number, number, number]} */ (period));

/** From the eighth day on a weekday would be doubtful: a date stands in its place. */
const WEEKDAYS = ["TUE", "WED", "THU", "FRI", "SAT", "SUN", "MON"];
const POINTS = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];
const METRES_PER_FOOT = 0.3048;

/** The whole letter. */
export function letterText() {
  return [
    "# Sea office of Tavora, for Tansy: Pelu Road to Port Ansa. Invented, for demonstration.",
    "Issued 2027-04-06 0730 UTC-8",
    "All times UTC-8",
    "",
    "The front is in mid-strait about 1300 on Thursday and then blows against the stream. Be in before it.",
    "",
    ...PERIODS.map(line),
    "",
  ].join("\n");
}

/** @param {[number, number, number, number]} period */
function line([fromDay, fromHour, untilDay, untilHour]) {
  const hours = halfHours(leadOf(fromDay, fromHour), Math.min(leadOf(untilDay, untilHour), LEAD_HOURS));
  const winds = hours.map((hour) => windAt(MIDDLE, hour, EARLIER));
  const seas = hours.map(seaAt);
  const until = untilDay === fromDay ? clock(untilHour) : `${dayName(untilDay)} ${clock(untilHour)}`;
  const speed = range(
    winds.map((one) => one.speedKn),
    2,
    1,
  );
  const gust = 2 * Math.round(Math.max(...winds.map((one) => one.gustKn)) / 2);
  const height = range(
    seas.map((one) => one.heightMetres / METRES_PER_FOOT),
    1,
    0,
  );
  const period = Math.round(seas.reduce((sum, one) => sum + one.periodSeconds, 0) / seas.length);
  return `${dayName(fromDay)} ${clock(fromHour)}-${until} ${pointsOf(winds.map((one) => one.fromDeg))} ${speed} G${gust} SEA ${height} ft @ ${period} s`;
}

/**
 * @param {number} day
 * @param {number} shipHour
 */
function leadOf(day, shipHour) {
  return 24 * day + shipHour - ZONE_HOURS - 12;
}

/**
 * From one hour until just before another: a front at the end is the next line's.
 * @param {number} from
 * @param {number} until
 */
function halfHours(from, until) {
  return Array.from({ length: 2 * (until - from) }, (_, i) => from + i / 2);
}

/** @param {number} day */
function dayName(day) {
  return WEEKDAYS[day] ?? `2027-04-${String(6 + day).padStart(2, "0")}`;
}

/** @param {number} shipHour */
function clock(shipHour) {
  return `${String(shipHour).padStart(2, "0")}00`;
}

/**
 * `8-12`, or one figure where both ends round to it and `leastSteps` is nought.
 * @param {number[]} values
 * @param {number} step
 * @param {number} leastSteps
 */
function range(values, step, leastSteps) {
  const high = Math.round(Math.max(...values) / step);
  const low = Math.min(Math.round(Math.min(...values) / step), high - leastSteps);
  return low === high ? String(high * step) : `${low * step}-${high * step}`;
}

/**
 * The first and the last of the directions, by the eight chief points.
 * @param {number[]} fromDeg
 */
function pointsOf(fromDeg) {
  const [first, last] = [fromDeg[0], fromDeg.at(-1)].map((deg) => POINTS[Math.round(Number(deg) / 45) % 8]);
  return first === last ? String(first) : `${first}-${last}`;
}

/** Long swell that is always there. */
const SWELL = { heightMetres: 0.75, periodSeconds: 10.5 };

/**
 * Significant height, swell and wind sea together by squares, and the period that an observer sees.
 * @param {number} leadHours
 */
function seaAt(leadHours) {
  const windSea = windSeaAt((hour) => windAt(MIDDLE, hour, EARLIER).speedKn, leadHours);
  // Weighed by the squares of the energies, so that the stronger of the two gives the period, as an observer sees it.
  const [ofSwell, ofWindSea] = [SWELL.heightMetres ** 4, windSea.heightMetres ** 4];
  const periodSeconds = (ofSwell * SWELL.periodSeconds + ofWindSea * windSea.periodSeconds) / (ofSwell + ofWindSea);
  return { heightMetres: Math.sqrt(SWELL.heightMetres ** 2 + windSea.heightMetres ** 2), periodSeconds };
}

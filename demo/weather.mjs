// @ts-check
/**
 * The invented weather of the week: light air from between north and north-east, a front with a blow from the south-west against the stream,
 * then an easing south-easter and light easterlies. Hours are counted from the run at the middle of the strait; everything moves from
 * north-west to south-east with the front.
 */
import { figuresAt, greatestGust, grown, motionOfWind } from "./shared/week.mjs";
import { milesToward, ZONE_HOURS } from "./strait.mjs";

/** @typedef {import("./shared/lots.mjs").Departure} Departure */

/**
 * The week: hour, direction the wind comes from (unwound, degrees), knots, gust over wind. The front passes between the two lines of hours 60.75 and 61.25.
 * @type {import("./shared/week.mjs").Week}
 */
const WEEK = [
  [-24, 385, 9, 1.25],
  [0, 380, 9, 1.25],
  [14, 375, 10, 1.28],
  [26, 392, 7, 1.25],
  [36, 380, 8.5, 1.25],
  [44, 366, 8, 1.25],
  [50, 350, 10, 1.28],
  [55, 333, 13, 1.32],
  [60.75, 320, 16.5, 1.35],
  [61.25, 225, 24, 1.4],
  [69, 220, 27, 1.4],
  [82, 212, 26, 1.38],
  [94, 203, 23, 1.35],
  [106, 190, 18, 1.32],
  [116, 170, 15, 1.3],
  [126, 150, 13.5, 1.28],
  [138, 135, 12, 1.28],
  [150, 118, 9, 1.25],
  [162, 100, 9.5, 1.28],
  [174, 88, 7, 1.25],
  [186, 84, 9, 1.28],
  [220, 80, 8, 1.25],
];

/** The front moves toward this bearing at this speed. */
const FRONT_TOWARD_DEG = 135;
const FRONT_SPEED_KN = 22;

/** How far forecasts part at a long lead, and the lead at which they have parted fully. */
export const PARTING = { frontHours: 6, frontFullAtHours: 72, strengthShare: 0.15, directionDeg: 15, fullAtHours: 120 };

/** The control: no departure. */
export const CONTROL = { late: 0, strong: 0, veered: 0 };

/**
 * Wind and gust as one forecast has them: knots, and the direction the wind comes from, true.
 * @param {import("./strait.mjs").Position} position
 * @param {number} leadHours hours after the run
 * @param {Departure} departure
 */
export function windAt(position, leadHours, departure) {
  const lateHours = departure.late * PARTING.frontHours * grown(leadHours, PARTING.frontFullAtHours);
  const share = grown(leadHours, PARTING.fullAtHours);
  const [fromDeg = 0, knots = 0, gustFactor = 1] = figuresAt(
    WEEK,
    leadHours - lateHours - milesToward(position, FRONT_TOWARD_DEG) / FRONT_SPEED_KN,
  );
  const shipHour = (((leadHours + 12 + ZONE_HOURS) % 24) + 24) % 24;
  const byDay = 1 + 0.1 * Math.cos((2 * Math.PI * (shipHour - 16)) / 24);
  const byPlace = 1 + 0.05 * Math.sin((2 * Math.PI * milesToward(position, 80)) / 170);
  const speedKn = knots * byDay * byPlace * (1 + departure.strong * PARTING.strengthShare * share);
  const turnedDeg = 3 * Math.sin((2 * Math.PI * milesToward(position, 215)) / 160) + departure.veered * PARTING.directionDeg * share;
  return { fromDeg: (((fromDeg + turnedDeg) % 360) + 360) % 360, speedKn, gustKn: speedKn * gustFactor };
}

/**
 * The wind as a motion, m/s, true.
 * @param {import("./strait.mjs").Position} position
 * @param {number} leadHours
 * @param {Departure} departure
 */
export function windMotionAt(position, leadHours, departure) {
  return motionOfWind(windAt(position, leadHours, departure));
}

/**
 * The greatest gust of the hours up to an instant, m/s, looked up every half-hour.
 * @param {import("./strait.mjs").Position} position
 * @param {number} leadHours
 * @param {number} overHours
 * @param {Departure} departure
 */
export function greatestGustMps(position, leadHours, overHours, departure) {
  return greatestGust((at) => windAt(position, at, departure), leadHours, overHours);
}

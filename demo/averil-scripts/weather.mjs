// @ts-check
/**
 * The invented weather of five days: light air off Norvane, a freshening westerly, a front with a blow from the south-west, and a quiet Sunday on
 * the swell that it leaves. Hours are counted from the run, midnight before Thursday, at the middle of the strait; everything moves with the front.
 */
import { figuresAt, greatestGust, grown, motionOfWind } from "../shared/week.mjs";
import { frame } from "./strait.mjs";

/** @typedef {import("../shared/lots.mjs").Departure} Departure */
/** @typedef {import("../shared/frame.mjs").Position} Position */

/** Hour, direction the wind comes from (unwound, degrees), knots, gust over wind. The front passes between hours 54.75 and 55.25. */
const WEEK = [
  [-24, 350, 8, 1.25],
  [0, 340, 8, 1.25],
  [14, 330, 9, 1.25],
  [24, 310, 8, 1.25],
  [36, 288, 11, 1.28],
  [46, 272, 14, 1.3],
  [54.75, 258, 18, 1.33],
  [55.25, 228, 22, 1.4],
  [62, 222, 25, 1.4],
  [67, 216, 19, 1.36],
  [73, 208, 12, 1.3],
  [80, 195, 8, 1.25],
  [98, 160, 6, 1.25],
  [112, 120, 7, 1.25],
  [150, 100, 8, 1.25],
];

const FRONT_TOWARD_DEG = 60;
const FRONT_SPEED_KN = 25;

/** How far forecasts part at a long lead, and the lead at which they have parted fully. */
export const PARTING = { frontHours: 5, frontFullAtHours: 60, strengthShare: 0.15, directionDeg: 12, fullAtHours: 96 };

/** The control: no departure. */
export const CONTROL = { late: 0, strong: 0, veered: 0 };

/**
 * Wind and gust as one forecast has them: knots, and the direction the wind comes from, true.
 * @param {Position} position
 * @param {number} leadHours hours after the run
 * @param {Departure} departure
 */
export function windAt(position, leadHours, departure) {
  const lateHours = departure.late * PARTING.frontHours * grown(leadHours, PARTING.frontFullAtHours);
  const share = grown(leadHours, PARTING.fullAtHours);
  const hour = leadHours - lateHours - frame.milesToward(position, FRONT_TOWARD_DEG) / FRONT_SPEED_KN;
  const [fromDeg = 0, knots = 0, gustFactor = 1] = figuresAt(WEEK, hour);
  const byPlace = 1 + 0.06 * Math.sin((2 * Math.PI * frame.milesToward(position, 75)) / 120);
  const speedKn = knots * byPlace * (1 + departure.strong * PARTING.strengthShare * share);
  const turnedDeg = departure.veered * PARTING.directionDeg * share;
  return { fromDeg: (((fromDeg + turnedDeg) % 360) + 360) % 360, speedKn, gustKn: speedKn * gustFactor };
}

/**
 * The wind as a motion, m/s, true.
 * @param {Position} position
 * @param {number} leadHours
 * @param {Departure} departure
 */
export function windMotionAt(position, leadHours, departure) {
  return motionOfWind(windAt(position, leadHours, departure));
}

/**
 * The greatest gust of the hours up to an instant, m/s.
 * @param {Position} position
 * @param {number} leadHours
 * @param {number} overHours
 * @param {Departure} departure
 */
export function greatestGustMps(position, leadHours, overHours, departure) {
  return greatestGust((at) => windAt(position, at, departure), leadHours, overHours);
}

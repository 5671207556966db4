// @ts-check
/** A week told as a short table, and what is read off it. */

const RAD = Math.PI / 180;
const MPS_PER_KNOT = 1852 / 3600;

/** @typedef {readonly (readonly number[])[]} Week the hour first in each line */

/**
 * The figures between the lines of a table at an hour, without the hour itself.
 * @param {Week} week
 * @param {number} hour
 */
export function figuresAt(week, hour) {
  const next = week.findIndex((line) => Number(line[0]) > hour);
  const before = week[next - 1];
  const after = week[next];
  if (before === undefined || after === undefined) throw new Error(`nothing is invented for hour ${hour}`);
  const share = (hour - Number(before[0])) / (Number(after[0]) - Number(before[0]));
  return before.slice(1).map((value, i) => value + share * (Number(after[i + 1]) - value));
}

/**
 * How far forecasts have parted at a lead, 0 to 1.
 * @param {number} leadHours
 * @param {number} fullAtHours
 */
export function grown(leadHours, fullAtHours) {
  return Math.min(1, Math.max(0, leadHours / fullAtHours));
}

/**
 * A wind as a motion, m/s, true.
 * @param {{ fromDeg: number, speedKn: number }} wind
 */
export function motionOfWind({ fromDeg, speedKn }) {
  return { eastMps: -speedKn * MPS_PER_KNOT * Math.sin(fromDeg * RAD), northMps: -speedKn * MPS_PER_KNOT * Math.cos(fromDeg * RAD) };
}

/**
 * The greatest gust of the hours up to an instant, m/s, looked up every half-hour.
 * @param {(leadHours: number) => { gustKn: number }} windAt
 * @param {number} leadHours
 * @param {number} overHours
 */
export function greatestGust(windAt, leadHours, overHours) {
  let greatestKn = 0;
  for (let at = leadHours - overHours; at <= leadHours; at += 0.5) greatestKn = Math.max(greatestKn, windAt(at).gustKn);
  return greatestKn * MPS_PER_KNOT;
}

// @ts-check
/** The ten forecasts: the control, and nine that depart from it by lots drawn from a generator of our own, the same on every machine. */
import { CONTROL } from "./weather.mjs";

export const MEMBER_COUNT = 10;
const FIRST_LOT = 20270406;

/**
 * Whole numbers from 1 to 2³¹ − 2, one after another (S. K. Park and K. W. Miller, Random number generators: good ones are hard to find,
 * Communications of the ACM 31, 1988: 16807 x mod 2³¹ − 1).
 * @param {number} first
 */
function lots(first) {
  let lot = first;
  return () => {
    lot = (16807 * lot) % 2147483647;
    return lot;
  };
}

/**
 * Evenly spread from -1 to 1, in an order drawn by lot, so that nine forecasts fill the spread.
 * @param {number} count
 * @param {() => number} draw
 */
function spread(count, draw) {
  const values = Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);
  for (let i = count - 1; i > 0; i--) {
    const j = draw() % (i + 1);
    [values[i], values[j]] = [Number(values[j]), Number(values[i])];
  }
  return values;
}

/**
 * One departure a member, the control first.
 * @returns {import("./weather.mjs").Departure[]}
 */
export function departures() {
  const draw = lots(FIRST_LOT);
  const [late, strong, veered] = [spread(MEMBER_COUNT - 1, draw), spread(MEMBER_COUNT - 1, draw), spread(MEMBER_COUNT - 1, draw)];
  return [CONTROL, ...late.map((value, i) => ({ late: value, strong: Number(strong[i]), veered: Number(veered[i]) }))];
}

// @ts-check
/** Chance that is the same on every machine: a fixed generator of lots. */

/**
 * Whole numbers from 1 to 2³¹ − 2, one after another (S. K. Park and K. W. Miller, Random number generators: good ones are hard to find,
 * Communications of the ACM 31, 1988: 16807 x mod 2³¹ − 1).
 * @param {number} first
 */
export function lots(first) {
  let lot = first;
  return () => {
    lot = (16807 * lot) % 2147483647;
    return lot;
  };
}

/**
 * Evenly spread from -1 to 1, in an order drawn by lot, so that so many forecasts fill the spread.
 * @param {number} count
 * @param {() => number} draw
 */
export function spread(count, draw) {
  const values = Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);
  for (let i = count - 1; i > 0; i--) {
    const j = draw() % (i + 1);
    [values[i], values[j]] = [Number(values[j]), Number(values[i])];
  }
  return values;
}

/** What sets one forecast apart from the control: each from -1 to 1, at its full size when the lead is long.
 * @typedef {{ late: number, strong: number, veered: number }} Departure
 */

/**
 * One departure a member, the control first.
 * @param {number} firstLot
 * @param {number} memberCount
 * @returns {Departure[]}
 */
export function departuresByLot(firstLot, memberCount) {
  const draw = lots(firstLot);
  const [late, strong, veered] = [spread(memberCount - 1, draw), spread(memberCount - 1, draw), spread(memberCount - 1, draw)];
  const control = { late: 0, strong: 0, veered: 0 };
  return [control, ...late.map((value, i) => ({ late: value, strong: Number(strong[i]), veered: Number(veered[i]) }))];
}

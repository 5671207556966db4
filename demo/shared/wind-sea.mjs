// @ts-check
/** The sea that an invented wind raises in the end, rising faster than it falls: rules of our own, for demonstration, not those of the program. */

/** Metres from knots: so large a share of so high a power, in so many hours. */
const RAISED = { share: 0.022, power: 1.5, growHours: 7, fallHours: 11, shortenHours: 40 };
const FIRST_METRES = 0.5;
const STEP_HOURS = 0.25;

/**
 * Significant height and period of the wind's own sea at an hour.
 * @param {(leadHours: number) => number} speedKnAt
 * @param {number} leadHours
 */
export function windSeaAt(speedKnAt, leadHours) {
  let heightMetres = FIRST_METRES;
  let periodSeconds = secondsOf(heightMetres);
  for (let hour = 0; hour < leadHours; hour += STEP_HOURS) {
    const raisedMetres = RAISED.share * speedKnAt(hour) ** RAISED.power;
    const hours = raisedMetres > heightMetres ? RAISED.growHours : RAISED.fallHours;
    heightMetres += ((raisedMetres - heightMetres) * STEP_HOURS) / hours;
    const shortened = periodSeconds + ((secondsOf(heightMetres) - periodSeconds) * STEP_HOURS) / RAISED.shortenHours;
    periodSeconds = Math.max(secondsOf(heightMetres), shortened);
  }
  return { heightMetres, periodSeconds };
}

/**
 * Period of a growing wind sea; one that falls keeps its length longer than its height.
 * @param {number} metres
 */
function secondsOf(metres) {
  return 2.8 + 1.1 * metres;
}

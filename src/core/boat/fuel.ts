import { SECONDS_PER_HOUR } from "../units/index.ts";

/** The rule of thirds: a third of the usable fuel to go, a third to come back, a third kept (common practice). */
export const RESERVE_BY_THIRDS = 1 / 3;

/**
 * Burn in litres an hour at `speedMps`, from a burn measured at `measuredAtMps`, m/s through the water: burn goes with the cube of the
 * speed (the propeller law: power, and with it fuel an hour, goes with the cube of the revolutions, and speed with the revolutions, as
 * long as the boat is well below its hull speed). Throws on speeds or burns that can't be.
 */
export function burnLitresPerHourAt(speedMps: number, measuredLitresPerHour: number, measuredAtMps: number): number {
  if (!(speedMps >= 0)) throw new Error(`not a speed through the water in m/s: ${speedMps}`);
  if (!(measuredLitresPerHour >= 0)) throw new Error(`not a burn in litres an hour: ${measuredLitresPerHour}`);
  if (!(measuredAtMps > 0)) throw new Error(`not a speed at which a burn was measured, in m/s: ${measuredAtMps}`);
  const share = speedMps / measuredAtMps;
  return measuredLitresPerHour * share * share * share;
}

/** Litres burnt in a number of seconds at a burn in litres an hour. Throws when either is negative or no number. */
export function fuelForSeconds(burnLitresPerHour: number, seconds: number): number {
  if (!(burnLitresPerHour >= 0)) throw new Error(`not a burn in litres an hour: ${burnLitresPerHour}`);
  if (!(seconds >= 0)) throw new Error(`not a stretch of time in seconds: ${seconds}`);
  return (burnLitresPerHour * seconds) / SECONDS_PER_HOUR;
}

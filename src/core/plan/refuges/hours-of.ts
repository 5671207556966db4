import { offsetMinutesAt } from "../../calendar/index.ts";
import { epochSeconds } from "../../units/index.ts";

export const REFUGES_EVERY_SECONDS = 3600;

/**
 * The instants within an open-water leg at which one asks where to run to: on the whole hours of ship's time, or as often as told from a
 * whole hour on; a leg that holds none of them is asked about at its beginning. Throws on a spacing that is not above nothing.
 */
export function hoursOf(from: number, until: number, everySeconds: number, zone: string): readonly number[] {
  if (!(everySeconds > 0)) throw new Error(`not a spacing in seconds: ${everySeconds}`);
  const offset = offsetMinutesAt(epochSeconds(from), zone) * 60;
  const hours: number[] = [];
  const wholeHour = Math.floor((from + offset) / 3600) * 3600 - offset;
  for (let k = Math.floor((from - wholeHour) / everySeconds) + 1; wholeHour + k * everySeconds < until; k++) {
    hours.push(wholeHour + k * everySeconds);
  }
  return hours.length === 0 ? [from] : hours;
}

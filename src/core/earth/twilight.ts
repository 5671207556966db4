import { Body } from "astronomy-engine";
import type { EpochSeconds, Interval } from "../units/index.ts";
import { altitudeDay, type HorizonDay } from "./horizon-day.ts";
import type { Position } from "./position.ts";
import { sunAltitudeDeg } from "./sun.ts";

/**
 * The sun's centre at sunrise and sunset: 34′ of refraction and 16′ of semidiameter below the level horizon, so that the upper limb
 * touches it (the United States Naval Observatory's definition, and the Nautical Almanac's). Height of eye is not reckoned in.
 */
export const SUNRISE_ALTITUDE_DEG = -50 / 60;
/** Where civil twilight begins and ends (Nautical Almanac). */
export const CIVIL_ALTITUDE_DEG = -6;
/** Where nautical twilight begins and ends (Nautical Almanac). */
export const NAUTICAL_ALTITUDE_DEG = -12;

/** The light of an interval: `sun` up is sunrise, `civil` up is the beginning of morning civil twilight, down the end of the evening's. */
export interface LightDay {
  readonly sun: HorizonDay;
  readonly civil: HorizonDay;
  readonly nautical: HorizonDay;
}

/**
 * Sunrise, sunset and both twilights in [from, until), usually a local day. The dawn that belongs to a local day is found because the
 * interval is the local day's; a day of UTC would give another evening's sunset in the west. Sea level, level horizon.
 */
export function lightOver(interval: Interval, position: Position): LightDay {
  return {
    sun: altitudeDay(Body.Sun, SUNRISE_ALTITUDE_DEG, interval, position),
    civil: altitudeDay(Body.Sun, CIVIL_ALTITUDE_DEG, interval, position),
    nautical: altitudeDay(Body.Sun, NAUTICAL_ALTITUDE_DEG, interval, position),
  };
}

/** How light it is by the sun alone: day, civil twilight, nautical twilight, or night. */
export type Light = "day" | "civil" | "nautical" | "night";

/** The light at an instant, by the altitudes that bound the twilights. */
export function lightAt(at: EpochSeconds, position: Position): Light {
  const altitudeDeg = sunAltitudeDeg(at, position);
  if (altitudeDeg >= SUNRISE_ALTITUDE_DEG) return "day";
  if (altitudeDeg >= CIVIL_ALTITUDE_DEG) return "civil";
  return altitudeDeg >= NAUTICAL_ALTITUDE_DEG ? "nautical" : "night";
}

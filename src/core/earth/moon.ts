import { Body, Equator, Illumination, KM_PER_AU, SearchRiseSet } from "astronomy-engine";
import { degFromRad, type EpochSeconds, type Interval } from "../units/index.ts";
import { type HorizonDay, horizonDay } from "./horizon-day.ts";
import type { Position } from "./position.ts";
import { type SkyPlace, skyPlaceOf, skyTime, watcherAt } from "./sun.ts";

/** The almanac's refraction at the horizon. */
const HORIZON_REFRACTION_DEG = 34 / 60;
/** Mean radius of the moon (IAU working group on cartographic coordinates, 2015). */
const MOON_RADIUS_KM = 1737.4;

/** Where the moon's centre stands, without refraction. */
export function moonPlace(at: EpochSeconds, position: Position): SkyPlace {
  return skyPlaceOf(Body.Moon, at, position);
}

/**
 * Moonrise and moonset in [from, until): the upper limb on the level horizon with 34′ of refraction, the moon's true size and parallax
 * (the United States Naval Observatory's definition). About once a month a day has no moonrise, and another no moonset.
 */
export function moonOver(interval: Interval, position: Position): HorizonDay {
  const watcher = watcherAt(position);
  return horizonDay(
    (direction, from, withinDays) => SearchRiseSet(Body.Moon, watcher, direction, from, withinDays),
    (at) => {
      const distanceKm = Equator(Body.Moon, skyTime(at), watcher, true, true).dist * KM_PER_AU;
      const semidiameterDeg = degFromRad(Math.asin(MOON_RADIUS_KM / distanceKm));
      return moonPlace(at, position).altitudeDeg + semidiameterDeg > -HORIZON_REFRACTION_DEG;
    },
    interval,
  );
}

/** The illuminated share of the moon's disc, 0 (new) to 1 (full). */
export function moonIlluminatedShare(at: EpochSeconds): number {
  return Illumination(Body.Moon, skyTime(at)).phase_fraction;
}

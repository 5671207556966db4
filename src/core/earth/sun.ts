import { AstroTime, Body, Equator, Horizon, Observer } from "astronomy-engine";
import type { EpochSeconds } from "../units/index.ts";
import { type Position, positionOf } from "./position.ts";

/** Where a body stands in the sky: its centre, without refraction. */
export interface SkyPlace {
  /** Above the level horizon, degrees; negative below it. */
  readonly altitudeDeg: number;
  /** Clockwise from true north, degrees, [0, 360). */
  readonly azimuthDegTrue: number;
}

/** An instant as the ephemeris takes it (Universal Time is taken for UTC: less than a second apart by definition). */
export function skyTime(at: EpochSeconds): AstroTime {
  return new AstroTime(new Date(at * 1000));
}

/** A watcher at sea level. */
export function watcherAt(position: Position): Observer {
  const at = positionOf(position.latitudeDeg, position.longitudeDeg);
  return new Observer(at.latitudeDeg, at.longitudeDeg, 0);
}

/** A body's centre as seen from a place, parallax and aberration in, refraction out (VSOP87 and its like, cut to about an arc minute). */
export function skyPlaceOf(body: Body, at: EpochSeconds, position: Position): SkyPlace {
  const time = skyTime(at);
  const watcher = watcherAt(position);
  const place = Equator(body, time, watcher, true, true);
  const seen = Horizon(time, watcher, place.ra, place.dec);
  return { altitudeDeg: seen.altitude, azimuthDegTrue: seen.azimuth };
}

/** Where the sun's centre stands, without refraction, as the almanac's twilights are reckoned. */
export function sunPlace(at: EpochSeconds, position: Position): SkyPlace {
  return skyPlaceOf(Body.Sun, at, position);
}

/** The sun's altitude alone, degrees: centre, no refraction; so it is about −0.83 at sunrise. Some 7 µs. */
export function sunAltitudeDeg(at: EpochSeconds, position: Position): number {
  return sunPlace(at, position).altitudeDeg;
}

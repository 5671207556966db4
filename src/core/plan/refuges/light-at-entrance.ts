import { CIVIL_ALTITUDE_DEG, type Position, sunAltitudeDeg } from "../../earth/index.ts";
import { epochSeconds } from "../../units/index.ts";

/**
 * Daylight for an entrance: the sun no lower than 6° below the horizon, that is within civil twilight, in which in clear weather shore and
 * marks are made out without lights (Nautical Almanac; common practice). First light is when it begins in the morning.
 */
export const DAYLIGHT_ALTITUDE_DEG = CIVIL_ALTITUDE_DEG;

/** First light is looked for so far ahead, seconds: beyond it the sun does not rise at all there (common practice). */
const LOOK_AHEAD_SECONDS = 36 * 3600;
/** No body rises faster than the sky turns: 360° in a sidereal day of 86,164 s, degrees a second. The sun's own way makes it slower. */
const FASTEST_RISE_DEG_PER_SECOND = 360 / 86164;
const WITHIN_SECONDS = 1;
const LEAST_STRIDE_SECONDS = 30;

/** When it is light enough at one place. Holds what it has found of the night, since many arrivals fall into the same. */
export class LightAtEntrance {
  private readonly position: Position;
  private readonly sunAboveDeg: number;
  private darkFrom = Number.POSITIVE_INFINITY;
  private lightAt: number | null = null;
  private darkUntil = Number.NEGATIVE_INFINITY;

  constructor(position: Position, sunAboveDeg: number) {
    this.position = position;
    this.sunAboveDeg = sunAboveDeg;
  }

  isLight(at: number): boolean {
    if (at >= this.darkFrom && at < this.darkUntil) return false;
    return this.aboveDeg(at) >= 0;
  }

  /** The first instant of light after one at which it is dark, to a second; null where there is none within a day and a half. */
  firstLightAfter(dark: number): number | null {
    if (dark >= this.darkFrom && dark < this.darkUntil) return this.lightAt;
    let low = dark;
    let high = dark;
    for (;;) {
      const belowDeg = -this.aboveDeg(high);
      if (belowDeg <= 0) break;
      low = high;
      // However fast the sun rises, it can't be up before this.
      high += Math.max(LEAST_STRIDE_SECONDS, belowDeg / FASTEST_RISE_DEG_PER_SECOND);
      if (high - dark > LOOK_AHEAD_SECONDS) return this.keep(dark, null, dark + LOOK_AHEAD_SECONDS);
    }
    while (high - low > WITHIN_SECONDS) {
      const middle = (low + high) / 2;
      if (this.aboveDeg(middle) >= 0) high = middle;
      else low = middle;
    }
    return this.keep(dark, high, high);
  }

  private keep(darkFrom: number, lightAt: number | null, darkUntil: number): number | null {
    this.darkFrom = darkFrom;
    this.lightAt = lightAt;
    // Without any light the answer holds for this instant alone: a later one looks further.
    this.darkUntil = lightAt === null ? darkFrom : darkUntil;
    return lightAt;
  }

  private aboveDeg(at: number): number {
    return sunAltitudeDeg(epochSeconds(at), this.position) - this.sunAboveDeg;
  }
}

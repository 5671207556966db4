import type { EpochSeconds } from "../../units/index.ts";

/** Noon at Greenwich on the last day of 1899, from which Schureman counts (SP 98, table 1). */
const SCHUREMAN_EPOCH_AT = Date.UTC(1899, 11, 31, 12) / 1000;
const SECONDS_A_CENTURY = 36525 * 86400;

/** Degrees at the epoch, then degrees for a Julian century, its square and its cube. */
type Polynomial = readonly [number, number, number, number];

const degrees = (whole: number, minutes: number, seconds: number): number => whole + minutes / 60 + seconds / 3600;
const turnsAnd = (turns: number, seconds: number): number => turns * 360 + seconds / 3600;

/**
 * P. Schureman, Manual of harmonic analysis and prediction of tides (U.S. Coast and Geodetic Survey, Special Publication 98, 1940), table 1,
 * after Newcomb and Brown. Newer ones differ: by 0.02° for the moon in 2019. The constants of ports are reckoned against these.
 */
const MOON: Polynomial = [degrees(270, 26, 14.72), turnsAnd(1336, 1108411.2), 9.09 / 3600, 0.0068 / 3600];
const SUN: Polynomial = [degrees(279, 41, 48.04), turnsAnd(0, 129602768.13), 1.089 / 3600, 0];
const MOON_PERIGEE: Polynomial = [degrees(334, 19, 40.87), turnsAnd(11, 392515.94), -37.24 / 3600, -0.045 / 3600];
const MOON_NODE: Polynomial = [degrees(259, 10, 57.12), -turnsAnd(5, 482912.63), 7.58 / 3600, 0.008 / 3600];
const SUN_PERIGEE: Polynomial = [degrees(281, 13, 15), turnsAnd(0, 6189.03), 1.63 / 3600, 0.012 / 3600];

/** Mean longitudes, degrees, running on without a jump at 360; `hourDeg` is mean solar time at Greenwich from midnight, 15° an hour. */
export interface MeanLongitudes {
  readonly hourDeg: number;
  /** s */
  readonly moonDeg: number;
  /** h */
  readonly sunDeg: number;
  /** p */
  readonly moonPerigeeDeg: number;
  /** N */
  readonly moonNodeDeg: number;
  /** p₁ */
  readonly sunPerigeeDeg: number;
}

/** The mean longitudes of an instant (SP 98, table 1), in Universal Time throughout as there. */
export function meanLongitudes(at: EpochSeconds): MeanLongitudes {
  const centuries = (at - SCHUREMAN_EPOCH_AT) / SECONDS_A_CENTURY;
  const longitude = ([start, first, second, third]: Polynomial): number =>
    start + centuries * (first + centuries * (second + centuries * third));
  return {
    hourDeg: at / 240,
    moonDeg: longitude(MOON),
    sunDeg: longitude(SUN),
    moonPerigeeDeg: longitude(MOON_PERIGEE),
    moonNodeDeg: longitude(MOON_NODE),
    sunPerigeeDeg: longitude(SUN_PERIGEE),
  };
}

/** Degrees an hour at 1900, as SP 98's table 1 gives them: of τ (lunar time), s, h, p, N′ = −N and p₁, the order of Doodson's numbers. */
export const RATES_DEG_PER_HOUR: readonly number[] = (() => {
  const perHour = ([, first]: Polynomial): number => first / (SECONDS_A_CENTURY / 3600);
  const [moon, sun] = [perHour(MOON), perHour(SUN)];
  return [15 - moon + sun, moon, sun, perHour(MOON_PERIGEE), -perHour(MOON_NODE), perHour(SUN_PERIGEE)];
})();

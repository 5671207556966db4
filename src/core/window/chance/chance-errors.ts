import { SECONDS_PER_HOUR } from "../../units/index.ts";
import type { LastingShare } from "./error-series.ts";

const SECONDS_PER_DAY = 24 * SECONDS_PER_HOUR;

/**
 * How uncertain the stream's total is, as a share of it (standard deviation, normal). Modelled surface currents were off GPS drifters by
 * 0.33–0.48 m/s (vector RMS of five model and drifter sets of 8 to 248 drifters), 0.23–0.34 m/s in one component. The error dies out
 * over a day (autocorrelation after 1, 3, 6, 12, 24 h from 0.95, 0.76, 0.50, 0.26, 0 to 0.76, 0.61, 0.34, 0.41, 0.21), so that over a
 * crossing of ten hours it averages 0.18–0.29 m/s: about a quarter of the total of a stream that averages two knots across. A weaker
 * stream is known less well than that.
 */
export const TOTAL_SPREAD_SHARE = 0.25;

/**
 * The correlation of the current's error by lag, that of the largest of those five sets (0.95, 0.76, 0.50, 0.26, 0 after 1, 3, 6, 12, 24 h):
 * straight lines from 1 through the last three of these, within 0.04 of the others. Drifters go with the water; a boat that crosses it
 * meets other water sooner, so that this errs to the wide side.
 */
export const CURRENT_ERROR_LASTS: readonly LastingShare[] = [
  { hours: 6, share: 0.26 },
  { hours: 12, share: 0.22 },
  { hours: 24, share: 0.52 },
];

/** How long the wind's error keeps, seconds: weather that comes early or late, or stronger, does so for about a day (common practice). */
export const WIND_ERROR_FADES_SECONDS = 24 * SECONDS_PER_HOUR;

/** After so long a forecast knows no less than the season does, seconds: the wind's error grows no more (common practice: a week). */
export const WIND_ERROR_GROWS_SECONDS = 7 * SECONDS_PER_DAY;

/** All that may turn out other than was foretold, and how it is drawn. Spreads are standard deviations. */
export interface ChanceErrors {
  /** A whole number; another one draws other errors. */
  readonly seed: number;
  /** How many crossings are tried for each departure. */
  readonly samples: number;
  /** Of the boat's speed, as a share: she goes at exp(share × z) times it, z being standard normal; the same all the way. */
  readonly speedShare: number;
  /** Of what is steered against what is ordered, degrees; the same all the way. */
  readonly headingDeg: number;
  /** The latest start after the time planned; evenly from none to this. */
  readonly latestStartSeconds: number;
  /** Of the current where it is no stream: the vector's RMS. */
  readonly currentRmsMps: number;
  /** Of a stream's total, as a share. */
  readonly streamTotalShare: number;
  /** Of a stream's place, square to its set. */
  readonly streamPlaceMetres: number;
  /** Of the wind's speed and gust, as a share, at the issue of the forecast; they are exp(share × z) times what is foretold. */
  readonly windSpeedShare: number;
  /** How much that grows each day. */
  readonly windSpeedSharePerDay: number;
  /** Of the wind's direction at the issue of the forecast. */
  readonly windDirectionDeg: number;
  readonly windDirectionDegPerDay: number;
}

/**
 * What is taken where the skipper states nothing. Speed, heading, late start: common practice. The current's vector RMS: the middle of the
 * five drifter sets above. The stream's place: over one day of hourly radar sections across a western boundary current the middle of its
 * core wandered by 7 km. The wind: common practice, after what buoys at sea commonly find of forecasts
 * (1 to 2 m/s and 20° the first day, about twice that on the fifth); from memory.
 */
export const CHANCE_DEFAULTS: ChanceErrors = {
  seed: 1,
  samples: 50,
  speedShare: 0.1,
  headingDeg: 3,
  latestStartSeconds: 1800,
  currentRmsMps: 0.4,
  streamTotalShare: TOTAL_SPREAD_SHARE,
  streamPlaceMetres: 7000,
  windSpeedShare: 0.15,
  windSpeedSharePerDay: 0.06,
  windDirectionDeg: 15,
  windDirectionDegPerDay: 6,
};

/** The wind's spreads at a lead time, seconds after its issue: of speed as a share, of direction in degrees. */
export function windSpreadAt(errors: ChanceErrors, leadSeconds: number): { readonly speedShare: number; readonly directionDeg: number } {
  const days = Math.min(Math.max(0, leadSeconds), WIND_ERROR_GROWS_SECONDS) / SECONDS_PER_DAY;
  return {
    speedShare: errors.windSpeedShare + days * errors.windSpeedSharePerDay,
    directionDeg: errors.windDirectionDeg + days * errors.windDirectionDegPerDay,
  };
}

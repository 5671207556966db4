import { GRAVITY_MPS2 } from "../boat/index.ts";
import { carriesByDepthMetres } from "./breaking.ts";
import { type GrowthLaw, SHORE_MANUAL_GROWTH } from "./growth-law.ts";
import { mustBeDepth, mustReach } from "./wave-system.ts";

/**
 * In shallow water a sea grows until its peak period is this many √(depth/g), and no further. Source: Coastal Engineering Manual, part
 * II-2, eq. II-2-39 (from memory).
 */
export const LONGEST_PERIOD_IN_DEPTH = 9.78;

/** What a wind sea grows by. Null: without bound (open water up-wind; blowing for longer than matters). */
export interface WindOverWater {
  /** Wind at 10 m, m/s, relative to the water where it matters: see `growingSea`. */
  readonly windMps: number;
  /** Distance to the shore up-wind, metres. */
  readonly fetchMetres: number | null;
  readonly durationSeconds: number | null;
  /** Null: deep water. */
  readonly depthMetres: number | null;
}

/** Winds under a millimetre a second raise nothing, and a sea under a micrometre is none. */
export const LEAST_WIND_MPS = 1e-3;
const LEAST_SEA_METRES = 1e-6;

export interface WindSea {
  /** Significant height, metres. */
  readonly heightMetres: number;
  /** Peak period, seconds; null where there is no sea (no wind, no fetch or no time). */
  readonly periodSeconds: number | null;
  /** What it can't grow beyond; "full" is a sea that the wind raises no further. */
  readonly limitedBy: "fetch" | "duration" | "full" | "depth";
}

/**
 * The sea that a steady wind raises over a fetch in a time: the lesser of what either allows, never more than a full sea, in shallow
 * water stopped at the longest period the depth lets grow and at the height it lets stand.
 *
 * Metres, seconds, m/s. Source: see `SHORE_MANUAL_GROWTH` (or the law given). Throws on numbers below 0.
 *
 * @example
 * windSea({ windMps: 15, fetchMetres: 200e3, durationSeconds: null, depthMetres: null }).heightMetres // => 3.4274
 * windSea({ windMps: 15, fetchMetres: 200e3, durationSeconds: 10 * 3600, depthMetres: null }).limitedBy // => "duration"
 */
export function windSea(over: WindOverWater, law: GrowthLaw = SHORE_MANUAL_GROWTH): WindSea {
  const { windMps, fetchMetres, durationSeconds, depthMetres } = over;
  mustReach("wind", windMps, 0);
  if (fetchMetres !== null) mustReach("fetch", fetchMetres, 0);
  if (durationSeconds !== null) mustReach("duration", durationSeconds, 0);
  mustBeDepth("depth", depthMetres);
  const none = (limitedBy: WindSea["limitedBy"]): WindSea => ({ heightMetres: 0, periodSeconds: null, limitedBy });
  if (windMps < LEAST_WIND_MPS) return none("full");
  const u = law.windScaleMps(windMps);
  const byFetch = fetchMetres === null ? Number.POSITIVE_INFINITY : (GRAVITY_MPS2 * fetchMetres) / (u * u);
  const byDuration = durationSeconds === null ? Number.POSITIVE_INFINITY : ((GRAVITY_MPS2 * durationSeconds) / u / law.duration) ** 1.5;
  const full = (law.greatestHeight / law.height) ** 2;
  const byDepth =
    depthMetres === null ? Number.POSITIVE_INFINITY : fetchOfPeriod(LONGEST_PERIOD_IN_DEPTH * Math.sqrt(depthMetres / GRAVITY_MPS2));
  const grown = Math.min(byFetch, byDuration, full, byDepth);
  const limitedBy = grown === byDepth ? "depth" : grown === full ? "full" : grown === byFetch ? "fetch" : "duration";
  const heightMetres = (law.height * Math.sqrt(grown) * u * u) / GRAVITY_MPS2;
  if (heightMetres < LEAST_SEA_METRES) return none(limitedBy);
  const periodSeconds = (Math.min(law.period * Math.cbrt(grown), law.greatestPeriod) * u) / GRAVITY_MPS2;
  const stands = depthMetres === null ? heightMetres : Math.min(heightMetres, carriesByDepthMetres(depthMetres));
  return { heightMetres: stands, periodSeconds, limitedBy: stands < heightMetres ? "depth" : limitedBy };

  function fetchOfPeriod(seconds: number): number {
    return ((seconds * GRAVITY_MPS2) / u / law.period) ** 3;
  }
}

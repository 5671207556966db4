import { METRES_PER_FOOT } from "../units/index.ts";
import { BREAKING_STEEPNESS, STEEP_STEEPNESS } from "./breaking.ts";
import type { WaveOnCurrent } from "./wave-on-current.ts";

/** What one system of waves is to a small boat, by significant steepness. */
export type SeaFeel = "harmless" | "steep" | "breaking" | "blocked";

/** What waves on a current are: steep from 1/25 (common practice), breaking from 1/13 or where they break by depth. */
export function seaFeelOf(sea: WaveOnCurrent | { readonly steepness: number; readonly breaking: boolean }): SeaFeel {
  if ("kind" in sea && sea.kind === "blocked") return "blocked";
  if (sea.breaking || sea.steepness >= BREAKING_STEEPNESS) return "breaking";
  return sea.steepness >= STEEP_STEEPNESS ? "steep" : "harmless";
}

/** Under this many seconds for each foot of height a sea is uncomfortable; at one second a foot it is square and boats slam. Common practice. */
export const UNEASY_SECONDS_PER_FOOT = 1.5;
export const SQUARE_SECONDS_PER_FOOT = 1;

export type SeaComfort = "easy" | "uncomfortable" | "square";

/**
 * How a small cruising boat takes a sea, by the rule of seconds to feet: common practice among skippers, no physics. On a current give the
 * period met drifting with the water, which goes with the waves' length.
 *
 * @example
 * seaComfortOf(3 * METRES_PER_FOOT, 10) // => "easy"
 * seaComfortOf(5 * METRES_PER_FOOT, 6) // => "uncomfortable"
 * seaComfortOf(7 * METRES_PER_FOOT, 7) // => "square"
 */
export function seaComfortOf(heightMetres: number, periodSeconds: number): SeaComfort {
  // Feet back from metres are a hair off: a square sea is one that is within rounding of it.
  const secondsPerFoot = (periodSeconds * METRES_PER_FOOT) / heightMetres;
  if (secondsPerFoot <= SQUARE_SECONDS_PER_FOOT * (1 + 1e-9)) return "square";
  return secondsPerFoot < UNEASY_SECONDS_PER_FOOT * (1 - 1e-9) ? "uncomfortable" : "easy";
}

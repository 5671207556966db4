import { knotsFromMps, mpsFromKnots, RAD_PER_DEG } from "../units/index.ts";

/**
 * How far a cruising boat is let heel, close-hauled, before sail is shortened, and the apparent wind in which it gets there under full
 * sail. Common practice: a table of speeds tells nothing of heel, so this stands in for it.
 */
export const HEEL_WHERE_REEFED_DEG = 20;
export const HEEL_REACHED_AT_APPARENT_MPS: number = mpsFromKnots(20);

const SIN_HEEL_WHERE_REEFED = Math.sin(HEEL_WHERE_REEFED_DEG * RAD_PER_DEG);

/**
 * Sine of the heel that is reckoned with, 0 to sin 20°: it grows with the square of the apparent wind (a pressure) up to the wind in
 * which sail is shortened, and stays there; it falls off from the bow aft as (1 + cos β)/2, half on the beam and none dead astern,
 * as the side force of trimmed sails does, β being the apparent wind angle. An estimate, common practice.
 */
export function sinHeelEstimate(apparentWindMps: number, cosApparentAngle: number): number {
  const share = apparentWindMps / HEEL_REACHED_AT_APPARENT_MPS;
  return SIN_HEEL_WHERE_REEFED * Math.min(1, share * share) * ((1 + cosApparentAngle) / 2);
}

/**
 * Size of the leeway, degrees, 0 or more: λ = K·sin(heel)/V² with V in knots (R. Garrett, "The Symmetry of Sailing", 1987, §3.5: model
 * tests, borne out under way; K is 464 degrees × knots² for a boat of 12.2 m, another's is to be measured), no more than `capDeg`: the
 * rule grows without end as the boat stops, which a boat with steerage way does not. A boat that stands still has no way to be turned: 0.
 */
export function leewayDegFor(coefficient: number, sinHeel: number, speedThroughWaterMps: number, capDeg: number): number {
  const knots = knotsFromMps(speedThroughWaterMps);
  return knots > 0 ? Math.min(capDeg, (coefficient * sinHeel) / (knots * knots)) : 0;
}

import { radFromDeg, turnDeg } from "../units/index.ts";

/** Seas from within this of the bow are head seas, from within it of the stern following seas; beam seas are the rest. Common practice. */
export const HEAD_OR_FOLLOWING_DEG = 45;

/** How waves come at a boat. */
export interface Encounter {
  /** Between crests, as the boat meets them; null where she keeps with the crests. */
  readonly periodSeconds: number | null;
  /** She runs faster than the waves and overtakes them. */
  readonly overtaking: boolean;
  /** Where they come from off the bow, degrees, 0 ahead to 180 astern. */
  readonly offBowDeg: number;
  readonly sector: "head" | "beam" | "following";
}

/** A boat that gains or loses less than this share of the waves' speed on them keeps with them. */
const KEEPS_WITH = 1e-9;

/**
 * How a boat meets waves of a length and period, heading and speed through the water, the waves' speed and period relative to the water
 * too (so a current needs no more): T_E = T / |1 + (V/c) cos α|, α off the bow.
 *
 * Source: kinematics; IMO MSC.1/Circ.1228 prints it for deep water with 3 for g/2π in knots a second, which is 1 % short.
 *
 * @example
 * const wave = { lengthMetres: 56.187966, relativePeriodSeconds: 6 };
 * encounterOf(wave, 0, { headingDegTrue: 180, speedMps: 6 * MPS_PER_KNOT }).periodSeconds // => 8.9500
 * encounterOf(wave, 0, { headingDegTrue: 0, speedMps: 6 * MPS_PER_KNOT }).periodSeconds // => 4.5126
 */
export function encounterOf(
  wave: { readonly lengthMetres: number; readonly relativePeriodSeconds: number },
  waveFromDegTrue: number,
  boat: { readonly headingDegTrue: number; readonly speedMps: number },
): Encounter {
  const offBowDeg = Math.abs(turnDeg(boat.headingDegTrue, waveFromDegTrue));
  const speed = wave.lengthMetres / wave.relativePeriodSeconds;
  const gained = 1 + (boat.speedMps * Math.cos(radFromDeg(offBowDeg))) / speed;
  const following = offBowDeg >= 180 - HEAD_OR_FOLLOWING_DEG;
  return {
    periodSeconds: Math.abs(gained) < KEEPS_WITH ? null : wave.relativePeriodSeconds / Math.abs(gained),
    overtaking: gained < -KEEPS_WITH,
    offBowDeg,
    sector: offBowDeg <= HEAD_OR_FOLLOWING_DEG ? "head" : following ? "following" : "beam",
  };
}

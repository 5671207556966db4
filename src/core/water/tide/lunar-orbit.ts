import { degFromRad, radFromDeg, wrap180Deg } from "../../units/index.ts";

/** The obliquity of the ecliptic and the inclination of the moon's orbit to it, degrees, at 1900 (SP 98, table 1): its factors hold for these. */
export const OBLIQUITY_DEG = 23.452;
export const ORBIT_INCLINATION_DEG = 5.145;

/** How the moon's orbit lies to the equator; degrees. The names are Schureman's (SP 98, paragraphs 22 to 25 and 127 to 131). */
export interface LunarOrbit {
  /** I: the inclination of the orbit to the equator, 18.3° to 28.6°. */
  readonly inclinationDeg: number;
  /** ξ: the longitude in the moon's orbit of its crossing with the equator. */
  readonly xiDeg: number;
  /** ν: the right ascension of that crossing. */
  readonly nuDeg: number;
  /** ν′, of lunisolar K1. */
  readonly nuPrimeDeg: number;
  /** ν″, of lunisolar K2 (half of the 2ν″ that stands in its argument). */
  readonly nuSecondDeg: number;
}

/**
 * The orbit for a longitude of the moon's node in degrees (SP 98): the spherical triangle of node, equinox and crossing (figure 1) gives
 * I, ν and ξ; equations 224 and 232 give ν′ and ν″. All but I have the node's sign and vanish with it.
 */
export function lunarOrbit(nodeDeg: number, obliquityDeg = OBLIQUITY_DEG, orbitInclinationDeg = ORBIT_INCLINATION_DEG): LunarOrbit {
  const N = radFromDeg(wrap180Deg(nodeDeg));
  const ω = radFromDeg(obliquityDeg);
  const i = radFromDeg(orbitInclinationDeg);
  // The triangle's side along the ecliptic is N, its angles there ω and 180° − i, the third angle I.
  const I = Math.acos(Math.cos(i) * Math.cos(ω) - Math.sin(i) * Math.sin(ω) * Math.cos(N));
  const ν = Math.asin((Math.sin(i) * Math.sin(N)) / Math.sin(I));
  const along = Math.atan2((Math.sin(ω) * Math.sin(N)) / Math.sin(I), Math.cos(N) * Math.cos(ν) + Math.sin(N) * Math.sin(ν) * Math.cos(ω));
  const sin2I = Math.sin(2 * I);
  const sinISquared = Math.sin(I) ** 2;
  // Equation 224.
  const νPrime = Math.atan2(sin2I * Math.sin(ν), sin2I * Math.cos(ν) + 0.3347);
  // Equation 232.
  const νSecond = Math.atan2(sinISquared * Math.sin(2 * ν), sinISquared * Math.cos(2 * ν) + 0.0727) / 2;
  return {
    inclinationDeg: degFromRad(I),
    xiDeg: degFromRad(N - along),
    nuDeg: degFromRad(ν),
    nuPrimeDeg: degFromRad(νPrime),
    nuSecondDeg: degFromRad(νSecond),
  };
}

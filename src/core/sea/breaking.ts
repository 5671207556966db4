/** One wave breaks when its height reaches this share of its length. Source: 1/7, Michell (1893), in every handbook of the sea. */
export const BREAKING_HEIGHT_OVER_LENGTH = 1 / 7;

/** One wave breaks when its height reaches this share of the depth. Source: Munk (1949), the solitary wave; Shore Protection Manual, ch. 2. */
export const BREAKING_HEIGHT_OVER_DEPTH = 0.78;

/** The wave that settles whether seas break: the highest of so many (common practice: about three hours of waves). */
export const HIGHEST_OF_WAVES = 1000;

/** Significant steepness Hs/L from which seas are breaking: the highest in a thousand, 1.86 Hs, then reaches L/7. */
export const BREAKING_STEEPNESS = 1 / 13;

/** Significant steepness that is uncomfortable and worth avoiding, L/H = 25. Common practice; printed in a navigator's account of 2013. */
export const STEEP_STEEPNESS = 1 / 25;

/**
 * The height that one wave in N exceeds, over the significant height, when heights are spread as Rayleigh has them: √(½ ln N).
 *
 * Source: Longuet-Higgins (1952), "On the statistical distribution of the heights of sea waves".
 *
 * @example
 * highestOf(1000) // => 1.8585
 */
export function highestOf(waves: number): number {
  if (!(waves > 1)) throw new Error(`one in ${waves} waves: expected more than one`);
  return Math.sqrt(0.5 * Math.log(waves));
}

const HIGHEST_OVER_SIGNIFICANT = highestOf(HIGHEST_OF_WAVES);

/** What makes seas break: too steep, or too high for the depth. */
export type BreakingBy = "steepness" | "depth";

/** The greatest significant height, metres, that waves of this length carry in this depth without breaking. */
export function carriesHeightMetres(lengthMetres: number, depthMetres: number | null): number {
  const bySteepness = BREAKING_STEEPNESS * lengthMetres;
  return depthMetres === null ? bySteepness : Math.min(bySteepness, carriesByDepthMetres(depthMetres));
}

/** The greatest significant height, metres, at which the highest in a thousand stays under 0.78 of the depth. */
export function carriesByDepthMetres(depthMetres: number): number {
  return (BREAKING_HEIGHT_OVER_DEPTH * depthMetres) / HIGHEST_OVER_SIGNIFICANT;
}

/** Why seas of a significant height and length break, in this depth (null: deep); empty where they don't. */
export function breakingBy(heightMetres: number, lengthMetres: number, depthMetres: number | null): readonly BreakingBy[] {
  const by: BreakingBy[] = [];
  if (heightMetres >= BREAKING_STEEPNESS * lengthMetres) by.push("steepness");
  if (depthMetres !== null && heightMetres >= carriesByDepthMetres(depthMetres)) by.push("depth");
  return by;
}

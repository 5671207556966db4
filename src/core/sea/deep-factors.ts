/** Deep-water waves on a current along them, each beside the same in still water. */
export interface DeepFactors {
  /** Speed relative to the water. */
  readonly speed: number;
  readonly length: number;
  /** Height where the current grows by water welling up from below: wave action's flux along the wave is kept. The one that is used. */
  readonly heightByUpwelling: number;
  /** Height where it grows by water drawn in from the sides, which spreads the waves: always milder. Given for comparison only. */
  readonly heightByInflow: number;
}

/**
 * Deep-water waves that run from still water into a current along them; `currentOverSpeed` is the current over the waves' speed in still
 * water, negative against them. Null where the waves are blocked, at −1/4 and beyond.
 *
 * Source: Longuet-Higgins & Stewart (1961), "The changes in amplitude of short gravity waves on steady non-uniform currents", J. Fluid
 * Mech. 10 (from memory; derived again): c/c0 = ½ (1 + √(1 + 4U/c0)); H/H0 = c0/√(c (c + 2U)) and √(c/(c + 2U)).
 *
 * @example
 * deepFactors(-0.1)?.heightByUpwelling // => 1.280538
 * deepFactors(-0.1)?.heightByInflow // => 1.136219
 */
export function deepFactors(currentOverSpeed: number): DeepFactors | null {
  const squared = 1 + 4 * currentOverSpeed;
  if (!(squared > 0)) return null;
  const root = Math.sqrt(squared);
  const speed = (1 + root) / 2;
  // c + 2U = √(1 + 4U/c0) c without the difference of near values, close to blocking.
  const groups = root * speed;
  return { speed, length: speed * speed, heightByUpwelling: 1 / Math.sqrt(speed * groups), heightByInflow: Math.sqrt(speed / groups) };
}

/**
 * How far the stern reaches from the anchor, metres, the rode drawn straight: length overall + √(rode² − height²) (common practice).
 * `heightMetres`: of the bow over the bottom. The circle is larger at low water, when that height is less. Null where the rode is not
 * longer than the height: she is not anchored.
 *
 * @example
 * ```ts
 * swingRadiusMetres(35, 6.3, 12) // => 46.428
 * swingRadiusMetres(5, 6.3, 12) // => null
 * ```
 */
export function swingRadiusMetres(rodeMetres: number, heightMetres: number, lengthOverallMetres: number): number | null {
  if (!(rodeMetres > heightMetres)) return null;
  return lengthOverallMetres + Math.sqrt(rodeMetres * rodeMetres - heightMetres * heightMetres);
}

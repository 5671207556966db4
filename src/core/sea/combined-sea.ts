/**
 * The height of several systems of waves together: the root of the sum of their squares, for energies add. Of heights alone: whether seas
 * are steep or break is asked of each system by itself, for the sum hides it.
 *
 * Source: linear theory; a common rule of navigators (3 and 4 make 5).
 *
 * @example
 * combinedHeightMetres(3, 4) // => 5
 */
export function combinedHeightMetres(...heightsMetres: readonly number[]): number {
  return Math.hypot(...heightsMetres);
}

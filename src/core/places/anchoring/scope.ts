/** Scope for a rode of chain alone, and for one with rope in it (common practice: five and seven to one). */
export const SCOPE_OF_CHAIN = 5;
export const SCOPE_WITH_ROPE = 7;

/** Heights that make up what a rode climbs, metres: the depth when she is anchored, how far the tide rises after that, the bow over the water. */
export interface Climb {
  readonly depthMetres: number;
  readonly riseMetres: number;
  readonly bowHeightMetres: number;
}

/** From the bottom to the bow at high water, metres: scope counts all three (common practice). */
export function climbMetres({ depthMetres, riseMetres, bowHeightMetres }: Climb): number {
  return depthMetres + riseMetres + bowHeightMetres;
}

/**
 * The rode for a scope, metres.
 *
 * @example
 * ```ts
 * rodeForScope(7, { depthMetres: 5, riseMetres: 0.9, bowHeightMetres: 1.3 }) // => 50.4
 * ```
 */
export function rodeForScope(scope: number, climb: Climb): number {
  return scope * climbMetres(climb);
}

/** The scope that a rode makes: so many times the height from the bottom to the bow at high water. */
export function scopeOf(rodeMetres: number, climb: Climb): number {
  return rodeMetres / climbMetres(climb);
}

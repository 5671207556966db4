import type { LandKind } from "./land-area.ts";

/** What a leg touches first. `share`: how far along the leg, 0 to 1; 0 where it begins inside. */
export interface Touched {
  readonly name: string | null;
  readonly kind: LandKind;
  readonly share: number;
}

/**
 * Land, and areas that the skipper keeps out of, laid on a plane and indexed. Metres on the plane's sheet; beyond the sheet nothing is
 * known and nothing is found. It answers whether a leg is clear or crosses; it is no chart: a coastline's error (tens of metres to some
 * hundreds) and rocks that it lacks forbid any word on how close a track passes.
 */
export interface Land {
  /** Whether the straight leg touches land or a kept-out area: crosses its edge or lies inside it, ends included. */
  crosses(fromX: number, fromY: number, toX: number, toY: number): boolean;
  /** Whether the place is land or kept out. On an edge it may be either. */
  contains(xMetres: number, yMetres: number): boolean;
  /** To the nearest edge, whichever side of it; Infinity where there is none within `withinMetres`. */
  edgeDistanceMetres(xMetres: number, yMetres: number, withinMetres: number): number;
  /** Which area a leg touches first, for people: its name, or null for the nameless coast; undefined where it touches none. */
  firstTouched(fromX: number, fromY: number, toX: number, toY: number): Touched | undefined;
  /** Corners that a shortest way round may turn at, within the box: convex ones, moved outward by `offMetres`; x and y in turn. */
  cornersWithin(
    box: { readonly west: number; readonly south: number; readonly east: number; readonly north: number },
    offMetres: number,
  ): Float64Array;
}

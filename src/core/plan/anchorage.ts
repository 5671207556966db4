import type { Position } from "../earth/index.ts";

/** Directions clockwise from `fromDegTrue` over `arcDeg`, out of which wind and sea come in unhindered. */
export interface OpenSector {
  readonly fromDegTrue: number;
  readonly arcDeg: number;
}

/** Where the boat lies after arrival, as the skipper states it. What is null was not stated and is not judged. */
export interface Anchorage {
  readonly name: string;
  readonly position: Position;
  /** None: sheltered all round, or not said. */
  readonly openTo: readonly OpenSector[];
  /** Not to be lain in, whatever the direction. */
  readonly neverWindMps: number | null;
  readonly neverGustMps: number | null;
  readonly neverSeaMetres: number | null;
  /** Not to be lain in while the wind comes out of an open sector. */
  readonly neverOpenWindMps: number | null;
  readonly neverOpenGustMps: number | null;
}

import type { Position } from "../earth/index.ts";
import type { OpenSector } from "../places/index.ts";

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

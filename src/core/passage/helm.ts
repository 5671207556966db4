import type { Land } from "../coast/index.ts";
import type { Plane } from "../earth/index.ts";
import type { LanesOnPlane } from "../places/index.ts";
import type { CurrentSampler } from "../water/index.ts";
import type { SeaSampler, WindSampler } from "../weather/index.ts";
import type { Line } from "./line.ts";

/** What the helm is told to do. */
export type Helm =
  | { readonly kind: "heading"; readonly headingDegTrue: number }
  | { readonly kind: "track"; readonly line: Line }
  | { readonly kind: "bowOn"; readonly xMetres: number; readonly yMetres: number };

/** When a leg ends: so far along a line or at a place, at `byAt` at the latest, where that is given. */
export type Until = { readonly byAt?: number } & (
  | { readonly kind: "along"; readonly line: Line; readonly metres: number }
  | { readonly kind: "at"; readonly xMetres: number; readonly yMetres: number }
);

/**
 * The surroundings of a run. The wind is needed only where the boat's speed or leeway depends on it. A variable wind is run as dead ahead
 * on whatever heading is steered: the sails get no drive from it and the engine works against all of it.
 */
export interface Surroundings {
  readonly plane: Plane;
  readonly current: CurrentSampler;
  readonly currentCovers: { readonly from: number; readonly until: number } | null;
  readonly wind: WindSampler | null;
  readonly windCovers: { readonly from: number; readonly until: number } | null;
  /** The sea, needed only where head seas slow the boat; left out or null: none is known. */
  readonly sea?: SeaSampler | null;
  /** No way leads through it; left out or null where there is none, or nobody said. */
  readonly land?: Land | null;
  /** Traffic separation lanes: no run is turned by them, but what crosses them not square is told; left out or null where there are none. */
  readonly lanes?: LanesOnPlane | null;
}

export interface BoatState {
  readonly xMetres: number;
  readonly yMetres: number;
  readonly at: number;
  readonly engineOn: boolean;
}

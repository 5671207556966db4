import type { Position } from "../earth/index.ts";

/** What an entrance asks for. What is null was not stated and is not judged. */
export interface Entrance {
  /** The least height of the sun for going in, degrees, from the entrance to the berth; null: by night too. */
  readonly sunAboveDeg: number | null;
  /** Never entered in more than this, at the entrance. */
  readonly neverWindMps: number | null;
  readonly neverGustMps: number | null;
  readonly neverSeaMetres: number | null;
  /** Charted, at the shallowest of the way in, below chart datum; negative where it dries. */
  readonly chartedDepthMetres: number | null;
  /** The least the skipper wants under the keel there. */
  readonly underKeelMetres: number;
}

/** A place to run to, as the skipper lists it. */
export interface Refuge {
  readonly name: string;
  /** Of its entrance, where open water ends. */
  readonly position: Position;
  /** The time kept there; null: ship's time. */
  readonly zone: string | null;
  readonly entrance: Entrance;
  /** From the entrance to the berth; null: not stated, taken as nothing, and that is said. */
  readonly pilotageSeconds: number | null;
  readonly notes: string | null;
}

/** The refuges of a passage. Where one leaves from and goes to are refuges too, by the passage's own limits, unless the skipper says no. */
export interface StatedRefuges {
  readonly listed: readonly Refuge[];
  readonly fromCounts: boolean;
  readonly toCounts: boolean;
}

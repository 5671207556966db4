import type { GroundTackle } from "../../boat/index.ts";
import type { Position } from "../../earth/index.ts";
import type { OpenSector } from "./open-sector.ts";

/** A place to anchor for a night, as the skipper notes it. Metres and m/s; what is null was not noted. */
export interface StatedAnchorage {
  readonly name: string;
  readonly position: Position;
  /** The night before the crossing, the night after it, or either. */
  readonly night: "before" | "after" | "both";
  /** Charted, at chart datum; below nought where it dries. */
  readonly depthMetres: number | null;
  /** A tide of the passage by its name, or heights above chart datum for the stay. */
  readonly tide:
    | { readonly kind: "named"; readonly name: string }
    | { readonly kind: "stated"; readonly lowestMetres: number; readonly highestMetres: number }
    | null;
  /** What the bottom is, in the skipper's words: told, not reckoned with, since holding has no figure with a source. */
  readonly bottom: string | null;
  /** Rode let out there; null: by the scope. */
  readonly rodeOutMetres: number | null;
  /** Rode for each metre from the bottom to the bow at high water; null: `SCOPE_OF_CHAIN`, `SCOPE_WITH_ROPE`. */
  readonly scope: number | null;
  readonly openTo: readonly OpenSector[];
  readonly fetchMetres: number | null;
  /** Free of everything, from the anchor. */
  readonly roomMetres: number | null;
  /** The way to where open water begins, or from where it ends. */
  readonly toInlet: { readonly kind: "seconds"; readonly seconds: number } | { readonly kind: "metres"; readonly metres: number } | null;
  /** The least wanted under the keel. */
  readonly underKeelMetres: number;
  /** What to allow for the boat's fall in the waves; null: the significant height reckoned there. */
  readonly wavesMetres: number | null;
  readonly neverWindMps: number | null;
  readonly neverGustMps: number | null;
  readonly neverSeaMetres: number | null;
  readonly notes: string | null;
}

/** The boat as she lies at anchor; what is null is not stated. */
export interface BoatAtAnchor {
  readonly lengthOverallMetres: number | null;
  readonly beamMetres: number | null;
  readonly hull: "sail" | "power";
  readonly draughtMetres: number | null;
  readonly bowHeightMetres: number | null;
  readonly groundTackle: GroundTackle | null;
}

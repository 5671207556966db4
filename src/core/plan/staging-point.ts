import type { Position } from "../earth/index.ts";

/** Another place to leave open water from, and how it is reached from the berth: in so many hours, or along points at a speed over the ground. */
export interface StagingPoint {
  readonly name: string;
  readonly position: Position;
  readonly reached:
    | { readonly kind: "takes"; readonly seconds: number }
    /** The berth is first; the way ends at `position`. */
    | { readonly kind: "along"; readonly speedOverGroundMps: number; readonly points: readonly Position[] };
}

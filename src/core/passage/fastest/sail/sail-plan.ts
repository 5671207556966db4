import type { NoAnswer } from "../../../answers/index.ts";
import type { Track, TrackSums } from "../../track.ts";

/**
 * The shortest time a board is kept before she goes about again, seconds: half an hour (common practice: a small crew that goes about oftener gets
 * neither rest nor meals). Kept but for the one tack without which she can't get there.
 */
export const LEAST_BOARD_SECONDS = 1800;
/** What going about costs, seconds in which she makes no way through the water and the current has her (common practice for a cruising boat, shorthanded). */
export const TACK_SECONDS = 60;
export const GYBE_SECONDS = 120;

/** How a crew handles her: what a plan is made with. */
export interface SailHandling {
  readonly leastBoardSeconds: number;
  readonly tackSeconds: number;
  readonly gybeSeconds: number;
}

export const COMMON_HANDLING: SailHandling = {
  leastBoardSeconds: LEAST_BOARD_SECONDS,
  tackSeconds: TACK_SECONDS,
  gybeSeconds: GYBE_SECONDS,
};

/** A part of the plan: a board on one side of the wind, or a course held on the line of the fastest way. Instants UTC epoch seconds. */
export interface Board {
  readonly sailed: "closeHauled" | "running" | "course";
  /** Over which side the wind comes. */
  readonly windOver: "port" | "starboard";
  readonly fromAt: number;
  readonly untilAt: number;
  /** Where it begins, metres on the plane. */
  readonly xMetres: number;
  readonly yMetres: number;
  /** And along the line to the destination. */
  readonly alongMetres: number;
  /** The heading as it begins and as it ends. */
  readonly headingDegTrue: number;
  readonly lastHeadingDegTrue: number;
  /** Off the bow, as it begins. */
  readonly trueWindAngleDeg: number;
  /** How she came onto it; null for the first, and where she only hardens up or bears away. */
  readonly after: "tack" | "gybe" | null;
}

/** The fastest way under sail as it can be carried out: boards kept, tacks and gybes paid for, re-timed in the real water and wind. */
export type SailPlan =
  | ({
      readonly kind: "arrives";
      readonly arrivalAt: number;
      readonly boards: readonly Board[];
      readonly tacks: number;
      readonly gybes: number;
      readonly track: Track;
    } & TrackSums)
  | { readonly kind: "fails"; readonly why: NoAnswer };

/** What is only told of a boat under sail: the time of the fastest way is a bound, with tacking and gybing free; this is what comes of it. */
export interface UnderSail {
  readonly handling: SailHandling;
  readonly plan: SailPlan;
}

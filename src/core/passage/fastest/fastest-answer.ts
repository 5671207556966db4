import type { NoAnswer } from "../../answers/index.ts";
import type { Track, TrackSums } from "../track.ts";
import type { SailHandling, UnderSail } from "./sail/sail-plan.ts";

/** Why a fastest way is not shown as cross-checked. */
export type WhyNotCrossChecked =
  /** The check was left out, as where departures are tried in turn. */
  | "notAsked"
  /** The second search or the fan found an earlier way, which is the one given. */
  | "earlierFound"
  /** The search's time and the independent timing differ by more than 1e-5. */
  | "timingDiffers"
  /** Water in reach is not known, and an earlier way might lead through it. */
  | "waterUnknown"
  /** An earlier way might lead beyond the waters that were searched. */
  | "edgeOfSearch";

/** A heading on the fastest way and when it is steered; places on the plane, metres. */
export interface SteeredNode {
  readonly at: number;
  readonly xMetres: number;
  readonly yMetres: number;
  readonly headingDegTrue: number;
}

/** The fastest way. Under sail it is a bound: tacking and gybing are free in it. Instants are UTC epoch seconds. */
export interface FastestArrives extends TrackSums {
  readonly kind: "arrives";
  readonly departAt: number;
  /** By the independent timing in the real water: the number to report. */
  readonly arrivalAt: number;
  readonly track: Track;
  /** What is steered along it, some fifty nodes; between them the heading turns evenly. */
  readonly nodes: readonly SteeredNode[];
  /** What the search itself made of it. */
  readonly searchedArrivalAt: number;
  readonly crossChecked: boolean;
  readonly whyNotCrossChecked: WhyNotCrossChecked | null;
  /** Whether the searches agree on it in all the water that is known: where it is not cross-checked, only for `waterUnknown`. */
  readonly crossCheckedInKnownWater: boolean;
  /** Places where it turns at a corner of land, metres on the plane. */
  readonly landCorners: readonly { readonly xMetres: number; readonly yMetres: number }[];
  /** What can be made of it under sail; null for a boat that goes by her engine, or where no plan is asked for. */
  readonly underSail: UnderSail | null;
}

export interface FastestFails {
  readonly kind: "fails";
  readonly departAt: number;
  readonly why: NoAnswer;
}

export type FastestWay = FastestArrives | FastestFails;

export interface FastestOptions {
  /** Search a second time, finer and by other means, and say whether that finds the same: on unless turned off for departures in turn. */
  readonly crossCheck?: boolean;
  /** Under sail: make the plan as well; on unless turned off. */
  readonly plan?: boolean;
  /** How the plan has her handled; common practice unless told. */
  readonly handling?: SailHandling;
}

/** When the fastest that can be carried out arrives: under sail by the plan; Infinity where there is none. */
export function carriedOutAt(fastest: FastestWay): number {
  if (fastest.kind === "fails") return Number.POSITIVE_INFINITY;
  const plan = fastest.underSail?.plan;
  if (plan === undefined) return fastest.arrivalAt;
  return plan.kind === "arrives" ? plan.arrivalAt : Number.POSITIVE_INFINITY;
}

/** Whether a boat under sail can go it only in boards, or not at all. */
export function isInBoards({ underSail }: FastestArrives): boolean {
  const plan = underSail?.plan;
  if (plan === undefined) return false;
  return plan.kind === "fails" || plan.boards.some(({ sailed, after }) => sailed !== "course" || after !== null);
}

import type { NoAnswer } from "../answers/index.ts";
import type { LaneCrossing } from "./lane-crossings.ts";
import type { Track } from "./track.ts";

/** The ways across that step by step a helm can be told, simplest order first. */
export const WAY_NAMES = ["oneHeading", "squareInLanes", "acrossThenTurn", "holdTrack", "bowOnDestination", "changingHeadings"] as const;
export type WayName = (typeof WAY_NAMES)[number];

/** One line of the order to the helm: from an instant on, steer this. */
export interface HelmOrder {
  readonly fromAt: number;
  readonly fromAlongMetres: number;
  readonly steer:
    | {
        readonly kind: "heading";
        readonly headingDegTrue: number;
        /** Traffic lanes that the heading is square to, by name, where that is what it is steered for. */
        readonly squareTo?: readonly string[];
      }
    | { readonly kind: "holdTrack"; readonly trackDegTrue: number }
    | { readonly kind: "bowOnDestination" };
}

/** A way across that arrives. Instants are UTC epoch seconds; `off…` is positive to starboard of the line. */
export interface WayArrives {
  readonly kind: "arrives";
  readonly name: WayName;
  readonly departAt: number;
  readonly arrivalAt: number;
  readonly track: Track;
  readonly orders: readonly HelmOrder[];
  readonly throughWaterMetres: number;
  readonly overGroundMetres: number;
  readonly fuelLitres: number;
  readonly engineSeconds: number;
  readonly upStreamMetres: number;
  readonly downStreamMetres: number;
  readonly axis: { readonly at: number; readonly alongMetres: number; readonly rateMps: number };
  readonly clear: { readonly at: number; readonly alongMetres: number } | null;
  readonly assumedWaterShare: number;
  /** For one heading, and for the heading outside the lanes: how many single headings lead there (the earliest is taken). */
  readonly headingsThatLead: number;
  /** The traffic lanes it goes through, in order of time; none where no lanes are given. */
  readonly laneCrossings: readonly LaneCrossing[];
}

export interface WayFails {
  readonly kind: "fails";
  readonly name: WayName;
  readonly departAt: number;
  readonly why: NoAnswer;
}

export type Way = WayArrives | WayFails;

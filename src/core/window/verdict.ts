import type { NoAnswer } from "../answers/index.ts";
import type { GateFault } from "../places/index.ts";
import type { GateCure } from "./gates/cure.ts";
import type { Margin } from "./judged.ts";
import type { TimeInHand } from "./time-in-hand.ts";

/** A smallest margin below this makes a departure marginal: the skipper's line (common practice: keep a seventh of the room). */
export const MARGINAL_BELOW = 0.15;
/** Less time in hand than this makes a departure marginal, seconds (common practice: an hour). */
export const LEAST_IN_HAND_SECONDS = 3600;

/** What decides a departure. */
export type DecidedBy =
  | { readonly kind: "margin"; readonly margin: Extract<Margin, { kind: "judged" }> }
  | { readonly kind: "notJudged"; readonly margin: Extract<Margin, { kind: "notJudged" }> }
  | { readonly kind: "noPassage"; readonly why: NoAnswer }
  /** The passage runs through a forecast's current that was found not fit. */
  | { readonly kind: "currentNotFit"; readonly why: NoAnswer }
  /** A gate missed, or without an opening; what cures it, the smallest change first. */
  | { readonly kind: "gate"; readonly fault: GateFault; readonly cures: readonly GateCure[] }
  | { readonly kind: "gateNotJudged"; readonly fault: Extract<GateFault, { readonly why: NoAnswer }> }
  | { readonly kind: "littleTime"; readonly inHand: TimeInHand }
  | { readonly kind: "noLimits" };

export interface Verdict {
  readonly kind: "open" | "marginal" | "closed";
  readonly decidedBy: DecidedBy;
  /** The smallest judged margin, the known part of unjudged ones included; null when nothing was judged. */
  readonly smallestMargin: number | null;
}

/** What of the gates bears on a verdict: the first that is not passed, null where all are, and what cures it. */
export interface GatesJudged {
  readonly fault: GateFault | null;
  readonly cures: readonly GateCure[];
}

/**
 * Decides one departure. Closed: a margin below 0 (in the known part of a limit not judged whole, too), or a gate missed. Marginal: below
 * the skipper's line, anything not judged, a current that is not fit (`unfit`), no limit at all, or too little time in hand. Open: else.
 * `inHand` null: not yet reckoned.
 */
export function decide(
  margins: readonly Margin[],
  inHand: TimeInHand | null,
  { fault, cures }: GatesJudged = ALL_PASSED,
  unfit: NoAnswer | null = null,
): Verdict {
  let smallest: Extract<Margin, { kind: "judged" }> | null = null;
  let unjudged: Extract<Margin, { kind: "notJudged" }> | null = null;
  for (const margin of margins) {
    if (margin.kind === "notJudged") {
      unjudged ??= margin;
      const { knownPart } = margin;
      if (knownPart !== null && (smallest === null || knownPart.margin < smallest.margin)) {
        smallest = { kind: "judged", limit: margin.limit, ...knownPart };
      }
    } else if (smallest === null || margin.margin < smallest.margin) smallest = margin;
  }
  const smallestMargin = smallest?.margin ?? null;
  if (smallest !== null && smallest.margin < 0) return { kind: "closed", decidedBy: { kind: "margin", margin: smallest }, smallestMargin };
  if (fault !== null && fault.kind !== "notGiven") return { kind: "closed", decidedBy: { kind: "gate", fault, cures }, smallestMargin };
  if (fault !== null) return { kind: "marginal", decidedBy: { kind: "gateNotJudged", fault }, smallestMargin };
  if (unfit !== null) return { kind: "marginal", decidedBy: { kind: "currentNotFit", why: unfit }, smallestMargin };
  if (unjudged !== null) return { kind: "marginal", decidedBy: { kind: "notJudged", margin: unjudged }, smallestMargin };
  if (smallest === null) return { kind: "marginal", decidedBy: { kind: "noLimits" }, smallestMargin };
  if (smallest.margin < MARGINAL_BELOW) return { kind: "marginal", decidedBy: { kind: "margin", margin: smallest }, smallestMargin };
  if (inHand !== null && inHand.seconds !== null && inHand.seconds < LEAST_IN_HAND_SECONDS) {
    return { kind: "marginal", decidedBy: { kind: "littleTime", inHand }, smallestMargin };
  }
  return { kind: "open", decidedBy: { kind: "margin", margin: smallest }, smallestMargin };
}

const ALL_PASSED: GatesJudged = { fault: null, cures: [] };

import type { WhyNotCrossChecked } from "./fastest-answer.ts";
import { fanOfHeadings } from "./heading-fan.ts";
import { type RoughWays, SECOND_FINENESS } from "./label-search.ts";
import { type PassageSearch, STEPS_A_PIECE } from "./passage-search.ts";
import { earlier, earliestTimed, extremalOf, type TimedWay, timedArrival, timedExtremal } from "./timed-way.ts";

/** A second search that finds nothing earlier than by this share of the passage agrees. */
export const AGREES_WITHIN_SHARE = 2e-4;
/** The search's own time and the timing in the real water agree within this share. */
export const TIMING_AGREES_WITHIN_SHARE = 1e-5;
/** Where no way is found at first, the fan looks so far ahead, in times that the line takes in still water. */
const FAN_LOOKS_AHEAD = 3;

/** The earliest way that any of the searches found, and why it is not to be shown as cross-checked; null: it is. */
export interface Checked {
  readonly best: TimedWay | null;
  readonly why: WhyNotCrossChecked | null;
  /** Whether all agree on it in the water that is known, whatever may lie beyond. */
  readonly inKnownWater: boolean;
}

/**
 * Searches again at half the cell in twice the directions and, for a boat at one speed, sends out a fan of headings, and past land from corner to corner; then sharpens the
 * best to the extremal in the real water.
 */
export function checkAcross(search: PassageSearch, departAt: number, rough: RoughWays, first: TimedWay | null): Checked {
  const finer = search.rough(departAt, SECOND_FINENESS);
  const second = earliestTimed(search, search.drawn(finer.ways, departAt, SECOND_FINENESS, 2), departAt);
  const byCorners = search.roughByCorners(departAt);
  const third = byCorners === null ? null : earliestTimed(search, search.drawn([byCorners], departAt, SECOND_FINENESS, 2), departAt);
  let best = earlier(earlier(first, second), third);
  best = earlier(best, fromFan(search, departAt, best));
  if (best === null) return { best, why: null, inKnownWater: false };
  best = reckoned(search, departAt, best);
  const seconds = best.arrivalAt - departAt;
  let found: Exclude<WhyNotCrossChecked, "waterUnknown" | "notAsked"> | null = null;
  if (first === null || first.arrivalAt - best.arrivalAt > AGREES_WITHIN_SHARE * seconds) found = "earlierFound";
  else if (finer.edgeSeconds < seconds) found = "edgeOfSearch";
  else if (!(Math.abs(best.searchedArrivalAt - best.arrivalAt) <= TIMING_AGREES_WITHIN_SHARE * seconds)) found = "timingDiffers";
  // Unknown water comes first: no finer search mends that.
  const unknown = mayBeEarlier(rough.stopped?.couldArriveSeconds, seconds) || mayBeEarlier(finer.stopped?.couldArriveSeconds, seconds);
  return { best, why: unknown ? "waterUnknown" : found, inKnownWater: found === null };
}

const mayBeEarlier = (couldArriveSeconds: number | undefined, seconds: number): boolean =>
  couldArriveSeconds !== undefined && couldArriveSeconds < seconds;

function fromFan(search: PassageSearch, departAt: number, best: TimedWay | null): TimedWay | null {
  const { extremals, boat, crossing } = search;
  if (extremals === null) return null;
  const { lengthMetres } = crossing.line;
  const within = best === null ? (FAN_LOOKS_AHEAD * lengthMetres) / boat.fastestMps : best.arrivalAt - departAt;
  let found: TimedWay | null = null;
  for (const one of fanOfHeadings(extremals, departAt, within, lengthMetres)) {
    found = earlier(found, timedExtremal(search, departAt, one, STEPS_A_PIECE));
  }
  return found;
}

/**
 * The way with a time of its own to set against the timing in the real water: the extremal that it lies on, run by its heading through the
 * real water; else, where the boat's speed changes or land bends the way, a timing with half the steps.
 */
function reckoned(search: PassageSearch, departAt: number, way: TimedWay): TimedWay {
  const arrivalAt = timedArrival(search, way.lines, departAt, STEPS_A_PIECE) ?? way.arrivalAt;
  const led = extremalOf(search, departAt, way, true);
  const extremal = led === null ? null : timedExtremal(search, departAt, led, STEPS_A_PIECE);
  if (extremal !== null && Math.abs(extremal.arrivalAt - arrivalAt) < AGREES_WITHIN_SHARE * (arrivalAt - departAt)) {
    return extremal.arrivalAt < arrivalAt ? extremal : { ...way, arrivalAt, searchedArrivalAt: extremal.searchedArrivalAt };
  }
  const coarse = timedArrival(search, way.lines, departAt, STEPS_A_PIECE / 2);
  return { ...way, arrivalAt, searchedArrivalAt: coarse ?? way.searchedArrivalAt };
}

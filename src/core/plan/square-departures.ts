import { lookSquare, type SquareDepartures, squareDepartures } from "../passage/index.ts";
import { harbourSeconds } from "../window/index.ts";
import { departureTimes } from "./departure-times.ts";
import type { Prepared } from "./prepare.ts";

/** How long a passage is allowed for in choosing the forecast's run that it is tried with, seconds. */
const LONGEST_PASSAGE_SECONDS = 24 * 3600;

/**
 * Over the departures of a passage from the berth: from which one heading is square in the lanes it crosses. Null where no lane has a flow.
 * The times are the berth's.
 */
export function departuresSquare(prepared: Prepared): SquareDepartures | null {
  const lanes = prepared.passage.lanes ?? [];
  if (!lanes.some((lane) => lane.flowDegTrue !== null)) return null;
  return squareDepartures((departAt) => {
    const trial = prepared.trialOf(0, { from: departAt, until: departAt + LONGEST_PASSAGE_SECONDS });
    const { out, into } = harbourSeconds(trial);
    const look = lookSquare(trial.crossing, departAt + out);
    return look === null ? null : { ...look, departAt, arrivalAt: look.arrivalAt + into };
  }, departureTimes(prepared));
}

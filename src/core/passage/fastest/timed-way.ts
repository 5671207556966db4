import type { TrackRecorder } from "../track.ts";
import type { BentLine } from "./bent-line.ts";
import type { Extremal } from "./extremal.ts";
import type { PassageSearch } from "./passage-search.ts";
import type { LeggedWay } from "./round-land.ts";

/** Steps a piece by which ways are compared with each other. */
export const TIMING_STEPS = 2;
/** The search's copy of the water is true to well within this share of a passage: a way later by more can't come out earlier. */
const COPY_MAY_MISS_SHARE = 0.003;

/** A way timed in the real water. Instants are UTC epoch seconds. */
export interface TimedWay {
  readonly lines: readonly BentLine[];
  readonly arrivalAt: number;
  /** As the search reckoned it. */
  readonly searchedArrivalAt: number;
}

/** Of drawn ways, earliest first as the search reckons, the earliest in the real water; null where none can be gone there. */
export function earliestTimed(search: PassageSearch, ways: readonly LeggedWay[], departAt: number): TimedWay | null {
  let best: TimedWay | null = null;
  for (const way of ways) {
    if (best !== null && departAt + way.seconds > best.searchedArrivalAt + COPY_MAY_MISS_SHARE * (best.arrivalAt - departAt)) break;
    const lines = search.linesOf(way);
    const arrivalAt = timedArrival(search, lines, departAt, TIMING_STEPS);
    if (arrivalAt === null || (best !== null && arrivalAt >= best.arrivalAt)) continue;
    best = { lines, arrivalAt, searchedArrivalAt: departAt + way.seconds };
  }
  return best;
}

/** The instant of arrival along lines one after another; null where they can't be gone. */
export function timedArrival(
  search: PassageSearch,
  lines: readonly BentLine[],
  departAt: number,
  stepsAPiece: number,
  record: TrackRecorder | null = null,
): number | null {
  let at = departAt;
  for (const line of lines) {
    if (record !== null && record.length > 0) record.dropLast();
    const there = search.timer.run(line, at, stepsAPiece, record);
    if (there === null) return null;
    at = there;
  }
  return at;
}

/** The earlier of two; either may be wanting. */
export function earlier(one: TimedWay | null, other: TimedWay | null): TimedWay | null {
  if (one === null || other === null) return one ?? other;
  return other.arrivalAt < one.arrivalAt ? other : one;
}

/** The extremal that a free way of a boat at one speed lies on; null for other ways, or where Newton's method does not settle. */
export function extremalOf(search: PassageSearch, departAt: number, way: TimedWay, inRealWater: boolean): Extremal | null {
  const { extremals, crossing } = search;
  const [line] = way.lines;
  if (extremals === null || line === undefined || way.lines.length > 1) return null;
  const headingRad = search.headingRadAtStart(line, departAt);
  if (headingRad === null) return null;
  return extremals.lead(headingRad, way.arrivalAt - departAt, departAt, crossing.line.lengthMetres, inRealWater);
}

/** An extremal as a way, timed in the real water; null where it touches land or can't be held. */
export function timedExtremal(search: PassageSearch, departAt: number, extremal: Extremal, stepsAPiece: number): TimedWay | null {
  const { along, port, seconds } = extremal;
  along[along.length - 1] = search.crossing.line.lengthMetres;
  port[port.length - 1] = 0;
  if (search.land?.crossesAny(along, port, 0, along.length - 1) === true) return null;
  const lines = search.linesOf({ legs: [{ along, port }], seconds });
  const arrivalAt = timedArrival(search, lines, departAt, stepsAPiece);
  return arrivalAt === null ? null : { lines, arrivalAt, searchedArrivalAt: departAt + seconds };
}

/** A way brought onto its extremal in the search's copy of the water, where that is earlier in the real. */
export function sharpened(search: PassageSearch, departAt: number, way: TimedWay | null): TimedWay | null {
  const extremal = way === null ? null : extremalOf(search, departAt, way, false);
  return extremal === null ? way : earlier(way, timedExtremal(search, departAt, extremal, TIMING_STEPS));
}

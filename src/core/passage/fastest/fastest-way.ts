import type { NoAnswer } from "../../answers/index.ts";
import type { Crossing } from "../crossing.ts";
import { sumsOf, TrackRecorder } from "../track.ts";
import type { BentLine } from "./bent-line.ts";
import { AGREES_WITHIN_SHARE, type Checked, checkAcross } from "./cross-check.ts";
import type { FastestOptions, FastestWay, SteeredNode } from "./fastest-answer.ts";
import { FIRST_FINENESS, type RoughWays } from "./label-search.ts";
import { hopeless, lackOfWay, stopOf } from "./lack-of-way.ts";
import { type PassageSearch, STEPS_A_PIECE, searchOf } from "./passage-search.ts";
import type { LeggedWay } from "./round-land.ts";
import { COMMON_HANDLING, type SailHandling, type UnderSail } from "./sail/sail-plan.ts";
import { WayPlanner } from "./sail/way-planner.ts";
import { earliestTimed, sharpened, TIMING_STEPS, type TimedWay, timedArrival } from "./timed-way.ts";

/**
 * The fastest way through the moving water from the start of the crossing's line to its end, when she leaves at `departAt` (UTC epoch
 * seconds) and steers the best course at every moment: a yardstick for the orders that can be given to a helm. Current, wind and land as
 * the crossing has them; through water that isn't known no way is sought. `fails` tells why there is none: what isn't covered, where and
 * when; unreachable; or across land. Throws when the boat goes by the wind and the crossing has none.
 *
 * The instant of arrival is timed along the way in the real water, apart from the search. It is *cross-checked* when the search's own time
 * agrees with that and a second search, finer and by other means, finds nothing earlier.
 */
export function fastestWay(crossing: Crossing, departAt: number, options: FastestOptions = {}): FastestWay {
  const search = searchOf(crossing);
  const never = hopeless(search, departAt);
  if (never !== null) return { kind: "fails", departAt, why: never };
  const rough = search.rough(departAt, FIRST_FINENESS);
  const drawn = search.drawn(rough.ways, departAt, FIRST_FINENESS);
  const first = sharpened(search, departAt, earliestTimed(search, drawn, departAt));
  if (first !== null && options.crossCheck === false) {
    const quick = told(search, departAt, first, TIMING_STEPS, { why: "notAsked", inKnownWater: false }, options);
    if (!isBettered(quick)) return quick;
  }
  // What the first search does not find is sought by all means before it is called out of reach.
  const checked = checkAcross(search, departAt, rough, first);
  if (checked.best !== null) return told(search, departAt, checked.best, STEPS_A_PIECE, checked, options);
  return { kind: "fails", departAt, why: whyNone(search, departAt, rough, drawn[0]) };
}

/** A plan under sail that is earlier than its bound shows that the search missed the best by more than it may. */
function isBettered(way: FastestWay): boolean {
  if (way.kind === "fails" || way.underSail?.plan.kind !== "arrives") return false;
  return way.arrivalAt - way.underSail.plan.arrivalAt > AGREES_WITHIN_SHARE * (way.arrivalAt - way.departAt);
}

/** A way that was found in the copy of the water but can't be gone in the real: what stops its timing tells why. */
function whyNone(search: PassageSearch, departAt: number, rough: RoughWays, drawn: LeggedWay | undefined): NoAnswer {
  if (drawn === undefined) return lackOfWay(search, departAt, rough);
  timedArrival(search, search.linesOf(drawn), departAt, TIMING_STEPS);
  return stopOf(search);
}

function told(
  search: PassageSearch,
  departAt: number,
  way: TimedWay,
  stepsAPiece: number,
  { why, inKnownWater }: Pick<Checked, "why" | "inKnownWater">,
  options: FastestOptions,
): FastestWay {
  const record = new TrackRecorder();
  const arrivalAt = timedArrival(search, way.lines, departAt, stepsAPiece, record);
  if (arrivalAt === null) return { kind: "fails", departAt, why: stopOf(search) };
  const track = record.finish(search.crossing.line.plane);
  const nodes: SteeredNode[] = [];
  for (let i = 0; i < track.count; i += stepsAPiece) {
    nodes.push({
      at: track.atSeconds[i] as number,
      xMetres: track.xMetres[i] as number,
      yMetres: track.yMetres[i] as number,
      headingDegTrue: track.headingDegTrue[i] as number,
    });
  }
  const { sheet } = search;
  return {
    kind: "arrives",
    departAt,
    arrivalAt,
    track,
    nodes,
    searchedArrivalAt: way.searchedArrivalAt,
    crossChecked: why === null,
    whyNotCrossChecked: why,
    crossCheckedInKnownWater: inKnownWater,
    landCorners: way.lines.slice(1).map(({ along, port }) => ({
      xMetres: sheet.xOf(along[0] as number, port[0] as number),
      yMetres: sheet.yOf(along[0] as number, port[0] as number),
    })),
    ...sumsOf(track),
    underSail: options.plan === false ? null : underSail(search, departAt, way.lines, options.handling ?? COMMON_HANDLING),
  };
}

/** The plan for a boat under sail; null for any other. */
function underSail(search: PassageSearch, departAt: number, lines: readonly BentLine[], handling: SailHandling): UnderSail | null {
  if (search.tacker === null) return null;
  return { handling, plan: new WayPlanner(search, search.tacker, departAt, handling).plan(lines) };
}

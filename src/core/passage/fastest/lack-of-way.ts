import type { NoAnswer } from "../../answers/index.ts";
import { COVERED, NO_PLACE, NO_TIME } from "../../fields/index.ts";
import { OF_WIND } from "./course-holder.ts";
import { FIRST_FINENESS, type RoughWays } from "./label-search.ts";
import type { PassageSearch } from "./passage-search.ts";
import type { WayTimer } from "./way-timer.ts";

/** Slower than this through the water on every heading she makes no way, m/s. */
const NO_WAY_MPS = 0.05;

/** Why no search is worth while: she makes no way on any heading, or an end of the line is ashore; null where it is. */
export function hopeless(search: PassageSearch, departAt: number): NoAnswer | null {
  const { line } = search.crossing;
  if (search.boat.fastestMps <= NO_WAY_MPS) {
    return { kind: "noAnswer", code: "no-way", at: departAt, where: line.plane.toPosition(line.fromX, line.fromY) };
  }
  return acrossLand(search, departAt, line.fromX, line.fromY) ?? acrossLand(search, departAt, line.toX, line.toY);
}

/** Why the search found no way: water that isn't known; land; or the current. */
export function lackOfWay(search: PassageSearch, departAt: number, rough: RoughWays): NoAnswer {
  const { line } = search.crossing;
  const from = line.plane.toPosition(line.fromX, line.fromY);
  if (rough.stopped !== null) {
    const { sheet } = search;
    const { along, port, at, coverage } = rough.stopped;
    return notCovered(search, coverage, sheet.xOf(along, port), sheet.yOf(along, port), at);
  }
  const shut = rough.metLand && search.rough(departAt, FIRST_FINENESS, false).ways.length > 0;
  return (
    (shut ? acrossLand(search, departAt, line.toX, line.toY, line.fromX, line.fromY) : null) ?? {
      kind: "noAnswer",
      code: "unreachable",
      at: departAt,
      where: from,
    }
  );
}

/** The land first touched on the straight way to a place, or on the place itself; null where there is none. */
function acrossLand(search: PassageSearch, at: number, toX: number, toY: number, fromX = toX, fromY = toY): NoAnswer | null {
  const touched = search.crossing.around.land?.firstTouched(fromX, fromY, toX, toY);
  if (touched === undefined) return null;
  const { kind, name, share } = touched;
  const where = search.crossing.line.plane.toPosition(fromX + share * (toX - fromX), fromY + share * (toY - fromY));
  return { kind: "noAnswer", code: "across-land", at, where, area: { kind, name } };
}

/** What stopped the timing of a way last tried, or whatever else was run along it. */
export function stopOf(
  search: PassageSearch,
  { stoppedBy, stoppedX, stoppedY, stoppedAt }: Pick<WayTimer, "stoppedBy" | "stoppedX" | "stoppedY" | "stoppedAt"> = search.timer,
): NoAnswer {
  if (stoppedBy > COVERED) return notCovered(search, stoppedBy, stoppedX, stoppedY, stoppedAt);
  const where = search.crossing.line.plane.toPosition(stoppedX, stoppedY);
  return { kind: "noAnswer", code: "cannot-hold", at: stoppedAt, where };
}

function notCovered(search: PassageSearch, stoppedBy: number, x: number, y: number, at: number): NoAnswer {
  const { around, line } = search.crossing;
  const ofWind = stoppedBy >= OF_WIND;
  const coverage = ofWind ? stoppedBy - OF_WIND : stoppedBy;
  const covers = ofWind ? around.windCovers : around.currentCovers;
  const radius = line.plane.radiusMetres;
  const within = (metres: number): number => Math.max(-radius, Math.min(radius, metres));
  return {
    kind: "noAnswer",
    code: coverage === NO_PLACE ? "not-covered-place" : coverage === NO_TIME ? "not-covered-time" : "not-covered-variable",
    quantity: ofWind ? "wind" : "current",
    at,
    where: line.plane.toPosition(within(x), within(y)),
    coveredFrom: covers?.from ?? null,
    coveredUntil: covers?.until ?? null,
  };
}

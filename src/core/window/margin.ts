import type { Position } from "../earth/index.ts";
import { COVERED, NO_PLACE, NO_TIME } from "../fields/index.ts";
import { NOT_FIT_HERE } from "../water/index.ts";
import type { Exposure } from "./exposure.ts";
import type { Margin, WorstPlace } from "./judged.ts";
import { firstBelowZero, stretchBelow, worstThatLasts } from "./lasting.ts";
import { FELT_BY_CURRENT, FELT_OF_SEA, isMaximum, isOnce, type Limit, type LimitAlong, marginOf } from "./limit.ts";
import { judgeOnce } from "./once/judge-once.ts";
import { ARRIVAL, OPEN_WATER } from "./passage-nodes.ts";

/** What a source covers in time, for the answer where something is not covered. */
export interface CoveredSpan {
  readonly from: number;
  readonly until: number;
}

/** Judges one limit on one passage; `covers` as in `judgeAlong`. */
export function judge(exposure: Exposure, limit: Limit, covers: CoveredSpan | null): Margin {
  return isOnce(limit) ? judgeOnce(exposure.whole, limit, leavingOf(exposure)) : judgeAlong(exposure, limit, covers);
}

/** When and where the berth is left. */
function leavingOf(exposure: Exposure): { readonly at: number; readonly where: Position } {
  return { at: exposure.atSeconds[0] as number, where: placeOf(exposure, 0) };
}

/**
 * Judges one limit along one passage. The worse end of every range counts. Between nodes values go in straight lines, so the worst is at
 * a node and crossings are where the line crosses; with a toleration the worst is the worst that lasts longer than that. `covers` is what
 * the weather covers in time, null where no source gives the quantity.
 */
function judgeAlong(exposure: Exposure, limit: LimitAlong, covers: CoveredSpan | null): Margin {
  const { coverage } = exposure.columns[limit.felt];
  const [first, end] = judgedNodes(exposure, limit);
  let uncovered = -1;
  let known = 0;
  for (let i = first; i < end; i++) {
    if (coverage[i] === COVERED) known++;
    else if (uncovered < 0) uncovered = i;
  }
  const worst = known === 0 ? null : worstOf(exposure, limit, first, end);
  if (uncovered < 0 && worst !== null) {
    const lacking = FELT_OF_SEA.has(limit.felt) ? firstLackingSwell(exposure, first, end) : -1;
    if (lacking < 0) return { kind: "judged", limit, ...worst };
    return {
      kind: "notJudged",
      limit,
      why: { kind: "noAnswer", code: "swell-not-known", at: exposure.atSeconds[lacking] as number, where: placeOf(exposure, lacking) },
      knownPart: worst,
    };
  }
  if (uncovered < 0) throw new Error(`a passage without a node to judge ${limit.felt} at, during ${limit.during}`);
  const why = coverage[uncovered];
  // Of what the current makes, nothing is known where a forecast of it is not fit.
  if (FELT_BY_CURRENT.has(limit.felt) && why === NO_PLACE && exposure.answeredBy[uncovered] === NOT_FIT_HERE)
    return {
      kind: "notJudged",
      limit,
      why: { kind: "noAnswer", code: "current-not-fit", at: exposure.atSeconds[uncovered] as number, where: placeOf(exposure, uncovered) },
      knownPart: worst,
    };
  return {
    kind: "notJudged",
    limit,
    why: {
      kind: "noAnswer",
      code: why === NO_PLACE ? "not-covered-place" : why === NO_TIME ? "not-covered-time" : "not-covered-variable",
      quantity: limit.felt,
      at: exposure.atSeconds[uncovered] as number,
      where: placeOf(exposure, uncovered),
      coveredFrom: covers?.from ?? null,
      coveredUntil: covers?.until ?? null,
    },
    knownPart: worst,
  };
}

/** The nodes on which a limit is judged, as [first, one past the last]; the parts of a passage follow one another. */
function judgedNodes(exposure: Exposure, limit: LimitAlong): [number, number] {
  const { part, count } = exposure;
  let first = 0;
  let end = count;
  if (limit.during !== "wholePassage") {
    const wanted = limit.during === "openWater" ? OPEN_WATER : ARRIVAL;
    while (first < count && part[first] !== wanted) first++;
    end = first;
    while (end < count && part[end] === wanted) end++;
  }
  return [first, end];
}

/** The first node at which a swell may run that isn't known; -1 where there is none. */
function firstLackingSwell({ seaLacksSwell }: Exposure, first: number, end: number): number {
  if (seaLacksSwell === undefined) return -1;
  for (let i = first; i < end; i++) if (seaLacksSwell[i] === 1) return i;
  return -1;
}

function placeOf(exposure: Exposure, node: number): Position {
  return exposure.plane.toPosition(exposure.xMetres[node] as number, exposure.yMetres[node] as number);
}

/** Whether the known part of a passage passes *never* for longer than is tolerated: what `judge` finds a margin below 0 for, and quicker. */
export function passesNever(exposure: Exposure, limit: Limit): boolean {
  if (isOnce(limit)) {
    const margin = judge(exposure, limit, null);
    return ((margin.kind === "judged" ? margin : margin.knownPart)?.margin ?? 0) < 0;
  }
  const [first, end] = judgedNodes(exposure, limit);
  const { low, high, coverage } = exposure.columns[limit.felt];
  const { never, toleratedSeconds } = limit;
  const maximum = isMaximum(limit);
  const values = maximum ? high : low;
  for (let i = first; i < end; i++) {
    if (coverage[i] !== COVERED) continue;
    const value = values[i] as number;
    if (!(maximum ? value > never : value < never)) continue;
    if (toleratedSeconds === 0) return true;
    const { times, margins } = marginsOf(exposure, limit, first, end);
    return stretchBelow(times, margins, 0, toleratedSeconds) !== null || margins.every((margin) => margin < 0);
  }
  return false;
}

/** Times and margins of the covered nodes from `first` until before `end`. */
function marginsOf(
  exposure: Exposure,
  limit: LimitAlong,
  first: number,
  end: number,
): { nodes: number[]; times: Float64Array; margins: Float64Array } {
  const { low, high, coverage } = exposure.columns[limit.felt];
  const values = isMaximum(limit) ? high : low;
  const nodes: number[] = [];
  for (let i = first; i < end; i++) if (coverage[i] === COVERED) nodes.push(i);
  return {
    nodes,
    times: Float64Array.from(nodes, (i) => exposure.atSeconds[i] as number),
    margins: Float64Array.from(nodes, (i) => marginOf(limit, values[i] as number)),
  };
}

/** The worst over the covered ones of the nodes from `first` until before `end`. */
function worstOf(exposure: Exposure, limit: LimitAlong, first: number, end: number): WorstPlace {
  const { low, high, coverage } = exposure.columns[limit.felt];
  const maximum = isMaximum(limit);
  const values = maximum ? high : low;
  let worstNode = -1;
  for (let i = first; i < end; i++) {
    if (coverage[i] !== COVERED) continue;
    const value = values[i] as number;
    if (worstNode < 0 || (maximum ? value > (values[worstNode] as number) : value < (values[worstNode] as number))) worstNode = i;
  }
  const peakValue = values[worstNode] as number;
  let value = peakValue;
  let margin = marginOf(limit, value);
  let firstPastNeverAt: number | null = null;
  if (margin < 0 || limit.toleratedSeconds > 0) {
    const { nodes, times, margins } = marginsOf(exposure, limit, first, end);
    if (limit.toleratedSeconds > 0) {
      const lasting = worstThatLasts(times, margins, limit.toleratedSeconds);
      margin = lasting.margin;
      worstNode = nodes[lasting.index] as number;
      value = limit.never - margin * (limit.never - limit.happy);
    }
    if (margin < 0) firstPastNeverAt = firstBelowZero(times, margins, limit.toleratedSeconds);
  }
  return { margin, value, peakValue, at: exposure.atSeconds[worstNode] as number, where: placeOf(exposure, worstNode), firstPastNeverAt };
}

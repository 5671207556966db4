import type { Position } from "../earth/index.ts";
import { COVERED, NO_PLACE, NO_TIME } from "../fields/index.ts";
import { NOT_FIT_HERE } from "../water/index.ts";
import type { Exposure } from "./exposure.ts";
import type { Margin, WorstPlace } from "./judged.ts";
import { crossingAt, firstBelowZero, stretchBelow, worstThatLasts } from "./lasting.ts";
import { FELT_BY_CURRENT, FELT_OF_SEA, isMaximum, isOnce, type Limit, type LimitAlong, marginOf } from "./limit.ts";
import { judgeOnce } from "./once/judge-once.ts";
import { ARRIVAL, OPEN_WATER } from "./passage-nodes.ts";

/** What a source covers in time, for the answer where something is not covered. */
export interface CoveredSpan {
  readonly from: number;
  readonly until: number;
}

/** What a passage meets of one quantity on one part of it, whatever the figures of a limit on it. */
export interface Extreme {
  /** The nodes of that part, as [first, one past the last]. */
  readonly first: number;
  readonly end: number;
  /** The first of them that is not covered; −1 where all are. */
  readonly uncovered: number;
  /** The covered one with the worst value, the first of several, and that value; −1 and NaN where none is covered. */
  readonly worstNode: number;
  readonly worstValue: number;
}

/** Judges one limit on one passage; `covers` as in `judgeAlong`. `extreme`: as `extremeOf` gives it for this limit. */
export function judge(exposure: Exposure, limit: Limit, covers: CoveredSpan | null, extreme: Extreme | null = null): Margin {
  if (isOnce(limit)) return judgeOnce(exposure.whole, limit, leavingOf(exposure));
  return judgeAlong(exposure, limit, covers, extreme ?? extremeOf(exposure, limit));
}

/** What limits on the same quantity, part and sense have in common on a passage: all of a limit matters to it but the two figures. */
export function extremeOf(exposure: Exposure, limit: LimitAlong): Extreme {
  const [first, end] = judgedNodes(exposure, limit);
  const { low, high, coverage } = exposure.columns[limit.felt];
  const maximum = isMaximum(limit);
  const values = maximum ? high : low;
  let uncovered = -1;
  let worstNode = -1;
  let worstValue = Number.NaN;
  for (let i = first; i < end; i++) {
    if (coverage[i] !== COVERED) {
      if (uncovered < 0) uncovered = i;
      continue;
    }
    const value = values[i] as number;
    if (worstNode >= 0 && !(maximum ? value > worstValue : value < worstValue)) continue;
    worstNode = i;
    worstValue = value;
  }
  return { first, end, uncovered, worstNode, worstValue };
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
function judgeAlong(exposure: Exposure, limit: LimitAlong, covers: CoveredSpan | null, extreme: Extreme): Margin {
  const { coverage } = exposure.columns[limit.felt];
  const { first, end, uncovered, worstNode } = extreme;
  const worst = worstNode < 0 ? null : worstOf(exposure, limit, extreme);
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

/**
 * Whether the known part of a passage passes *never* for longer than is tolerated: what `judge` finds a margin below 0 for, and quicker.
 * `extreme`: as `extremeOf` gives it for this limit.
 */
export function passesNever(exposure: Exposure, limit: Limit, extreme: Extreme | null = null): boolean {
  if (isOnce(limit)) {
    const margin = judge(exposure, limit, null);
    return ((margin.kind === "judged" ? margin : margin.knownPart)?.margin ?? 0) < 0;
  }
  const { worstNode, worstValue, first, end } = extreme ?? extremeOf(exposure, limit);
  const { never, toleratedSeconds } = limit;
  if (worstNode < 0 || !(isMaximum(limit) ? worstValue > never : worstValue < never)) return false;
  if (toleratedSeconds === 0) return true;
  const { times, margins } = marginsOf(exposure, limit, first, end);
  return stretchBelow(times, margins, 0, toleratedSeconds) !== null || margins.every((margin) => margin < 0);
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

/** The worst over the covered ones of the nodes of `extreme`, one at least. */
function worstOf(exposure: Exposure, limit: LimitAlong, { first, end, worstNode, worstValue }: Extreme): WorstPlace {
  const { toleratedSeconds } = limit;
  const margin = marginOf(limit, worstValue);
  if (toleratedSeconds === 0) {
    const firstPastNeverAt = margin < 0 ? firstPast(exposure, limit, first, end) : null;
    return { margin, value: worstValue, peakValue: worstValue, ...at(exposure, worstNode), firstPastNeverAt };
  }
  const { nodes, times, margins } = marginsOf(exposure, limit, first, end);
  const lasting = worstThatLasts(times, margins, toleratedSeconds);
  return {
    margin: lasting.margin,
    value: limit.never - lasting.margin * (limit.never - limit.happy),
    peakValue: worstValue,
    ...at(exposure, nodes[lasting.index] as number),
    firstPastNeverAt: lasting.margin < 0 ? firstBelowZero(times, margins, toleratedSeconds) : null,
  };
}

function at(exposure: Exposure, node: number): Pick<WorstPlace, "at" | "where"> {
  return { at: exposure.atSeconds[node] as number, where: placeOf(exposure, node) };
}

/** As `firstBelowZero` with nothing tolerated, on a passage that does fall below 0; it looks no further than that. */
function firstPast(exposure: Exposure, limit: LimitAlong, first: number, end: number): number {
  const { low, high, coverage } = exposure.columns[limit.felt];
  const values = isMaximum(limit) ? high : low;
  let before = -1;
  for (let i = first; i < end; i++) {
    if (coverage[i] !== COVERED) continue;
    const margin = marginOf(limit, values[i] as number);
    const now = exposure.atSeconds[i] as number;
    if (margin < 0) {
      if (before < 0) return now;
      return crossingAt(exposure.atSeconds[before] as number, marginOf(limit, values[before] as number), now, margin, 0);
    }
    before = i;
  }
  throw new Error(`a passage that never passes the limit on ${limit.felt} was asked when it does`);
}

import { commonSpans, joinedSpans, movedSpans, type OpenSpan, ruleSpans, spansOutside } from "../calendar/index.ts";
import { type Position, sunAltitudeDeg } from "../earth/index.ts";
import { epochSeconds } from "../units/index.ts";
import type { Entrance } from "./entrance/entrance.ts";
import { type EntranceStates, isOpen, mayBeOpen } from "./entrance/entrance-states.ts";
import type { StateSpan } from "./entrance/state-spans.ts";
import type { GateNeed, StatedHeight } from "./gate.ts";

/** When something may be passed within a stretch of time. `maybe` holds `open`, and what is not known besides. */
export interface NeedSpans {
  readonly open: readonly OpenSpan[];
  readonly maybe: readonly OpenSpan[];
}

/** How far apart stated heights of the tide may stand for a straight line between them, seconds: hourly, as almanacs give them (common practice). */
export const HEIGHTS_APART_AT_MOST_SECONDS = 3600;
/** The sun is looked at so often, seconds, and its crossing found to a second: a night shorter than this is not seen. */
const SUN_EVERY_SECONDS = 600;

/** The states of an entrance that a gate asks for. */
export type StatesOf = (entrance: Entrance) => EntranceStates;

/** For gates without an entrance. */
const NO_STATES: StatesOf = () => {
  throw new Error("an entrance without tides, streams and weather");
};

/** When a need is met within a stretch of time; `where` is the gate's place, for the light. */
export function needSpans(need: GateNeed, within: OpenSpan, where: Position, statesOf: StatesOf = NO_STATES): NeedSpans {
  switch (need.kind) {
    case "clock":
      return known(ruleSpans(need.rules, within));
    case "notDuring":
      return known(spansOutside(ruleSpans(need.rules, within), within));
    case "light":
      return known(lightSpans(need.sunAboveDeg, within, where));
    case "windows":
      return partlyKnown(joinedSpans(need.windows), [givenOf(need)], within);
    case "depth":
      return depthSpans(need, within);
    case "entrance": {
      const states = statesOf(need.entrance).within(within);
      return { open: spansWhere(states, isOpen), maybe: spansWhere(states, mayBeOpen) };
    }
  }
}

/** The spans in which a state is as wanted; those that follow one another right away are one. */
function spansWhere(states: readonly StateSpan[], wanted: (state: number) => boolean): readonly OpenSpan[] {
  const spans: { from: number; until: number }[] = [];
  states.forEach(({ from, until, state }, k) => {
    if (!wanted(state)) return;
    const before = states[k - 1];
    const last = spans[spans.length - 1];
    if (last !== undefined && before !== undefined && wanted(before.state)) last.until = until;
    else spans.push({ from, until });
  });
  return spans;
}

/** All needs at once. */
export function needsTogether(needs: readonly GateNeed[], within: OpenSpan, where: Position, statesOf: StatesOf = NO_STATES): NeedSpans {
  return needs.reduce<NeedSpans>(
    (both, need) => {
      const { open, maybe } = needSpans(need, within, where, statesOf);
      return { open: commonSpans(both.open, open), maybe: commonSpans(both.maybe, maybe) };
    },
    known([within]),
  );
}

/** An office must be told while it is open: when a boat may arrive so that there is an hour to tell it in. */
export function arrivalsWithNotice(hours: readonly OpenSpan[], leastSeconds: number, mostSeconds: number): readonly OpenSpan[] {
  return movedSpans(hours, leastSeconds, mostSeconds);
}

/** From when until when a need has values at all; null where it needs none. */
export function givenSpan(need: GateNeed): OpenSpan | null {
  return need.kind === "windows" || need.kind === "depth" ? givenOf(need) : null;
}

function givenOf(need: Extract<GateNeed, { readonly kind: "windows" | "depth" }>): OpenSpan {
  const spans = need.kind === "windows" ? need.windows : need.heights.map(({ at }) => ({ from: at, until: at }));
  if (spans.length === 0) throw new Error(`a gate's ${need.kind} without a value`);
  return { from: Math.min(...spans.map((span) => span.from)), until: Math.max(...spans.map((span) => span.until)) };
}

const known = (open: readonly OpenSpan[]): NeedSpans => ({ open, maybe: open });

function partlyKnown(open: readonly OpenSpan[], given: readonly OpenSpan[], within: OpenSpan): NeedSpans {
  const inside = commonSpans(open, [within]);
  return { open: inside, maybe: joinedSpans([...inside, ...spansOutside(given, within, 0)]) };
}

function depthSpans(need: Extract<GateNeed, { readonly kind: "depth" }>, within: OpenSpan): NeedSpans {
  const heights = need.heights.toSorted((a, b) => a.at - b.at);
  const wanted = need.neededMetres - need.depthMetres;
  const open: OpenSpan[] = [];
  const given: OpenSpan[] = [];
  heights.forEach((height, i) => {
    const next = heights[i + 1] ?? height;
    if (next.at - height.at > HEIGHTS_APART_AT_MOST_SECONDS) return;
    given.push({ from: height.at, until: next.at });
    const enough = enoughBetween(height, next, wanted);
    if (enough !== null) open.push(enough);
  });
  return partlyKnown(joinedSpans(open), joinedSpans(given), within);
}

/** The part of a straight line between two heights that is at least `wanted` above chart datum. */
function enoughBetween(a: StatedHeight, b: StatedHeight, wanted: number): OpenSpan | null {
  const over = [a, b].map((one) => one.heightAboveChartDatumMetres - wanted) as [number, number];
  if (over[0] < 0 && over[1] < 0) return null;
  if (over[0] >= 0 && over[1] >= 0) return { from: a.at, until: b.at };
  const crossesAt = a.at + (over[0] / (over[0] - over[1])) * (b.at - a.at);
  return over[0] >= 0 ? { from: a.at, until: crossesAt } : { from: crossesAt, until: b.at };
}

function lightSpans(sunAboveDeg: number, within: OpenSpan, where: Position): readonly OpenSpan[] {
  const above = (at: number): boolean => sunAltitudeDeg(epochSeconds(at), where) >= sunAboveDeg;
  const spans: OpenSpan[] = [];
  let from: number | null = above(within.from) ? within.from : null;
  for (let at = within.from; at < within.until; at += SUN_EVERY_SECONDS) {
    const next = Math.min(at + SUN_EVERY_SECONDS, within.until);
    const light = above(next);
    if (light === (from !== null)) continue;
    let low = at;
    let high = next;
    while (high - low > 1) {
      const middle = (low + high) / 2;
      if (above(middle) === light) high = middle;
      else low = middle;
    }
    if (from === null) from = high;
    else {
      spans.push({ from, until: low });
      from = null;
    }
  }
  return from === null ? spans : [...spans, { from, until: within.until }];
}

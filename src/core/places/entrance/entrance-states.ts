import type { OpenSpan } from "../../calendar/index.ts";
import type { Entrance, EntranceReading } from "./entrance.ts";
import { EntranceReader } from "./entrance-reader.ts";
import type { EntrancePlace, EntranceSurroundings } from "./entrance-water.ts";
import { joinedStates, type StateSpan, stateSpans } from "./state-spans.ts";

/** States are found and kept a day at a time, seconds. */
const DAY_SECONDS = 86400;
/**
 * An entrance is looked at so often, seconds, and at every turn of tide and stream and step of the forecast besides; between two looks changes
 * are found to half a second. What shuts and opens within this without a turn of tide or stream is not seen.
 */
export const ENTRANCE_EVERY_SECONDS = 300;

/** The kinds of reason as bits of a state: 0 is open. */
const BITS = [
  "depth",
  "ebb",
  "flood",
  "notSlack",
  "blocked",
  "breaking",
  "steep",
  "seaHeight",
  "windAgainstEbb",
  "sunLow",
  "sunAhead",
  "notJudged",
] as const satisfies readonly EntranceReading["reasons"][number]["kind"][];

const NOT_JUDGED = 1 << BITS.indexOf("notJudged");

/** The state of a reading: one bit for each kind of reason. */
export function stateOf({ reasons }: EntranceReading): number {
  return reasons.reduce((state, { kind }) => state | (1 << BITS.indexOf(kind)), 0);
}

/** Nothing shuts it, and all of it is known. */
export const isOpen = (state: number): boolean => state === 0;
/** Nothing known shuts it. */
export const mayBeOpen = (state: number): boolean => (state & ~NOT_JUDGED) === 0;

/** How an entrance stands over time, by kinds of reason; found once for each day. */
export class EntranceStates {
  readonly reader: EntranceReader;
  private readonly days = new Map<number, readonly StateSpan[]>();

  constructor(reader: EntranceReader) {
    this.reader = reader;
  }

  /** The spans within a stretch of time, in order, one right after another. */
  within({ from, until }: OpenSpan): readonly StateSpan[] {
    const spans: StateSpan[] = [];
    for (let day = Math.floor(from / DAY_SECONDS); day * DAY_SECONDS <= until; day++) spans.push(...this.ofDay(day));
    return joinedStates(spans)
      .filter((span) => span.until >= from && span.from <= until)
      .map((span) => ({ ...span, from: Math.max(from, span.from), until: Math.min(until, span.until) }));
  }

  private ofDay(day: number): readonly StateSpan[] {
    const known = this.days.get(day);
    if (known !== undefined) return known;
    const from = day * DAY_SECONDS;
    const until = from + DAY_SECONDS;
    const moments = new Set([from, until, ...this.reader.turnsWithin({ from, until })]);
    for (let at = from; at < until; at += ENTRANCE_EVERY_SECONDS) moments.add(at);
    const made = stateSpans(
      (at) => stateOf(this.reader.at(at)),
      [...moments].sort((a, b) => a - b),
    );
    this.days.set(day, made);
    return made;
  }
}

/** Two places this near, degrees and metres, are one: the same gate met on the way out and on the way home. */
const SAME_DEG = 1e-5;
const SAME_METRES = 1;
const keptStates = new WeakMap<
  EntranceSurroundings,
  WeakMap<Entrance, { readonly place: EntrancePlace; readonly states: EntranceStates }[]>
>();

/** The states of an entrance at a place in its surroundings, found once for all legs that it stands on. */
export function statesOfEntrance(entrance: Entrance, around: EntranceSurroundings, place: EntrancePlace): EntranceStates {
  const ofAround = keptStates.get(around) ?? new WeakMap();
  keptStates.set(around, ofAround);
  const list = ofAround.get(entrance) ?? [];
  ofAround.set(entrance, list);
  const known = list.find((one) => isSamePlace(one.place, place));
  if (known !== undefined) return known.states;
  const states = new EntranceStates(new EntranceReader(entrance, around, place));
  list.push({ place, states });
  return states;
}

function isSamePlace(a: EntrancePlace, b: EntrancePlace): boolean {
  return (
    Math.hypot(a.offX - b.offX, a.offY - b.offY) < SAME_METRES &&
    Math.abs(a.where.latitudeDeg - b.where.latitudeDeg) < SAME_DEG &&
    Math.abs(a.where.longitudeDeg - b.where.longitudeDeg) < SAME_DEG
  );
}

import { type EpochSeconds, epochSeconds, motionToward } from "../../units/index.ts";
import type { Tide, TideTurn } from "../tide/index.ts";
import { withoutRipples } from "../tide/index.ts";
import type { HourOfStream } from "./stated-stream.ts";

/** A high and a low that differ by less than this share of the neap range are a ripple on one water, and no high waters of their own. Ours. */
const RIPPLE_SHARE = 0.1;
/**
 * The gap between a table's last hour after one high water and its first before the next that is still joined by a straight line,
 * seconds. Tides of twelve hours and a half leave one of half an hour; with more, the hours are stretched. Ours.
 */
const WIDEST_GAP_SECONDS = 2 * 3600;

/** Where less lies between the two, their mean stands half way: a table's ends are not so alike that the stream leaps from one to the other. Ours. */
const NARROWEST_GAP_SECONDS = 15 * 60;

/** A high water with the range of its tide: its height less the mean of the lows before and after. */
export interface HighWater {
  readonly at: EpochSeconds;
  readonly rangeMetres: number;
}

/** A point of the stream, east and north in m/s true: straight lines between. */
export interface StreamNode {
  readonly at: number;
  readonly eastMps: number;
  readonly northMps: number;
}

/** A table by hours, ready: ascending whole hours without a gap, ranges in metres. */
export interface HoursTable {
  readonly hours: readonly HourOfStream[];
  readonly springRangeMetres: number;
  readonly neapRangeMetres: number;
}

/** The high waters in [from, until) that have a low on both sides there, in order of time. */
export function highWaters(tide: Tide, { neapRangeMetres }: HoursTable, from: number, until: number): readonly HighWater[] {
  const turns = withoutRipples(tide.highsAndLows(epochSeconds(from), epochSeconds(until)), RIPPLE_SHARE * neapRangeMetres);
  return turns.flatMap((turn, i) => {
    const [before, after] = [turns[i - 1], turns[i + 1]];
    if (turn.kind !== "high" || before === undefined || after === undefined) return [];
    return [{ at: turn.at, rangeMetres: turn.heightMetres - (lowOf(before) + lowOf(after)) / 2 }];
  });
}

const lowOf = ({ heightMetres }: TideTurn): number => heightMetres;

/** Where the range of a tide lies between neaps (0) and springs (1): below nought and above one outside them. */
export function springShare({ springRangeMetres, neapRangeMetres }: HoursTable, rangeMetres: number): number {
  return (rangeMetres - neapRangeMetres) / (springRangeMetres - neapRangeMetres);
}

/** By what the table's hours are stretched between two high waters, 1 where they are true hours. */
export function hoursStretched({ hours }: HoursTable, seconds: number): number {
  const [first, last] = [hours[0]?.hour ?? 0, hours[hours.length - 1]?.hour ?? 0];
  const full = (last - first) * 3600;
  if (seconds < full) return seconds / full;
  return seconds > full + WIDEST_GAP_SECONDS ? seconds / (full + WIDEST_GAP_SECONDS) : 1;
}

/**
 * The points of a stream by hours between neighbouring high waters. Hours are true hours from the nearer high water, as tables and charts
 * give them, and not shares of the interval: their figures come back at whole hours from high water. The rest of the interval is joined
 * straight, or made one; where the table's hours overlap, or leave more than `WIDEST_GAP_SECONDS`, they are squeezed or stretched to fit. Each hour has
 * the rate for the range of its own high water, in a straight line from neaps to springs and on beyond them (never below nought).
 */
export function nodesBetween(table: HoursTable, before: HighWater, after: HighWater): readonly StreamNode[] {
  const stretch = hoursStretched(table, after.at - before.at);
  const nodeOf = (high: HighWater, { hour, setDegTrue, springsMps, neapsMps }: HourOfStream): StreamNode => {
    const rateMps = Math.max(0, neapsMps + springShare(table, high.rangeMetres) * (springsMps - neapsMps));
    return { at: high.at + stretch * 3600 * hour, ...motionToward(rateMps, setDegTrue) };
  };
  const since = table.hours.filter(({ hour }) => hour >= 0).map((hour) => nodeOf(before, hour));
  const to = table.hours.filter(({ hour }) => hour < 0).map((hour) => nodeOf(after, hour));
  const [last, first] = [since[since.length - 1], to[0]];
  if (last === undefined || first === undefined) throw new Error("a table by hours without hours on both sides of high water");
  if (first.at - last.at >= NARROWEST_GAP_SECONDS) return [...since, ...to];
  return [...since.slice(0, -1), halfWay(last, first), ...to.slice(1)];
}

function halfWay(one: StreamNode, other: StreamNode): StreamNode {
  return {
    at: (one.at + other.at) / 2,
    eastMps: (one.eastMps + other.eastMps) / 2,
    northMps: (one.northMps + other.northMps) / 2,
  };
}

import { type AstroTime, type Body, SearchAltitude } from "astronomy-engine";
import { type EpochSeconds, epochSeconds, type Interval } from "../units/index.ts";
import type { Position } from "./position.ts";
import { skyPlaceOf, skyTime, watcherAt } from "./sun.ts";

/** A body passing a line of altitude (the horizon, or a twilight's depression below it). */
export interface Crossing {
  readonly at: EpochSeconds;
  readonly going: "up" | "down";
}

/**
 * What a body does at a line of altitude during an interval, usually a local day. That it never crosses is an answer (midnight sun,
 * polar night, a day without a moonrise). `upAt` and `downAt` are the first of each, null where there is none in the interval;
 * `crossings` has them all in order of time: near the polar circles a day can hold two.
 */
export type HorizonDay =
  | {
      readonly kind: "crosses";
      readonly upAt: EpochSeconds | null;
      readonly downAt: EpochSeconds | null;
      readonly crossings: readonly Crossing[];
    }
  | { readonly kind: "aboveThroughout" }
  | { readonly kind: "belowThroughout" };

/** Finds the first crossing after an instant within some days, or none. */
type Search = (direction: 1 | -1, from: AstroTime, withinDays: number) => AstroTime | null;

const SECONDS_PER_DAY = 86400;
/** Searches go on this long after the crossing just found, so as not to find it again. */
const STEP_PAST_SECONDS = 1;

/** Every crossing in [from, until); `isAboveAt` settles what an interval without any means. Throws on an empty interval. */
export function horizonDay(search: Search, isAboveAt: (at: EpochSeconds) => boolean, { from, until }: Interval): HorizonDay {
  if (!(until > from)) throw new Error(`not an interval: from ${from} until ${until}`);
  const crossings: Crossing[] = [];
  for (const direction of [1, -1] as const) {
    let after: number = from;
    while (after < until) {
      const found = search(direction, skyTime(epochSeconds(after)), (until - after) / SECONDS_PER_DAY);
      if (found === null) break;
      const at = epochSeconds(found.date.getTime() / 1000);
      if (at >= until) break;
      if (at >= from) crossings.push({ at, going: direction === 1 ? "up" : "down" });
      after = at + STEP_PAST_SECONDS;
    }
  }
  if (crossings.length === 0) {
    const middle = epochSeconds((from + until) / 2);
    return { kind: isAboveAt(middle) ? "aboveThroughout" : "belowThroughout" };
  }
  crossings.sort((a, b) => a.at - b.at);
  const firstGoing = (going: "up" | "down"): EpochSeconds | null => crossings.find((one) => one.going === going)?.at ?? null;
  return { kind: "crosses", upAt: firstGoing("up"), downAt: firstGoing("down"), crossings };
}

/** What a body's centre does at a geometric altitude (no refraction), in [from, until). */
export function altitudeDay(body: Body, altitudeDeg: number, interval: Interval, position: Position): HorizonDay {
  const watcher = watcherAt(position);
  return horizonDay(
    (direction, from, withinDays) => SearchAltitude(body, watcher, direction, from, withinDays, altitudeDeg),
    (at) => skyPlaceOf(body, at, position).altitudeDeg > altitudeDeg,
    interval,
  );
}

import { slowed } from "../boat/index.ts";
import { scaledCurrent } from "../water/index.ts";
import { BiasedHelm } from "./biased-helm.ts";
import type { Crossing } from "./crossing.ts";
import type { Helm } from "./helm.ts";
import { legsOfHeadings } from "./legs-of-headings.ts";
import { type Line, offOf } from "./line.ts";
import { type Leg, type LegsRun, legAlong, legBowOnEnd, legOnTrackToEnd, runLegs, startOf } from "./run-legs.ts";
import { Simulator } from "./simulate.ts";
import { runnerFor } from "./square-in-lanes.ts";
import type { HelmOrder, WayArrives } from "./way.ts";

/** Where a stream never ends before the destination, the share of the line after which a crew is taken to mend its course by eye (common practice). */
export const MEND_FROM_SHARE = 0.8;

/** What turns out other than it was planned. */
export interface Otherwise {
  /** The whole stream runs at this much of what was foretold. */
  readonly streamFactor?: number;
  /** The boat goes at this much of her planned speed. */
  readonly speedFactor?: number;
  /** Headings are steered so far to starboard of those ordered, degrees (negative: to port); what is held by eye or bearing mends itself. */
  readonly headingBiasDeg?: number;
  /** The engine stops so long at this place along the line. */
  readonly stop?: { readonly alongMetres: number; readonly seconds: number };
}

export interface CarriedOut {
  readonly run: LegsRun;
  /** Off the line where the order ends (clear of the stream), metres, starboard positive; null when it fails before. */
  readonly offAtClearMetres: number | null;
}

/**
 * Carries out an order as it was given while the water or the boat is other than planned: the order is kept until the place where the
 * planned run came clear of the stream, then the straight track to the destination is held. Square in the lanes is kept at least until the last lane is left, lanes being met where they are. Holding the track and keeping the bow on
 * the destination mend themselves all the way.
 *
 * With the engine stopped a boat with sails goes on under them as ordered, and one without drifts; where a track was to be held she keeps
 * the bow on the destination, since she may be too slow to hold it. Throws on a stop of an engine that is never used.
 */
export function carryOut(crossing: Crossing, way: WayArrives, otherwise: Otherwise): CarriedOut {
  const { line } = crossing;
  const { headingBiasDeg } = otherwise;
  const plain =
    otherwise.streamFactor === undefined
      ? crossing.simulator
      : new Simulator({ ...crossing.around, current: scaledCurrent(crossing.around.current, otherwise.streamFactor) });
  const simulator = runnerFor(crossing, way.name, headingBiasDeg === undefined ? plain : new BiasedHelm(plain, headingBiasDeg));
  const boat = otherwise.speedFactor === undefined ? crossing.boat : slowed(crossing.boat, otherwise.speedFactor);
  const keepUntil = keptUntilAlong(way, line.lengthMetres);
  const helm = orderedHelm(way, line);
  const legs: Leg[] = [];
  const { stop } = otherwise;
  if (stop !== undefined) {
    legs.push(legAlong(boat, helm, line, Math.min(stop.alongMetres, keepUntil)));
    legs.push(...legsWhileStopped(crossing, way, stop.seconds, keepUntil));
  }
  let clearLeg = -1;
  if (way.name === "bowOnDestination") legs.push(legBowOnEnd(boat, line));
  else {
    // A track is held from wherever the boat is; an order is kept until clear, and the rest of the track is held from there.
    if (way.name === "changingHeadings") clearLeg = legs.push(...legsOfHeadings(boat, line, way.orders, keepUntil)) - 1;
    else if (way.name !== "holdTrack") clearLeg = legs.push(legAlong(boat, helm, line, keepUntil)) - 1;
    legs.push(legOnTrackToEnd(boat, line));
  }
  const run = runLegs(crossing, simulator, startOf(crossing, way.departAt), legs);
  const clearEnd = run.kind === "arrives" ? run.legEnds[clearLeg] : undefined;
  return { run, offAtClearMetres: clearEnd === undefined ? null : offOf(line, clearEnd.xMetres, clearEnd.yMetres) };
}

/** The order kept as long as it holds and the engine stands still, then the bow kept on the destination until the engine runs again. */
function legsWhileStopped(crossing: Crossing, way: WayArrives, seconds: number, keepUntil: number): readonly Leg[] {
  const { line, engineStopped: boat } = crossing;
  if (boat === null) throw new Error("an engine that is never used can't stop");
  const mark = { xMetres: line.toX, yMetres: line.toY };
  const steer = outsideLanes(way);
  let runsAgainAt = 0;
  const asOrdered: Leg = {
    boat,
    plan: (from) => {
      runsAgainAt = from.at + seconds;
      return steer?.kind === "heading" ? { helm: steer, until: { kind: "along", line, metres: keepUntil, byAt: runsAgainAt } } : null;
    },
  };
  const bowOnEnd: Leg = {
    boat,
    plan: (from) =>
      from.at < runsAgainAt ? { helm: { kind: "bowOn", ...mark }, until: { kind: "at", ...mark, byAt: runsAgainAt } } : null,
  };
  return [asOrdered, bowOnEnd];
}

/**
 * The way with its order given up for the track after `MEND_FROM_SHARE` of the line, where the stream is left only later: nobody steers on to
 * the last mile.
 */
export function mendedInTime(way: WayArrives, lengthMetres: number): WayArrives {
  const latest = MEND_FROM_SHARE * lengthMetres;
  return way.clear === null || way.clear.alongMetres <= latest ? way : { ...way, clear: { ...way.clear, alongMetres: latest } };
}

/** Where along the line an order given beforehand ends and the course is mended. */
export function keptUntilAlong(way: WayArrives, lengthMetres: number): number {
  if (way.name === "holdTrack") return lengthMetres;
  if (way.name === "acrossThenTurn") return Math.min(lengthMetres, way.orders[1]?.fromAlongMetres ?? lengthMetres);
  const clear = way.clear?.alongMetres ?? MEND_FROM_SHARE * lengthMetres;
  // The last order of a way square in the lanes is given as the last of them is left.
  const lanesLeft = way.name === "squareInLanes" ? (way.orders[way.orders.length - 1]?.fromAlongMetres ?? 0) : 0;
  return Math.min(lengthMetres, Math.max(clear, lanesLeft));
}

function orderedHelm(way: WayArrives, line: Line): Helm {
  if (way.name === "bowOnDestination") return { kind: "bowOn", xMetres: line.toX, yMetres: line.toY };
  if (way.name === "holdTrack") return { kind: "track", line };
  const steer = outsideLanes(way);
  if (steer?.kind !== "heading") throw new Error(`way ${way.name} has no heading to keep`);
  return steer;
}

/** The heading of an order; square in the lanes, the one outside them (whichever order first has none to be square to). */
export function outsideLanes(way: WayArrives): HelmOrder["steer"] | undefined {
  const outside = way.orders.find(({ steer }) => steer.kind !== "heading" || steer.squareTo === undefined);
  return (outside ?? way.orders[0])?.steer;
}

import { driftingModel, slowed } from "../boat/index.ts";
import { scaledCurrent } from "../water/index.ts";
import type { Crossing } from "./crossing.ts";
import { type Line, offOf } from "./line.ts";
import { type Leg, type LegsRun, legAlong, legBowOnEnd, legOnTrackToEnd, runLegs, startOf } from "./run-legs.ts";
import { type Helm, Simulator } from "./simulate.ts";
import type { WayArrives } from "./way.ts";

/** Where a stream never ends before the destination, the share of the line after which a crew is taken to mend its course by eye (common practice). */
export const MEND_FROM_SHARE = 0.8;

/** What turns out other than it was planned. */
export interface Otherwise {
  /** The whole stream runs at this much of what was foretold. */
  readonly streamFactor?: number;
  /** The boat goes at this much of her planned speed. */
  readonly speedFactor?: number;
  /** The engine stops so long at this place along the line; the boat drifts with the water. */
  readonly stop?: { readonly alongMetres: number; readonly seconds: number };
}

export interface CarriedOut {
  readonly run: LegsRun;
  /** Off the line where the order ends (clear of the stream), metres, starboard positive; null when it fails before. */
  readonly offAtClearMetres: number | null;
}

/**
 * Carries out an order as it was given while the water or the boat is other than planned: the order is kept until the place where the
 * planned run came clear of the stream, then the straight track to the destination is held. Holding the track and keeping the bow on
 * the destination mend themselves all the way.
 */
export function carryOut(crossing: Crossing, way: WayArrives, otherwise: Otherwise): CarriedOut {
  const { line } = crossing;
  const simulator =
    otherwise.streamFactor === undefined
      ? crossing.simulator
      : new Simulator({ ...crossing.around, current: scaledCurrent(crossing.around.current, otherwise.streamFactor) });
  const boat = otherwise.speedFactor === undefined ? crossing.boat : slowed(crossing.boat, otherwise.speedFactor);
  const keepUntil = keptUntilAlong(way, line.lengthMetres);
  const helm = orderedHelm(way, line);
  const legs: Leg[] = [];
  const { stop } = otherwise;
  if (stop !== undefined) {
    legs.push(legAlong(boat, helm, line, Math.min(stop.alongMetres, keepUntil)));
    legs.push({
      boat: driftingModel(),
      plan: (from) => ({ helm: { kind: "heading", headingDegTrue: 0 }, until: { kind: "instant", at: from.at + stop.seconds } }),
    });
  }
  let clearLeg = -1;
  if (way.name === "bowOnDestination") legs.push(legBowOnEnd(boat, line));
  else {
    // A track is held from wherever the boat is; an order is kept until clear, and the rest of the track is held from there.
    if (way.name !== "holdTrack") clearLeg = legs.push(legAlong(boat, helm, line, keepUntil)) - 1;
    legs.push(legOnTrackToEnd(boat, line));
  }
  const run = runLegs(crossing, simulator, startOf(crossing, way.departAt), legs);
  const clearEnd = run.kind === "arrives" ? run.legEnds[clearLeg] : undefined;
  return { run, offAtClearMetres: clearEnd === undefined ? null : offOf(line, clearEnd.xMetres, clearEnd.yMetres) };
}

/** Where along the line an order given beforehand ends and the course is mended. */
export function keptUntilAlong(way: WayArrives, lengthMetres: number): number {
  if (way.name === "holdTrack") return lengthMetres;
  if (way.name === "acrossThenTurn") return Math.min(lengthMetres, way.orders[1]?.fromAlongMetres ?? lengthMetres);
  return Math.min(lengthMetres, way.clear?.alongMetres ?? MEND_FROM_SHARE * lengthMetres);
}

function orderedHelm(way: WayArrives, line: Line): Helm {
  if (way.name === "bowOnDestination") return { kind: "bowOn", xMetres: line.toX, yMetres: line.toY };
  if (way.name === "holdTrack") return { kind: "track", line };
  const steer = way.orders[0]?.steer;
  if (steer?.kind !== "heading") throw new Error(`way ${way.name} has no heading to keep`);
  return steer;
}

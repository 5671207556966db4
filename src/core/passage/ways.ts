import type { NoAnswer } from "../answers/index.ts";
import { wrap360Deg } from "../units/index.ts";
import type { Crossing } from "./crossing.ts";
import type { Until } from "./helm.ts";
import { alongOf, pointAt } from "./line.ts";
import { findHeadings, type HeadingSearch } from "./one-heading.ts";
import { type Leg, legAlong, legBowOnEnd, legOnTrackToEnd, restOf, runLegs, startOf } from "./run-legs.ts";
import { CLEAR_RATE_MPS } from "./simulate.ts";
import { squareInLanes } from "./square-in-lanes.ts";
import { lookAcross, type StreamAcross, strayOf, streamOnTrack } from "./stream-across.ts";
import { TrackRecorder } from "./track.ts";
import type { HelmOrder, Way } from "./way.ts";
import { wayArrives, wayFails } from "./way-made.ts";

export interface WayOptions extends HeadingSearch {
  /** Straight across: when to turn, instead of where the stream is left. */
  readonly turnWhen?: Until;
  /** Straight across: after the turn hold the straight track to the destination instead of one course to steer. */
  readonly afterTurn?: "courseToSteer" | "holdTrack";
}

/** One heading, computed so that it leads to the destination, held all the way. */
export function oneHeading(crossing: Crossing, departAt: number, options: WayOptions = {}): Way {
  const { line, simulator, boat, stepSeconds } = crossing;
  const start = startOf(crossing, departAt);
  const headings = findHeadings(simulator, boat, line, start, stepSeconds, options);
  const best = headings.found[0];
  if (best === undefined) return wayFails("oneHeading", departAt, headings.why as NoAnswer);
  const helm = { kind: "heading", headingDegTrue: best.headingDegTrue } as const;
  const run = runLegs(crossing, simulator, start, [legAlong(boat, helm, line, line.lengthMetres)]);
  const orders: HelmOrder[] = [{ fromAt: departAt, fromAlongMetres: 0, steer: helm }];
  return wayArrives(crossing, "oneHeading", departAt, run, orders, headings.found.length);
}

/** The heading square to the set at the axis, on the side of the destination, degrees true. */
export function squareHeadingDegTrue(crossing: Crossing, stream: StreamAcross): number {
  const { line } = crossing;
  const axis = pointAt(line, stream.axisAlongMetres, 0);
  const sheetDeg = stream.axisSheetDeg + 90;
  const alongIt = Math.cos(((sheetDeg - line.sheetDeg) * Math.PI) / 180);
  return wrap360Deg((alongIt >= 0 ? sheetDeg : sheetDeg + 180) + line.plane.convergenceDegAt(axis.xMetres, axis.yMetres));
}

/** Heading square to the set until clear of the stream, then a course to steer for the destination. */
export function acrossThenTurn(crossing: Crossing, departAt: number, stream: StreamAcross, options: WayOptions = {}): Way {
  const { line, simulator, boat, stepSeconds } = crossing;
  const start = startOf(crossing, departAt);
  const square = { kind: "heading", headingDegTrue: squareHeadingDegTrue(crossing, stream) } as const;
  let turnWhen = options.turnWhen;
  if (turnWhen === undefined) {
    const ahead = new TrackRecorder();
    const abeam = simulator.run(boat, square, { kind: "along", line, metres: line.lengthMetres }, start, stepSeconds, ahead);
    if (ahead.length === 0 && abeam.kind === "noAnswer") return wayFails("acrossThenTurn", departAt, abeam);
    const met = streamOnTrack(ahead.finish(line.plane), line, crossing.around.current);
    // What stops the boat beyond the place where she would turn does not matter.
    if (abeam.kind === "noAnswer" && met.clear === null) return wayFails("acrossThenTurn", departAt, abeam);
    // With no stream to speak of there is nothing to cross; one that never ends is left abeam of the destination.
    const metres = met.clear?.alongMetres ?? (met.axis.rateMps >= CLEAR_RATE_MPS ? line.lengthMetres : 0);
    turnWhen = { kind: "along", line, metres };
  }
  const until = turnWhen;
  const orders: HelmOrder[] = [{ fromAt: departAt, fromAlongMetres: 0, steer: square }];
  const toDestination: Leg = {
    boat,
    plan: (from) => {
      const rest = restOf(line, from);
      if (rest === null) return null;
      const until = { kind: "along", line: rest, metres: rest.lengthMetres } as const;
      const place = { fromAt: from.at, fromAlongMetres: alongOf(line, from.xMetres, from.yMetres) };
      if (options.afterTurn === "holdTrack") {
        const trackDegTrue = wrap360Deg(rest.sheetDeg + line.plane.convergenceDegAt(from.xMetres, from.yMetres));
        orders.push({ ...place, steer: { kind: "holdTrack", trackDegTrue } });
        return { helm: { kind: "track", line: rest }, until };
      }
      const headings = findHeadings(simulator, boat, rest, from, stepSeconds, { earliestOnly: true });
      const best = headings.found[0];
      if (best === undefined) return headings.why as NoAnswer;
      const helm = { kind: "heading", headingDegTrue: best.headingDegTrue } as const;
      orders.push({ ...place, steer: helm });
      return { helm, until };
    },
  };
  const run = runLegs(crossing, simulator, start, [{ boat, plan: () => ({ helm: square, until }) }, toDestination]);
  return wayArrives(crossing, "acrossThenTurn", departAt, run, orders, 0);
}

/** The straight track held by steering up-stream as much as it takes at each moment. */
export function holdTrack(crossing: Crossing, departAt: number): Way {
  const { line, simulator, boat } = crossing;
  const run = runLegs(crossing, simulator, startOf(crossing, departAt), [legOnTrackToEnd(boat, line)]);
  const trackDegTrue = wrap360Deg(line.sheetDeg + line.plane.convergenceDegAt(line.fromX, line.fromY));
  return wayArrives(
    crossing,
    "holdTrack",
    departAt,
    run,
    [{ fromAt: departAt, fromAlongMetres: 0, steer: { kind: "holdTrack", trackDegTrue } }],
    0,
  );
}

/** The bow kept on the destination: what a helm without a plan does. */
export function bowOnDestination(crossing: Crossing, departAt: number): Way {
  const { line, simulator, boat } = crossing;
  const run = runLegs(crossing, simulator, startOf(crossing, departAt), [legBowOnEnd(boat, line)]);
  return wayArrives(
    crossing,
    "bowOnDestination",
    departAt,
    run,
    [{ fromAt: departAt, fromAlongMetres: 0, steer: { kind: "bowOnDestination" } }],
    0,
  );
}

/** All the ways across for one departure, simplest order first. `stream` is null where nothing of the water along the line is known. */
export function waysAcross(
  crossing: Crossing,
  departAt: number,
  options: WayOptions = {},
): { readonly ways: readonly Way[]; readonly stream: StreamAcross | null } {
  const first = oneHeading(crossing, departAt, options);
  const seconds = first.kind === "arrives" ? first.arrivalAt - departAt : crossing.line.lengthMetres / 2.5;
  const stream = lookAcross(crossing.around.current, crossing.line, departAt, crossing.line.lengthMetres / seconds);
  const across: Way =
    stream === null
      ? wayFails("acrossThenTurn", departAt, first.kind === "fails" ? first.why : unknownWater(crossing, departAt))
      : acrossThenTurn(crossing, departAt, stream, options);
  const ways = [
    first,
    ...squareWay(crossing, departAt, options),
    across,
    holdTrack(crossing, departAt),
    bowOnDestination(crossing, departAt),
  ];
  return { ways: stream === null ? ways : ways.map((way) => withStray(way, crossing, stream.downStreamSide)), stream };
}

/** The way square in the lanes, where there are lanes with a flow; one that meets none is one heading over again, and is left out. */
function squareWay(crossing: Crossing, departAt: number, options: HeadingSearch): readonly Way[] {
  const flowing = crossing.around.lanes?.lanes.some((lane) => lane.flowDegTrue !== null) ?? false;
  if (!flowing) return [];
  const way = squareInLanes(crossing, departAt, options);
  return way.kind === "fails" || way.laneCrossings.some((one) => one.flowDegTrue !== null) ? [way] : [];
}

/** A way with its stray told by one side for all: where the stream turns, each way's own down-stream may differ. */
function withStray(way: Way, { line }: Crossing, downStreamSide: 1 | -1): Way {
  if (way.kind === "fails") return way;
  const { upMetres, downMetres } = strayOf(way.track, line, downStreamSide);
  return { ...way, upStreamMetres: upMetres, downStreamMetres: downMetres };
}

function unknownWater(crossing: Crossing, at: number): NoAnswer {
  const { line } = crossing;
  const where = line.plane.toPosition(line.fromX, line.fromY);
  return { kind: "noAnswer", code: "not-covered-place", quantity: "current", at, where, coveredFrom: null, coveredUntil: null };
}

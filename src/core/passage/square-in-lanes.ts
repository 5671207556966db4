import type { NoAnswer } from "../answers/index.ts";
import { wrap180Deg } from "../units/index.ts";
import type { Crossing } from "./crossing.ts";
import { type HeadingTaken, LaneRunner } from "./lane-runner.ts";
import { alongOf, offOf } from "./line.ts";
import { findHeadings, type HeadingSearch, JUMP_MAY_MISS_SHARE } from "./one-heading.ts";
import { legAlong, type Runner, runLegs, startOf } from "./run-legs.ts";
import type { HelmOrder, Way, WayName } from "./way.ts";
import { wayArrives, wayFails } from "./way-made.ts";

/** Headings closer together than this are one to the helm, degrees. */
const SAME_HEADING_DEG = 1e-6;

/** The runner of an order: the simulator, or over it one that steers square in the lanes. */
export function runnerFor(crossing: Crossing, name: WayName, simulator: Runner = crossing.simulator): Runner {
  const { lanes } = crossing.around;
  return name === "squareInLanes" && lanes != null ? new LaneRunner(simulator, lanes, crossing.line) : simulator;
}

/**
 * Square in the lanes: inside every lane the heading square to its flow (rule 10(c)), on the destination's side, kept through the separation
 * zone to the next lane of the scheme; before and after the lanes one heading, found so that the whole arrives. Without lanes it
 * is one heading all the way.
 */
export function squareInLanes(crossing: Crossing, departAt: number, options: HeadingSearch = {}): Way {
  const { line, boat, stepSeconds } = crossing;
  const lanes = crossing.around.lanes ?? { lanes: [], laneAt: () => null };
  const runner = new LaneRunner(crossing.simulator, lanes, line);
  const start = startOf(crossing, departAt);
  const until = { kind: "along", line, metres: line.lengthMetres } as const;
  const middleDeg = line.sheetDeg + line.plane.convergenceDegAt(start.xMetres, start.yMetres);
  const straight = runner.run(boat, { kind: "heading", headingDegTrue: middleDeg }, until, start, stepSeconds, null);
  let outsideDeg = middleDeg;
  let thatLead = 0;
  if (runner.taken.length > 0 && runner.taken.every(({ lane }) => lane !== null)) {
    // In lanes from one end to the other there is no heading to choose: the square one leads there or it does not.
    if (straight.kind === "noAnswer") return wayFails("squareInLanes", departAt, straight);
    if (Math.abs(offOf(line, straight.xMetres, straight.yMetres)) > JUMP_MAY_MISS_SHARE * line.lengthMetres) {
      const where = line.plane.toPosition(straight.xMetres, straight.yMetres);
      return wayFails("squareInLanes", departAt, { kind: "noAnswer", code: "unreachable", at: straight.at, where });
    }
  } else {
    const headings = findHeadings(runner, boat, line, start, stepSeconds, options);
    const best = headings.found[0];
    if (best === undefined) return wayFails("squareInLanes", departAt, headings.why as NoAnswer);
    outsideDeg = best.headingDegTrue;
    thatLead = headings.found.length;
  }
  const leg = legAlong(boat, { kind: "heading", headingDegTrue: outsideDeg }, line, line.lengthMetres);
  const run = runLegs(crossing, runner, start, [leg]);
  const arrivalAt = run.kind === "arrives" ? run.end.at : departAt;
  const taken = runner.taken.length > 0 ? runner.taken : [{ from: start, headingDegTrue: outsideDeg, lane: null }];
  return wayArrives(crossing, "squareInLanes", departAt, run, ordersOf(crossing, taken, arrivalAt), thatLead);
}

/** The headings that were taken up as orders: those that are the same to the helm are one, and what lasts no time is none. */
function ordersOf({ line }: Crossing, taken: readonly HeadingTaken[], arrivalAt: number): readonly HelmOrder[] {
  const lasting = taken.filter(({ from }, i) => (taken[i + 1]?.from.at ?? arrivalAt) > from.at);
  const orders: { from: HeadingTaken; squareTo: string[] }[] = [];
  for (const one of lasting) {
    const last = orders[orders.length - 1];
    const same = last !== undefined && Math.abs(wrap180Deg(last.from.headingDegTrue - one.headingDegTrue)) < SAME_HEADING_DEG;
    if (!same) orders.push({ from: one, squareTo: one.lane === null ? [] : [one.lane.name] });
    else if (one.lane !== null && !last.squareTo.includes(one.lane.name)) last.squareTo.push(one.lane.name);
  }
  return orders.map(({ from: { from, headingDegTrue }, squareTo }) => ({
    fromAt: from.at,
    fromAlongMetres: alongOf(line, from.xMetres, from.yMetres),
    steer: { kind: "heading", headingDegTrue, ...(squareTo.length > 0 ? { squareTo } : {}) },
  }));
}

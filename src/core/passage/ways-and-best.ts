import type { NoAnswer } from "../answers/index.ts";
import type { Crossing } from "./crossing.ts";
import { carriedOutAt, type FastestWay, fastestWay, helmOrder, isInBoards } from "./fastest/index.ts";
import { legsOfHeadings } from "./legs-of-headings.ts";
import { isNotSquare, SIMPLER_MAY_COST_SECONDS } from "./recommend.ts";
import { runLegs, startOf } from "./run-legs.ts";
import type { StreamAcross } from "./stream-across.ts";
import type { Way, WayArrives } from "./way.ts";
import { wayArrives, wayFails } from "./way-made.ts";
import { type WayOptions, waysAcross } from "./ways.ts";

/** How long a helm is asked to hold a heading at the least where the order is several, seconds: an hour (common practice: the log's). */
export const LEAST_HOLD_SECONDS = 3600;

/** The ways across for one departure and, beside them, the best there is. */
export interface WaysAndBest {
  readonly ways: readonly Way[];
  readonly stream: StreamAcross | null;
  /**
   * The yardstick. Null where it is not sought: through traffic lanes, whose rule comes before minutes; and, in a sweep, for a boat
   * whose speed goes by the wind, and where all ways run out of known water.
   */
  readonly fastest: FastestWay | null;
}

export interface BestOptions extends WayOptions {
  /** One departure is looked at closely: the best is cross-checked, and the order of several headings is made whether it is needed or not. */
  readonly closely?: boolean;
}

/**
 * The ways across with the fastest beside them. Where every simpler way costs more than may be spent for simplicity
 * (`SIMPLER_MAY_COST_SECONDS`), or one departure is looked at closely, the fastest is made into headings that are each held for
 * `LEAST_HOLD_SECONDS`: the way *changing headings*. Not where it is sailed in boards.
 */
export function waysAndBest(crossing: Crossing, departAt: number, options: BestOptions = {}): WaysAndBest {
  const closely = options.closely === true;
  const { ways, stream } = waysAcross(crossing, departAt, options);
  const laned = crossing.around.lanes?.lanes.some((lane) => lane.flowDegTrue !== null) ?? false;
  if (laned || (crossing.boat.dependsOnWind && !closely)) return { ways, stream, fastest: null };
  // Where every way runs out of water that is known, so does the fastest: in a sweep that need not be shown by a search of its own.
  if (!closely && ways.every((way) => way.kind === "fails" && isUnknownWater(way.why))) return { ways, stream, fastest: null };
  const fastest = fastestWay(crossing, departAt, { crossCheck: closely });
  if (fastest.kind === "fails") return { ways, stream, fastest };
  const simple = ways.some(
    (way) => way.kind === "arrives" && !isNotSquare(way) && way.arrivalAt - carriedOutAt(fastest) <= SIMPLER_MAY_COST_SECONDS,
  );
  // What is sailed in boards is no headings held by the hour: its plan tells the boards.
  if ((simple && !closely) || isInBoards(fastest)) return { ways, stream, fastest };
  const held = helmOrder(crossing, fastest, LEAST_HOLD_SECONDS);
  if (held.kind === "fails") return { ways: [...ways, wayFails("changingHeadings", departAt, held.why)], stream, fastest };
  // One heading, over a passage too short for two, is there already.
  if (held.orders.length < 2) return { ways, stream, fastest };
  const legs = legsOfHeadings(crossing.boat, crossing.line, held.orders, crossing.line.lengthMetres);
  const run = runLegs(crossing, crossing.simulator, startOf(crossing, departAt), legs);
  const way = wayArrives(crossing, "changingHeadings", departAt, run, held.orders, 0);
  return { ways: [...ways, way], stream, fastest };
}

/** Whether it is the current that isn't known there or then. */
function isUnknownWater(why: NoAnswer): boolean {
  return "coveredUntil" in why;
}

/** The earliest arrival computed, by any way or by the yardstick (under sail its plan); Infinity where none arrives. */
export function earliestOf({ ways, fastest }: Pick<WaysAndBest, "ways" | "fastest">): number {
  const arriving = ways.filter((way): way is WayArrives => way.kind === "arrives").map((way) => way.arrivalAt);
  return Math.min(...arriving, fastest === null ? Number.POSITIVE_INFINITY : carriedOutAt(fastest));
}

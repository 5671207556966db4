import type { BoatModel } from "../boat/index.ts";
import { type LaneOnPlane, type LanesOnPlane, squareHeadingDeg } from "../places/index.ts";
import type { BoatState, Helm, Until } from "./helm.ts";
import { type EdgeMet, LaneWatch, type LookOut } from "./lane-watch.ts";
import type { Line } from "./line.ts";
import type { Runner } from "./run-legs.ts";
import type { LegEnd } from "./simulate.ts";
import type { TrackRecorder } from "./track.ts";

/**
 * The square heading of a lane is kept to the next lane where no more than this of open water lies between, metres over the ground:
 * separation zones and lines that were not entered as areas of their own. Three miles: ours. Areas without a flow do not count toward it.
 */
export const BETWEEN_LANES_METRES = 3 * 1852;
/** A run that goes into lanes more often than this is pushed in and out at an edge, and gets nowhere. */
const MOST_ENTRIES = 24;

/** A heading taken up on a run: where, and the lane it is square to; null outside the lanes and between two of one scheme. */
export interface HeadingTaken {
  readonly from: BoatState;
  readonly headingDegTrue: number;
  readonly lane: LaneOnPlane | null;
}

/**
 * Runs a boat as a simulator does, but square in the lanes: a heading that is ordered is steered outside them; inside, the heading square to
 * the flow on the destination's side, and that one is kept between two lanes of one scheme. Held tracks and a bow on the destination
 * are run as they are. Edges are met exactly: a step is split there.
 */
export class LaneRunner implements Runner {
  /** The headings of the last run, in order. */
  taken: readonly HeadingTaken[] = [];
  private readonly under: Runner;
  private readonly lanes: LanesOnPlane;
  private readonly flowing: readonly LaneOnPlane[];
  private readonly line: Line;

  /** `line` is the whole crossing's: its bearing tells to which side of the flow a lane is crossed. */
  constructor(under: Runner, lanes: LanesOnPlane, line: Line) {
    this.under = under;
    this.lanes = lanes;
    this.line = line;
    this.flowing = lanes.lanes.filter((lane) => lane.flowDegTrue !== null);
  }

  run(
    boat: BoatModel,
    helm: Helm,
    until: Until,
    start: BoatState,
    stepSeconds: number,
    record: TrackRecorder | null,
    giveUpAt?: number,
    heedLand?: boolean,
  ): LegEnd {
    this.taken = [];
    if (helm.kind !== "heading" || this.flowing.length === 0)
      return this.under.run(boat, helm, until, start, stepSeconds, record, giveUpAt, heedLand);
    const taken: HeadingTaken[] = [];
    const steer = (from: BoatState, headingDegTrue: number, lane: LaneOnPlane | null): Helm => {
      taken.push({ from, headingDegTrue, lane });
      return { kind: "heading", headingDegTrue };
    };
    const leg = (legHelm: Helm, from: BoatState, lookOut: LookOut, into: TrackRecorder | null): Leg => {
      const watch = new LaneWatch(this.line.plane, lookOut, into);
      const end = this.under.run(boat, legHelm, untilMet(until, watch), from, stepSeconds, watch, giveUpAt, heedLand);
      return { end: watch.met === null ? end : this.toEdge(boat, legHelm, watch.met, stepSeconds, into, heedLand), met: watch.met };
    };
    const inside = this.lanes.laneAt(start.xMetres, start.yMetres);
    let lane = inside?.flowDegTrue == null ? null : inside;
    let state = start;
    for (let entries = 0; entries < MOST_ENTRIES; entries++) {
      let one: Leg;
      if (lane === null) {
        one = leg(steer(state, helm.headingDegTrue, null), state, { kind: "entering", lanes: this.flowing }, next(record, taken.length));
        if (one.met === null || one.end.kind !== "reached") return this.done(taken, one.end);
        ({ lane } = one.met);
        state = one.end;
      }
      const squareDeg = this.squareDeg(lane);
      one = leg(steer(state, squareDeg, lane), state, { kind: "leaving", lane }, next(record, taken.length));
      if (one.met === null || one.end.kind !== "reached") return this.done(taken, one.end);
      state = one.end;
      lane = null;
      if (this.flowing.length < 2) continue;
      const others: LookOut = { kind: "entering", lanes: this.flowing };
      const square: Helm = { kind: "heading", headingDegTrue: squareDeg };
      const look = leg(square, state, others, null);
      if (look.met === null || look.end.kind !== "reached" || this.openBetween(state, look.end) > BETWEEN_LANES_METRES) continue;
      one = leg(steer(state, squareDeg, null), state, others, next(record, taken.length));
      if (one.met === null || one.end.kind !== "reached") return this.done(taken, one.end);
      ({ lane } = one.met);
      state = one.end;
    }
    const where = this.line.plane.toPosition(state.xMetres, state.yMetres);
    return this.done(taken, { kind: "noAnswer", code: "stalled", at: state.at, where });
  }

  /** The heading square to a lane on the destination's side. */
  squareDeg({ name, flowDegTrue }: LaneOnPlane): number {
    if (flowDegTrue === null) throw new Error(`nothing is square in ${name}`);
    const { line } = this;
    const middle = { x: (line.fromX + line.toX) / 2, y: (line.fromY + line.toY) / 2 };
    return squareHeadingDeg(flowDegTrue, line.sheetDeg + line.plane.convergenceDegAt(middle.x, middle.y));
  }

  /** From the node before an edge onto it. A step that grazes a corner ends where the run had its next node. */
  private toEdge(boat: BoatModel, helm: Helm, met: EdgeMet, stepSeconds: number, record: TrackRecorder | null, heedLand?: boolean): LegEnd {
    record?.dropLast();
    const onto: Until = { kind: "along", line: met.across, metres: 0, byAt: met.nextAt };
    return this.under.run(boat, helm, onto, met.before, stepSeconds, record, undefined, heedLand);
  }

  /** Open water on the straight way between two places, metres: what lies in no area without a flow. */
  private openBetween(a: BoatState, b: BoatState): number {
    const length = Math.hypot(b.xMetres - a.xMetres, b.yMetres - a.yMetres);
    const spans = this.lanes.lanes
      .filter((lane) => lane.flowDegTrue === null)
      .flatMap((lane) => lane.ring.insideSpans(a.xMetres, a.yMetres, b.xMetres, b.yMetres))
      .sort((one, other) => one.from - other.from);
    let covered = 0;
    let upTo = 0;
    for (const span of spans) {
      covered += Math.max(0, span.until - Math.max(span.from, upTo));
      upTo = Math.max(upTo, span.until);
    }
    return (1 - covered) * length;
  }

  private done(taken: readonly HeadingTaken[], end: LegEnd): LegEnd {
    this.taken = taken;
    return end;
  }
}

interface Leg {
  readonly end: LegEnd;
  readonly met: EdgeMet | null;
}

/** The end of a run that has ended as soon as an edge is met: what would come after belongs to another heading. */
function untilMet(until: Until, watch: LaneWatch): Until {
  if (until.kind === "at") return until;
  return {
    ...until,
    get metres() {
      return watch.met === null ? until.metres : Number.NEGATIVE_INFINITY;
    },
  };
}

/** The recorder for a leg after the first: its first node replaces the last of the leg before. */
function next(record: TrackRecorder | null, legs: number): TrackRecorder | null {
  if (legs > 1) record?.dropLast();
  return record;
}

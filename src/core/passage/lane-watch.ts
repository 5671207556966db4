import type { LaneOnPlane } from "../places/index.ts";
import type { BoatState } from "./helm.ts";
import { type Line, lineBetween } from "./line.ts";
import { TrackRecorder } from "./track.ts";

/** What is looked out for: a lane's edge from outside, or the edge of the lane the boat is in from inside. */
export type LookOut =
  | { readonly kind: "entering"; readonly lanes: readonly LaneOnPlane[] }
  | { readonly kind: "leaving"; readonly lane: LaneOnPlane };

/** A crossing of an edge between two nodes of a run. */
export interface EdgeMet {
  readonly lane: LaneOnPlane;
  /** The last node before the edge, and the instant of the first after it. */
  readonly before: BoatState;
  readonly nextAt: number;
  /** The edge as a place to run to: the distance along this line is nothing on the edge and negative before it. */
  readonly across: Line;
}

/** So near to an edge on which a run begins, it is that same edge again, metres. */
const SAME_EDGE_METRES = 0.01;

/**
 * Looks out for the first crossing of a lane's edge while a run is noted node by node. Nodes before it are handed on to `record`, those
 * after it are not: the run goes on to its end, but what follows belongs to another heading.
 */
export class LaneWatch extends TrackRecorder {
  met: EdgeMet | null = null;
  private last: BoatState | null = null;
  private nodes = 0;
  private readonly lookOut: LookOut;
  private readonly record: TrackRecorder | null;
  private readonly plane: Line["plane"];

  constructor(plane: Line["plane"], lookOut: LookOut, record: TrackRecorder | null) {
    super();
    this.plane = plane;
    this.lookOut = lookOut;
    this.record = record;
  }

  override add(...node: Parameters<TrackRecorder["add"]>): void {
    if (this.met !== null) return;
    const [at, xMetres, yMetres] = node;
    if (this.last !== null) this.met = this.edgeBetween(this.last, xMetres, yMetres, at);
    if (this.met !== null) return;
    this.last = { xMetres, yMetres, at, engineOn: node[8] };
    this.nodes++;
    this.record?.add(...node);
  }

  private edgeBetween(from: BoatState, toX: number, toY: number, nextAt: number): EdgeMet | null {
    const first = this.nodes === 1;
    const { lookOut } = this;
    let best: { lane: LaneOnPlane; edge: number; share: number } | null = null;
    for (const lane of lookOut.kind === "entering" ? lookOut.lanes : [lookOut.lane]) {
      const inward = lookOut.kind === "entering";
      const length = Math.hypot(toX - from.xMetres, toY - from.yMetres);
      // A run that begins on an edge stands a hair to one side of it: that edge does not count, but the side she goes on to does.
      const found = lane.ring
        .crossings(from.xMetres, from.yMetres, toX, toY)
        .find((one) => one.inward === inward && !(first && one.share * length < SAME_EDGE_METRES));
      if (found !== undefined && (best === null || found.share < best.share)) best = { lane, edge: found.edge, share: found.share };
      if (first && found === undefined && lane.ring.contains(toX, toY) === inward) return this.atOnce(lane, from, toX, toY);
    }
    return best === null ? null : { lane: best.lane, before: from, nextAt, across: this.edgeLine(best.lane, best.edge) };
  }

  /** Where she begins on an edge and goes to the other side of it: the edge is met where she stands. */
  private atOnce(lane: LaneOnPlane, from: BoatState, toX: number, toY: number): EdgeMet {
    return { lane, before: from, nextAt: from.at, across: lineBetween(this.plane, from.xMetres, from.yMetres, toX, toY) };
  }

  private edgeLine({ ring }: LaneOnPlane, edge: number): Line {
    const next = edge + 1 === ring.x.length ? 0 : edge + 1;
    const x = ring.x[edge] as number;
    const y = ring.y[edge] as number;
    const dx = (ring.x[next] as number) - x;
    const dy = (ring.y[next] as number) - y;
    // Inward lies to port of an edge; outward to starboard.
    const side = this.lookOut.kind === "entering" ? 1 : -1;
    return lineBetween(this.plane, x, y, x - side * dy, y + side * dx);
  }
}

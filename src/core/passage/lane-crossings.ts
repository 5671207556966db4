import type { Position } from "../earth/index.ts";
import { type LaneOnPlane, type LanesOnPlane, offSquareDeg } from "../places/index.ts";
import type { Track } from "./track.ts";

/**
 * A heading in a lane may be off square by so much before it is flagged, degrees. Rule 10(c) names no figure ("as nearly as practicable");
 * ten degrees is what a helm and a compass card keep without doubt (common practice).
 */
export const SQUARE_WITHIN_DEG = 10;

/** A stretch inside shorter than this is none: where a heading is changed on a lane's edge, seconds. */
const LEAST_INSIDE_SECONDS = 1;

/**
 * One way through one lane. Instants are UTC epoch seconds. `offSquare…Deg` say how far the heading is from square to the flow, 0 to 90:
 * the worst of it, and the mean over the time inside; null in a separation zone or a precautionary area, where nothing is square.
 */
export interface LaneCrossing {
  readonly laneName: string;
  readonly flowDegTrue: number | null;
  readonly enteredAt: number;
  readonly leftAt: number;
  /** Where: the track's first or last place when it begins or ends inside. */
  readonly entered: Position;
  readonly left: Position;
  readonly offSquareWorstDeg: number | null;
  readonly offSquareMeanDeg: number | null;
  /** Whether the heading leans along the traffic or against it, on the whole; null where it is square to a hundredth of a degree, or has no flow. */
  readonly headed: "along" | "against" | null;
  /** Off square by more than `SQUARE_WITHIN_DEG` somewhere inside. */
  readonly flagged: boolean;
}

/** A stretch of a track inside one lane while it is being added up. */
interface Stretch {
  readonly from: number;
  until: number;
  readonly fromX: number;
  readonly fromY: number;
  toX: number;
  toY: number;
  seconds: number;
  worstDeg: number;
  meanSum: number;
  leanSum: number;
}

/** Every lane that a track goes through, in order of time, entries and exits found exactly on its straight legs from node to node. */
export function laneCrossings(track: Track, lanes: LanesOnPlane | null): readonly LaneCrossing[] {
  if (lanes === null) return [];
  return lanes.lanes.flatMap((lane) => crossingsOf(track, lane)).sort((one, other) => one.enteredAt - other.enteredAt);
}

function crossingsOf(track: Track, lane: LaneOnPlane): readonly LaneCrossing[] {
  const stretches: Stretch[] = [];
  for (let i = 0; i + 1 < track.count; i++) {
    const fromAt = track.atSeconds[i] as number;
    const seconds = (track.atSeconds[i + 1] as number) - fromAt;
    const x = track.xMetres[i] as number;
    const y = track.yMetres[i] as number;
    const dx = (track.xMetres[i + 1] as number) - x;
    const dy = (track.yMetres[i + 1] as number) - y;
    for (const span of lane.ring.insideSpans(x, y, x + dx, y + dy)) {
      const inside = (span.until - span.from) * seconds;
      const off = lane.flowDegTrue === null ? 0 : offSquareDeg(track.headingDegTrue[i] as number, lane.flowDegTrue);
      const from = fromAt + span.from * seconds;
      let last = stretches[stretches.length - 1];
      if (last === undefined || from - last.until > LEAST_INSIDE_SECONDS) {
        last = {
          from,
          until: from,
          fromX: x + span.from * dx,
          fromY: y + span.from * dy,
          toX: 0,
          toY: 0,
          seconds: 0,
          worstDeg: 0,
          meanSum: 0,
          leanSum: 0,
        };
        stretches.push(last);
      }
      last.until = fromAt + span.until * seconds;
      last.toX = x + span.until * dx;
      last.toY = y + span.until * dy;
      last.seconds += inside;
      last.meanSum += inside * Math.abs(off);
      last.leanSum += inside * off;
      if (inside >= LEAST_INSIDE_SECONDS || inside >= 0.5 * seconds) last.worstDeg = Math.max(last.worstDeg, Math.abs(off));
    }
  }
  return stretches.filter((one) => one.seconds >= LEAST_INSIDE_SECONDS).map((one) => told(track, lane, one));
}

function told({ plane }: Track, { name, flowDegTrue }: LaneOnPlane, stretch: Stretch): LaneCrossing {
  const lean = stretch.leanSum / stretch.seconds;
  const flows = flowDegTrue !== null;
  return {
    laneName: name,
    flowDegTrue,
    enteredAt: stretch.from,
    leftAt: stretch.until,
    entered: plane.toPosition(stretch.fromX, stretch.fromY),
    left: plane.toPosition(stretch.toX, stretch.toY),
    offSquareWorstDeg: flows ? stretch.worstDeg : null,
    offSquareMeanDeg: flows ? stretch.meanSum / stretch.seconds : null,
    headed: !flows || Math.abs(lean) < 0.01 ? null : lean > 0 ? "along" : "against",
    flagged: flows && stretch.worstDeg > SQUARE_WITHIN_DEG,
  };
}

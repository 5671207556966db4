import type { Position } from "../earth/index.ts";
import type { EpochSeconds } from "../units/index.ts";

/** The sharpest turn of the set between neighbouring points of a section that is still read as one stream that bends, degrees (common practice). */
export const SHARPEST_SKETCHED_TURN_DEG = 90;

/**
 * A stream as a bulletin gives it or a skipper draws it: an axis through a point, and along a section square to the axis the rate and
 * set at some miles across. It is taken to be the same all along the axis.
 *
 * `acrossMetres` is the distance from the axis, positive to the right of someone who looks along `axisTowardDegTrue`; strictly
 * ascending. Between the points rate and set are joined by straight lines, the set by the shorter turn; outside the outermost points
 * the sketch does not cover. Where the set turns by more than `SHARPEST_SKETCHED_TURN_DEG` from one point to the next, the two run past
 * one another, and east and north are joined instead: a stream and its counter-current have still water between them, not a stream
 * that runs across. `setDegTrue` null means along the axis; a point of still water takes its neighbour's set.
 *
 * Valid from `from` until `until`, both included; null leaves that end open.
 */
export interface StreamSketch {
  readonly name: string;
  readonly at: Position;
  readonly axisTowardDegTrue: number;
  readonly from: EpochSeconds | null;
  readonly until: EpochSeconds | null;
  readonly section: readonly { readonly acrossMetres: number; readonly rateMps: number; readonly setDegTrue: number | null }[];
}

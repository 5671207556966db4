import type { Position } from "../earth/index.ts";
import { wrap180Deg, wrap360Deg } from "../units/index.ts";

/**
 * A part of a traffic separation scheme as its skipper enters it from the chart. The ring is closed by itself: its last point is joined
 * to its first.
 *
 * `flowDegTrue`: the general direction of traffic flow, toward; null for a separation zone or a precautionary area, where there is none
 * and nothing is square.
 */
export interface Lane {
  readonly name: string;
  readonly ring: readonly Position[];
  readonly flowDegTrue: number | null;
}

/**
 * How far a heading is off square to the flow, degrees from −90 to 90: 0 is square, positive leans along the traffic, negative against it.
 *
 * "A vessel shall, so far as practicable, avoid crossing traffic lanes but if obliged to do so shall cross on a heading as nearly as
 * practicable at right angles to the general direction of traffic flow" (International Regulations for Preventing Collisions at Sea,
 * 1972, as amended, Rule 10(c)): the heading, not the track.
 *
 * @example
 * ```ts
 * offSquareDeg(120, 30) // => 0
 * offSquareDeg(110, 30) // => 10
 * ```
 */
export function offSquareDeg(headingDegTrue: number, flowDegTrue: number): number {
  return 90 - Math.abs(wrap180Deg(headingDegTrue - flowDegTrue));
}

/** Of the two headings square to the flow the one that points more nearly along a bearing, degrees true; both alike: the one to starboard of the flow. */
export function squareHeadingDeg(flowDegTrue: number, towardDegTrue: number): number {
  const starboard = Math.abs(wrap180Deg(flowDegTrue + 90 - towardDegTrue)) <= 90;
  return wrap360Deg(flowDegTrue + (starboard ? 90 : -90));
}

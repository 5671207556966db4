/**
 * The fastest way through moving water: label setting on a grid turned to the line, the ways found drawn tight by Newton's method, round
 * land by its corners, timed in the real water apart from all that, and checked across by a finer search and a fan of headings. Inside,
 * places are along and to port of the line, in metres.
 */

export { AGREES_WITHIN_SHARE, TIMING_AGREES_WITHIN_SHARE } from "./cross-check.ts";
export * from "./fastest-answer.ts";
export * from "./fastest-way.ts";
export * from "./helm-order.ts";
export { CORNER_OFF_METRES } from "./round-land.ts";
export * from "./sail/sail-plan.ts";
export type { SpeedOver } from "./speed-over.ts";

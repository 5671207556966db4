/**
 * Places: what stands in or beside the way: traffic separation lanes, gates (bridges, bars, slack, offices), entrances over a bar or through a
 * cut, and depths; anchorages. Rings of positions in degrees come in; on a plane they are metres on its sheet. A lane's flow is the general direction that its
 * traffic goes toward, degrees true.
 */

export * from "./anchoring/index.ts";
export * from "./entrance/entrance.ts";
export * from "./entrance/entrance-reader.ts";
export * from "./entrance/entrance-states.ts";
export * from "./entrance/entrance-water.ts";
export * from "./entrance/inlet-clock.ts";
export { POPPLE_METRES } from "./entrance/sea-on-bar.ts";
export { CHANGE_WITHIN_SECONDS, type StateSpan, stateSpans } from "./entrance/state-spans.ts";
export { OVERHEAD_SUN_DEG } from "./entrance/sun-for-eye.ts";
export * from "./gate.ts";
export * from "./gate-chain.ts";
export { HEIGHTS_APART_AT_MOST_SECONDS, type NeedSpans, needSpans, needsTogether } from "./gate-needs.ts";
export * from "./gate-stop.ts";
export * from "./gates-on-leg.ts";
export * from "./lane.ts";
export * from "./lane-ring.ts";
export * from "./lanes-on-plane.ts";
export * from "./stated-depth.ts";

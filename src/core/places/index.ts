/**
 * Places: what stands in or beside the way: traffic separation lanes, gates (bridges, bars, slack, offices) and depths; anchorages and
 * entrances join here. Rings of positions in degrees come in; on a plane they are metres on its sheet. A lane's flow is the general direction that its
 * traffic goes toward, degrees true.
 */
export * from "./gate.ts";
export * from "./gate-chain.ts";
export { HEIGHTS_APART_AT_MOST_SECONDS, type NeedSpans, needSpans, needsTogether } from "./gate-needs.ts";
export * from "./gate-stop.ts";
export * from "./gates-on-leg.ts";
export * from "./lane.ts";
export * from "./lane-ring.ts";
export * from "./lanes-on-plane.ts";
export * from "./stated-depth.ts";

/**
 * Places: what stands in or beside the way: traffic separation lanes now; anchorages, entrances, gates and the depth under the keel join
 * here. Rings of positions in degrees come in; on a plane they are metres on its sheet. A lane's flow is the general direction that its
 * traffic goes toward, degrees true.
 */
export * from "./lane.ts";
export * from "./lane-ring.ts";
export * from "./lanes-on-plane.ts";

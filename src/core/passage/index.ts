/**
 * Passage: a boat's path through moving water: the courses to steer, the ways across side by side, what each does when the water or the
 * boat is other than planned, and the table to re-aim by. Boats are run on a local plane, in metres and UTC epoch seconds; currents set
 * toward, in the plane's frame; headings leave the room in degrees true. "Along" is down the line to the destination, "off" is to
 * starboard of it.
 */
export * from "./carry-out.ts";
export * from "./course-to-steer.ts";
export * from "./crossing.ts";
export * from "./fastest/index.ts";
export * from "./head-seas.ts";
export * from "./heading-near.ts";
export * from "./helm.ts";
export { landAhead } from "./land-ahead.ts";
export * from "./lane-crossings.ts";
export * from "./lie-to.ts";
export * from "./line.ts";
export * from "./one-heading.ts";
export * from "./pilotage.ts";
export * from "./re-aim.ts";
export * from "./recommend.ts";
export * from "./root.ts";
export * from "./run-legs.ts";
export * from "./run-to.ts";
export * from "./simulate.ts";
export * from "./square-departures.ts";
export * from "./square-in-lanes.ts";
export * from "./stream-across.ts";
export * from "./track.ts";
export * from "./way.ts";
export * from "./ways.ts";
export * from "./ways-and-best.ts";

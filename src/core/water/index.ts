/**
 * Water: currents from grids, sketches, uniform streams and analytic jets, their sums and precedence, and which source answered where.
 * Metres a second toward; a set is the bearing toward which the water goes. Tide heights, in metres above a named datum;
 * and tidal streams, against which a forecast's current is held.
 */
export * from "./analytic-current.ts";
export * from "./combined-current.ts";
export * from "./current.ts";
export * from "./grid-current.ts";
export * from "./sketch-current.ts";
export * from "./sketched-stream.ts";
export * from "./stream/index.ts";
export * from "./tide/index.ts";
export * from "./uniform-current.ts";

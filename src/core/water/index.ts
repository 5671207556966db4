/**
 * Water: currents from grids, sketches, uniform streams and analytic jets, their sums and precedence, and which source answered where.
 * Metres a second toward; a set is the bearing toward which the water goes. And tide heights, in metres above a named datum.
 */
export * from "./analytic-current.ts";
export * from "./combined-current.ts";
export * from "./current.ts";
export * from "./grid-current.ts";
export * from "./sketch-current.ts";
export * from "./sketched-stream.ts";
export * from "./tide/index.ts";
export * from "./uniform-current.ts";

/**
 * Fields: what the water and the air do in time and space, as numbers to be read off. A gridded field, an analytic one, a sum: the same
 * door, a `Sampler` on a local plane. Metres, metres a second, seconds of the UTC epoch; vectors in the plane's frame, toward.
 * Outside a field is "not covered", and says whether for the place, the time or the variable; nothing is clamped or made up.
 */
export * from "./axis.ts";
export { checkMesh, nodeCountOf } from "./check-mesh.ts";
export * from "./covering.ts";
export * from "./cubic-time.ts";
export { GREATEST_FIT_WEIGHTS } from "./gradient-fit.ts";
export * from "./grid-data.ts";
export * from "./linear-in-time.ts";
export * from "./mesh.ts";
export * from "./mesh-box.ts";
export { LEAST_COVERED_WEIGHT } from "./mesh-locator.ts";
export * from "./plane-grid.ts";
export * from "./runs.ts";
export * from "./sampler.ts";
export * from "./sheet-place.ts";

/**
 * Anchoring: what pulls on the ground tackle and how it leads, scope and the swinging circle, the water under an anchored boat, the
 * shelter of a place hour by hour, and nights at several places compared. Metres, newtons, m/s; winds come from degrees true; heights
 * above chart datum.
 */
export * from "./anchor-sum.ts";
export * from "./chain.ts";
export * from "./compare-nights.ts";
export * from "./fetch-rose.ts";
export * from "./look-at-anchor.ts";
export * from "./night-at-anchor.ts";
export * from "./open-sector.ts";
export * from "./rode-for-night.ts";
export * from "./rode-pull.ts";
export * from "./scope.ts";
export * from "./sea-at-anchor.ts";
export * from "./stated-anchorage.ts";
export * from "./swinging-circle.ts";
export * from "./water-at-anchor.ts";
export * from "./wind-load.ts";

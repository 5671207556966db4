/**
 * Coast: land and kept-out areas on the local plane; what crosses land, how far it is to the shore. Positions in degrees as rings come in,
 * metres on the plane's sheet once laid. Only "clear" and "crosses" are answered, never how close a
 * way passes; for the fetch of a wind, how far off land lies one way.
 */
export { twiceArea } from "./clip-ring.ts";
export * from "./coast-facts.ts";
export { extentOf } from "./extent.ts";
export * from "./fetch-rays.ts";
export { boxAround } from "./geo-box.ts";
export * from "./land.ts";
export * from "./land-area.ts";
export { landOn } from "./land-on.ts";
export { sideOf } from "./touching.ts";
export { type WayToLand, wayToLand } from "./way-to-land.ts";

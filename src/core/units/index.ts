/**
 * Units: the only conversions, angles, plain motions, the branded type of an instant, and quantities as people write them. Inside the core
 * everything is SI (metres, metres a second, seconds, litres for fuel) and degrees; a unit stands in the name of every number.
 * Bearings are degrees clockwise from north in [0, 360). Currents set toward; winds come from. Every `parse…` takes the text as typed
 * and the path for its issues, accepts what word processors make of primes, degree signs, dashes and spaces, leaves nothing over, and
 * asks where two readings are possible.
 */
export { type DoubtfulUnit, parseAmount, parseNumber, type UnitTable } from "./amount.ts";
export * from "./angle.ts";
export * from "./angles.ts";
export * from "./bearing.ts";
export type { Bounds } from "./bounds.ts";
export * from "./branded.ts";
export * from "./compass-point.ts";
export * from "./conversions.ts";
export * from "./duration.ts";
export { parseLength } from "./length.ts";
export { nearestWord } from "./nearest-word.ts";
export * from "./position.ts";
export * from "./range-of.ts";
export * from "./sea-range.ts";
export { parseSpeed, parseSpeedProduct } from "./speed.ts";
export * from "./vector.ts";
export * from "./volume.ts";
export * from "./wind-range.ts";
export { plainNumber, quoted, tidy } from "./written.ts";

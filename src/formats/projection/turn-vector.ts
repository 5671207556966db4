import { radFromDeg } from "../../core/units/index.ts";

/**
 * Turns a vector along the map's own x and y into east and north, in `out`. `gridNorthDegTrue` is the true bearing of the map's +y at
 * the vector's place.
 */
export function trueFromGridInto(out: Float64Array, alongX: number, alongY: number, gridNorthDegTrue: number): void {
  const turnRad = radFromDeg(gridNorthDegTrue);
  const sine = Math.sin(turnRad);
  const cosine = Math.cos(turnRad);
  out[0] = alongX * cosine + alongY * sine;
  out[1] = alongY * cosine - alongX * sine;
}

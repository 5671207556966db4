import { type Motion, motionToward, radFromDeg } from "../../units/index.ts";

/** The unit vectors of a stream that runs to and fro: along the flood's set and along the ebb's, east and north. */
export interface ToAndFro {
  readonly floodEast: number;
  readonly floodNorth: number;
  readonly ebbEast: number;
  readonly ebbNorth: number;
}

/** The unit vectors of two sets, degrees true. */
export function toAndFro(floodTowardDegTrue: number, ebbTowardDegTrue: number): ToAndFro {
  const [flood, ebb] = [motionToward(1, floodTowardDegTrue), motionToward(1, ebbTowardDegTrue)];
  return { floodEast: flood.eastMps, floodNorth: flood.northMps, ebbEast: ebb.eastMps, ebbNorth: ebb.northMps };
}

/** Writes a rate along the axis as east and north: along the flood's set where it is positive, along the ebb's where not. */
export function alongInto(out: Float64Array, of: ToAndFro, alongMps: number): void {
  const flood = alongMps >= 0;
  const rate = Math.abs(alongMps);
  out[0] = rate * (flood ? of.floodEast : of.ebbEast);
  out[1] = rate * (flood ? of.floodNorth : of.ebbNorth);
}

/** The rate of a motion along a set, m/s. */
export function rateAlong({ eastMps, northMps }: Motion, towardDegTrue: number): number {
  const towardRad = radFromDeg(towardDegTrue);
  return eastMps * Math.sin(towardRad) + northMps * Math.cos(towardRad);
}

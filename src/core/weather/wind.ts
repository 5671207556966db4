import type { Plane } from "../earth/index.ts";
import type { Coverage, Span } from "../fields/index.ts";

/**
 * A reading of the wind as numbers, written by `WindSampler.readInto`. It has one or two *ends*: two only inside a forecast step
 * across which the direction turns by more than a right angle, and where periods of a letter overlap. Each end is a range of speeds
 * over an arc of directions. Whoever judges takes the worse end of everything.
 */
export const WIND_SLOTS = 12;
/** 1 or 2. */
export const WIND_ENDS = 0;
/** The first end's slots; the second's follow after `WIND_END_STRIDE`. */
export const WIND_SPEED_LOW_MPS = 1;
export const WIND_SPEED_HIGH_MPS = 2;
/** Start of the arc the wind comes from, degrees true; the arc runs clockwise. A calm has the whole circle. */
export const WIND_FROM_DEG = 3;
export const WIND_ARC_DEG = 4;
export const WIND_END_STRIDE = 4;
export const WIND_GUST_MPS = 9;
/** 1 where the gust is the stated factor on the speed, for want of one in the source. */
export const WIND_GUST_ASSUMED = 10;
/** Which source answered. */
export const WIND_SOURCE = 11;

/** The sharpest turn of direction across one forecast step that is still read as a steady veer or back, degrees (common practice). */
export const SHARPEST_STEADY_TURN_DEG = 90;

/** A wind that may come from anywhere in so wide an arc has no direction to sail by: it is variable, degrees (common practice: half the circle). */
export const VARIABLE_FROM_ARC_DEG = 180;

/** Reads the wind over the ground at 10 m. */
export interface WindSampler {
  /** Writes a reading at (x, y) metres on the plane and `at`; `out` is left untouched where not covered. Directions are true. */
  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage;
  /** The instants within (from, until) at which the wind may jump or change its slope: steps and the ends of periods. */
  breaksWithin(from: number, until: number): readonly number[];
}

/** A source of wind, before it is laid on a plane. */
export interface WindSource {
  readonly name: string;
  readonly issuedAt: number | null;
  readonly covers: { readonly from: number; readonly until: number };
  /** Members of an ensemble; 1 for a single forecast. Member 0 is the control. */
  readonly memberCount: number;
  /** The runs of one forecast that make the source, newest first; left out where it is none of several. */
  readonly runs?: readonly WindSource[];
  /** Which runs serve for a passage of this time, as a text that is the same where the same do; left out where there is no choice. */
  runsFor?(passage: Span): string;
  /**
   * The sampler of one member; a source with fewer members serves its member 0 for those it lacks. `passage`: the time of the passage
   * that is sampled for, by which a source of several runs chooses among them.
   */
  onPlane(plane: Plane, member: number, passage?: Span): WindSampler;
}

/** The end of a reading whose upper speed is the greater, as a reading of that end alone; it shares the reading's memory. */
export function strongestEndOf(reading: Float64Array): Float64Array {
  if (reading[WIND_ENDS] !== 2) return reading;
  const second = reading[WIND_END_STRIDE + WIND_SPEED_HIGH_MPS] as number;
  return second > (reading[WIND_SPEED_HIGH_MPS] as number) ? reading.subarray(WIND_END_STRIDE) : reading;
}

/**
 * The wind that the boat is run with, one speed and one direction: the middle of the first end's ranges. No direction (null) in a calm
 * and where the wind is variable (`VARIABLE_FROM_ARC_DEG`): the middle of such an arc is nobody's forecast.
 */
export function middleOf(reading: Float64Array): { readonly speedMps: number; readonly fromDegTrue: number | null } {
  const arcDeg = reading[WIND_ARC_DEG] as number;
  return {
    speedMps: ((reading[WIND_SPEED_LOW_MPS] as number) + (reading[WIND_SPEED_HIGH_MPS] as number)) / 2,
    fromDegTrue: arcDeg >= VARIABLE_FROM_ARC_DEG ? null : ((reading[WIND_FROM_DEG] as number) + arcDeg / 2) % 360,
  };
}

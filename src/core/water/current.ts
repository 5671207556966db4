import type { Plane } from "../earth/index.ts";
import type { Coverage, Sampler, Span } from "../fields/index.ts";

/** What answered where no source knows the current: the skipper's own choice, by name. */
export const ASSUMED_STILL = -1;
export const NEAREST_KNOWN = -2;
/** A forecast answered near a tidal station that it was held against and found not fit. */
export const NOT_FIT_HERE = -3;

/**
 * Reads the current off the plane: `currentEastMps`, `currentNorthMps`, toward, in the plane's frame.
 */
export interface CurrentSampler extends Sampler {
  /** Which source answered the last covered call: its place in the list of sources, or `ASSUMED_STILL`, `NEAREST_KNOWN` or `NOT_FIT_HERE`. */
  readonly answeredBy: number;
  /**
   * The current at the known place nearest to (x, y) within `withinMetres`; false when there is none. Only sources that have places
   * of their own (grids) can tell.
   */
  nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean;
  /**
   * Whether the source knows this place at `at` or, outside its times, at the end that is nearest: so that a source that has run out is
   * told from one that never reached here.
   */
  reachesPlace(xMetres: number, yMetres: number, at: number): boolean;
}

/** A source of current, before it is laid on a plane. */
export interface CurrentSource {
  /** For people: a file's name and model, a sketch's name. */
  readonly name: string;
  /** Seconds of the UTC epoch; null for a source that holds at all times. */
  readonly covers: { readonly from: number; readonly until: number } | null;
  /** When the source was issued, if it says. */
  readonly issuedAt: number | null;
  /** A single step, or a sketch without dates, that is held steady for want of more. */
  readonly heldSteady: boolean;
  /** The runs of one forecast that make the source, newest first; left out where it is none of several. */
  readonly runs?: readonly CurrentSource[];
  /** Which runs serve for a passage of this time, as a text that is the same where the same do; left out where there is no choice. */
  runsFor?(passage: Span): string;
  /** `passage`: the time of the passage that is sampled for, by which a source of several runs chooses among them. */
  onPlane(plane: Plane, passage?: Span): CurrentSampler;
}

/** Whether a place lies on the square sheet on which a plane may be asked. */
export function isOnSheet(plane: Plane, xMetres: number, yMetres: number): boolean {
  return Math.abs(xMetres) <= plane.radiusMetres && Math.abs(yMetres) <= plane.radiusMetres;
}

export const CURRENT_QUANTITIES: readonly string[] = ["currentEastMps", "currentNorthMps"];

/** The base of samplers that have no nearest known place. */
export abstract class AnalyticCurrent implements CurrentSampler {
  readonly quantities: readonly string[] = CURRENT_QUANTITIES;
  readonly answeredBy: number = 0;
  abstract sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage;
  nearestInto(_out: Float64Array, _xMetres: number, _yMetres: number, _at: number, _withinMetres: number): boolean {
    return false;
  }
  /** Everywhere, unless the source says otherwise. */
  reachesPlace(_xMetres: number, _yMetres: number): boolean {
    return true;
  }
}

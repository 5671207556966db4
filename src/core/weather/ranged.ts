import type { Plane } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME, NO_VARIABLE } from "../fields/index.ts";
import { breaksOf, spanAt, spansOf } from "./period-spans.ts";

/** A stretch of time with one range of a quantity, as visibility or the chance of thunderstorms is told; equal ends for one figure. */
export interface RangedPeriod {
  readonly from: number;
  readonly until: number;
  readonly low: number;
  readonly high: number;
}

/** A reading: the low and the high end. */
export const RANGED_SLOTS = 2;
export const RANGED_LOW = 0;
export const RANGED_HIGH = 1;

/** Reads a quantity that is told as a range. */
export interface RangedSampler {
  /** Writes a reading at (x, y) metres on the plane and `at`; `out` is left untouched where not covered. */
  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage;
  /** The instants within (from, until) at which the quantity may jump. */
  breaksWithin(from: number, until: number): readonly number[];
}

/** A source of a quantity told as a range, before it is laid on a plane. The quantity and its unit are the user's to know. */
export interface RangedSource {
  readonly name: string;
  readonly issuedAt: number | null;
  readonly covers: { readonly from: number; readonly until: number };
  onPlane(plane: Plane): RangedSampler;
}

/**
 * A quantity from periods, in any order: the same over the whole area; a gap between periods is not covered. Where periods overlap, the
 * widest range holds. Throws on an empty list and on a period that ends before it begins.
 */
export function periodRanges(name: string, issuedAt: number | null, periods: readonly RangedPeriod[]): RangedSource {
  const spans = spansOf(periods);
  const first = spans[0];
  const last = spans[spans.length - 1];
  if (first === undefined || last === undefined) throw new Error("a source of ranges needs at least one period");
  const sampler: RangedSampler = {
    readInto(out, _xMetres, _yMetres, at) {
      const span = spanAt(spans, at);
      if (span === null) return NO_TIME;
      out[RANGED_LOW] = Math.min(...span.periods.map((one) => one.low));
      out[RANGED_HIGH] = Math.max(...span.periods.map((one) => one.high));
      return COVERED;
    },
    breaksWithin: (from, until) => breaksOf(spans, from, until),
  };
  return { name, issuedAt, covers: { from: first.from, until: last.until }, onPlane: () => sampler };
}

/** Sources in order of precedence: the first that covers a place and time answers there; null where there is none at all. */
export function firstRangedThatCovers(sources: readonly RangedSource[]): RangedSource | null {
  const first = sources[0];
  if (first === undefined) return null;
  return {
    name: sources.map((source) => source.name).join(", then "),
    issuedAt: first.issuedAt,
    covers: {
      from: Math.min(...sources.map((source) => source.covers.from)),
      until: Math.max(...sources.map((source) => source.covers.until)),
    },
    onPlane(plane) {
      const samplers = sources.map((source) => source.onPlane(plane));
      return {
        readInto(out, xMetres, yMetres, at) {
          let why: Coverage = NO_VARIABLE;
          for (const sampler of samplers) {
            const coverage = sampler.readInto(out, xMetres, yMetres, at);
            if (coverage === COVERED) return COVERED;
            if (why === NO_VARIABLE || coverage === NO_PLACE) why = coverage;
          }
          return why;
        },
        breaksWithin(from, until) {
          const all = new Set(samplers.flatMap((sampler) => sampler.breaksWithin(from, until)));
          return [...all].sort((a, b) => a - b);
        },
      };
    },
  };
}

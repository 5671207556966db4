import type { Plane } from "../earth/index.ts";
import {
  COVERED,
  type Coverage,
  coveringOf,
  type GridData,
  LinearInTime,
  NO_PLACE,
  NO_TIME,
  NO_VARIABLE,
  runOrder,
  runsForAll,
  type Span,
} from "../fields/index.ts";
import { breaksOf, spanAt, spansOf } from "./period-spans.ts";
import { type SystemGrids, SystemsSampler } from "./sea-systems.ts";
import type { SeaPeriod } from "./wind-period.ts";

/** A reading of the sea as numbers: ranges of significant height, metres, and of period, seconds. */
export const SEA_SLOTS = 7;
export const SEA_HEIGHT_LOW_METRES = 0;
export const SEA_HEIGHT_HIGH_METRES = 1;
/** 0 where the source gives no period; the two slots after it are then 0. */
export const SEA_HAS_PERIOD = 2;
export const SEA_PERIOD_LOW_SECONDS = 3;
export const SEA_PERIOD_HIGH_SECONDS = 4;
export const SEA_SOURCE = 5;
/** 1 where a swell may run that the reading doesn't know of: a sea reckoned from the wind alone. */
export const SEA_LACKS_SWELL = 6;

/** Reads the sea. */
export interface SeaSampler {
  /** Writes a reading at (x, y) metres on the plane and `at`; `out` is left untouched where not covered. */
  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage;
  /**
   * Writes the systems of waves (`SYSTEMS_SLOTS`) where and when `readInto` has just answered, and returns how many: 0 where the source does
   * not tell them apart there. Left out: it never does, nor where its sea comes from.
   */
  systemsInto?(out: Float64Array, xMetres: number, yMetres: number, at: number): number;
  /** The instants within (from, until) at which the sea may jump or change its slope: steps and the ends of periods. */
  breaksWithin(from: number, until: number): readonly number[];
}

export interface SeaSource {
  readonly name: string;
  readonly issuedAt: number | null;
  readonly covers: { readonly from: number; readonly until: number };
  /** The runs of one forecast that make the source, newest first; left out where it is none of several. */
  readonly runs?: readonly SeaSource[];
  /** Which runs serve for a passage of this time, as a text that is the same where the same do; left out where there is no choice. */
  runsFor?(passage: Span): string;
  /** `passage`: the time of the passage that is sampled for, by which a source of several runs chooses among them. */
  onPlane(plane: Plane, passage?: Span): SeaSampler;
}

/**
 * The sea from periods, in any order: the same over the whole area; a gap between periods is not covered. Where periods overlap, the
 * widest range of heights and of periods holds. Throws on an empty list and on a period that ends before it begins.
 */
export function periodSea(name: string, issuedAt: number | null, periods: readonly SeaPeriod[]): SeaSource {
  const spans = spansOf(periods);
  const first = spans[0];
  const last = spans[spans.length - 1];
  if (first === undefined || last === undefined) throw new Error("a sea source needs at least one period");
  const sampler: SeaSampler = {
    readInto(out, _xMetres, _yMetres, at) {
      const span = spanAt(spans, at);
      if (span === null) return NO_TIME;
      const lows = span.periods.map((one) => one.periodLowSeconds).filter((seconds) => seconds !== null);
      const highs = span.periods.map((one) => one.periodHighSeconds).filter((seconds) => seconds !== null);
      const has = lows.length > 0 && highs.length > 0;
      out[SEA_HEIGHT_LOW_METRES] = Math.min(...span.periods.map((one) => one.heightLowMetres));
      out[SEA_HEIGHT_HIGH_METRES] = Math.max(...span.periods.map((one) => one.heightHighMetres));
      out[SEA_HAS_PERIOD] = has ? 1 : 0;
      out[SEA_PERIOD_LOW_SECONDS] = has ? Math.min(...lows) : 0;
      out[SEA_PERIOD_HIGH_SECONDS] = has ? Math.max(...highs) : 0;
      out[SEA_SOURCE] = 0;
      out[SEA_LACKS_SWELL] = 0;
      return COVERED;
    },
    breaksWithin: (from, until) => breaksOf(spans, from, until),
  };
  return { name, issuedAt, covers: { from: first.from, until: last.until }, onPlane: () => sampler };
}

/**
 * The sea from a grid of significant heights and, where the file has them, periods and the systems it is made of (of one alone: the sea with
 * its direction); joined by straight lines in time.
 */
export function gridSea(height: GridData, period: GridData | null, systems: readonly SystemGrids[] = []): SeaSource {
  const covering = coveringOf(height);
  return {
    name: height.source,
    issuedAt: height.issuedAt,
    covers: { from: covering.from, until: covering.until },
    onPlane(plane) {
      const heights = new LinearInTime(height, plane);
      const periods = period === null ? null : new LinearInTime(period, plane);
      const steps = [...new Set([...heights.steps, ...(periods?.steps ?? [])])].sort((a, b) => a - b);
      const value = new Float64Array(1);
      const apart = systems.length === 0 ? null : new SystemsSampler(systems, plane);
      return {
        ...(apart === null
          ? {}
          : { systemsInto: (out: Float64Array, x: number, y: number, at: number): number => apart.readInto(out, x, y, at) }),
        readInto(out, xMetres, yMetres, at) {
          const coverage = heights.sampleInto(value, xMetres, yMetres, at);
          if (coverage !== COVERED) return coverage;
          out[SEA_HEIGHT_LOW_METRES] = value[0] as number;
          out[SEA_HEIGHT_HIGH_METRES] = value[0] as number;
          const has = periods !== null && periods.sampleInto(value, xMetres, yMetres, at) === COVERED;
          out[SEA_HAS_PERIOD] = has ? 1 : 0;
          out[SEA_PERIOD_LOW_SECONDS] = has ? (value[0] as number) : 0;
          out[SEA_PERIOD_HIGH_SECONDS] = has ? (value[0] as number) : 0;
          out[SEA_SOURCE] = 0;
          out[SEA_LACKS_SWELL] = 0;
          return COVERED;
        },
        breaksWithin: (from, until) => steps.filter((at) => at > from && at < until),
      };
    },
  };
}

/** Seas in order of precedence: the first that covers a place and time answers there; null where there is none at all. */
export function firstSeaThatCovers(sources: readonly SeaSource[]): SeaSource | null {
  const first = sources[0];
  if (first === undefined) return null;
  return {
    name: sources.map((source) => source.name).join(", then "),
    issuedAt: first.issuedAt,
    covers: {
      from: Math.min(...sources.map((source) => source.covers.from)),
      until: Math.max(...sources.map((source) => source.covers.until)),
    },
    runsFor: (passage) => runsForAll(sources, passage),
    onPlane(plane, passage) {
      const samplers = sources.map((source) => source.onPlane(plane, passage));
      let answered = 0;
      return {
        ...(samplers.some((one) => one.systemsInto !== undefined)
          ? {
              systemsInto: (out: Float64Array, x: number, y: number, at: number): number =>
                samplers[answered]?.systemsInto?.(out, x, y, at) ?? 0,
            }
          : {}),
        readInto(out, xMetres, yMetres, at) {
          let why: Coverage = NO_VARIABLE;
          for (let i = 0; i < samplers.length; i++) {
            const coverage = (samplers[i] as SeaSampler).readInto(out, xMetres, yMetres, at);
            if (coverage === COVERED) {
              out[SEA_SOURCE] = i;
              answered = i;
              return COVERED;
            }
            if (why === NO_VARIABLE || coverage === NO_PLACE) why = coverage;
          }
          return why;
        },
        breaksWithin(from, until) {
          const all = new Set<number>();
          for (const sampler of samplers) for (const at of sampler.breaksWithin(from, until)) all.add(at);
          return [...all].sort((a, b) => a - b);
        },
      };
    },
  };
}

/**
 * Runs of one forecast, newest first, as one source: for each passage the newest that covers it whole, else all joined. Throws on an
 * empty list.
 */
export function seaOfRuns(runs: readonly SeaSource[]): SeaSource {
  const newest = runs[0];
  if (newest === undefined) throw new Error("no run of a sea");
  const together = firstSeaThatCovers(runs);
  if (runs.length === 1 || together === null) return newest;
  const covers = runs.map((run) => run.covers);
  return {
    ...together,
    name: newest.name,
    runs,
    runsFor: (passage) => runOrder(covers, passage).join(),
    onPlane(plane, passage) {
      const ordered = firstSeaThatCovers(runOrder(covers, passage).map((place) => runs[place] as SeaSource));
      return (ordered ?? newest).onPlane(plane);
    },
  };
}

import type { Plane } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_VARIABLE, runOrder, runsForAll, type Span } from "../fields/index.ts";
import { WIND_SOURCE, type WindSampler, type WindSource } from "./wind.ts";

class FirstThatCovers implements WindSampler {
  private readonly samplers: readonly WindSampler[];

  constructor(samplers: readonly WindSampler[]) {
    this.samplers = samplers;
  }

  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    let why: Coverage = NO_VARIABLE;
    for (let i = 0; i < this.samplers.length; i++) {
      const coverage = (this.samplers[i] as WindSampler).readInto(out, xMetres, yMetres, at);
      if (coverage === COVERED) {
        out[WIND_SOURCE] = i;
        return COVERED;
      }
      if (why === NO_VARIABLE || coverage === NO_PLACE) why = coverage;
    }
    return why;
  }

  breaksWithin(from: number, until: number): readonly number[] {
    const all = new Set<number>();
    for (const sampler of this.samplers) for (const at of sampler.breaksWithin(from, until)) all.add(at);
    return [...all].sort((a, b) => a - b);
  }
}

/** Winds in order of precedence: the first that covers a place and time answers there. Throws on an empty list. */
export function firstWindThatCovers(sources: readonly WindSource[]): WindSource {
  const first = sources[0];
  if (first === undefined) throw new Error("no wind source");
  return {
    name: sources.map((source) => source.name).join(", then "),
    issuedAt: first.issuedAt,
    covers: {
      from: Math.min(...sources.map((source) => source.covers.from)),
      until: Math.max(...sources.map((source) => source.covers.until)),
    },
    memberCount: Math.max(...sources.map((source) => source.memberCount)),
    runsFor: (passage) => runsForAll(sources, passage),
    onPlane: (plane: Plane, member: number, passage?: Span) =>
      new FirstThatCovers(sources.map((source) => source.onPlane(plane, member, passage))),
  };
}

/**
 * Runs of one forecast, newest first, as one source: for each passage the newest that covers it whole, else all joined. Throws on an
 * empty list.
 */
export function windOfRuns(runs: readonly WindSource[]): WindSource {
  const newest = runs[0];
  if (newest === undefined) throw new Error("no run of a wind");
  if (runs.length === 1) return newest;
  const covers = runs.map((run) => run.covers);
  return {
    ...firstWindThatCovers(runs),
    name: newest.name,
    runs,
    runsFor: (passage) => runOrder(covers, passage).join(),
    onPlane: (plane: Plane, member: number, passage?: Span) =>
      new FirstThatCovers(runOrder(covers, passage).map((place) => (runs[place] as WindSource).onPlane(plane, member))),
  };
}

import type { Plane } from "../earth/index.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME, NO_VARIABLE, runOrder, runsForAll, type Span } from "../fields/index.ts";
import { ASSUMED_STILL, CURRENT_QUANTITIES, type CurrentSampler, type CurrentSource, NEAREST_KNOWN } from "./current.ts";

/** What the water is taken to do where no source reaches; `refuse` unless the skipper chose otherwise. */
export type WhereUnknown =
  | { readonly kind: "refuse" }
  | { readonly kind: "still" }
  | { readonly kind: "nearest"; readonly withinMetres: number };

class FirstThatCovers implements CurrentSampler {
  readonly quantities = CURRENT_QUANTITIES;
  answeredBy = 0;
  private readonly aside = new Float64Array(2);
  private readonly samplers: readonly CurrentSampler[];
  private readonly unknown: WhereUnknown;

  constructor(samplers: readonly CurrentSampler[], unknown: WhereUnknown) {
    this.samplers = samplers;
    this.unknown = unknown;
  }

  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    for (let i = 0; i < this.samplers.length; i++) {
      const sampler = this.samplers[i] as CurrentSampler;
      if (sampler.sampleInto(out, xMetres, yMetres, at) === COVERED) {
        this.answeredBy = sampler.answeredBy < 0 ? sampler.answeredBy : i;
        return COVERED;
      }
    }
    const why = this.whyNot(xMetres, yMetres, at);
    if (why !== NO_PLACE || this.unknown.kind === "refuse") return why;
    if (this.unknown.kind === "still") {
      out[0] = 0;
      out[1] = 0;
      this.answeredBy = ASSUMED_STILL;
      return COVERED;
    }
    if (!this.nearestInto(out, xMetres, yMetres, at, this.unknown.withinMetres)) return NO_PLACE;
    this.answeredBy = NEAREST_KNOWN;
    return COVERED;
  }

  nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean {
    for (const sampler of this.samplers) if (sampler.nearestInto(out, xMetres, yMetres, at, withinMetres)) return true;
    return false;
  }

  reachesPlace(xMetres: number, yMetres: number, at: number): boolean {
    return this.samplers.some((sampler) => sampler.reachesPlace(xMetres, yMetres, at));
  }

  /** Why none covers: the time, where a source knows the place but has run out (nothing is assumed there); else the place. */
  private whyNot(xMetres: number, yMetres: number, at: number): Coverage {
    if (this.samplers.length === 0) return NO_VARIABLE;
    let ranOut = 0;
    for (const sampler of this.samplers) {
      if (sampler.sampleInto(this.aside, xMetres, yMetres, at) !== NO_TIME) continue;
      if (sampler.reachesPlace(xMetres, yMetres, at)) return NO_TIME;
      ranOut++;
    }
    return ranOut === this.samplers.length ? NO_TIME : NO_PLACE;
  }
}

/**
 * Sources in order of precedence: the first that covers a place and time answers there; where none reaches the place, `unknown` decides.
 * Where a source reaches the place but has run out, that is told, whatever `unknown` says: the water there does not stand still because
 * a forecast ends.
 */
export function firstThatCovers(sources: readonly CurrentSource[], unknown: WhereUnknown): CurrentSource {
  const spans = sources.map((source) => source.covers);
  return {
    name: sources.map((source) => source.name).join(", then "),
    covers: spans.some((span) => span === null) ? null : joined(spans as readonly { from: number; until: number }[]),
    issuedAt: sources[0]?.issuedAt ?? null,
    heldSteady: sources.some((source) => source.heldSteady),
    runsFor: (passage) => runsForAll(sources, passage),
    onPlane: (plane: Plane, passage?: Span): CurrentSampler =>
      new FirstThatCovers(
        sources.map((source) => source.onPlane(plane, passage)),
        unknown,
      ),
  };
}

/**
 * Runs of one forecast, newest first, as one source: for each passage the newest that covers it whole, else all joined. Throws on an
 * empty list.
 */
export function currentOfRuns(runs: readonly CurrentSource[]): CurrentSource {
  const newest = runs[0];
  if (newest === undefined) throw new Error("no run of a current");
  if (runs.length === 1) return newest;
  const together = firstThatCovers(runs, { kind: "refuse" });
  const covers = runs.map((run) => run.covers);
  const laid = new WeakMap<Plane, readonly CurrentSampler[]>();
  return {
    ...together,
    name: newest.name,
    runs,
    runsFor: (passage) => runOrder(covers, passage).join(),
    onPlane(plane, passage) {
      const samplers = laid.get(plane) ?? runs.map((run) => run.onPlane(plane));
      laid.set(plane, samplers);
      return new FirstThatCovers(
        runOrder(covers, passage).map((place) => samplers[place] as CurrentSampler),
        { kind: "refuse" },
      );
    },
  };
}

function joined(spans: readonly { from: number; until: number }[]): { from: number; until: number } | null {
  if (spans.length === 0) return null;
  return { from: Math.min(...spans.map((span) => span.from)), until: Math.max(...spans.map((span) => span.until)) };
}

/** The time that all spans have in common; null when none of them is limited. */
function common(spans: readonly ({ readonly from: number; readonly until: number } | null)[]): { from: number; until: number } | null {
  const limited = spans.filter((span) => span !== null);
  if (limited.length === 0) return null;
  return { from: Math.max(...limited.map((span) => span.from)), until: Math.min(...limited.map((span) => span.until)) };
}

class Sum implements CurrentSampler {
  readonly quantities = CURRENT_QUANTITIES;
  answeredBy = 0;
  private readonly samplers: readonly CurrentSampler[];
  private readonly part = new Float64Array(2);

  constructor(samplers: readonly CurrentSampler[]) {
    this.samplers = samplers;
  }

  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    let east = 0;
    let north = 0;
    let assumed = 0;
    let worst: Coverage = COVERED;
    for (const sampler of this.samplers) {
      const coverage = sampler.sampleInto(this.part, xMetres, yMetres, at);
      if (coverage > worst) worst = coverage;
      if (coverage !== COVERED) continue;
      east += this.part[0] as number;
      north += this.part[1] as number;
      assumed = Math.min(assumed, sampler.answeredBy);
    }
    if (worst !== COVERED) return worst;
    out[0] = east;
    out[1] = north;
    this.answeredBy = assumed;
    return COVERED;
  }

  nearestInto(): boolean {
    return false;
  }

  reachesPlace(xMetres: number, yMetres: number, at: number): boolean {
    return this.samplers.every((sampler) => sampler.reachesPlace(xMetres, yMetres, at));
  }
}

/**
 * Currents added together, as an ocean stream and a tide are; covered only where every part is, else variable is told before time before
 * place. Where a part was assumed, so is the sum. Throws on an empty list.
 */
export function sumOfCurrents(parts: readonly CurrentSource[]): CurrentSource {
  if (parts.length === 0) throw new Error("no currents to add");
  return {
    name: parts.map((part) => part.name).join(" + "),
    covers: common(parts.map((part) => part.covers)),
    issuedAt: parts[0]?.issuedAt ?? null,
    heldSteady: parts.some((part) => part.heldSteady),
    runsFor: (passage) => runsForAll(parts, passage),
    onPlane: (plane: Plane, passage?: Span): CurrentSampler => new Sum(parts.map((part) => part.onPlane(plane, passage))),
  };
}

class Scaled implements CurrentSampler {
  readonly quantities = CURRENT_QUANTITIES;
  private readonly inner: CurrentSampler;
  private readonly factor: number;

  constructor(inner: CurrentSampler, factor: number) {
    this.inner = inner;
    this.factor = factor;
  }

  get answeredBy(): number {
    return this.inner.answeredBy;
  }

  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    const coverage = this.inner.sampleInto(out, xMetres, yMetres, at);
    if (coverage === COVERED) {
      out[0] = (out[0] as number) * this.factor;
      out[1] = (out[1] as number) * this.factor;
    }
    return coverage;
  }

  nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean {
    if (!this.inner.nearestInto(out, xMetres, yMetres, at, withinMetres)) return false;
    out[0] = (out[0] as number) * this.factor;
    out[1] = (out[1] as number) * this.factor;
    return true;
  }

  reachesPlace(xMetres: number, yMetres: number, at: number): boolean {
    return this.inner.reachesPlace(xMetres, yMetres, at);
  }
}

/** The same water running at `factor` of its rate: what a stream's total being wrong looks like. */
export function scaledCurrent(sampler: CurrentSampler, factor: number): CurrentSampler {
  return new Scaled(sampler, factor);
}

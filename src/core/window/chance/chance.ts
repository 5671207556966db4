import type { Limit } from "../limit.ts";
import { ChanceMemo, PAST, UNKNOWN_HERE } from "./chance-memo.ts";
import type { KeptChance } from "./kept-chance.ts";
import { ARRIVES, GATE_MISSED, isInChance, type KeptSamples, type LimitInChance, NO_PASSAGE, toleratesAsKept } from "./kept-samples.ts";

/** A share counted out of so many, with its own standard error. */
export interface Share {
  readonly count: number;
  readonly of: number;
  readonly share: number;
  readonly standardError: number;
}

/** How often a limit was passed. */
export interface Shutting {
  readonly limit: LimitInChance;
  readonly count: number;
}

/** The light at the berth for a late arrival. */
export interface LateLight {
  readonly at: number;
  readonly sunAltitudeDeg: number;
  /** Whether that is past *never*. */
  readonly past: boolean;
}

/** The chance that a departure is good: that she arrives and no *never* is passed on the way. */
export interface Chance {
  readonly good: Share;
  /** Those that are not good: a limit passed, no passage, a gate missed, something not known (a limit passed comes before that). */
  readonly past: number;
  readonly noPassage: number;
  /** A gate on the way that does not open for her. */
  readonly gateMissed: number;
  readonly notJudged: number;
  /** By when a tenth, half, and nine tenths of all have arrived at the berth; null where fewer arrive. */
  readonly arrival: { readonly earlyAt: number | null; readonly middleAt: number | null; readonly lateAt: number | null };
  /** The light at the late end of the arrival; null where no limit is set on the light there, or fewer arrive. */
  readonly lateLight: LateLight | null;
  /** The limits that were passed, that which shuts most often first; a crossing may pass several. */
  readonly shuts: readonly Shutting[];
  /** The forecasts alone, nothing else being other than planned: those that arrive with no *never* passed; null where there is only one. */
  readonly forecasts: Share | null;
  /** Limits whose toleration was not kept when the crossings were tried, so that here an exceedance counts at once. */
  readonly toleratedAsNone: readonly LimitInChance[];
  readonly wind: KeptChance["wind"];
  readonly current: KeptChance["current"];
}

/** The shares of arrivals that are told: early, middle and late. */
export const ARRIVAL_SHARES = [0.1, 0.5, 0.9] as const;

/**
 * A share and its standard error by the rule of succession: of one more good and one more bad than were counted, so that none in ten, or
 * ten in ten, is not told as certain (Agresti & Coull, The American Statistician 52:119, 1998, with one of each).
 */
export function shareOf(count: number, of: number): Share {
  const p = (count + 1) / (of + 2);
  return { count, of, share: of === 0 ? 0 : count / of, standardError: Math.sqrt((p * (1 - p)) / (of + 2)) };
}

/**
 * Judges crossings that were tried by limits: nothing is run again. Limits on what lay before leaving are not in it. `memo` remembers what
 * was found of these crossings before.
 */
export function chanceOf(kept: KeptChance, limits: readonly Limit[], memo: ChanceMemo = new ChanceMemo()): Chance {
  const judging = limits.filter(isInChance);
  const { samples, forecasts } = kept;
  const bySamples = judging.map((limit) => memo.judged(samples, limit));
  const counts = judging.map(() => 0);
  let [good, past, noPassage, gateMissed] = [0, 0, 0, 0];
  for (let sample = 0; sample < samples.count; sample++) {
    const judged = judgeAll(samples, sample, bySamples, counts);
    if (judged === "good") good++;
    else if (judged === "past") past++;
    else if (judged === "noPassage") noPassage++;
    else if (judged === "gateMissed") gateMissed++;
  }
  const arrivals = memo.arrivalsOf(samples);
  const byWhen = (share: number): number | null => quantile(arrivals, samples.count, share);
  const lateAt = byWhen(ARRIVAL_SHARES[2]);
  return {
    good: shareOf(good, samples.count),
    past,
    noPassage,
    gateMissed,
    notJudged: samples.count - good - past - noPassage - gateMissed,
    arrival: { earlyAt: byWhen(ARRIVAL_SHARES[0]), middleAt: byWhen(ARRIVAL_SHARES[1]), lateAt },
    lateLight: lateAt === null ? null : lateLightAt(kept, lateAt, judging, memo),
    shuts: judging
      .map((limit, k) => ({ limit, count: counts[k] ?? 0 }))
      .filter(({ count }) => count > 0)
      .sort((one, other) => other.count - one.count),
    forecasts: forecasts === null ? null : shareOf(goodOf(forecasts, judging, memo), forecasts.count),
    toleratedAsNone: judging.filter((limit) => !toleratesAsKept(samples, limit)),
    wind: kept.wind,
    current: kept.current,
  };
}

function lateLightAt(kept: KeptChance, at: number, limits: readonly LimitInChance[], memo: ChanceMemo): LateLight | null {
  const limit = limits.find((one) => one.felt === "sunAltitudeDeg" && one.during === "arrival");
  if (limit === undefined) return null;
  const altitudeDeg = memo.altitudeDegAt(kept, at);
  return { at, sunAltitudeDeg: altitudeDeg, past: altitudeDeg < limit.never };
}

/** One sample by all limits: `byLimit` is how it stands to each; `counts`, where given, goes up for each that it passes. */
function judgeAll(
  kept: KeptSamples,
  sample: number,
  byLimit: readonly Uint8Array[],
  counts: number[] | null,
): "good" | "past" | "noPassage" | "gateMissed" | "notJudged" {
  const end = kept.ends[sample];
  if (end === NO_PASSAGE) return "noPassage";
  if (end === GATE_MISSED) return "gateMissed";
  if (end !== ARRIVES) return "notJudged";
  let past = false;
  let unknown = byLimit.length === 0;
  for (let k = 0; k < byLimit.length; k++) {
    const judged = byLimit[k]?.[sample];
    if (judged === UNKNOWN_HERE) unknown = true;
    if (judged !== PAST) continue;
    past = true;
    if (counts !== null) counts[k] = (counts[k] ?? 0) + 1;
  }
  return past ? "past" : unknown ? "notJudged" : "good";
}

function goodOf(kept: KeptSamples, limits: readonly LimitInChance[], memo: ChanceMemo): number {
  const byLimit = limits.map((limit) => memo.judged(kept, limit));
  let good = 0;
  for (let sample = 0; sample < kept.count; sample++) if (judgeAll(kept, sample, byLimit, null) === "good") good++;
  return good;
}

/** By when so great a share of `of` has arrived, `sorted` being those that do: by straight lines between the middles of their places. */
function quantile(sorted: Float64Array, of: number, share: number): number | null {
  const place = share * of - 0.5;
  const before = Math.floor(place);
  if (place > sorted.length - 1 || sorted.length === 0) return null;
  if (before < 0) return sorted[0] as number;
  const now = sorted[before] as number;
  return now + (place - before) * ((sorted[before + 1] ?? now) - now);
}

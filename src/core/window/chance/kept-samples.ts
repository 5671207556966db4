import { COVERED } from "../../fields/index.ts";
import { currentNotFit } from "../current-not-fit.ts";
import type { Exposure } from "../exposure.ts";
import { FELT_ALONG, FELT_OF_SEA, type FeltAlong, type FeltOnce, isOnce, type Limit, type LimitAlong, type LimitOnce } from "../limit.ts";
import { judge } from "../margin.ts";
import { ARRIVAL, OPEN_WATER } from "../passage-nodes.ts";

/** How a crossing that was tried came out, before any limit. */
export const ARRIVES = 0;
/** The water or the land forbids it, or a gate is missed. */
export const NO_PASSAGE = 1;
/** It went where or when no source says what the water or the wind does, or no value is given for a gate. */
export const UNKNOWN = 2;
/** It comes to a gate that does not open for it. */
export const GATE_MISSED = 3;
export type SampleEnd = typeof ARRIVES | typeof NO_PASSAGE | typeof UNKNOWN | typeof GATE_MISSED;

/** What a passage has one figure of and is kept; what lay before leaving is the same for every sample, and no matter of chance. */
export const ONCE_IN_CHANCE = [
  "underKeelMetres",
  "fuelLeftLitres",
  "awakeSeconds",
  "arrivalClockSeconds",
] as const satisfies readonly FeltOnce[];
type OnceInChance = (typeof ONCE_IN_CHANCE)[number];
/** A limit that the samples can be judged by. */
export type LimitInChance = LimitAlong | (LimitOnce & { readonly felt: OnceInChance });

const PARTS = 3;
const COLUMNS = FELT_ALONG.length;
const CELLS = PARTS * COLUMNS;
/** Marks in `known`: something of it is covered there; something of it is not. */
const SOME = 1;
const GAP = 2;

/** The worst that lasts longer than is tolerated, one value a sample, kept for limits that tolerate. */
export interface LastingKept {
  readonly felt: FeltAlong;
  readonly during: LimitAlong["during"];
  readonly toleratedSeconds: number;
  readonly sense: "most" | "least";
  readonly values: Float64Array;
}

/**
 * Crossings that were tried, felt, and shrunk to what limits can ask of them, some 600 bytes each: of every quantity the least and the
 * greatest in each part of the passage. So a changed limit is judged without running anything; only a toleration that no limit had when
 * they were run is not known, and there an exceedance counts at once.
 *
 * `low`, `high`, `known`: `[sample][part][quantity]`; the parts are those of `PassageNodes`, the quantities those of `FELT_ALONG`. `once`,
 * `onceKnown`: `[sample][quantity]` of `ONCE_IN_CHANCE`.
 */
export interface KeptSamples {
  readonly count: number;
  readonly ends: Uint8Array;
  /** At the berth, UTC epoch seconds; 0 for one that does not arrive. */
  readonly arrivalAt: Float64Array;
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly known: Uint8Array;
  readonly once: Float64Array;
  readonly onceKnown: Uint8Array;
  readonly lasting: readonly LastingKept[];
}

/** Room for `count` samples. `limits` are those whose tolerations are kept. */
export function roomForSamples(count: number, limits: readonly Limit[]): KeptSamples {
  const lasting: LastingKept[] = [];
  for (const limit of limits) {
    if (isOnce(limit)) continue;
    const { felt, during, toleratedSeconds } = limit;
    if (toleratedSeconds === 0 || lastingOf({ lasting }, limit) !== null) continue;
    lasting.push({ felt, during, toleratedSeconds, sense: senseOf(limit), values: new Float64Array(count) });
  }
  return {
    count,
    ends: new Uint8Array(count).fill(UNKNOWN),
    arrivalAt: new Float64Array(count),
    low: new Float64Array(count * CELLS).fill(Number.POSITIVE_INFINITY),
    high: new Float64Array(count * CELLS).fill(Number.NEGATIVE_INFINITY),
    known: new Uint8Array(count * CELLS),
    once: new Float64Array(count * ONCE_IN_CHANCE.length),
    onceKnown: new Uint8Array(count * ONCE_IN_CHANCE.length),
    lasting,
  };
}

/** Keeps one that does not arrive. */
export function keepEnd(kept: KeptSamples, sample: number, end: SampleEnd): void {
  kept.ends[sample] = end;
}

/** Keeps one that arrives; through a current that is not fit it is not known how. */
export function keepFelt(kept: KeptSamples, sample: number, exposure: Exposure): void {
  if (currentNotFit(exposure) !== null) {
    keepEnd(kept, sample, UNKNOWN);
    return;
  }
  const { count, part, columns, atSeconds } = exposure;
  kept.ends[sample] = ARRIVES;
  kept.arrivalAt[sample] = atSeconds[count - 1] as number;
  FELT_ALONG.forEach((felt, k) => {
    const column = columns[felt];
    if (column === undefined) return;
    const { low, high, coverage } = column;
    const lacksSwell = FELT_OF_SEA.has(felt) ? exposure.seaLacksSwell : undefined;
    for (let i = 0; i < count; i++) {
      const cell = sample * CELLS + (part[i] as number) * COLUMNS + k;
      if (coverage[i] !== COVERED) {
        kept.known[cell] = (kept.known[cell] as number) | GAP;
        continue;
      }
      kept.known[cell] = (kept.known[cell] as number) | SOME | (lacksSwell?.[i] === 1 ? GAP : 0);
      if ((low[i] as number) < (kept.low[cell] as number)) kept.low[cell] = low[i] as number;
      if ((high[i] as number) > (kept.high[cell] as number)) kept.high[cell] = high[i] as number;
    }
  });
  ONCE_IN_CHANCE.forEach((felt, k) => {
    const value = exposure.whole.values[felt];
    const part = value.kind === "unknown" ? value.knownPart : value;
    const cell = sample * ONCE_IN_CHANCE.length + k;
    kept.onceKnown[cell] = (part === null ? 0 : SOME) | (value.kind === "known" ? 0 : GAP);
    if (part !== null) kept.once[cell] = part.value;
  });
  for (const { felt, during, toleratedSeconds, sense, values } of kept.lasting) {
    // Only where it lies between the two figures matters to what lasts, so that any two of the same sense serve.
    const margin = judge(exposure, { felt, during, toleratedSeconds, happy: 0, never: sense === "most" ? 1 : -1 }, null);
    const worst = margin.kind === "judged" ? margin : margin.knownPart;
    if (worst !== null) values[sample] = worst.value;
  }
}

/** How a limit stands to one sample that arrives. */
export type SampleJudged = "within" | "past" | "unknown";

/** Judges a sample that arrives by one limit, as `judge` does: what is past *never* where it is known is past, whatever is not known. */
export function judgeSample(kept: KeptSamples, sample: number, limit: LimitInChance): SampleJudged {
  if (limit.during === "once") return judgeOnceKept(kept, sample, limit);
  const k = FELT_ALONG.indexOf(limit.felt);
  const from = limit.during === "wholePassage" ? 0 : limit.during === "openWater" ? OPEN_WATER : ARRIVAL;
  const until = limit.during === "wholePassage" ? PARTS - 1 : from;
  const most = senseOf(limit) === "most";
  let worst = most ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  let known = 0;
  for (let part = from; part <= until; part++) {
    const cell = sample * CELLS + part * COLUMNS + k;
    known |= kept.known[cell] as number;
    if (most) worst = Math.max(worst, kept.high[cell] as number);
    else worst = Math.min(worst, kept.low[cell] as number);
  }
  if ((known & SOME) === 0) return "unknown";
  const lasting = limit.toleratedSeconds === 0 ? null : lastingOf(kept, limit);
  if (lasting !== null) worst = lasting.values[sample] as number;
  if (most ? worst > limit.never : worst < limit.never) return "past";
  return (known & GAP) === 0 ? "within" : "unknown";
}

function judgeOnceKept(kept: KeptSamples, sample: number, limit: Extract<LimitInChance, { during: "once" }>): SampleJudged {
  const cell = sample * ONCE_IN_CHANCE.length + ONCE_IN_CHANCE.indexOf(limit.felt);
  const known = kept.onceKnown[cell] as number;
  if ((known & SOME) === 0) return "unknown";
  const value = kept.once[cell] as number;
  if (senseOf(limit) === "most" ? value > limit.never : value < limit.never) return "past";
  return (known & GAP) === 0 ? "within" : "unknown";
}

/** Whether the samples can be judged by a limit at all. */
export function isInChance(limit: Limit): limit is LimitInChance {
  return !isOnce(limit) || ONCE_IN_CHANCE.some((felt) => felt === limit.felt);
}

/** Whether a limit's toleration was kept; where not, an exceedance counts at once. */
export function toleratesAsKept(kept: KeptSamples, limit: LimitInChance): boolean {
  return limit.during === "once" || limit.toleratedSeconds === 0 || lastingOf(kept, limit) !== null;
}

function lastingOf({ lasting }: Pick<KeptSamples, "lasting">, limit: LimitAlong): LastingKept | null {
  const sense = senseOf(limit);
  return (
    lasting.find(
      (one) =>
        one.felt === limit.felt && one.during === limit.during && one.toleratedSeconds === limit.toleratedSeconds && one.sense === sense,
    ) ?? null
  );
}

function senseOf(limit: Limit): "most" | "least" {
  return limit.never > limit.happy ? "most" : "least";
}

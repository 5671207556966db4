import { type OpenSpan, spanAfter, spanAt, spanBefore } from "../../calendar/index.ts";
import { carryOut, type WayArrives } from "../../passage/index.ts";
import type { GateChain } from "../../places/index.ts";
import type { Trial } from "../trial.ts";
import { type GatesRun, outOfHarbour } from "./pass-gates.ts";

/** Changes are tried within a day (common practice: beyond it one decides anew), by whole minutes, and by whole hundredths of the speed. */
export const CURE_WITHIN_SECONDS = 24 * 3600;
export const CURE_STEP_SECONDS = 60;
export const CURE_SPEED_STEP_SHARE = 0.01;
/** Speeds that a crew can still choose: a tenth above the planned one, and half of it, below which a boat hardly steers in a seaway (common practice). */
const FASTEST_TRIED_SHARE = 1.1;
const SLOWEST_TRIED_SHARE = 0.5;
/**
 * The entrance is approached by this share of what it is short of: where the water turns an arrival may slip by more than its departure, and
 * no opening is to be stepped over.
 */
const APPROACH_SHARE = 0.75;
/** How often a search goes on from what it has found before it is given up. */
const MOST_TRIES = 60;
/** How far a departure from which no way arrives is stepped over, seconds. */
const NO_WAY_STEP_SECONDS = 1800;

/** A change with which the chain was gone through again and passed; one step less does not pass. `seconds`: later positive. */
export type GateCure =
  /** Leave the berth earlier or later. */
  | { readonly kind: "leave"; readonly seconds: number; readonly departAt: number }
  /** Go at this share of the planned speed, and be at the entrance so much earlier or later. */
  | { readonly kind: "speed"; readonly seconds: number; readonly speedShare: number }
  /** Wait off the entrance before going in. */
  | { readonly kind: "wait"; readonly seconds: number };

/** What the cure of a missed gate is looked for with. */
export interface MissToCure {
  readonly trial: Trial;
  readonly departAt: number;
  readonly advised: WayArrives;
  readonly gates: GatesRun;
  /** When the advised way arrives that leaves open water's beginning at an instant; null where it does not. */
  arrivesFrom(openFrom: number): number | null;
  /** Whether a departure passes all gates, run from the berth with every way. */
  passes(departAt: number): boolean;
}

/** The cures of a missed gate, the smallest change first; none where nothing within a day cures it. */
export function gateCures(miss: MissToCure): readonly GateCure[] {
  const cures: (GateCure | null)[] = [leaving(miss, -1), leaving(miss, 1)];
  const into = miss.trial.gates?.into ?? null;
  if (into !== null && miss.gates.out?.fault == null) cures.push(speeding(miss, into, -1), speeding(miss, into, 1), waiting(miss, into));
  return cures.filter((cure) => cure !== null).sort((a, b) => Math.abs(a.seconds) - Math.abs(b.seconds));
}

type Sense = -1 | 1;

/** How far an instant lies from the next one, in one sense, from which a chain can be begun; infinite where there is none. */
function toNextStart(starts: readonly OpenSpan[], at: number, sense: Sense): number {
  if (spanAt(starts, at) !== null) return 0;
  const next = sense > 0 ? spanAfter(starts, at)?.from : spanBefore(starts, at)?.until;
  return next === undefined ? Number.POSITIVE_INFINITY : Math.abs(next - at);
}

function leaving(miss: MissToCure, sense: Sense): GateCure | null {
  let failing = 0;
  let wanted = shortBy(miss, 0, sense);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    if (!Number.isFinite(wanted)) return null;
    const amount = failing + Math.max(1, Math.ceil(wanted / CURE_STEP_SECONDS)) * CURE_STEP_SECONDS;
    if (amount > CURE_WITHIN_SECONDS) return null;
    wanted = shortBy(miss, sense * amount, sense);
    if (wanted > 0) {
      failing = amount;
      continue;
    }
    const least = leastThat((seconds) => shortBy(miss, sense * seconds, sense) === 0, failing, amount, CURE_STEP_SECONDS);
    const departAt = miss.departAt + sense * least;
    if (miss.passes(departAt)) return { kind: "leave", seconds: sense * least, departAt };
    failing = amount;
    wanted = CURE_STEP_SECONDS;
  }
  return null;
}

/** How much further a departure moved by `seconds` may be moved before one that passes is looked for again; 0: it passes. */
function shortBy({ trial, departAt, arrivesFrom }: MissToCure, seconds: number, sense: Sense): number {
  const at = departAt + seconds;
  const { gates } = trial;
  const left = outOfHarbour(trial, at);
  if (gates?.out != null && left.chain?.fault != null) return Math.max(1, toNextStart(gates.out.passableStarts(at), at, sense));
  if (gates?.into == null) return 0;
  const entranceAt = arrivesFrom(left.openWaterFrom);
  if (entranceAt === null) return NO_WAY_STEP_SECONDS;
  if (gates.into.run(entranceAt).fault === null) return 0;
  return Math.max(1, APPROACH_SHARE * toNextStart(gates.into.passableStarts(entranceAt), entranceAt, sense));
}

function speeding({ trial, advised }: MissToCure, into: GateChain, sense: Sense): GateCure | null {
  const most = Math.round((sense < 0 ? FASTEST_TRIED_SHARE - 1 : 1 - SLOWEST_TRIED_SHARE) / CURE_SPEED_STEP_SHARE);
  const shareAfter = (steps: number): number => 1 - sense * steps * CURE_SPEED_STEP_SHARE;
  const known = new Map<number, number | null>([[0, advised.arrivalAt]]);
  const entranceAt = (steps: number): number | null => {
    const before = known.get(steps);
    if (before !== undefined) return before;
    const { run } = carryOut(trial.crossing, advised, { speedFactor: shareAfter(steps) });
    const at = run.kind === "fails" ? null : run.end.at;
    known.set(steps, at);
    return at;
  };
  let steps = 0;
  for (let tries = 0; tries < MOST_TRIES && steps < most; tries++) {
    const from = entranceAt(steps);
    if (from === null) return null;
    const wanted = toNextStart(into.passableStarts(from), from, sense);
    const reaches = (some: number): boolean => {
      const at = entranceAt(some);
      return at === null || sense * (at - from) >= wanted;
    };
    if (!reaches(most)) return null;
    steps = leastThat(reaches, steps, most, 1);
    const at = entranceAt(steps);
    if (at !== null && into.run(at).fault === null)
      return { kind: "speed", seconds: at - advised.arrivalAt, speedShare: shareAfter(steps) };
  }
  return null;
}

function waiting({ advised }: MissToCure, into: GateChain): GateCure | null {
  const { arrivalAt } = advised;
  const wanted = toNextStart(into.passableStarts(arrivalAt), arrivalAt, 1);
  if (!(wanted <= CURE_WITHIN_SECONDS)) return null;
  const first = Math.max(1, Math.ceil(wanted / CURE_STEP_SECONDS)) * CURE_STEP_SECONDS;
  for (let seconds = first, tries = 0; seconds <= CURE_WITHIN_SECONDS && tries < MOST_TRIES; seconds += CURE_STEP_SECONDS, tries++) {
    if (into.run(arrivalAt + seconds).fault === null) return { kind: "wait", seconds };
  }
  return null;
}

/** The least multiple of `step` above `fails` for which something holds, by halving; it holds for `holds`. */
function leastThat(holdsFor: (amount: number) => boolean, fails: number, holds: number, step: number): number {
  let low = fails;
  let high = holds;
  while (high - low > step) {
    const middle = low + Math.floor((high - low) / 2 / step) * step;
    if (holdsFor(middle)) high = middle;
    else low = middle;
  }
  return high;
}

import type { NoAnswer } from "../answers/index.ts";
import type { WayArrives } from "../passage/index.ts";
import type { GatePassed } from "../places/index.ts";
import type { WindSampler } from "../weather/index.ts";
import { beforeOtherwise, beforePlanned } from "./before-in.ts";
import { currentNotFit } from "./current-not-fit.ts";
import {
  type DepartureRun,
  ENGINE_STOPS_SECONDS,
  LATEST_TRIED_SECONDS,
  type Outcome,
  type PassageRun,
  runDeparture,
  runPlanned,
  runUnder,
} from "./departures.ts";
import { type Exposure, feel, feelOn, feelUnder, samplersBeside } from "./exposure.ts";
import { type GatesRun, gateFaultOf, gatesPassed } from "./gates/pass-gates.ts";
import type { Margin } from "./judged.ts";
import type { Limit } from "./limit.ts";
import { MarginMemo } from "./margin-memo.ts";
import type { Before } from "./once/felt-once.ts";
import { nodesOf, type PassageNodes } from "./passage-nodes.ts";
import { type FeltSurroundings, SurroundingsOfRuns, type TrialOf } from "./runs-settled.ts";
import type { SinceAgainst } from "./since-against.ts";
import { firstDoor, type Slack, type TimeInHand, type Tried, timeInHand } from "./time-in-hand.ts";
import type { Trial } from "./trial.ts";
import { type DecidedBy, decide, type GatesJudged, type Verdict } from "./verdict.ts";
import { coveredOf, type WeatherToFeel } from "./weather-to-feel.ts";

/** A departure run and felt, before any limit: what is kept, so that limits never run a passage again. */
export interface KeptDeparture {
  readonly run: DepartureRun;
  /** Member 0 along the planned passage; null where no way arrives. */
  readonly planned: Exposure | null;
  readonly slower: readonly (Exposure | null)[];
  readonly stopped: readonly (Exposure | null)[];
  /** The other members, member 1 first. */
  readonly members: readonly MemberKept[];
  readonly sinceAgainst: SinceAgainst | null;
  /** Tried only for the time in hand of the departures before it: it has no line of its own, and only its planned passage is kept. */
  readonly onlyLater: boolean;
}

/** A line of the board. */
export interface BoardRow {
  readonly departAt: number;
  readonly advised: WayArrives | null;
  /** At the berth; null where no way arrives. */
  readonly arrivalAt: number | null;
  readonly verdict: Verdict;
  readonly margins: readonly Margin[];
  /** null where the departure is closed or has no passage. */
  readonly inHand: TimeInHand | null;
  /** How many forecasts, member 0 among them, put this departure on the same side of closed. */
  readonly forecastsAgreeing: { readonly agree: number; readonly of: number };
  readonly sinceAgainst: SinceAgainst | null;
  /** Gates as the planned passage goes through them, in order of time; what stops it, and what cures that. */
  readonly gates: GatesJudged & { readonly passed: readonly GatePassed[] };
}

/** Told after each departure; returning true stops the work. */
export type Progress = (done: number, of: number) => boolean | undefined;

/** One more forecast's word on a departure: what would be felt, or why no way arrives under its wind. */
export type MemberKept =
  | { readonly kind: "felt"; readonly exposure: Exposure; readonly gates: GatesRun }
  | { readonly kind: "noPassage"; readonly why: NoAnswer };

/**
 * Runs and feels every departure, each on its own. `trialOf(member)` gives what the passage is run with under a member's wind; it is
 * asked for members above 0 only where the boat's speed depends on the wind. Null when stopped by `progress`. `later` are departures
 * after the last that only serve the time in hand of those before them.
 */
export function keepDepartures(
  trialOf: TrialOf,
  departures: readonly number[],
  weather: WeatherToFeel,
  progress?: Progress,
  later: readonly number[] = [],
): readonly KeptDeparture[] | null {
  const keeper = new DepartureKeeper(trialOf, weather);
  const kept: KeptDeparture[] = [];
  const all = departures.length + later.length;
  for (const departAt of departures) {
    kept.push(keeper.keep(departAt));
    if (progress?.(kept.length, all) === true) return null;
  }
  for (const departAt of later) {
    kept.push(keeper.keepOnlyLater(departAt));
    if (progress?.(kept.length, all) === true) return null;
  }
  return kept;
}

/** Runs and feels departures, one at a time and in any order: none depends on another. Holds the samplers that serve them all. */
export class DepartureKeeper {
  readonly surroundings: SurroundingsOfRuns;

  constructor(trialOf: TrialOf, weather: WeatherToFeel) {
    this.surroundings = new SurroundingsOfRuns(trialOf, weather);
  }

  /** A departure with a line of its own. */
  keep(departAt: number): KeptDeparture {
    const { run, around } = this.surroundings.settle(departAt, runDeparture);
    const { trials, winds: windOf, sea: seaSampler, beside } = around;
    const { advised } = run;
    const control = windOf[0] as WindSampler;
    const { dependsOnWind } = (trials[0] as Trial).crossing.boat;
    const behind = beforePlanned(around, advised, 0);
    // Where the wind does not move the boat one run serves every forecast, on nodes that serve every wind.
    const nodes =
      run.planned.kind === "fails"
        ? null
        : nodesOf(run.planned.run.passed, dependsOnWind ? [control] : windOf, seaSampler, samplersBeside(beside));
    const planned = nodes === null ? null : feelOn(nodes, control, seaSampler, beside, behind);
    const members = windOf.slice(1).map((memberWind, k): MemberKept => {
      const own = dependsOnWind ? runUnder(trials[k + 1] as Trial, departAt, run.advised) : run.planned;
      if (own.kind === "fails") return { kind: "noPassage", why: own.why };
      const shared = dependsOnWind ? null : planned;
      const memberBehind = beforePlanned(around, advised, k + 1);
      if (shared !== null) return { kind: "felt", exposure: feelUnder(shared, memberWind, memberBehind), gates: own.run.gates };
      const before = (laid: PassageNodes): Before => beforeOtherwise(around, advised, k + 1, memberBehind.sinceAgainst, laid);
      return { kind: "felt", exposure: feel(own.run.passed, memberWind, seaSampler, beside, before), gates: own.run.gates };
    });
    return {
      run,
      planned,
      slower: run.slower.map(({ outcome }) => feltOtherwise(outcome, around, advised, behind)),
      stopped: run.stopped.map((outcome) => feltOtherwise(outcome, around, advised, behind)),
      members,
      sinceAgainst: behind.sinceAgainst?.since ?? null,
      onlyLater: false,
    };
  }

  /** One that only serves the time in hand of those before it. */
  keepOnlyLater(departAt: number): KeptDeparture {
    const { run, around } = this.surroundings.settle(departAt, runPlanned);
    const planned = run.planned.kind === "fails" ? null : feltWith(run.planned, around, () => beforePlanned(around, run.advised, 0));
    return { run, planned, slower: [], stopped: [], members: [], sinceAgainst: null, onlyLater: true };
  }
}

function feltOtherwise(outcome: Outcome, around: FeltSurroundings, advised: WayArrives | null, planned: Before): Exposure | null {
  if (outcome.kind === "fails") return null;
  return feltWith(outcome, around, (nodes) => beforeOtherwise(around, advised, 0, planned.sinceAgainst, nodes));
}

type Arrives = Extract<Outcome, { readonly kind: "arrives" }>;

function feltWith({ run }: Arrives, { winds, sea, beside }: FeltSurroundings, before: (nodes: PassageNodes) => Before): Exposure {
  return feel(run.passed, winds[0] as WindSampler, sea, beside, before);
}

/**
 * Judges kept departures by limits and decides each that has a line: pure and quick, nothing is run again. `memo` remembers what was judged
 * of these departures before, so that a changed limit costs only itself.
 */
export function judgeBoard(
  kept: readonly KeptDeparture[],
  limits: readonly Limit[],
  weather: WeatherToFeel,
  memo: MarginMemo = new MarginMemo(),
): readonly BoardRow[] {
  const asked = limits.map((limit) => memo.of(limit, coveredOf(weather, limit.felt)));
  const judgeAll = (exposure: Exposure): readonly Margin[] => {
    const place = memo.placeOf(exposure);
    return asked.map((limit) => limit.judge(exposure, place));
  };
  const passesAny = (exposure: Exposure): boolean => {
    const place = memo.placeOf(exposure);
    return asked.some((limit) => limit.passesNever(exposure, place));
  };
  const tried: Tried["outcome"][] = kept.map((one) => outcomeOf(one.planned, one.run.planned, judgeAll));
  const listed = kept.filter((one) => !one.onlyLater);
  return listed.map((one, i) => {
    const outcome = tried[i] as Tried["outcome"];
    const gates = gatesOf(one.run);
    const first = outcome.kind === "judged" ? decide(outcome.margins, null, gates) : noPassage(outcome.why);
    const closed = first.kind === "closed";
    let agree = 1;
    for (const member of one.members) {
      const otherClosed =
        member.kind === "felt" ? isShut(member.gates) || passesAny(member.exposure) : noPassage(member.why).kind === "closed";
      if (otherClosed === closed) agree++;
    }
    const inHand = closed || outcome.kind !== "judged" ? null : inHandOf(kept, tried, i, judgeAll);
    return {
      departAt: one.run.departAt,
      advised: one.run.advised,
      arrivalAt: one.run.planned.kind === "arrives" ? one.run.planned.run.arrivalAt : null,
      // A current that is not fit shuts nothing: what is closed is so without it.
      verdict: closed || outcome.kind !== "judged" ? first : decide(outcome.margins, inHand, gates, unfitOf(one)),
      margins: outcome.kind === "judged" ? outcome.margins : [],
      inHand,
      forecastsAgreeing: { agree, of: one.members.length + 1 },
      sinceAgainst: one.sinceAgainst,
      gates,
    };
  });
}

function unfitOf({ planned }: KeptDeparture): NoAnswer | null {
  return planned === null ? null : currentNotFit(planned);
}

function outcomeOf(exposure: Exposure | null, outcome: Outcome, judgeAll: (exposure: Exposure) => readonly Margin[]): Tried["outcome"] {
  if (outcome.kind === "fails") return { kind: "noPassage", why: outcome.why };
  if (exposure === null) throw new Error("a passage that arrives was not felt");
  return { kind: "judged", margins: judgeAll(exposure), arrivalAt: outcome.run.arrivalAt, gates: outcome.run.gates };
}

function gatesOf({ planned, gateCures }: DepartureRun): BoardRow["gates"] {
  if (planned.kind === "fails") return { passed: [], fault: null, cures: [] };
  const { gates } = planned.run;
  return { passed: gatesPassed(gates), fault: gateFaultOf(gates), cures: gateCures };
}

function isShut(gates: GatesRun): boolean {
  const fault = gateFaultOf(gates);
  return fault !== null && fault.kind !== "notGiven";
}

/** No passage: closed where the water forbids it, not judged (so marginal) where the forecast does not reach. */
function noPassage(why: Extract<DecidedBy, { kind: "noPassage" }>["why"]): Verdict {
  const unknown = why.code === "not-covered-place" || why.code === "not-covered-time" || why.code === "not-covered-variable";
  return { kind: unknown ? "marginal" : "closed", decidedBy: { kind: "noPassage", why }, smallestMargin: null };
}

function inHandOf(
  kept: readonly KeptDeparture[],
  tried: readonly Tried["outcome"][],
  i: number,
  judgeAll: (exposure: Exposure) => readonly Margin[],
): TimeInHand {
  const one = kept[i] as KeptDeparture;
  const planned = tried[i] as Tried["outcome"];
  const from = one.run.departAt;
  const laterCases: Tried[] = [];
  for (let k = i; k < kept.length; k++) {
    const amount = (kept[k] as KeptDeparture).run.departAt - from;
    if (amount <= LATEST_TRIED_SECONDS) laterCases.push({ amount, outcome: tried[k] as Tried["outcome"] });
  }
  const later = firstDoor(laterCases);
  const laterDeparture: Slack = { seconds: later.amount, door: later.door };
  const others = (exposures: readonly (Exposure | null)[], outcomes: readonly Outcome[], amounts: readonly number[]): readonly Tried[] => [
    { amount: amounts[0] as number, outcome: planned },
    ...outcomes.map((outcome, k) => ({ amount: amounts[k + 1] as number, outcome: outcomeOf(exposures[k] ?? null, outcome, judgeAll) })),
  ];
  const slowness = firstDoor(
    others(
      one.slower,
      one.run.slower.map(({ outcome }) => outcome),
      [0, ...one.run.slower.map(({ speedShare }) => 1 - speedShare)],
    ),
  );
  // An engine that is never used has no case to try: no stop of it shuts a door.
  const engine =
    one.run.stopped.length === 0
      ? { amount: Math.max(...ENGINE_STOPS_SECONDS), door: null }
      : firstDoor(others(one.stopped, one.run.stopped, ENGINE_STOPS_SECONDS));
  const slower = { seconds: lateBy(one, slowness.amount), door: slowness.door, speedShare: 1 - slowness.amount };
  return timeInHand(laterDeparture, slower, { seconds: engine.amount, door: engine.door });
}

/** When she is off the entrance: what is waited before a gate there or further in takes up lateness, and does not count. */
function entranceReachedAt({ gates, openWaterUntil }: PassageRun): number {
  return gates.into?.startAt ?? openWaterUntil;
}

/** How much later the boat is there at a share of slowness between the speeds tried, by straight lines, seconds. */
function lateBy(one: KeptDeparture, slowness: number): number {
  const plannedAt = one.run.planned.kind === "arrives" ? entranceReachedAt(one.run.planned.run) : 0;
  let before = { slowness: 0, late: 0 };
  for (const { speedShare, outcome } of one.run.slower) {
    if (outcome.kind === "fails") break;
    const now = { slowness: 1 - speedShare, late: entranceReachedAt(outcome.run) - plannedAt };
    if (slowness <= now.slowness) {
      return before.late + ((slowness - before.slowness) / (now.slowness - before.slowness)) * (now.late - before.late);
    }
    before = now;
  }
  return before.late;
}

/** A run of neighbouring departures with one verdict's kind. */
export interface Spell {
  readonly kind: Verdict["kind"];
  readonly rows: readonly BoardRow[];
}

/** The board's rows gathered into spells of open, marginal and closed. */
export function spellsOf(rows: readonly BoardRow[]): readonly Spell[] {
  const spells: { kind: Verdict["kind"]; rows: BoardRow[] }[] = [];
  for (const row of rows) {
    const last = spells[spells.length - 1];
    if (last !== undefined && last.kind === row.verdict.kind) last.rows.push(row);
    else spells.push({ kind: row.verdict.kind, rows: [row] });
  }
  return spells;
}

import type { NoAnswer } from "../answers/index.ts";
import {
  bowOnDestination,
  type Crossing,
  carryOut,
  earliestOf,
  holdTrack,
  oneHeading,
  pilotageSeconds,
  recommended,
  squareInLanes,
  type Way,
  type WayArrives,
  waysAndBest,
} from "../passage/index.ts";
import { type GateCure, gateCures } from "./gates/cure.ts";
import { type GatesRun, gateFaultOf, intoHarbour, type OutOfHarbour, outOfHarbour } from "./gates/pass-gates.ts";
import type { Passed } from "./passage-nodes.ts";
import type { Pilotage, Trial } from "./trial.ts";

/**
 * Speeds tried for the time in hand, as shares of the planned one. Where the first slower one has no passage, the step to it is halved
 * (0.95) and at most once again (0.975), until there is one: else the time in hand would be nothing at once.
 */
export const SPEED_SHARES = [1, 0.9, 0.8] as const;
const SPEED_HALVINGS = 2;
/** Engine stops tried, seconds; each at the axis of the stream, where drifting costs most. */
export const ENGINE_STOPS_SECONDS = [0, 3600, 7200, 14400] as const;
/** How much later than planned a departure is tried for the time in hand, seconds: a day (common practice: beyond it one decides anew). */
export const LATEST_TRIED_SECONDS = 24 * 3600;

/** A passage gone through from berth to berth. */
export interface PassageRun {
  readonly passed: Passed;
  readonly openWaterFrom: number;
  readonly openWaterUntil: number;
  readonly arrivalAt: number;
  /** The gates on the way. One that is missed ends them; the rest is run as if it had been open. */
  readonly gates: GatesRun;
}

/** The advised order with the boat at a share of her planned speed. */
export interface SlowerRun {
  readonly speedShare: number;
  readonly outcome: Outcome;
}

export type Outcome = { readonly kind: "arrives"; readonly run: PassageRun } | { readonly kind: "fails"; readonly why: NoAnswer };

/** Everything that was run for one departure. Limits are not in it: a new limit never runs a passage again. */
export interface DepartureRun {
  /** From the berth. */
  readonly departAt: number;
  readonly ways: readonly Way[];
  readonly advised: WayArrives | null;
  /** The advised way as planned; a failure tells why no way arrives. */
  readonly planned: Outcome;
  /** At each of `SPEED_SHARES` after the first, and at those between that halving asks for, fastest first. */
  readonly slower: readonly SlowerRun[];
  /** The advised order with the engine stopped for each of `ENGINE_STOPS_SECONDS` after the first; none for a boat that never uses an engine. */
  readonly stopped: readonly Outcome[];
  /** What cures a gate that the planned passage misses, the smallest change first; none where none is missed, or nothing does. */
  readonly gateCures: readonly GateCure[];
}

/** Runs every way for one departure from the berth and the advised one's slower and stopped kin. Each departure stands alone. */
export function runDeparture(trial: Trial, departAt: number): DepartureRun {
  const { crossing } = trial;
  const { ways, advised, left, planned } = plan(trial, departAt);
  if (advised === null || planned.kind === "fails") return { departAt, ways, advised, planned, ...NO_KIN };
  const whole = (open: WayArrives["track"]): Outcome => ({ kind: "arrives", run: berthToBerth(trial, left, open) });
  const at = (speedShare: number): SlowerRun => {
    const { run } = carryOut(crossing, advised, { speedFactor: speedShare });
    return { speedShare, outcome: run.kind === "fails" ? run : whole(run.track) };
  };
  const slower = SPEED_SHARES.slice(1).map(at);
  for (let halvings = 0; halvings < SPEED_HALVINGS && slower[0]?.outcome.kind === "fails"; halvings++) {
    slower.unshift(at((SPEED_SHARES[0] + slower[0].speedShare) / 2));
  }
  const stops = crossing.engineStopped === null ? [] : ENGINE_STOPS_SECONDS.slice(1);
  const stopped = stops.map((seconds): Outcome => {
    const { run } = carryOut(crossing, advised, { stop: { alongMetres: advised.axis.alongMetres, seconds } });
    return run.kind === "fails" ? run : whole(run.track);
  });
  return { departAt, ways, advised, planned, slower, stopped, gateCures: curesOf(trial, departAt, advised, planned.run) };
}

const NO_KIN = { slower: [], stopped: [], gateCures: [] } as const;

function curesOf(trial: Trial, departAt: number, advised: WayArrives, run: PassageRun): readonly GateCure[] {
  if (gateFaultOf(run.gates)?.kind !== "missed") return [];
  return gateCures({
    trial,
    departAt,
    advised,
    gates: run.gates,
    arrivesFrom: (openFrom) => {
      const way = sameWay(trial.crossing, openFrom, advised) ?? wayNamed(trial.crossing, openFrom, advised.name);
      return way?.kind === "arrives" ? way.arrivalAt : null;
    },
    passes: (at) => {
      const { planned } = plan(trial, at);
      return planned.kind === "arrives" && gateFaultOf(planned.run.gates) === null;
    },
  });
}

/** Runs every way for one departure, without the advised one's slower and stopped kin. */
export function runPlanned(trial: Trial, departAt: number): DepartureRun {
  const { ways, advised, planned } = plan(trial, departAt);
  return { departAt, ways, advised, planned, ...NO_KIN };
}

/**
 * Runs the way that `control` advises under another forecast's wind, its heading sought near the control's; where that way does not
 * arrive in this wind, or nothing is advised, every way is tried.
 */
export function runUnder(trial: Trial, departAt: number, control: WayArrives | null): Outcome {
  const left = outOfHarbour(trial, departAt);
  const way = control === null ? null : sameWay(trial.crossing, left.openWaterFrom, control);
  return way?.kind === "arrives" ? { kind: "arrives", run: berthToBerth(trial, left, way.track) } : plan(trial, departAt).planned;
}

function wayNamed(crossing: Crossing, openFrom: number, name: WayArrives["name"]): Way | null {
  return waysAndBest(crossing, openFrom, { earliestOnly: true }).ways.find((way) => way.name === name) ?? null;
}

/** The control's way by itself; null for one that needs the others' look at the stream. */
function sameWay(crossing: Crossing, openFrom: number, control: WayArrives): Way | null {
  const steer = control.orders[0]?.steer;
  if (control.name === "oneHeading" && steer?.kind === "heading") return oneHeading(crossing, openFrom, { near: steer.headingDegTrue });
  if (control.name === "squareInLanes") return squareInLanes(crossing, openFrom, { earliestOnly: true });
  if (control.name === "holdTrack") return holdTrack(crossing, openFrom);
  return control.name === "bowOnDestination" ? bowOnDestination(crossing, openFrom) : null;
}

interface Planned {
  readonly ways: readonly Way[];
  readonly advised: WayArrives | null;
  readonly left: OutOfHarbour;
  readonly planned: Outcome;
}

function plan(trial: Trial, departAt: number): Planned {
  const { crossing } = trial;
  const left = outOfHarbour(trial, departAt);
  const found = waysAndBest(crossing, left.openWaterFrom, { earliestOnly: true });
  const { ways } = found;
  const advised = recommended(ways, earliestOf(found));
  const planned: Outcome =
    advised === null ? { kind: "fails", why: firstWhy(ways) } : { kind: "arrives", run: berthToBerth(trial, left, advised.track) };
  return { ways, advised, left, planned };
}

/** Adds the harbour legs to an open-water track. */
export function berthToBerth(trial: Trial, left: OutOfHarbour, track: WayArrives["track"]): PassageRun {
  const { open, run, chain, openWaterUntil, arrivalAt } = intoHarbour(trial, track);
  return {
    passed: { out: left.run, open, into: run },
    openWaterFrom: open.atSeconds[0] as number,
    openWaterUntil,
    arrivalAt,
    gates: { out: left.chain, into: chain },
  };
}

/** The reason to tell when no way arrives: that of the simplest way. */
function firstWhy(ways: readonly Way[]): NoAnswer {
  for (const way of ways) if (way.kind === "fails") return way.why;
  throw new Error("no way was tried");
}

/** Seconds under way on the legs in and out of harbour; what is waited before a gate comes on top. */
export function harbourSeconds(trial: Trial): { readonly out: number; readonly into: number } {
  const { plane } = trial.crossing.line;
  const of = (leg: Pilotage | null): number => (leg === null ? 0 : pilotageSeconds(plane, leg.points, leg.speedOverGroundMps));
  return { out: of(trial.out), into: of(trial.into) };
}

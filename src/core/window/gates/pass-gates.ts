import { type PilotageRun, runPilotage, type Track } from "../../passage/index.ts";
import type { ChainRun, GateChain, GateFault, GatePassed } from "../../places/index.ts";
import type { Trial } from "../trial.ts";
import { type Hold, lyingOffAtEnd, withHolds } from "./held-leg.ts";

/** The gates of a passage as they were gone through; null where a leg has none. */
export interface GatesRun {
  readonly out: ChainRun | null;
  readonly into: ChainRun | null;
}

/** Out of harbour, through its gates. */
export interface OutOfHarbour {
  /** Null where there is neither a leg nor a wait. */
  readonly run: PilotageRun | null;
  readonly chain: ChainRun | null;
  readonly openWaterFrom: number;
}

/** Into harbour, through its gates. */
export interface IntoHarbour {
  /** The open water, with the wait off the entrance at its end. */
  readonly open: Track;
  readonly run: PilotageRun | null;
  readonly chain: ChainRun | null;
  /** When the entrance is passed. */
  readonly openWaterUntil: number;
  readonly arrivalAt: number;
}

/** What shuts a passage, or is not known of its gates: the first on the way; null where all are passed. */
export function gateFaultOf({ out, into }: GatesRun): GateFault | null {
  return out?.fault ?? into?.fault ?? null;
}

/** All gates passed, in order of time; what lies behind one that is missed is left out. */
export function gatesPassed({ out, into }: GatesRun): readonly GatePassed[] {
  return [...(out?.passed ?? []), ...(out?.fault == null ? (into?.passed ?? []) : [])];
}

/** Seconds that are waited before a gate. */
export function waitedSeconds({ reachedAt, passedAt }: GatePassed): number {
  return passedAt - reachedAt;
}

/** Leaves the berth at `departAt`. Beyond a gate that is missed she is run on as if it were open: what closes her is told all the same. */
export function outOfHarbour({ crossing, out, gates }: Trial, departAt: number): OutOfHarbour {
  const { plane, fromX, fromY } = crossing.line;
  const chain = gates?.out?.run(departAt) ?? null;
  const holds = holdsOf(chain);
  if (out === null && holds.length === 0) return { run: null, chain, openWaterFrom: departAt };
  // Without a leg the wait is where open water begins.
  const leg = out ?? { points: [plane.toPosition(fromX, fromY)], speedOverGroundMps: 1 };
  const run = withHolds(runPilotage(plane, leg.points, leg.speedOverGroundMps, departAt), holds);
  return { run, chain, openWaterFrom: run.atSeconds[run.count - 1] as number };
}

/** Comes in from the end of a track over open water. */
export function intoHarbour({ crossing, into, gates }: Trial, track: Track): IntoHarbour {
  const reachedAt = track.atSeconds[track.count - 1] as number;
  const chain = gates?.into?.run(reachedAt) ?? null;
  const holds = holdsOf(chain);
  const outside = chain === null ? 0 : waitsOutside(chain, gates?.into ?? null);
  const openWaterUntil = outside === 0 ? reachedAt : (holds[outside - 1] as Hold).untilAt;
  const open = lyingOffAtEnd(track, openWaterUntil, crossing.around.current);
  if (into === null) return { open, run: null, chain, openWaterUntil, arrivalAt: openWaterUntil };
  const run = withHolds(runPilotage(track.plane, into.points, into.speedOverGroundMps, openWaterUntil), holds.slice(outside));
  return { open, run, chain, openWaterUntil, arrivalAt: run.atSeconds[run.count - 1] as number };
}

/** The waits afloat: before an office behind the berth nobody lies in the way. */
function holdsOf(chain: ChainRun | null): readonly Hold[] {
  return (chain?.passed ?? []).filter(lies).map(({ reachedAt, passedAt }) => ({ fromAt: reachedAt, untilAt: passedAt }));
}

function lies(passed: GatePassed): boolean {
  return passed.gate.office === null && waitedSeconds(passed) > 0;
}

/** How many of the waits are before the entrance itself, where open water ends. */
function waitsOutside({ passed }: ChainRun, chain: GateChain | null): number {
  const atEntrance = passed.filter((one, k) => chain?.stops[k]?.afterSeconds === 0 && lies(one));
  return atEntrance.length;
}

import type { OpenSpan } from "../calendar/index.ts";
import { type GateStop, type InletClock, inletClock } from "../places/index.ts";
import type { TidalStream } from "../water/index.ts";
import type { Prepared } from "./prepare.ts";

/** An inlet's clock, and the stream that runs in it, which knows what is doubtful of itself; null where none is stated. */
export interface InletAnswer {
  readonly prepared: Prepared;
  readonly clock: InletClock;
  readonly stream: TidalStream | null;
}

/** The gates of a passage that are passed afloat, out of harbour and in, in order of the way. */
export function inletsOf(prepared: Prepared): readonly GateStop[] {
  const { gates } = prepared.trialOf(0);
  return [gates?.out, gates?.into]
    .flatMap((chain) => chain?.stops ?? [])
    .filter(({ role, gate }) => role === "gate" && gate.office === null);
}

/** Whether a gate is a bar or a cut, so that it is the one meant where none is named. */
export function isEntrance(stop: GateStop): boolean {
  return stop.gate.needs.some(({ kind }) => kind === "entrance");
}

/** The clock of one gate of a passage over a stretch of time. */
export function inletAt(prepared: Prepared, stop: GateStop, within: OpenSpan, everySeconds?: number): InletAnswer {
  const names = stop.gate.needs.flatMap((need) => (need.kind === "entrance" ? [need.entrance.stream?.of] : []));
  const stream = prepared.streams.find(({ name }) => names.includes(name)) ?? null;
  return { prepared, clock: inletClock(stop, within, everySeconds), stream };
}

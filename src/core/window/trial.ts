import type { Position } from "../earth/index.ts";
import type { Crossing } from "../passage/index.ts";
import type { GateChain } from "../places/index.ts";

/** A fixed track in or out of harbour, at a speed over the ground. */
export interface Pilotage {
  readonly points: readonly Position[];
  readonly speedOverGroundMps: number;
}

/** What departures are tried with, apart from the weather that is felt and the limits that judge. */
export interface Trial {
  readonly crossing: Crossing;
  readonly out: Pilotage | null;
  readonly into: Pilotage | null;
  /** The gates on the legs out of harbour and in; left out: none. */
  readonly gates?: TrialGates;
}

export interface TrialGates {
  readonly out: GateChain | null;
  readonly into: GateChain | null;
}

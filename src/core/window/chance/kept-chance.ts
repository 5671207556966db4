import type { Position } from "../../earth/index.ts";
import type { KeptDeparture } from "../board.ts";
import type { Exposure } from "../exposure.ts";
import { type GatesRun, gateFaultOf } from "../gates/pass-gates.ts";
import type { Limit } from "../limit.ts";
import { type KeptSamples, keepEnd, keepFelt, NO_PASSAGE, roomForSamples, UNKNOWN } from "./kept-samples.ts";
import type { CrossingsTried } from "./try-crossings.ts";

/** All that the chance of a departure is judged from. */
export interface KeptChance extends CrossingsTried {
  /** The forecasts as they stand, member 0 first, nothing else being other than planned; null where there is only one. */
  readonly forecasts: KeptSamples | null;
  /** Where the passage ends, for the light there. */
  readonly berth: Position;
}

/** Puts the crossings tried for a departure together with what its forecasts say by themselves. */
export function keepChance(tried: CrossingsTried, { run, planned, members }: KeptDeparture, limits: readonly Limit[]): KeptChance {
  if (planned === null) throw new Error("crossings were tried where no way arrives");
  const last = planned.count - 1;
  const berth = planned.plane.toPosition(planned.xMetres[last] as number, planned.yMetres[last] as number);
  if (members.length === 0) return { ...tried, forecasts: null, berth };
  const forecasts = roomForSamples(members.length + 1, limits);
  const keep = (sample: number, exposure: Exposure, gates: GatesRun): void => {
    const fault = gateFaultOf(gates);
    if (fault === null) keepFelt(forecasts, sample, exposure);
    else keepEnd(forecasts, sample, fault.kind === "notGiven" ? UNKNOWN : NO_PASSAGE);
  };
  if (run.planned.kind === "arrives") keep(0, planned, run.planned.run.gates);
  members.forEach((member, k) => {
    if (member.kind === "felt") keep(k + 1, member.exposure, member.gates);
    else keepEnd(forecasts, k + 1, "coveredUntil" in member.why ? UNKNOWN : NO_PASSAGE);
  });
  return { ...tried, forecasts, berth };
}

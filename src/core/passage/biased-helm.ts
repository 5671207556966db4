import type { BoatModel } from "../boat/index.ts";
import { wrap360Deg } from "../units/index.ts";
import type { BoatState, Helm, Until } from "./helm.ts";
import type { Runner } from "./run-legs.ts";
import type { LegEnd } from "./simulate.ts";
import type { TrackRecorder } from "./track.ts";

/**
 * Runs a boat whose headings come out so many degrees to starboard of what was ordered, as by a compass that is off or a helm who favours
 * one side. A held track and a bow on the destination are watched by the eye or by bearings and come out as ordered.
 */
export class BiasedHelm implements Runner {
  private readonly under: Runner;
  private readonly biasDeg: number;

  constructor(under: Runner, biasDeg: number) {
    this.under = under;
    this.biasDeg = biasDeg;
  }

  run(
    boat: BoatModel,
    helm: Helm,
    until: Until,
    start: BoatState,
    stepSeconds: number,
    record: TrackRecorder | null,
    giveUpAt?: number,
    heedLand?: boolean,
  ): LegEnd {
    const steered: Helm =
      helm.kind === "heading" ? { kind: "heading", headingDegTrue: wrap360Deg(helm.headingDegTrue + this.biasDeg) } : helm;
    return this.under.run(boat, steered, until, start, stepSeconds, record, giveUpAt, heedLand);
  }
}

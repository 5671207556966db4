import { type BoatModel, driftingModel } from "../boat/index.ts";
import type { Surroundings } from "./helm.ts";
import type { Line } from "./line.ts";
import { DEFAULT_STEP_SECONDS, Simulator } from "./simulate.ts";

/** All that the open-water part of one passage is run with: the line, the surroundings, the boat, the fineness of the steps. */
export interface Crossing {
  readonly line: Line;
  readonly around: Surroundings;
  readonly boat: BoatModel;
  /** The boat with her engine stopped: under sail, or drifting; null where she never uses an engine, so that it can't stop. */
  readonly engineStopped: BoatModel | null;
  readonly simulator: Simulator;
  readonly stepSeconds: number;
}

/** Puts a crossing together; `stepSeconds` is finer only for checks. With her engine stopped a boat drifts, unless told. */
export function crossingOf(
  line: Line,
  around: Surroundings,
  boat: BoatModel,
  stepSeconds: number = DEFAULT_STEP_SECONDS,
  engineStopped: BoatModel | null = driftingModel(),
): Crossing {
  return { line, around, boat, engineStopped, simulator: new Simulator(around), stepSeconds };
}

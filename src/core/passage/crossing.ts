import type { BoatModel } from "../boat/index.ts";
import type { Line } from "./line.ts";
import { DEFAULT_STEP_SECONDS, Simulator, type Surroundings } from "./simulate.ts";

/** All that the open-water part of one passage is run with: the line, the surroundings, the boat, the fineness of the steps. */
export interface Crossing {
  readonly line: Line;
  readonly around: Surroundings;
  readonly boat: BoatModel;
  readonly simulator: Simulator;
  readonly stepSeconds: number;
}

/** Puts a crossing together; `stepSeconds` is finer only for checks. */
export function crossingOf(line: Line, around: Surroundings, boat: BoatModel, stepSeconds: number = DEFAULT_STEP_SECONDS): Crossing {
  return { line, around, boat, simulator: new Simulator(around), stepSeconds };
}

import type { GridData } from "./grid-data.ts";
import { type MeshBox, meshBoxOf } from "./mesh-box.ts";

/** What a grid covers, for people: its corners, its times, its steps. Degrees; seconds of the UTC epoch. */
export interface Covering extends MeshBox {
  readonly from: number;
  readonly until: number;
  readonly steps: number;
  /** The longest time between two steps, seconds; 0 for a single step. */
  readonly longestStepSeconds: number;
}

/** Corners, times and longest step of a grid. */
export function coveringOf(data: GridData): Covering {
  let longestStepSeconds = 0;
  for (let t = 1; t < data.times.length; t++) {
    longestStepSeconds = Math.max(longestStepSeconds, (data.times[t] as number) - (data.times[t - 1] as number));
  }
  return {
    ...meshBoxOf(data.mesh),
    from: data.times[0] as number,
    until: data.times[data.times.length - 1] as number,
    steps: data.times.length,
    longestStepSeconds,
  };
}

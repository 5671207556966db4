import type { GridData } from "./grid-data.ts";

/** What a grid covers, for people: its corners, its times, its steps. Degrees; seconds of the UTC epoch. */
export interface Covering {
  readonly southDeg: number;
  readonly northDeg: number;
  readonly westDeg: number;
  readonly eastDeg: number;
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
    southDeg: data.latitudesDeg[0] as number,
    northDeg: data.latitudesDeg[data.latitudesDeg.length - 1] as number,
    westDeg: data.longitudesDeg[0] as number,
    eastDeg: data.longitudesDeg[data.longitudesDeg.length - 1] as number,
    from: data.times[0] as number,
    until: data.times[data.times.length - 1] as number,
    steps: data.times.length,
    longestStepSeconds,
  };
}

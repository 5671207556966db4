/** One train of waves: a swell or a wind sea, each by itself. */
export interface WaveSystem {
  /** Significant height, metres. */
  readonly heightMetres: number;
  /** Peak period at a fixed place, seconds. */
  readonly periodSeconds: number;
  /** Where the waves come from, degrees true. */
  readonly fromDegTrue: number;
}

/** Throws, quoting the value, unless it is a finite number of at least `least` (or above it, with `above`). */
export function mustReach(name: string, value: number, least: number, above: "least" | "above" = "least"): void {
  const reaches = above === "above" ? value > least : value >= least;
  if (!Number.isFinite(value) || !reaches)
    throw new Error(`${name} ${value}: expected a number ${above === "above" ? "above" : "of at least"} ${least}`);
}

/** Throws unless the depth is null (deep water) or above 0. */
export function mustBeDepth(name: string, depthMetres: number | null): void {
  if (depthMetres !== null) mustReach(name, depthMetres, 0, "above");
}

/** A current under a nanometre a second is none: its squares would be lost in rounding. */
export const LEAST_CURRENT_MPS = 1e-9;

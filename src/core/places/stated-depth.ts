/** A depth that the skipper states for a shallow on the way out of harbour or in. Heights and depths in metres. */
export interface StatedDepth {
  readonly name: string;
  readonly on: "out" | "in";
  /** Charted; below nought where it dries. */
  readonly depthMetres: number;
  /** `unknown`: what the depth is measured from is not known, so that nothing can be said of it. */
  readonly datum: "chart" | "unknown";
  /** Height of the tide above chart datum to reckon with, as stated; null: none, at chart datum. */
  readonly tideAboveChartDatumMetres: number | null;
  /** The name of the tide that is computed for when the boat is there; left out or null: the stated height holds. */
  readonly tide?: string | null;
  /** How far along the leg from its beginning it lies, metres; `berth`: at that end; left out or null: anywhere on it, the worst counts. */
  readonly along?: number | "berth" | null;
  /** What to allow for the boat's fall in the waves; null: the significant height there. */
  readonly wavesMetres: number | null;
}

/**
 * Under-keel clearance, metres: charted depth and tide less draught and what the boat falls in the waves (the significant height, unless
 * told: common practice). Negative where she touches. `computedMetres`: the height of the named tide then, above chart datum.
 */
export function underKeelMetres(
  { depthMetres, tideAboveChartDatumMetres }: StatedDepth,
  draughtMetres: number,
  allowedForWavesMetres: number,
  computedMetres: number | null = null,
): number {
  return depthMetres + (computedMetres ?? tideAboveChartDatumMetres ?? 0) - draughtMetres - allowedForWavesMetres;
}

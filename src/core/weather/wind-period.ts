import type { EpochSeconds } from "../units/index.ts";

/**
 * A stretch of time with one wind, as a forecaster writes it: `THU 0600-1200 NE 12-16 G20`.
 *
 * The direction is an arc, clockwise from `fromDegTrue` over `arcDeg` (0 for a single direction, 360 for "variable"); the speed is a
 * range. Nothing is averaged: whoever judges takes the worse end.
 */
export interface WindPeriod {
  readonly from: EpochSeconds;
  readonly until: EpochSeconds;
  readonly fromDegTrue: number;
  readonly arcDeg: number;
  readonly speedLowMps: number;
  readonly speedHighMps: number;
  /** null: the forecaster gave none; a stated factor on the speed is used then. */
  readonly gustMps: number | null;
}

/** A stretch of time with one sea: a range of significant heights and a range of periods (equal ends where one number is given). */
export interface SeaPeriod {
  readonly from: EpochSeconds;
  readonly until: EpochSeconds;
  readonly heightLowMetres: number;
  readonly heightHighMetres: number;
  /** null where the forecaster gave no period. */
  readonly periodLowSeconds: number | null;
  readonly periodHighSeconds: number | null;
}

import { GRAVITY_MPS2 } from "../boat/index.ts";
import { BREAKING_HEIGHT_OVER_LENGTH, BREAKING_STEEPNESS } from "./breaking.ts";

/**
 * What a sea that is steeper still, or that the stream blocks, counts as: 1/7, at which every single wave breaks. So between two moments
 * a steepness runs in a straight line and not from infinity. Ours.
 */
export const STEEPEST_COUNTED = BREAKING_HEIGHT_OVER_LENGTH;

/** The slots of `seaAgainstInto`. */
export const AGAINST_STEEPNESS = 0;
export const AGAINST_HEIGHT_METRES = 1;
/** At the peak, metres; 0 of a sea without height. */
export const AGAINST_LENGTH_METRES = 2;
export const AGAINST_SLOTS = 3;

/**
 * Writes what becomes of a sea that runs against `rateMps` of stream (with it, below 0) in deep water: `waveOnCurrent` in numbers alone, for what is
 * asked a million times. Its significant steepness, at most `STEEPEST_COUNTED`, 0 of a sea without height; and the significant height
 * that stands, metres: as wave action has it, no more than it carries without breaking, and never less than in still water (where it
 * breaks or is blocked it was that high before).
 *
 * @example
 * const out = new Float64Array(AGAINST_SLOTS);
 * seaAgainstInto(out, 1, 6, 3 * MPS_PER_KNOT);
 * out[AGAINST_STEEPNESS] // => 0.046909
 * out[AGAINST_HEIGHT_METRES] // => 1.65279
 */
export function seaAgainstInto(out: Float64Array, heightMetres: number, periodSeconds: number, rateMps: number): void {
  if (heightMetres === 0) {
    out[AGAINST_STEEPNESS] = 0;
    out[AGAINST_HEIGHT_METRES] = 0;
    out[AGAINST_LENGTH_METRES] = 0;
    return;
  }
  // 1 + 4U/c0: nothing is left where the stream blocks the waves.
  const squared = 1 - (8 * Math.PI * rateMps) / (GRAVITY_MPS2 * periodSeconds);
  if (!(squared > 0)) {
    // At blocking the length is four times that of waves whose speed is the stream's own.
    const shortest = (8 * Math.PI * rateMps * rateMps) / GRAVITY_MPS2;
    const carries = BREAKING_STEEPNESS * shortest;
    out[AGAINST_STEEPNESS] = STEEPEST_COUNTED;
    out[AGAINST_HEIGHT_METRES] = Math.max(carries, heightMetres);
    out[AGAINST_LENGTH_METRES] = shortest;
    return;
  }
  const root = Math.sqrt(squared);
  const speedShare = (1 + root) / 2;
  const stands = heightMetres / (speedShare * Math.sqrt(root));
  const length = (GRAVITY_MPS2 * periodSeconds * periodSeconds * speedShare * speedShare) / (2 * Math.PI);
  const carries = BREAKING_STEEPNESS * length;
  const steepness = stands / length;
  const held = Math.min(stands, carries);
  out[AGAINST_STEEPNESS] = Math.min(steepness, STEEPEST_COUNTED);
  out[AGAINST_HEIGHT_METRES] = Math.max(held, heightMetres);
  out[AGAINST_LENGTH_METRES] = length;
}

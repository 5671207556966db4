import type { HeadSeaRule } from "./head-seas.ts";

/**
 * What the boat does on a heading, written into by `BoatModel.propelInto`. Speeds m/s.
 */
export interface Propulsion {
  /** Speed through the water along the way the boat goes through it (leeway is a turn of it, not a loss). */
  speedThroughWaterMps: number;
  /** Degrees by which the way through the water lies to starboard of the heading (negative: to port). */
  leewayDeg: number;
  engineOn: boolean;
  burnLitresPerHour: number;
}

/**
 * A boat's speed through the water. Power, sail, motor-sailing and drifting stand behind the same door.
 */
export interface BoatModel {
  /** False when neither speed nor leeway depends on wind or sea: then one track serves every forecast. */
  readonly dependsOnWind: boolean;
  /** How head seas slow her, on top of what `propelInto` writes; left out or null: not at all. */
  readonly headSeas?: HeadSeaRule | null;
  /**
   * Writes the propulsion at a heading. `headingDegTrue` is where the bow points. The wind is the wind over the water (ground wind less
   * current): `windMps` and the bearing it comes from, degrees true; a calm is 0 and its direction is not read. `engineWasOn` lets the
   * engine rule keep its hysteresis.
   */
  propelInto(out: Propulsion, headingDegTrue: number, windMps: number, windFromDegTrue: number, engineWasOn: boolean): void;
}

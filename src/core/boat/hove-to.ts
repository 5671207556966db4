import { turnDeg, wrap360Deg } from "../units/index.ts";
import type { BoatModel, Propulsion } from "./boat-model.ts";

/**
 * How a boat lies to: drifting at this share of the wind over the water, this far off straight down-wind (Allen & Plourde, Review of
 * Leeway, US Coast Guard CG-D-08-99, 1999: sailing yacht, fin keel, 0.040 at 48°). Hove to by sail or stopped under power a boat may do
 * half or twice that: the skipper's own figure comes first.
 */
export const HOVE_TO_DRIFT_SHARE = 0.04;
export const HOVE_TO_OFF_DOWNWIND_DEG = 48;

/** The side that the wind comes over: it settles to which side of down-wind she goes. */
export type Tack = "port" | "starboard";

/** A boat that lies to on one tack, wherever her bow points: the wind over the water drives her, nothing is burnt. */
export function hoveToModel(tack: Tack): BoatModel {
  return new HoveToBoat(tack === "starboard" ? HOVE_TO_OFF_DOWNWIND_DEG : -HOVE_TO_OFF_DOWNWIND_DEG);
}

class HoveToBoat implements BoatModel {
  readonly dependsOnWind = true;
  private readonly offDownwindDeg: number;

  constructor(offDownwindDeg: number) {
    this.offDownwindDeg = offDownwindDeg;
  }

  propelInto(out: Propulsion, headingDegTrue: number, windMps: number, windFromDegTrue: number): void {
    const towardDegTrue = wrap360Deg(windFromDegTrue + 180 + this.offDownwindDeg);
    out.speedThroughWaterMps = HOVE_TO_DRIFT_SHARE * windMps;
    out.leewayDeg = turnDeg(headingDegTrue, towardDegTrue);
    out.engineOn = false;
    out.burnLitresPerHour = 0;
  }
}

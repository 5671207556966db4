import { mpsFromKnots, RAD_PER_DEG, turnDeg } from "../units/index.ts";
import type { BoatModel, Propulsion } from "./boat-model.ts";
import type { PowerSpec } from "./boat-spec.ts";
import { burnLitresPerHourAt } from "./fuel.ts";
import type { HeadSeaRule } from "./head-seas.ts";
import { CRUISE_SHARE_OF_HULL_SPEED, hullSpeedMps } from "./hull-speed.ts";

/** The wind dead ahead for which a boat's loss of speed is stated: 20 kn over the water. */
export const HEADWIND_LOSS_AT_MPS: number = mpsFromKnots(20);

/** What the engine does at the cruising setting. */
export interface EnginePower {
  /** Speed through the water in a calm, m/s. */
  readonly calmSpeedMps: number;
  readonly estimatedFromWaterline: boolean;
  /** At the cruising setting, whatever the wind; null: not given. */
  readonly burnLitresPerHour: number | null;
  readonly headwindLossShare: number;
}

/**
 * Speed and burn at the cruising setting. Where no speed is given it is a share of the hull speed from the waterline, flagged as an
 * estimate; null when the waterline isn't known either. A burn measured at another speed is scaled by the cube law.
 */
export function enginePower(power: PowerSpec, waterlineLengthMetres: number | null): EnginePower | null {
  const estimated = power.speedMps === null;
  if (estimated && waterlineLengthMetres === null) return null;
  const calmSpeedMps = power.speedMps ?? CRUISE_SHARE_OF_HULL_SPEED * hullSpeedMps(waterlineLengthMetres ?? Number.NaN);
  const burn = power.burnLitresPerHour;
  return {
    calmSpeedMps,
    estimatedFromWaterline: estimated,
    burnLitresPerHour: burn === null ? null : burnLitresPerHourAt(calmSpeedMps, burn, power.burnMeasuredAtMps ?? calmSpeedMps),
    headwindLossShare: power.headwindLossShare,
  };
}

/**
 * Speed under power against the wind, m/s. The stated share of the calm speed is lost into 20 kn dead ahead, scaled with the square of
 * the component of the wind (over the water) from ahead, as a pressure is; wind from abaft the beam gives nothing (an assumption, common
 * practice). Seas are not in it: see `HeadSeaRule`. Never below 0. `cosAngle` is the cosine of the wind's angle off the bow.
 */
export function speedAgainstWindMps(calmSpeedMps: number, headwindLossShare: number, windMps: number, cosAngle: number): number {
  const ahead = windMps * cosAngle;
  if (headwindLossShare === 0 || !(ahead > 0)) return calmSpeedMps;
  const share = ahead / HEADWIND_LOSS_AT_MPS;
  return calmSpeedMps * Math.max(0, 1 - headwindLossShare * share * share);
}

/** A boat under power at one setting of the engine: burn is the same in any wind, and there is no leeway. */
export class PowerBoat implements BoatModel {
  readonly dependsOnWind: boolean;
  readonly headSeas: HeadSeaRule | null;
  private readonly engine: EnginePower;
  private readonly burn: number;

  constructor(engine: EnginePower, headSeas: HeadSeaRule | null = null) {
    this.engine = engine;
    this.headSeas = headSeas;
    this.burn = engine.burnLitresPerHour ?? 0;
    this.dependsOnWind = engine.headwindLossShare > 0 || headSeas !== null;
  }

  propelInto(out: Propulsion, headingDegTrue: number, windMps: number, windFromDegTrue: number): void {
    const { calmSpeedMps, headwindLossShare } = this.engine;
    out.speedThroughWaterMps = calmSpeedMps;
    if (this.dependsOnWind && windMps !== 0) {
      const cosAngle = Math.cos(turnDeg(headingDegTrue, windFromDegTrue) * RAD_PER_DEG);
      if (!(windMps > 0) || Number.isNaN(cosAngle)) {
        throw new Error(`no wind to go against: ${windMps} m/s from ${windFromDegTrue} on heading ${headingDegTrue}`);
      }
      out.speedThroughWaterMps = speedAgainstWindMps(calmSpeedMps, headwindLossShare, windMps, cosAngle);
    }
    out.leewayDeg = 0;
    out.engineOn = true;
    out.burnLitresPerHour = this.burn;
  }
}

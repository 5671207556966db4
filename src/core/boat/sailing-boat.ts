import { RAD_PER_DEG, turnDeg } from "../units/index.ts";
import { apparentWindMps } from "./apparent-wind.ts";
import type { BoatModel, Propulsion } from "./boat-model.ts";
import { type EngineRule, engineRuns } from "./engine-rule.ts";
import type { HeadSeaRule } from "./head-seas.ts";
import { leewayDegFor, sinHeelEstimate } from "./leeway.ts";
import { combinedSpeedMps } from "./motor-sailing.ts";
import { type EnginePower, speedAgainstWindMps } from "./power.ts";
import { sailSpeedMps } from "./sail-speed.ts";
import type { SailTable } from "./sail-table.ts";

/** How sails and engine work together. Speeds m/s, angles degrees. */
export interface SailingSetup {
  readonly table: SailTable;
  /** When the engine runs: never, always (motor-sailing), or by a rule on the speed under sail. */
  readonly engine: "never" | "always" | EngineRule;
  /** null only where the engine never runs. */
  readonly power: EnginePower | null;
  readonly exponent: number;
  readonly headsailOnlyBeyondDeg: number;
  readonly hullSpeedMps: number | null;
  /** null: no leeway is reckoned. */
  readonly leewayCoefficient: number | null;
  readonly leewayCapDeg: number;
  /** Left out or null: head seas don't slow her. */
  readonly headSeas?: HeadSeaRule | null;
}

/**
 * A boat with its sails set. With the engine on, the sails help when the apparent wind that motoring alone would give is beyond the
 * headsail's angle; closer than that the boat motors. Leeway is to leeward whenever the sails draw, reckoned at the speed the boat makes.
 */
export class SailingBoat implements BoatModel {
  readonly dependsOnWind = true;
  readonly headSeas: HeadSeaRule | null;
  private readonly setup: SailingSetup;
  private readonly power: EnginePower;
  private readonly burn: number;
  private readonly cosHeadsail: number;

  constructor(setup: SailingSetup) {
    if (setup.power === null && setup.engine !== "never") throw new Error("a boat that uses its engine has no engine");
    this.setup = setup;
    this.headSeas = setup.headSeas ?? null;
    this.power = setup.power ?? { calmSpeedMps: 0, estimatedFromWaterline: false, burnLitresPerHour: 0, headwindLossShare: 0 };
    this.burn = this.power.burnLitresPerHour ?? 0;
    this.cosHeadsail = Math.cos(setup.headsailOnlyBeyondDeg * RAD_PER_DEG);
  }

  propelInto(out: Propulsion, headingDegTrue: number, windMps: number, windFromDegTrue: number, engineWasOn: boolean): void {
    const { table, engine, exponent, hullSpeedMps, leewayCoefficient, leewayCapDeg } = this.setup;
    const calm = windMps === 0;
    // Positive: the wind is on the starboard side. Not read in a calm.
    const sideDeg = calm ? 0 : turnDeg(headingDegTrue, windFromDegTrue);
    const cosAngle = Math.cos(sideDeg * RAD_PER_DEG);
    const sailMps = sailSpeedMps(table, sideDeg, windMps);
    const engineOn = engine === "always" || (engine !== "never" && engineRuns(engine, sailMps, engineWasOn));

    let speedMps = sailMps;
    let sailsDraw = sailMps > 0;
    if (engineOn) {
      const motorMps = speedAgainstWindMps(this.power.calmSpeedMps, this.power.headwindLossShare, windMps, cosAngle);
      const felt = apparentWindMps(windMps, cosAngle, motorMps);
      sailsDraw = sailsDraw && windMps * cosAngle + motorMps < this.cosHeadsail * felt;
      speedMps = sailsDraw ? combinedSpeedMps(motorMps, sailMps, exponent, hullSpeedMps) : motorMps;
    }

    out.speedThroughWaterMps = speedMps;
    out.leewayDeg = 0;
    if (sailsDraw && leewayCoefficient !== null) {
      const felt = apparentWindMps(windMps, cosAngle, speedMps);
      const cosFelt = felt > 0 ? (windMps * cosAngle + speedMps) / felt : -1;
      const leewayDeg = leewayDegFor(leewayCoefficient, sinHeelEstimate(felt, cosFelt), speedMps, leewayCapDeg);
      out.leewayDeg = sideDeg > 0 ? 0 - leewayDeg : leewayDeg;
    }
    out.engineOn = engineOn;
    out.burnLitresPerHour = engineOn ? this.burn : 0;
  }
}

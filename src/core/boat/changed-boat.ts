import type { BoatModel, Propulsion } from "./boat-model.ts";
import type { HeadSeaRule } from "./head-seas.ts";

/** A boat that lies with its engine stopped and no sail: no way through the water, no burn. (Windage is not reckoned.) */
export function driftingModel(): BoatModel {
  return new DriftingBoat();
}

/**
 * The same boat at `factor` times the speed through the water (0.9: a tenth slower; 1.1: a tenth faster). With the engine on the burn
 * goes by the cube law. Leeway stays as reckoned for the boat's own speed. Throws on a factor that is not above 0.
 */
export function slowed(model: BoatModel, factor: number): BoatModel {
  if (!(factor > 0 && factor < Number.POSITIVE_INFINITY)) throw new Error(`not a factor on the speed: ${factor}`);
  return new SlowedBoat(model, factor);
}

class DriftingBoat implements BoatModel {
  readonly dependsOnWind = false;

  propelInto(out: Propulsion): void {
    out.speedThroughWaterMps = 0;
    out.leewayDeg = 0;
    out.engineOn = false;
    out.burnLitresPerHour = 0;
  }
}

class SlowedBoat implements BoatModel {
  readonly dependsOnWind: boolean;
  readonly headSeas: HeadSeaRule | null;
  private readonly model: BoatModel;
  private readonly factor: number;
  private readonly burnFactor: number;

  constructor(model: BoatModel, factor: number) {
    this.model = model;
    this.factor = factor;
    this.burnFactor = factor * factor * factor;
    this.dependsOnWind = model.dependsOnWind;
    this.headSeas = model.headSeas ?? null;
  }

  propelInto(out: Propulsion, headingDegTrue: number, windMps: number, windFromDegTrue: number, engineWasOn: boolean): void {
    this.model.propelInto(out, headingDegTrue, windMps, windFromDegTrue, engineWasOn);
    out.speedThroughWaterMps *= this.factor;
    out.burnLitresPerHour *= this.burnFactor;
  }
}

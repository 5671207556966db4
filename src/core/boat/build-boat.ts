import { bad, good, type Parsed } from "../answers/index.ts";
import type { BoatModel } from "./boat-model.ts";
import type { BoatSpec } from "./boat-spec.ts";
import { driftingModel } from "./changed-boat.ts";
import { checkBoat } from "./check-boat.ts";
import { type HeadSeaRule, headSeaRule } from "./head-seas.ts";
import { hullSpeedMps } from "./hull-speed.ts";
import { type EnginePower, enginePower, PowerBoat } from "./power.ts";
import { type SailTable, sailTable } from "./sail-table.ts";
import { SailingBoat, type SailingSetup } from "./sailing-boat.ts";

/** The hull speed that caps motor-sailing, m/s: as stated, else from the waterline; null when neither is known. */
export function hullSpeedCapMps(boat: BoatSpec): number | null {
  if (boat.motorSail.hullSpeedMps !== null) return boat.motorSail.hullSpeedMps;
  return boat.waterlineLengthMetres === null ? null : hullSpeedMps(boat.waterlineLengthMetres);
}

/** The boat as it goes by its own statement: under power, under sail (with the engine rule if there is one), or motor-sailing. */
export function boatModel(boat: BoatSpec): Parsed<BoatModel> {
  const issues = checkBoat(boat);
  if (issues.length > 0) return bad(...issues);
  const power = boat.power === null ? null : enginePower(boat.power, boat.waterlineLengthMetres);
  if (boat.goes === "power") {
    if (power === null) throw new Error(`boat "${boat.name}" passed its check without a speed under power`);
    return good(new PowerBoat(power, headSeasOf(boat)));
  }
  return good(underSail(boat, power, boat.goes === "motor-sail" ? "always" : (boat.engineRule ?? "never")));
}

/**
 * The same boat with its engine out of use: under sail alone if it goes under sail or motor-sailing, else drifting; null for a boat that
 * goes under sail and never uses an engine.
 */
export function engineStopped(boat: BoatSpec): Parsed<BoatModel | null> {
  const issues = checkBoat(boat);
  if (issues.length > 0) return bad(...issues);
  if (boat.goes === "sail" && boat.engineRule === null) return good(null);
  return good(boat.goes === "power" ? driftingModel() : underSail(boat, null, "never"));
}

function underSail(boat: BoatSpec, power: EnginePower | null, engine: SailingSetup["engine"]): BoatModel {
  const { exponent, headsailOnlyBeyondDeg } = boat.motorSail;
  return new SailingBoat({
    table: checkedTable(boat),
    engine,
    power,
    exponent,
    headsailOnlyBeyondDeg,
    hullSpeedMps: hullSpeedCapMps(boat),
    leewayCoefficient: boat.sail?.leewayCoefficient ?? null,
    leewayCapDeg: boat.sail?.leewayCapDeg ?? 0,
    headSeas: headSeasOf(boat),
  });
}

function headSeasOf({ headSeaLossShare = 0, waterlineLengthMetres }: BoatSpec): HeadSeaRule | null {
  return headSeaRule(headSeaLossShare, waterlineLengthMetres);
}

/** The sail table of a boat that has passed `checkBoat`. Throws when it has none. */
export function checkedTable(boat: BoatSpec): SailTable {
  const table = sailTable(boat.sail?.points ?? []);
  if (!table.ok) throw new Error(`boat "${boat.name}" has no sound sail table: ${table.issues.map((one) => one.message).join(" ")}`);
  return table.value;
}

import { type BoatModel, type BoatSpec, boatModel } from "../../boat/index.ts";

/** How a boat may run for shelter. */
export interface RunningBoats {
  /** With the engine at hand; null for a boat without one. */
  readonly withEngine: BoatModel | null;
  /** Under sail alone, the engine out of use; null where no speeds under sail are given. */
  readonly underSail: BoatModel | null;
}

/**
 * The boats that run for shelter: as she goes, where that uses an engine, else under power if she has any; and under sail alone. A boat
 * that goes under power and has sails is sailed when her engine stops. Throws on a boat that has not passed `checkBoat`.
 */
export function runningBoats(spec: BoatSpec): RunningBoats {
  const model = (changes: Partial<BoatSpec>): BoatModel => {
    const made = boatModel({ ...spec, ...changes });
    if (!made.ok) throw new Error(`boat "${spec.name}" can't run for shelter: ${made.issues.map((one) => one.message).join(" ")}`);
    return made.value;
  };
  const usesEngine = spec.goes !== "sail" || spec.engineRule !== null;
  return {
    withEngine: usesEngine ? model({}) : spec.power === null ? null : model({ goes: "power" }),
    underSail: spec.sail === null ? null : model({ goes: "sail", engineRule: null }),
  };
}

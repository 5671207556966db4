/**
 * Boat: what the boat is and can do: speed under power and sail and both together, fuel and its burn, leeway. Speeds m/s through the
 * water, fuel in litres, angles in degrees; a true wind angle is between the heading and where the wind over the water comes from.
 */
export * from "./apparent-wind.ts";
export * from "./boat-assumptions.ts";
export * from "./boat-model.ts";
export * from "./boat-spec.ts";
export { boatModel, engineStopped, hullSpeedCapMps } from "./build-boat.ts";
export * from "./changed-boat.ts";
export { checkBoat } from "./check-boat.ts";
export * from "./crew.ts";
export * from "./engine-rule.ts";
export * from "./fuel.ts";
export * from "./head-seas.ts";
export * from "./hove-to.ts";
export * from "./hull-speed.ts";
export * from "./leeway.ts";
export * from "./motor-sailing.ts";
export * from "./power.ts";
export * from "./sail-speed.ts";
export * from "./sail-table.ts";
export * from "./sailing-boat.ts";

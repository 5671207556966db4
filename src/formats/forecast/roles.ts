import type { GridQuantity, SeaSystem } from "../../core/fields/index.ts";
import type { QuantityGroup } from "./quantities.ts";

/**
 * What one field of a file serves as: a quantity itself, or a half of one way to give a vector. Directions are degrees true, or along the
 * grid's own north: `From` where wind or waves come from, `Toward` where the water goes.
 */
export type FieldRole =
  | Exclude<GridQuantity, `${SeaSystem}Toward${"East" | "North"}`>
  | "currentSpeedMps"
  | "currentTowardDeg"
  | "windSpeedMps"
  | "windFromDeg"
  | `${SeaSystem}FromDeg`;

/** A way to make a group's quantities of fields: their roles, in order, and how a node's values make it. */
export interface Recipe {
  readonly roles: readonly FieldRole[];
  /** From the fields' values at one node, in SI and degrees, to the group's quantities. */
  makeInto(out: Float64Array, values: Float64Array): void;
}

const RAD_PER_DEG = Math.PI / 180;

/** As they are. */
const alike = (roles: readonly FieldRole[]): Recipe => ({
  roles,
  makeInto(out, values) {
    for (let i = 0; i < roles.length; i++) out[i] = values[i]!;
  },
});

/** A speed and a direction: toward, or, with `sign` −1, from. */
const polar = (speed: FieldRole, direction: FieldRole, sign: 1 | -1): Recipe => ({
  roles: [speed, direction],
  makeInto(out, values) {
    const angleRad = values[1]! * RAD_PER_DEG;
    out[0] = sign * values[0]! * Math.sin(angleRad);
    out[1] = sign * values[0]! * Math.cos(angleRad);
  },
});

/** A direction from which, alone: a vector of length 1 the other way. */
const unit = (direction: FieldRole): Recipe => ({
  roles: [direction],
  makeInto(out, values) {
    const angleRad = values[0]! * RAD_PER_DEG;
    out[0] = -Math.sin(angleRad);
    out[1] = -Math.cos(angleRad);
  },
});

/** The ways to make a group, the better first: components keep more digits than a speed and a direction do. */
export function recipesOf(group: QuantityGroup): readonly Recipe[] {
  const first = group.quantities[0]!;
  if (first === "currentEastMps") return [alike(["currentEastMps", "currentNorthMps"]), polar("currentSpeedMps", "currentTowardDeg", 1)];
  if (first === "windEastMps") return [alike(["windEastMps", "windNorthMps"]), polar("windSpeedMps", "windFromDeg", -1)];
  const direction = /^(.*)TowardEast$/.exec(first)?.[1] as SeaSystem | undefined;
  if (direction !== undefined) return [unit(`${direction}FromDeg`)];
  return [alike([first as FieldRole])];
}

/** Whether values that make the group are directions or components along a grid that must be turned where the grid is. */
export const isVector = (group: QuantityGroup): boolean => group.quantities.length === 2;

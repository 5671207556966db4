import type { GridData } from "../../../src/core/fields/index.ts";
import { type AttributeToWrite, type ValuesToWrite, type VariableToWrite, writeNetcdfClassic } from "../../../src/formats/netcdf/index.ts";

/** Values of a variable by the indices along its dimensions, slowest first. */
export type ValueAt = (...indices: number[]) => number;

export interface VariableMade {
  /** Names of the dimensions, blanks between them; empty for a single value. */
  readonly along: string;
  readonly attributes?: Record<string, AttributeToWrite>;
  readonly type?: "float" | "double" | "short" | "int";
  readonly value: ValueAt;
}

/** A NetCDF file of any shape: dimensions by name and length, variables by name. */
export function madeFile(
  dimensions: Record<string, number>,
  variables: Record<string, VariableMade | VariableToWrite>,
  attributes: Record<string, AttributeToWrite> = {},
): Uint8Array {
  return writeNetcdfClassic({
    version: 1,
    dimensions: Object.entries(dimensions).map(([name, length]) => ({ name, length })),
    attributes,
    variables: Object.entries(variables).map(([name, one]) => ("along" in one ? written(name, one, dimensions) : one)),
  });
}

function written(name: string, one: VariableMade, dimensions: Record<string, number>): VariableToWrite {
  const along = one.along === "" ? [] : one.along.split(" ");
  const shape = along.map((dimension) => dimensions[dimension]!);
  const count = shape.reduce((product, length) => product * length, 1);
  const values = Array.from({ length: count }, (_, at) => {
    const indices: number[] = [];
    let rest = at;
    for (let axis = shape.length - 1; axis >= 0; axis--) {
      indices.unshift(rest % shape[axis]!);
      rest = Math.floor(rest / shape[axis]!);
    }
    return one.value(...indices);
  });
  const arrays: Record<NonNullable<VariableMade["type"]>, (from: number[]) => ValuesToWrite> = {
    float: (from) => Float32Array.from(from),
    double: (from) => Float64Array.from(from),
    short: (from) => Int16Array.from(from),
    int: (from) => Int32Array.from(from),
  };
  return { name, dimensions: along, attributes: one.attributes ?? {}, values: arrays[one.type ?? "double"](values) };
}

/** Hours since 2030-06-01 00:00, one after the other. */
export const hoursOfJune: VariableMade = { along: "time", attributes: { units: "hours since 2030-06-01 00:00" }, value: (t) => t ?? 0 };
/** 2030-06-01 00:00 for all of the file. */
export const firstOfJune: VariableMade = { along: "", attributes: { units: "hours since 2030-06-01 00:00" }, value: () => 0 };

export const northOf = (value: ValueAt, along = "y x"): VariableMade => ({ along, attributes: { units: "degrees_north" }, value });
export const eastOf = (value: ValueAt, along = "y x"): VariableMade => ({ along, attributes: { units: "degrees_east" }, value });
export const standard = (name: string, along: string, value: ValueAt, units = "m/s"): VariableMade => ({
  along,
  attributes: { units, standard_name: name },
  value,
});

/** The components at a node of the first step. */
export const vectorAt = (grid: GridData, node: number): number[] => [
  ...grid.values.subarray(node * grid.quantities.length, (node + 1) * grid.quantities.length),
];

import type { Hyperslab, NetcdfVariable } from "./netcdf-types.ts";

/** The block itself, or all of the variable. Throws for a block outside the shape: that is our own bug. */
export function checkedBlock({ name, shape }: NetcdfVariable, slab: Hyperslab | undefined): Hyperslab {
  const start = slab?.start ?? shape.map(() => 0);
  const count = slab?.count ?? shape;
  const outside = shape.some((length, index) => {
    const from = start[index] ?? -1;
    const many = count[index] ?? -1;
    return !Number.isInteger(from) || !Number.isInteger(many) || from < 0 || many < 0 || from + many > length;
  });
  if (start.length !== shape.length || count.length !== shape.length || outside) {
    throw new Error(`block start [${start}] count [${count}] is outside the shape [${shape}] of ${JSON.stringify(name)}`);
  }
  return { start, count };
}

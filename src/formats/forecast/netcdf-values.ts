import { good, type Parsed } from "../../core/answers/index.ts";
import { type NetcdfFile, packingOf, unpack } from "../netcdf/index.ts";
import type { NetcdfField } from "./netcdf-field.ts";
import type { Slab } from "./netcdf-mesh-place.ts";
import type { SteppedValues } from "./netcdf-staggered.ts";

/** Steps that follow one another in the file and in the series, so that they are read at once. `first`: the place of the first in the series. */
export interface StepRun {
  readonly first: number;
  readonly start: number;
  readonly count: number;
}

/** The steps of a series, where each stands in the file, as runs of no more than `most`. */
export function runsOf(placesInFile: Int32Array, most: number): StepRun[] {
  const runs: { first: number; start: number; count: number }[] = [];
  placesInFile.forEach((place, index) => {
    const last = runs.at(-1);
    if (last && last.count < most && last.start + last.count === place) last.count++;
    else runs.push({ first: index, start: place, count: 1 });
  });
  return runs;
}

/** A field's values, in SI or degrees, at the nodes of some blocks, for a run of steps and one member: `[step][node]`, `nodes` a step. */
export async function readSteps(
  file: NetcdfFile,
  field: NetcdfField,
  slabs: readonly Slab[],
  nodes: number,
  memberIndex: number,
  run: StepRun,
): Promise<Parsed<SteppedValues>> {
  const { axisIndex } = field.place;
  const { shape, name } = field.variable;
  const packing = packingOf(field.variable);
  const out = { values: new Float64Array(run.count * nodes), missing: new Uint8Array(run.count * nodes).fill(1) };
  for (const slab of slabs) {
    const start = new Array<number>(shape.length).fill(0);
    const count = new Array<number>(shape.length).fill(1);
    const put = (axis: number, from: number, many: number): void => {
      if (axis >= 0) [start[axis], count[axis]] = [from, many];
    };
    axisIndex.mesh.forEach((axis, index) => {
      put(axis, slab.start[index]!, slab.count[index]!);
    });
    put(axisIndex.time, run.start, run.count);
    put(axisIndex.vertical, field.levelIndex, 1);
    put(axisIndex.member, memberIndex, 1);
    const stored = await file.read(name, { start, count });
    if (!stored.ok) return stored;
    const { values, missing } = unpack(stored.value, packing);
    const strideOf = (axis: number): number => (axis < 0 ? 0 : count.slice(axis + 1).reduce((product, many) => product * many, 1));
    const perTime = strideOf(axisIndex.time);
    // A block along one dimension is a block of one row.
    const [rows, columns] = slab.count.length === 2 ? [slab.count[0]!, slab.count[1]!] : [1, slab.count[0]!];
    const perRow = slab.count.length === 2 ? strideOf(axisIndex.mesh[0]!) : 0;
    const perColumn = strideOf(axisIndex.mesh.at(-1)!);
    for (let t = 0; t < run.count; t++) {
      for (let row = 0, place = 0; row < rows; row++) {
        for (let column = 0; column < columns; column++, place++) {
          const node = slab.nodes[place]!;
          const at = t * perTime + row * perRow + column * perColumn;
          if (node < 0 || missing[at] === 1) continue;
          out.values[t * nodes + node] = values[at]! * field.factor;
          out.missing[t * nodes + node] = 0;
        }
      }
    }
  }
  return good(out);
}

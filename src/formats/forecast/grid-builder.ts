import { type GridData, type Mesh, type Nature, nodeCountOf } from "../../core/fields/index.ts";
import type { Oddities } from "./oddities.ts";
import type { QuantityGroup } from "./quantities.ts";
import { ValueCheck } from "./value-check.ts";

/** Fills a `GridData` field by field. */
export class GridBuilder {
  readonly data: GridData;
  private readonly check: ValueCheck;

  constructor(
    group: QuantityGroup,
    mesh: Mesh,
    times: Float64Array,
    about: { readonly nature: Nature; readonly source: string; readonly issuedAt: number | null; readonly member: number },
  ) {
    const points = times.length * nodeCountOf(mesh);
    this.check = new ValueCheck(group);
    this.data = {
      quantities: group.quantities,
      mesh,
      times,
      values: new Float32Array(points * group.quantities.length),
      missing: new Uint8Array(points),
      ...about,
    };
  }

  /** Sets one value, SI, or none; implausible ones are taken as missing. */
  set(point: number, component: number, value: number, isMissing: boolean): void {
    const { values, missing, quantities } = this.data;
    if (isMissing || !this.check.isPossible(value)) missing[point] = 1;
    else values[point * quantities.length + component] = value;
  }

  /** Clears what stands beside a missing component, and tells of values that can't be, or hardly. */
  finish(oddities: Oddities): GridData {
    const { values, missing, quantities } = this.data;
    const count = quantities.length;
    for (let point = 0; point < missing.length; point++) {
      if (missing[point] === 0) {
        const isPossible =
          count === 2
            ? this.check.isPossibleTogether(values[2 * point]!, values[2 * point + 1]!)
            : this.check.isPossibleAlone(values[point * count]!);
        if (!isPossible) missing[point] = 1;
      }
      if (missing[point] === 1) values.fill(0, point * count, (point + 1) * count);
    }
    this.check.tell(oddities);
    return this.data;
  }
}

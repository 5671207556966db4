import type { GridData, Nature } from "../../core/fields/index.ts";
import type { QuantityGroup } from "./quantities.ts";

/** The most values one grid may hold after cropping: 200 MB of them (common practice for a computer of 4 GB). */
export const MOST_VALUES = 50_000_000;

/** Fills a `GridData` field by field. */
export class GridBuilder {
  readonly data: GridData;
  private implausible = 0;
  private worst = 0;
  private readonly group: QuantityGroup;

  constructor(
    group: QuantityGroup,
    axes: { readonly latitudesDeg: Float64Array; readonly longitudesDeg: Float64Array; readonly times: Float64Array },
    about: { readonly nature: Nature; readonly source: string; readonly issuedAt: number | null; readonly member: number },
  ) {
    const points = axes.times.length * axes.latitudesDeg.length * axes.longitudesDeg.length;
    this.group = group;
    this.data = {
      quantities: group.quantities,
      ...axes,
      values: new Float32Array(points * group.quantities.length),
      missing: new Uint8Array(points),
      ...about,
    };
  }

  /** Sets one value, SI, or none; implausible ones are counted and taken as missing. */
  set(point: number, component: number, value: number, isMissing: boolean): void {
    const { values, missing, quantities } = this.data;
    if (!isMissing && (value < this.group.least || value > this.group.greatest)) {
      this.implausible++;
      if (Math.abs(value) > Math.abs(this.worst)) this.worst = value;
      missing[point] = 1;
    } else if (isMissing) missing[point] = 1;
    else values[point * quantities.length + component] = value;
  }

  /** Clears what stands beside a missing component. How many values were implausible, and the one farthest off. */
  finish(): { readonly implausible: number; readonly worst: number } {
    const { values, missing, quantities } = this.data;
    for (let point = 0; point < missing.length; point++) {
      if (missing[point] === 1) values.fill(0, point * quantities.length, (point + 1) * quantities.length);
    }
    return { implausible: this.implausible, worst: this.worst };
  }
}

import type { Plane } from "../earth/index.ts";
import { Axis, type AxisPlace } from "./axis.ts";
import type { GridData } from "./grid-data.ts";
import { PlaneGrid } from "./plane-grid.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME, type Sampler } from "./sampler.ts";

/**
 * A grid joined by straight lines in time: for quantities that may not overshoot, such as heights and periods of the sea. Between two
 * steps both must be covered; a grid with one step covers that instant only.
 */
export class LinearInTime implements Sampler {
  readonly quantities: readonly string[];
  /** The instants at which a value may change its slope: the steps, seconds of the UTC epoch. */
  readonly steps: Float64Array;
  private readonly grid: PlaneGrid;
  private readonly times: Axis;
  private readonly place: AxisPlace = { index: 0, fraction: 0 };
  private readonly levels: Float64Array;

  constructor(data: GridData, plane: Plane) {
    this.grid = new PlaneGrid(data, plane, "sheet");
    this.times = new Axis(data.times);
    this.steps = this.times.nodes;
    this.quantities = data.quantities;
    this.levels = new Float64Array(2 * data.quantities.length);
  }

  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    if (!this.times.locate(this.place, at)) return NO_TIME;
    if (!this.grid.moveTo(xMetres, yMetres)) return NO_PLACE;
    const { index, fraction } = this.place;
    if (fraction === 0 || fraction === 1) return this.grid.readLevelInto(out, 0, index + fraction) ? COVERED : NO_PLACE;
    const n = this.quantities.length;
    const { levels } = this;
    if (!this.grid.readLevelInto(levels, 0, index) || !this.grid.readLevelInto(levels, n, index + 1)) return NO_PLACE;
    for (let k = 0; k < n; k++) out[k] = (1 - fraction) * (levels[k] as number) + fraction * (levels[n + k] as number);
    return COVERED;
  }
}

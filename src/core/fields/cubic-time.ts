import type { Plane } from "../earth/index.ts";
import { Axis, type AxisPlace } from "./axis.ts";
import type { GridData } from "./grid-data.ts";
import { PlaneGrid } from "./plane-grid.ts";
import { COVERED, type Coverage, NO_PLACE, NO_TIME, type Sampler } from "./sampler.ts";

/**
 * A grid read by a cubic in time: Hermite between steps, with the slope at each step that of the parabola through it and its two
 * neighbours (de Boor, A Practical Guide to Splines, ch. IV, "Bessel's"), one-sided at the ends and where a neighbour is not covered.
 * Between hourly steps it keeps a tide's peak to 0.2 %, where straight lines lose 3 %; between 3-hourly ones it loses a tenth of it,
 * where straight lines lose more than a quarter.
 */
export class CubicInTime implements Sampler {
  readonly quantities: readonly string[];
  readonly grid: PlaneGrid;
  private readonly times: Axis;
  private readonly place: AxisPlace = { index: 0, fraction: 0 };
  private readonly levels: Float64Array;
  private readonly aside: Float64Array;
  /** A grid with one step is held steady at all times. */
  readonly heldSteady: boolean;

  constructor(data: GridData, plane: Plane) {
    this.grid = new PlaneGrid(data, plane, "sheet");
    this.times = new Axis(data.times);
    this.quantities = data.quantities;
    this.levels = new Float64Array(4 * data.quantities.length);
    this.aside = new Float64Array(data.quantities.length);
    this.heldSteady = data.times.length === 1;
  }

  sampleInto(out: Float64Array, xMetres: number, yMetres: number, at: number): Coverage {
    if (!this.locate(at)) return NO_TIME;
    return this.grid.moveTo(xMetres, yMetres) && this.readHereInto(out) ? COVERED : NO_PLACE;
  }

  /**
   * The values, in time as everywhere, of the node nearest to (x, y) within `withinMetres` that is covered at `at`; false when there is
   * none, and `out` is then left untouched.
   */
  nearestInto(out: Float64Array, xMetres: number, yMetres: number, at: number, withinMetres: number): boolean {
    if (!this.locate(at)) return false;
    const { index, fraction } = this.place;
    const earlier = fraction === 1 ? index + 1 : index;
    const later = fraction === 0 ? index : index + 1;
    return this.grid.moveToNearest(xMetres, yMetres, earlier, later, withinMetres) && this.readHereInto(out);
  }

  /** Whether the grid covers this place at `at` or, outside its times, at the end that is nearest to it. */
  reachesPlace(xMetres: number, yMetres: number, at: number): boolean {
    const nodes = this.times.nodes;
    const first = nodes[0] as number;
    const last = nodes[nodes.length - 1] as number;
    if (!this.locate(Math.min(Math.max(at, first), last))) return false;
    return this.grid.moveTo(xMetres, yMetres) && this.readHereInto(this.aside);
  }

  private locate(at: number): boolean {
    if (!this.heldSteady) return this.times.locate(this.place, at);
    this.place.index = 0;
    this.place.fraction = 0;
    return true;
  }

  /** Reads where the grid and the time stand; false when not covered. */
  private readHereInto(out: Float64Array): boolean {
    const n = this.quantities.length;
    const { index, fraction } = this.place;
    const { grid, levels } = this;
    if (fraction === 0 || fraction === 1) return grid.readLevelInto(out, 0, index + fraction);
    const nodes = this.times.nodes;
    if (!grid.readLevelInto(levels, n, index) || !grid.readLevelInto(levels, 2 * n, index + 1)) return false;
    const before = index > 0 && grid.readLevelInto(levels, 0, index - 1);
    const after = index + 2 < nodes.length && grid.readLevelInto(levels, 3 * n, index + 2);
    const step = (nodes[index + 1] as number) - (nodes[index] as number);
    const stepBefore = before ? (nodes[index] as number) - (nodes[index - 1] as number) : step;
    const stepAfter = after ? (nodes[index + 2] as number) - (nodes[index + 1] as number) : step;
    const s = fraction;
    const h00 = (1 + 2 * s) * (1 - s) * (1 - s);
    const h10 = s * (1 - s) * (1 - s);
    const h01 = s * s * (3 - 2 * s);
    const h11 = s * s * (s - 1);
    for (let k = 0; k < n; k++) {
      const v1 = levels[n + k] as number;
      const v2 = levels[2 * n + k] as number;
      const chord = (v2 - v1) / step;
      const chordBefore = before ? (v1 - (levels[k] as number)) / stepBefore : chord;
      const chordAfter = after ? ((levels[3 * n + k] as number) - v2) / stepAfter : chord;
      // Parabola's slope at an inner step: the chords weighted crosswise by the steps; at an end: the parabola of the other three points.
      let slope1 = (chordBefore * step + chord * stepBefore) / (step + stepBefore);
      let slope2 = (chord * stepAfter + chordAfter * step) / (step + stepAfter);
      if (!before && after) slope1 = 2 * chord - slope2;
      if (!after && before) slope2 = 2 * chord - slope1;
      out[k] = h00 * v1 + h10 * step * slope1 + h01 * v2 + h11 * step * slope2;
    }
    return true;
  }
}

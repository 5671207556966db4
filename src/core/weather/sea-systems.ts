import type { Plane } from "../earth/index.ts";
import { COVERED, type GridData, LinearInTime } from "../fields/index.ts";

/** One system of waves as numbers: significant height, period, and the unit vector along which it runs, in the plane's frame. */
export const SYSTEM_HEIGHT_METRES = 0;
export const SYSTEM_PERIOD_SECONDS = 1;
/** Both parts 0 where the source doesn't say where it runs. */
export const SYSTEM_TOWARD_EAST = 2;
export const SYSTEM_TOWARD_NORTH = 3;
export const SYSTEM_STRIDE = 4;
/** A wind sea and three swells: no more are told apart. */
export const MOST_SYSTEMS = 4;
export const SYSTEMS_SLOTS = MOST_SYSTEMS * SYSTEM_STRIDE;

/** The grids of one system. Directions null: none is given. */
export interface SystemGrids {
  readonly height: GridData;
  readonly period: GridData;
  /** A vector of length 1 along which it runs. */
  readonly toward: GridData | null;
}

/** Directions that meet from more than this apart, so that their mean is shorter than this, are none. Ours. */
export const LEAST_AGREEMENT = 0.5;

/** Reads the systems of one source. */
export class SystemsSampler {
  private readonly parts: readonly { readonly height: LinearInTime; readonly period: LinearInTime; readonly toward: LinearInTime | null }[];
  private readonly value = new Float64Array(2);

  constructor(systems: readonly SystemGrids[], plane: Plane) {
    this.parts = systems.slice(0, MOST_SYSTEMS).map(({ height, period, toward }) => ({
      height: new LinearInTime(height, plane),
      period: new LinearInTime(period, plane),
      toward: toward === null ? null : new LinearInTime(toward, plane),
    }));
  }

  /**
   * Writes the systems at a place and instant, `SYSTEM_STRIDE` slots each, and returns how many there are. One that isn't covered there is
   * not there; 0 also where one has a height and no period, so that nothing can be told of it.
   */
  readInto(out: Float64Array, xMetres: number, yMetres: number, at: number): number {
    const { value } = this;
    let count = 0;
    for (const { height, period, toward } of this.parts) {
      if (height.sampleInto(value, xMetres, yMetres, at) !== COVERED) continue;
      const heightMetres = value[0] as number;
      if (!(heightMetres > 0)) continue;
      if (period.sampleInto(value, xMetres, yMetres, at) !== COVERED || !((value[0] as number) > 0)) return 0;
      const slot = count * SYSTEM_STRIDE;
      out[slot + SYSTEM_HEIGHT_METRES] = heightMetres;
      out[slot + SYSTEM_PERIOD_SECONDS] = value[0] as number;
      const agrees =
        toward !== null && toward.sampleInto(value, xMetres, yMetres, at) === COVERED
          ? Math.hypot(value[0] as number, value[1] as number)
          : 0;
      out[slot + SYSTEM_TOWARD_EAST] = agrees < LEAST_AGREEMENT ? 0 : (value[0] as number) / agrees;
      out[slot + SYSTEM_TOWARD_NORTH] = agrees < LEAST_AGREEMENT ? 0 : (value[1] as number) / agrees;
      count++;
    }
    return count;
  }
}

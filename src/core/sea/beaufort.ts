import { knotsFromMps } from "../units/index.ts";

/** A force of the Beaufort scale with the sea it raises far from land. */
export interface BeaufortForce {
  readonly force: number;
  /** Whole knots of mean wind; null at the top. */
  readonly fromKnots: number;
  readonly toKnots: number | null;
  /** Probable wave height in the open sea, metres. */
  readonly probableHeightMetres: number;
  /** Probable greatest height; null at force 12. */
  readonly greatestHeightMetres: number | null;
}

/** Source: the Beaufort scale as the Met Office prints it (WMO, Manual on Marine Meteorological Services): limits in whole knots, heights in the open sea. */
export const BEAUFORT: readonly BeaufortForce[] = (
  [
    [0, 0, 0, 0],
    [1, 3, 0.1, 0.1],
    [4, 6, 0.2, 0.3],
    [7, 10, 0.6, 1],
    [11, 16, 1, 1.5],
    [17, 21, 2, 2.5],
    [22, 27, 3, 4],
    [28, 33, 4, 5.5],
    [34, 40, 5.5, 7.5],
    [41, 47, 7, 10],
    [48, 55, 9, 12.5],
    [56, 63, 11.5, 16],
    [64, null, 14, null],
  ] as const
).map(([fromKnots, toKnots, probableHeightMetres, greatestHeightMetres], force) => ({
  force,
  fromKnots,
  toKnots,
  probableHeightMetres,
  greatestHeightMetres,
}));

/**
 * The Beaufort force of a mean wind at 10 m, taken to the nearest whole knot.
 *
 * @example
 * beaufortOf(30 * MPS_PER_KNOT).force // => 7
 */
export function beaufortOf(windMps: number): BeaufortForce {
  const knots = Math.round(knotsFromMps(windMps));
  const found = BEAUFORT.findLast((one) => knots >= one.fromKnots);
  if (found === undefined) throw new Error(`wind ${windMps} m/s: expected 0 or more`);
  return found;
}

import type { Position } from "./position.ts";

/**
 * A flat sheet of metres laid on the sea around a passage, on which boats are run. x goes east and y north at the centre; elsewhere
 * true north leans from the sheet's y by the convergence. `planeAround` (azimuthal equidistant on WGS84) is the real one; `flatPlane`
 * has no convergence at all and serves analytic checks.
 */
export interface Plane {
  readonly centre: Position;
  /**
   * How far from the centre the sheet may be used, metres. `planeAround`'s also serves the square around that disc, and throws beyond it:
   * a boat that may be carried so far is stopped by whoever runs it.
   */
  readonly radiusMetres: number;
  toPlane(position: Position): { readonly xMetres: number; readonly yMetres: number };
  /** The same, or null for a position that is off the sheet. */
  toPlaneIfOn(position: Position): { readonly xMetres: number; readonly yMetres: number } | null;
  toPosition(xMetres: number, yMetres: number): Position;
  /**
   * Convergence at a point, degrees: `sheetDeg = trueDeg - convergenceDegAt(x, y)`. Positive to the east of the centre in the north.
   */
  convergenceDegAt(xMetres: number, yMetres: number): number;
}

import type { Plane, Position } from "../earth/index.ts";
import { degFromRad, wrap360Deg } from "../units/index.ts";

/**
 * The line from where open water begins to where it ends, on the plane. "Along" is the distance made good down the line (miles across),
 * "off" the distance from it, positive to starboard of someone looking toward the destination. Metres.
 */
export interface Line {
  readonly plane: Plane;
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
  readonly lengthMetres: number;
  /** Unit vector toward the destination. */
  readonly alongX: number;
  readonly alongY: number;
  /** Bearing on the plane, degrees. */
  readonly sheetDeg: number;
}

/** A line between two points of a plane. Throws when they coincide. */
export function lineBetween(plane: Plane, fromX: number, fromY: number, toX: number, toY: number): Line {
  const dx = toX - fromX;
  const dy = toY - fromY;
  const lengthMetres = Math.sqrt(dx * dx + dy * dy);
  if (!(lengthMetres > 0)) throw new Error(`a line needs two points: (${fromX}, ${fromY}) and (${toX}, ${toY})`);
  return {
    plane,
    fromX,
    fromY,
    toX,
    toY,
    lengthMetres,
    alongX: dx / lengthMetres,
    alongY: dy / lengthMetres,
    sheetDeg: wrap360Deg(degFromRad(Math.atan2(dx, dy))),
  };
}

/** A line between two positions. */
export function lineBetweenPositions(plane: Plane, from: Position, to: Position): Line {
  const a = plane.toPlane(from);
  const b = plane.toPlane(to);
  return lineBetween(plane, a.xMetres, a.yMetres, b.xMetres, b.yMetres);
}

/** Distance made good along the line, metres. */
export function alongOf(line: Line, xMetres: number, yMetres: number): number {
  return (xMetres - line.fromX) * line.alongX + (yMetres - line.fromY) * line.alongY;
}

/** Distance off the line, metres, starboard positive. */
export function offOf(line: Line, xMetres: number, yMetres: number): number {
  return (xMetres - line.fromX) * line.alongY - (yMetres - line.fromY) * line.alongX;
}

/** The point at a distance along and off the line. */
export function pointAt(line: Line, alongMetres: number, offMetres: number): { readonly xMetres: number; readonly yMetres: number } {
  return {
    xMetres: line.fromX + alongMetres * line.alongX + offMetres * line.alongY,
    yMetres: line.fromY + alongMetres * line.alongY - offMetres * line.alongX,
  };
}

import type { NoAnswer } from "../answers/index.ts";
import type { Land } from "../coast/index.ts";
import type { Plane } from "../earth/index.ts";
import type { Helm } from "./helm.ts";

/**
 * The answer for a boat that goes straight from one place to another in so many seconds, if she runs into land on the way: where and when
 * she meets it first. Null where the way is clear.
 */
export function landAhead(
  land: Land,
  plane: Plane,
  fromX: number,
  fromY: number,
  toX: number,
  toY: number,
  fromAt: number,
  seconds: number,
): NoAnswer | null {
  const touched = land.firstTouched(fromX, fromY, toX, toY);
  if (touched === undefined) return null;
  const { share, kind, name } = touched;
  const x = fromX + share * (toX - fromX);
  const y = fromY + share * (toY - fromY);
  const where = plane.toPosition(onSheet(x, plane), onSheet(y, plane));
  return { kind: "noAnswer", code: "across-land", at: fromAt + share * seconds, where, area: { kind, name } };
}

/**
 * The land that stops a boat where the current is not known any more: current grids end at the coast. It lies within a step ahead, or
 * anywhere ahead on a track that is held, and is met at her last speed. Null where there is none.
 */
export function landBeyond(
  land: Land,
  plane: Plane,
  helm: Helm,
  x: number,
  y: number,
  at: number,
  vx: number,
  vy: number,
  stepSeconds: number,
): NoAnswer | null {
  const speedMps = Math.sqrt(vx * vx + vy * vy);
  if (!(speedMps > 0)) return null;
  const toX = helm.kind === "track" ? helm.line.toX : x + vx * stepSeconds;
  const toY = helm.kind === "track" ? helm.line.toY : y + vy * stepSeconds;
  return landAhead(land, plane, x, y, toX, toY, at, Math.hypot(toX - x, toY - y) / speedMps);
}

/** The nearest place on the sheet, for telling where a boat left it. */
export function onSheet(metres: number, { radiusMetres }: Plane): number {
  return Math.max(-radiusMetres, Math.min(radiusMetres, metres));
}

import type { Position } from "../../core/earth/index.ts";
import { wrap180Deg } from "../../core/units/index.ts";

/** A ring this thin encloses nothing: the area over the square of its extent. Ours. */
const THINNEST_SHARE = 1e-6;

/**
 * What keeps corners from enclosing an area, in words; null where they do. Edges are held against each other as straight lines over
 * latitude and longitude, which tells corners in the wrong order.
 */
export function ringFault(corners: readonly Position[]): string | null {
  const first = corners[0];
  if (first === undefined) return "there is no corner";
  const flat = corners.map(({ latitudeDeg, longitudeDeg }) => ({
    x: wrap180Deg(longitudeDeg - first.longitudeDeg) * Math.cos((first.latitudeDeg * Math.PI) / 180),
    y: latitudeDeg - first.latitudeDeg,
  }));
  const count = flat.length;
  const at = (i: number): Point => flat[i % count] as Point;
  for (let i = 0; i < count; i++) {
    if (at(i).x === at(i + 1).x && at(i).y === at(i + 1).y) return `corners ${i + 1} and ${((i + 1) % count) + 1} are one place`;
  }
  for (let i = 0; i < count; i++) {
    for (let k = i + 2; k < count; k++) {
      if (i === 0 && k === count - 1) continue;
      if (cross(at(i), at(i + 1), at(k), at(k + 1)))
        return `the edge from corner ${i + 1} crosses that from corner ${k + 1}; corners go round in order`;
    }
  }
  let area = 0;
  let extent = 0;
  for (let i = 0; i < count; i++) {
    area += at(i).x * at(i + 1).y - at(i + 1).x * at(i).y;
    extent = Math.max(extent, Math.abs(at(i).x), Math.abs(at(i).y));
  }
  return Math.abs(area) / 2 < THINNEST_SHARE * extent * extent ? "its corners lie in one line" : null;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Whether two edges touch or cross. */
function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point): number => Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  const along = (p: Point, q: Point, r: Point): boolean =>
    side(p, q, r) === 0 && Math.min(p.x, q.x) <= r.x && r.x <= Math.max(p.x, q.x) && Math.min(p.y, q.y) <= r.y && r.y <= Math.max(p.y, q.y);
  if (along(a, b, c) || along(a, b, d) || along(c, d, a) || along(c, d, b)) return true;
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

import type { LandArea } from "../../../src/core/coast/index.ts";

/** Everything anew and slowly, for holding the index against: no cells, no cut, whole numbers where the test gives whole numbers. */
export interface BruteLand {
  crosses(ax: number, ay: number, bx: number, by: number): boolean;
  contains(x: number, y: number): boolean;
  distance(x: number, y: number): number;
}

type Point = readonly [number, number];

/** Rings in any units; a place is land where the even-odd rule puts it in the outer ring of an area and in none of its holes. */
export function bruteLand(areas: readonly LandArea[]): BruteLand {
  const polygons = areas.map(({ rings }) => rings.map(pointsOf));
  const edges = polygons.flat().flatMap((ring) => ring.map((p, i) => [p, ring[(i + 1) % ring.length] as Point] as const));
  const contains = (x: number, y: number): boolean =>
    polygons.some(([outer, ...holes]) => inside(outer as readonly Point[], x, y) && !holes.some((hole) => inside(hole, x, y)));
  return {
    contains,
    crosses: (ax, ay, bx, by) => edges.some(([p, q]) => touch([ax, ay], [bx, by], p, q)) || contains(ax, ay),
    distance: (x, y) => Math.min(...edges.map(([p, q]) => distance(x, y, p, q))),
  };
}

export function pointsOf(ring: Float64Array): readonly Point[] {
  return Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i] as number, ring[2 * i + 1] as number] as const);
}

function inside(ring: readonly Point[], x: number, y: number): boolean {
  let within = false;
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length] as Point;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) within = !within;
  });
  return within;
}

function turn([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): number {
  return Math.sign((bx - ax) * (cy - ay) - (by - ay) * (cx - ax));
}

function between([ax, ay]: Point, [bx, by]: Point, [x, y]: Point): boolean {
  return x >= Math.min(ax, bx) && x <= Math.max(ax, bx) && y >= Math.min(ay, by) && y <= Math.max(ay, by);
}

/** The textbook's four turns, and the four cases of a point in line (Cormen et al., "Introduction to Algorithms", 33.1). */
function touch(a: Point, b: Point, p: Point, q: Point): boolean {
  const [d1, d2, d3, d4] = [turn(p, q, a), turn(p, q, b), turn(a, b, p), turn(a, b, q)];
  if (d1 * d2 < 0 && d3 * d4 < 0) return true;
  return (
    (d1 === 0 && between(p, q, a)) || (d2 === 0 && between(p, q, b)) || (d3 === 0 && between(a, b, p)) || (d4 === 0 && between(a, b, q))
  );
}

function distance(x: number, y: number, [ax, ay]: Point, [bx, by]: Point): number {
  const length2 = (bx - ax) ** 2 + (by - ay) ** 2;
  const share = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2));
  return Math.hypot(ax + share * (bx - ax) - x, ay + share * (by - ay) - y);
}

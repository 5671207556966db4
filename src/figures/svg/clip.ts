import type { Box, Point } from "./box.ts";

/** The pieces of a stroke that lie in a box (Liang and Barsky 1984, a segment at a time). */
export function clippedCurve(points: readonly Point[], box: Box): Point[][] {
  const pieces: Point[][] = [];
  let piece: Point[] = [];
  for (let i = 1; i < points.length; i++) {
    const seen = clippedSegment(points[i - 1]!, points[i]!, box);
    if (seen === null) {
      if (piece.length > 0) pieces.push(piece);
      piece = [];
      continue;
    }
    const [from, to] = seen;
    const end = piece.at(-1);
    if (end === undefined) piece = [from];
    else if (end[0] !== from[0] || end[1] !== from[1]) {
      pieces.push(piece);
      piece = [from];
    }
    piece.push(to);
  }
  if (piece.length > 0) pieces.push(piece);
  return pieces.filter((each) => each.length > 1);
}

function clippedSegment([x1, y1]: Point, [x2, y2]: Point, box: Box): readonly [Point, Point] | null {
  const [dx, dy] = [x2 - x1, y2 - y1];
  let [enter, leave] = [0, 1];
  for (const [along, room] of [
    [-dx, x1 - box.left],
    [dx, box.right - x1],
    [-dy, y1 - box.top],
    [dy, box.bottom - y1],
  ] as const) {
    if (along === 0) {
      if (room < 0) return null;
      continue;
    }
    const share = room / along;
    if (along < 0) enter = Math.max(enter, share);
    else leave = Math.min(leave, share);
    if (enter > leave) return null;
  }
  const at = (share: number): Point => (share === 0 ? [x1, y1] : share === 1 ? [x2, y2] : [x1 + share * dx, y1 + share * dy]);
  return [at(enter), at(leave)];
}

/** A shape cut to a box (Sutherland and Hodgman 1974); empty where nothing of it lies there. */
export function clippedShape(ring: readonly Point[], box: Box): Point[] {
  const sides: readonly { readonly axis: 0 | 1; readonly at: number; readonly sense: 1 | -1 }[] = [
    { axis: 0, at: box.left, sense: 1 },
    { axis: 0, at: box.right, sense: -1 },
    { axis: 1, at: box.top, sense: 1 },
    { axis: 1, at: box.bottom, sense: -1 },
  ];
  return sides.reduce<Point[]>(
    (shape, { axis, at, sense }) => {
      const inside = (point: Point): boolean => (point[axis] - at) * sense >= 0;
      const kept: Point[] = [];
      shape.forEach((to, i) => {
        const from = shape.at(i - 1)!;
        if (inside(to) !== inside(from)) {
          const share = (at - from[axis]) / (to[axis] - from[axis]);
          const other = from[1 - axis]! + share * (to[1 - axis]! - from[1 - axis]!);
          kept.push(axis === 0 ? [at, other] : [other, at]);
        }
        if (inside(to)) kept.push(to);
      });
      return kept;
    },
    [...ring],
  );
}

/** Whether a point lies in a shape, by the even-odd rule. */
export function inShape(ring: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  ring.forEach(([x2, y2], i) => {
    const [x1, y1] = ring.at(i - 1)!;
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside;
  });
  return inside;
}

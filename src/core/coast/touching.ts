/** Bound of the rounding of a 2 × 2 determinant of differences (Shewchuk, "Adaptive precision floating-point arithmetic…", 1997, ccwerrboundA). */
const ROUNDING = (3 + 16 * 2 ** -53) * 2 ** -53;

/**
 * Which side of the line a → b the point c lies on: 1 left, −1 right, 0 on it. Never the wrong side: where rounding could hide the side,
 * which on a sheet of some hundred kilometres is within a thousandth of a millimetre of the line, it is 0.
 */
export function sideOf(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): -1 | 0 | 1 {
  const left = (ax - cx) * (by - cy);
  const right = (ay - cy) * (bx - cx);
  const determinant = left - right;
  const bound = ROUNDING * (Math.abs(left) + Math.abs(right));
  return determinant > bound ? 1 : determinant < -bound ? -1 : 0;
}

/** Whether two segments have a point in common, ends included; touching counts, and what rounding can't tell from touching does too. */
export function segmentsTouch(px: number, py: number, qx: number, qy: number, ax: number, ay: number, bx: number, by: number): boolean {
  if (px < qx ? (ax < px && bx < px) || (ax > qx && bx > qx) : (ax < qx && bx < qx) || (ax > px && bx > px)) return false;
  if (py < qy ? (ay < py && by < py) || (ay > qy && by > qy) : (ay < qy && by < qy) || (ay > py && by > py)) return false;
  const a = sideOf(px, py, qx, qy, ax, ay);
  const b = sideOf(px, py, qx, qy, bx, by);
  if (a * b > 0) return false;
  return sideOf(ax, ay, bx, by, px, py) * sideOf(ax, ay, bx, by, qx, qy) <= 0;
}

/** How far along p → q, 0 to 1, it first meets a → b, for two segments that touch. */
export function shareOfMeeting(px: number, py: number, qx: number, qy: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = qx - px;
  const dy = qy - py;
  const ex = bx - ax;
  const ey = by - ay;
  const across = dx * ey - dy * ex;
  const length2 = dx * dx + dy * dy;
  if (length2 === 0) return 0;
  if (Math.abs(across) > 1e-12 * Math.sqrt(length2 * (ex * ex + ey * ey))) {
    return Math.min(1, Math.max(0, ((ax - px) * ey - (ay - py) * ex) / across));
  }
  // Side by side: the nearer end that lies on the leg, or its start where that lies on the edge.
  const a = ((ax - px) * dx + (ay - py) * dy) / length2;
  const b = ((bx - px) * dx + (by - py) * dy) / length2;
  return Math.min(1, Math.max(0, Math.min(a, b)));
}

/** Distance of a point from a segment. */
export function distanceToSegment(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const ex = bx - ax;
  const ey = by - ay;
  const length2 = ex * ex + ey * ey;
  const share = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / length2));
  const dx = ax + share * ex - x;
  const dy = ay + share * ey - y;
  return Math.sqrt(dx * dx + dy * dy);
}

/** An upright box in whatever the corners are in. */
export interface Box {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/**
 * Cuts a ring (x and y in turn, not closed) to a box, side by side (Sutherland and Hodgman, "Reentrant polygon clipping", Communications
 * of the ACM 17, 1974). What comes back is closed along the box's sides, whose coordinate its new corners have exactly; where the ring
 * falls into pieces they stay joined along a side, there and back. Empty where nothing is left. A ring within the box comes back itself.
 */
export function clipRing(ring: Float64Array, box: Box): Float64Array {
  const { west, south, east, north } = boundsOf(ring);
  if (east < box.west || west > box.east || north < box.south || south > box.north) return new Float64Array(0);
  let left = ring;
  if (west < box.west) left = cutAt(left, 0, box.west, 1);
  if (east > box.east) left = cutAt(left, 0, box.east, -1);
  if (south < box.south) left = cutAt(left, 1, box.south, 1);
  if (north > box.north) left = cutAt(left, 1, box.north, -1);
  return left;
}

/** The least box around a ring; empty ones have none: infinite, the wrong way round. */
export function boundsOf(ring: Float64Array): Box {
  let west = Number.POSITIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i] as number;
    const y = ring[i + 1] as number;
    if (x < west) west = x;
    if (x > east) east = x;
    if (y < south) south = y;
    if (y > north) north = y;
  }
  return { west, south, east, north };
}

/** Keeps what lies on one side of a line of constant x (`axis` 0) or y (1): above `limit` where `sense` is 1, below where it is −1. */
function cutAt(ring: Float64Array, axis: 0 | 1, limit: number, sense: 1 | -1): Float64Array {
  const other = axis === 0 ? 1 : 0;
  const out: number[] = [];
  const n = ring.length;
  if (n === 0) return ring;
  let a = ring[n - 2 + axis] as number;
  let b = ring[n - 2 + other] as number;
  let wasIn = sense * (a - limit) >= 0;
  for (let i = 0; i < n; i += 2) {
    const nextA = ring[i + axis] as number;
    const nextB = ring[i + other] as number;
    const isIn = sense * (nextA - limit) >= 0;
    if (isIn !== wasIn) {
      const crossing = b + ((limit - a) / (nextA - a)) * (nextB - b);
      if (axis === 0) out.push(limit, crossing);
      else out.push(crossing, limit);
    }
    if (isIn) {
      if (axis === 0) out.push(nextA, nextB);
      else out.push(nextB, nextA);
    }
    a = nextA;
    b = nextB;
    wasIn = isIn;
  }
  return Float64Array.from(out);
}

/** Twice the area that a ring encloses, positive where it turns left. */
export function twiceArea(ring: Float64Array): number {
  const n = ring.length;
  if (n < 6) return 0;
  const originX = ring[0] as number;
  const originY = ring[1] as number;
  let sum = 0;
  let x = (ring[n - 2] as number) - originX;
  let y = (ring[n - 1] as number) - originY;
  for (let i = 0; i < n; i += 2) {
    const nextX = (ring[i] as number) - originX;
    const nextY = (ring[i + 1] as number) - originY;
    sum += x * nextY - nextX * y;
    x = nextX;
    y = nextY;
  }
  return sum;
}

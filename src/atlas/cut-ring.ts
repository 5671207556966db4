/** A box in the coastline's units. */
export interface UnitBox {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/**
 * Cuts a ring (x and y in turn, not closed) to a box and closes it along the box's sides (Sutherland and Hodgman, "Reentrant polygon
 * clipping", Communications of the ACM 17, 1974). Empty where nothing is left.
 */
export function cutRing(ring: readonly number[], box: UnitBox): readonly number[] {
  const sides = [
    [0, box.west, 1],
    [0, box.east, -1],
    [1, box.south, 1],
    [1, box.north, -1],
  ] as const;
  let left = ring;
  for (const [axis, limit, sense] of sides) {
    const out: number[] = [];
    let x = left[left.length - 2] ?? 0;
    let y = left[left.length - 1] ?? 0;
    let wasIn = sense * ((axis === 0 ? x : y) - limit) >= 0;
    for (let i = 0; i < left.length; i += 2) {
      const nextX = left[i] as number;
      const nextY = left[i + 1] as number;
      const isIn = sense * ((axis === 0 ? nextX : nextY) - limit) >= 0;
      if (isIn !== wasIn) {
        if (axis === 0) out.push(limit, y + ((limit - x) / (nextX - x)) * (nextY - y));
        else out.push(x + ((limit - y) / (nextY - y)) * (nextX - x), limit);
      }
      if (isIn) out.push(nextX, nextY);
      x = nextX;
      y = nextY;
      wasIn = isIn;
    }
    left = out;
    if (left.length < 6) return [];
  }
  return left;
}

/** A point of a drawing, pixels right and down. */
export type Point = readonly [x: number, y: number];

/** An upright box of a drawing, pixels; `right` and `bottom` are the greater ends. */
export type Box = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number };

/** Whether two boxes share more than an edge. */
export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** Whether `inner` lies wholly in `outer`. */
export function within(inner: Box, outer: Box): boolean {
  return inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top && inner.bottom <= outer.bottom;
}

/** The box grown on every side. */
export function grown(box: Box, by: number): Box {
  return { left: box.left - by, top: box.top - by, right: box.right + by, bottom: box.bottom + by };
}

/** The box around a point. */
export function around([x, y]: Point, reach: number): Box {
  return { left: x - reach, top: y - reach, right: x + reach, bottom: y + reach };
}

/** Whether a point lies in a box. */
export function holds(box: Box, [x, y]: Point): boolean {
  return x > box.left && x < box.right && y > box.top && y < box.bottom;
}

import type { Box, Point } from "./box.ts";
import { px } from "./px.ts";

/** The path data of points joined in order. */
export function pathData(points: readonly Point[]): string {
  let data = "";
  let before = "";
  for (const [x, y] of points) {
    const here = `${px(x)} ${px(y)}`;
    if (here !== before) data += `${data === "" ? "M" : "L"}${here}`;
    before = here;
  }
  return data;
}

/** A stroke through points, empty where there are fewer than two. */
export function drawCurve(points: readonly Point[], className: string): string {
  return points.length < 2 ? "" : `<path class="${className}" d="${pathData(points)}"/>`;
}

/** A straight stroke. */
export function drawLine([x1, y1]: Point, [x2, y2]: Point, className: string): string {
  return `<path class="${className}" d="M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}"/>`;
}

/** A filled and perhaps outlined shape. */
export function drawShape(points: readonly Point[], className: string, more = ""): string {
  return points.length < 3 ? "" : `<path class="${className}"${more} d="${pathData(points)}Z"/>`;
}

/** A box as a shape. */
export function drawBox({ left, top, right, bottom }: Box, className: string, more = ""): string {
  return `<rect class="${className}"${more} x="${px(left)}" y="${px(top)}" width="${px(Math.max(0, right - left))}" height="${px(Math.max(0, bottom - top))}"/>`;
}

/** A circle. */
export function drawDot([x, y]: Point, radius: number, className: string): string {
  return `<circle class="${className}" cx="${px(x)}" cy="${px(y)}" r="${px(radius)}"/>`;
}

/** Points that say the same to within a share of a pixel (Douglas and Peucker 1973). */
export function thinned(points: readonly Point[], within = 0.15): Point[] {
  const kept = new Uint8Array(points.length);
  const last = points.length - 1;
  if (last < 2) return [...points];
  kept[0] = kept[last] = 1;
  const spans: [number, number][] = [[0, last]];
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [from, to] = span;
    const [a, b] = [points[from]!, points[to]!];
    let [farthest, most] = [-1, within];
    for (let i = from + 1; i < to; i++) {
      const away = awayFrom(points[i]!, a, b);
      if (away > most) [farthest, most] = [i, away];
    }
    if (farthest < 0) continue;
    kept[farthest] = 1;
    spans.push([from, farthest], [farthest, to]);
  }
  return points.filter((_, i) => kept[i] === 1);
}

function awayFrom([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

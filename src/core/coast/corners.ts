import { isAlongSide } from "./edge-cells.ts";
import type { SheetRing } from "./sheet-rings.ts";

/**
 * The corners at which land sticks out into the water, four numbers to each: x, y and the unit vector outward along the bisector.
 * Corners on the sheet's sides, where rings were cut, are none.
 */
export function stickingOut(rings: readonly SheetRing[], halfMetres: number): Float64Array {
  const out: number[] = [];
  for (const { corners } of rings) {
    const n = corners.length;
    for (let i = 0; i < n; i += 2) {
      const x = corners[i] as number;
      const y = corners[i + 1] as number;
      const ax = corners[(i + n - 2) % n] as number;
      const ay = corners[(i + n - 1) % n] as number;
      const bx = corners[(i + 2) % n] as number;
      const by = corners[(i + 3) % n] as number;
      if (isAlongSide(ax, ay, x, y, halfMetres) || isAlongSide(x, y, bx, by, halfMetres)) continue;
      const inX = x - ax;
      const inY = y - ay;
      const outX = bx - x;
      const outY = by - y;
      // Land lies to the left: where the edge turns left, land sticks out.
      if (!(inX * outY - inY * outX > 0)) continue;
      const inLength = Math.sqrt(inX * inX + inY * inY);
      const outLength = Math.sqrt(outX * outX + outY * outY);
      const awayX = inX / inLength - outX / outLength;
      const awayY = inY / inLength - outY / outLength;
      // The two edges' normals to starboard serve where the edge hardly turns, the edges themselves where it turns back.
      const besideX = inY / inLength + outY / outLength;
      const besideY = -inX / inLength - outX / outLength;
      const [bisectX, bisectY] = awayX * awayX + awayY * awayY > 1 ? [awayX, awayY] : [besideX, besideY];
      const length = Math.sqrt(bisectX * bisectX + bisectY * bisectY);
      out.push(x, y, bisectX / length, bisectY / length);
    }
  }
  return Float64Array.from(out);
}

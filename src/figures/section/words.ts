/** A direction in three figures, rounded, 360 as 000. */
export function threeFigures(degrees: number): string {
  return String(((Math.round(degrees) % 360) + 360) % 360).padStart(3, "0");
}

const points = ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"] as const;

/** A direction as one of sixteen points of the compass. */
export function compassPoint(degrees: number): string {
  return points[((Math.round(degrees / 22.5) % 16) + 16) % 16] ?? "N";
}

/** A row of directions without the leap from 359 to 000: each within half a turn of the one before. */
export function unwound(degrees: readonly number[], near?: number): number[] {
  let before = near ?? degrees[0] ?? 0;
  return degrees.map((value) => {
    before = value - 360 * Math.round((value - before) / 360);
    return before;
  });
}

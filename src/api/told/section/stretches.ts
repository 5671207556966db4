import { tidy } from "./across.ts";

/** A stretch of a passage, miles across, and the greatest value in it. */
export type Stretch = { fromNm: number; untilNm: number; greatest: number };

/**
 * The stretches in which a value stands at or over a threshold; with `over`, only over it. Between two points it goes in a straight line;
 * a null ends a stretch.
 *
 * As from 1 to 3 at 2 for the values 1, 3, 1 at 0, 2 and 4 miles.
 *
 * @param points - `[miles across, value]` in order of time
 */
export function stretchesFrom(points: readonly (readonly [number, number] | null)[], threshold: number, over = false): Stretch[] {
  const isIn = (value: number): boolean => (over ? value > threshold : value >= threshold);
  const stretches: Stretch[] = [];
  let open: Stretch | null = null;
  let before: readonly [number, number] | null = null;
  for (const point of points) {
    if (point === null) open = null;
    else if (isIn(point[1])) {
      const fromNm = before !== null && !isIn(before[1]) ? crossing(before, point, threshold) : point[0];
      if (open === null) {
        open = { fromNm, untilNm: point[0], greatest: point[1] };
        stretches.push(open);
      }
      open.untilNm = point[0];
      open.greatest = Math.max(open.greatest, point[1]);
    } else if (open !== null && before !== null) {
      open.untilNm = crossing(before, point, threshold);
      open = null;
    }
    before = point;
  }
  return stretches;
}

function crossing(before: readonly [number, number], after: readonly [number, number], value: number): number {
  return tidy(before[0] + ((value - before[1]) / (after[1] - before[1])) * (after[0] - before[0]));
}

/** A box in px of a drawing. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** To a tenth of a px, without a trailing nought. */
export function tenth(px: number): string {
  return String(Math.round(px * 10) / 10);
}

/**
 * Strokes at 45° that fill a box, as the data of one path. Drawn stroke by stroke, not as a pattern: a pattern needs an id that is unique
 * in its page, and printers turn it into grey.
 *
 * @param pitchPx between strokes, square to them
 */
export function hatchStrokes(box: Box, pitchPx: number): string {
  const { left, right, top, bottom } = box;
  const step = pitchPx * Math.SQRT2;
  const strokes: string[] = [];
  // A stroke is all points whose x + y is one sum; the sums are multiples of the step, so that strokes of neighbouring boxes go on.
  for (let sum = Math.ceil((left + top) / step) * step; sum < right + bottom; sum += step) {
    const startX = Math.max(left, sum - bottom);
    const endX = Math.min(right, sum - top);
    if (endX - startX < 0.5) continue;
    strokes.push(`M${tenth(startX)} ${tenth(sum - startX)}L${tenth(endX)} ${tenth(sum - endX)}`);
  }
  return strokes.join("");
}

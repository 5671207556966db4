/**
 * What a boat makes on headings all round in one wind, as velocities through the water in the frame of the wind: `ahead` toward where it
 * comes from, `aside` square to that, counter-clockwise; m/s. Where she may tack or gybe as often as she likes she makes good every mean of what
 * she sails: over each run of headings that are sailed the curve is replaced by its convex hull. Samples that lay inside it are moved
 * out onto the facet above them, so that all curves have their samples at the same headings.
 */
export interface HulledCurve {
  readonly ahead: Float64Array;
  readonly aside: Float64Array;
  /** The facet over the piece from sample j to the next: the samples where it begins and ends. */
  readonly from: Int16Array;
  readonly until: Int16Array;
  /** False where some heading is not sailed, and the whole need not be convex. */
  readonly isConvex: boolean;
}

/** Hulls a curve in its arrays. `isSailed`: 1 where the headings on either side may be mixed. Graham's scan, by angle around the standstill. */
export function hulled(ahead: Float64Array, aside: Float64Array, isSailed: Uint8Array): HulledCurve {
  const count = ahead.length;
  const from = Int16Array.from({ length: count }, (_, j) => j);
  const until = Int16Array.from({ length: count }, (_, j) => (j + 1) % count);
  const gap = isSailed.indexOf(0);
  if (gap < 0) scan(ahead, aside, from, until, fastestOf(ahead, aside), count);
  else {
    for (let k = 1; k <= count; k++) {
      if (isSailed[(gap + k) % count] === 0) continue;
      let length = 0;
      while (isSailed[(gap + k + length + 1) % count] === 1) length++;
      scan(ahead, aside, from, until, (gap + k) % count, length);
      k += length;
    }
  }
  return { ahead, aside, from, until, isConvex: gap < 0 };
}

function fastestOf(ahead: Float64Array, aside: Float64Array): number {
  let best = 0;
  let greatest = -1;
  for (let j = 0; j < ahead.length; j++) {
    const square = ahead[j] ** 2 + aside[j] ** 2;
    if (square > greatest) {
      greatest = square;
      best = j;
    }
  }
  return best;
}

/** Hulls the samples `first` to `first + length`, counted on past the last; both ends stay. */
function scan(ahead: Float64Array, aside: Float64Array, from: Int16Array, until: Int16Array, first: number, length: number): void {
  const count = ahead.length;
  const kept: number[] = [];
  for (let k = first; k <= first + length; k++) {
    while (kept.length >= 2 && !turnsLeft(ahead, aside, (kept.at(-2) as number) % count, (kept.at(-1) as number) % count, k % count))
      kept.pop();
    kept.push(k);
  }
  for (let i = 0; i + 1 < kept.length; i++) {
    const a = kept[i] as number;
    const b = kept[i + 1] as number;
    for (let k = a; k < b; k++) {
      from[k % count] = a % count;
      until[k % count] = b % count;
      if (k > a) moveOnto(ahead, aside, a % count, b % count, k % count);
    }
  }
}

/** Turns whose sine is less are straight but for rounding: a curve turns by a thousand times more from one whole degree to the next. */
const STRAIGHT_SINE = 1e-5;

function turnsLeft(x: Float64Array, y: Float64Array, a: number, b: number, c: number): boolean {
  const abx = x[b] - x[a];
  const aby = y[b] - y[a];
  const bcx = x[c] - x[b];
  const bcy = y[c] - y[b];
  return abx * bcy - aby * bcx > STRAIGHT_SINE * Math.sqrt((abx * abx + aby * aby) * (bcx * bcx + bcy * bcy));
}

/** Moves sample k out along its own direction to the straight line from a to b. */
function moveOnto(x: Float64Array, y: Float64Array, a: number, b: number, k: number): void {
  const speed = Math.sqrt(x[k] * x[k] + y[k] * y[k]);
  const angle = (2 * Math.PI * k) / x.length;
  const dx = speed > 0 ? x[k] / speed : Math.cos(angle);
  const dy = speed > 0 ? y[k] / speed : Math.sin(angle);
  const bx = x[b] - x[a];
  const by = y[b] - y[a];
  const across = dx * by - dy * bx;
  const reach = across === 0 ? 0 : (x[a] * by - y[a] * bx) / across;
  x[k] = reach * dx;
  y[k] = reach * dy;
}

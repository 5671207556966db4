/** Zeroes closer than this are one: nothing is asked finer than a second. */
const CLOSEST_SECONDS = 0.5;

/** A smooth function with its slope, and a bound on its fourth derivative: what is needed to find every zero. */
export interface SlopedFunction {
  /** Writes value and slope into `out[0]` and `out[1]`. */
  into(out: Float64Array, at: number): void;
  readonly fourthDerivativeBound: number;
}

interface Sample {
  readonly at: number;
  readonly value: number;
  readonly slope: number;
}

/** A zero, and whether the function grows through it. */
export interface Zero {
  readonly at: number;
  readonly rising: boolean;
}

/**
 * Every zero between two samples at which the function changes its sign, none missed: between them it lies within M h⁴/384 of the cubic
 * through both values and slopes (M bounds the fourth derivative, h is the gap; Hermite's interpolation), the cubic lies between the
 * ends of its Bézier points, and where these don't decide, the gap is halved. Two zeroes within a second of each other are passed
 * over together: between them the function does not leave nought by more than that.
 */
export function zeroesBetween(of: SlopedFunction, left: Sample, right: Sample, found: (zero: Zero) => void): void {
  const h = right.at - left.at;
  const inLeft = left.value + (left.slope * h) / 3;
  const inRight = right.value - (right.slope * h) / 3;
  const off = (of.fourthDerivativeBound * h ** 4) / 384;
  const least = Math.min(left.value, inLeft, inRight, right.value);
  const most = Math.max(left.value, inLeft, inRight, right.value);
  if (least > off || most < -off) return;
  if (left.value < 0 !== right.value < 0) {
    // One zero only, where the slope keeps its sign: the slope's own Bézier points, off by at most √3 M h³/216.
    const slopeOff = (of.fourthDerivativeBound * h ** 3 * Math.sqrt(3)) / 216;
    const middle = (3 * (inRight - inLeft)) / h;
    const rising = left.value < 0;
    const lowest = Math.min(left.slope, middle, right.slope);
    const highest = Math.max(left.slope, middle, right.slope);
    if (h <= CLOSEST_SECONDS || (rising ? lowest > slopeOff : highest < -slopeOff)) {
      found({ at: polish(of, left, right), rising });
      return;
    }
  } else if (h <= CLOSEST_SECONDS) return;
  const middle = sampleOf(of, (left.at + right.at) / 2);
  zeroesBetween(of, left, middle, found);
  zeroesBetween(of, middle, right, found);
}

const scratch = new Float64Array(2);

/** The value and slope at an instant. */
export function sampleOf(of: SlopedFunction, at: number): Sample {
  of.into(scratch, at);
  return { at, value: scratch[0] as number, slope: scratch[1] as number };
}

/** Newton's steps, kept between two instants of different sign, to a hundredth of a second. */
function polish(of: SlopedFunction, left: Sample, right: Sample): number {
  let [low, high] = [left.at, right.at];
  const rising = left.value < 0;
  let at = low + ((high - low) * left.value) / (left.value - right.value);
  for (let i = 0; i < 60 && high - low > 0.01; i++) {
    const { value, slope } = sampleOf(of, at);
    if (value < 0 === rising) low = at;
    else high = at;
    const next = at - value / slope;
    if (Math.abs(next - at) < 0.005) break;
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return at;
}

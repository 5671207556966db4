/**
 * Weights of four equally spaced values for the Catmull–Rom cubic at `s` (0 to 1) between the middle two, then of its derivative by `s`:
 * eight numbers (Catmull & Rom, "A class of local interpolating splines", 1974).
 */
export function fillCubicWeights(out: Float64Array, s: number): void {
  const s2 = s * s;
  const s3 = s2 * s;
  out[0] = -0.5 * s + s2 - 0.5 * s3;
  out[1] = 1 - 2.5 * s2 + 1.5 * s3;
  out[2] = 0.5 * s + 2 * s2 - 1.5 * s3;
  out[3] = -0.5 * s2 + 0.5 * s3;
  out[4] = -0.5 + 2 * s - 1.5 * s2;
  out[5] = -5 * s + 4.5 * s2;
  out[6] = 0.5 + 4 * s - 4.5 * s2;
  out[7] = -s + 1.5 * s2;
}

/** Weights of four levels, Catmull–Rom; where a neighbour is wanting, the parabola through the other three, or the straight line. */
export function fillTimeWeights(weights: Float64Array, s: number, before: boolean, after: boolean): void {
  const h00 = (1 + 2 * s) * (1 - s) * (1 - s);
  const h10 = s * (1 - s) * (1 - s);
  const h01 = s * s * (3 - 2 * s);
  const h11 = s * s * (s - 1);
  if (before && after) {
    weights[0] = -h10 / 2;
    weights[1] = h00 - h11 / 2;
    weights[2] = h01 + h10 / 2;
    weights[3] = h11 / 2;
  } else if (after) {
    weights[0] = 0;
    weights[1] = h00 - 1.5 * h10 - h11 / 2;
    weights[2] = h01 + 2 * h10;
    weights[3] = (h11 - h10) / 2;
  } else if (before) {
    weights[0] = (h11 - h10) / 2;
    weights[1] = h00 - 2 * h11;
    weights[2] = h01 + h10 / 2 + 1.5 * h11;
    weights[3] = 0;
  } else {
    weights[0] = 0;
    weights[1] = 1 - s;
    weights[2] = s;
    weights[3] = 0;
  }
}

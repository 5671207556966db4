/** A place in a row of values where it turns: a high or a low, as its index. */
export type TurningPoint = { readonly index: number; readonly kind: "high" | "low" };

/**
 * The highs and lows of a row of values between which it swings by at least `swing`, in order; ripples smaller than that don't count. Of a
 * flat row there are none; the ends of a row that rises or falls throughout are its low and its high.
 */
export function turningPoints(values: readonly number[], swing: number): TurningPoint[] {
  if (!(swing > 0)) throw new Error(`no swing to turn by: ${swing}`);
  const found: TurningPoint[] = [];
  let [low, high, sense] = [0, 0, 0];
  values.forEach((value, i) => {
    if (sense >= 0 && value > values[high]!) high = i;
    if (sense <= 0 && value < values[low]!) low = i;
    if (sense >= 0 && values[high]! - value >= swing) {
      found.push({ index: high, kind: "high" });
      [sense, low] = [-1, i];
    } else if (sense <= 0 && value - values[low]! >= swing) {
      found.push({ index: low, kind: "low" });
      [sense, high] = [1, i];
    }
  });
  if (sense !== 0) found.push(sense > 0 ? { index: high, kind: "high" } : { index: low, kind: "low" });
  return found;
}

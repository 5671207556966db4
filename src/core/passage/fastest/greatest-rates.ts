/**
 * The greatest rates of the water on a coarse lattice, m/s: anywhere, and by strips across the line (from start to end, then beyond) and
 * along it (from starboard to port). Strips without known water hold nothing (−Infinity).
 */
export interface GreatestRates {
  anywhereMps: number;
  /** Toward the end of the line, and back, for each strip across it. */
  readonly onwardMps: Float64Array;
  readonly backMps: Float64Array;
  /** To port and to starboard, for each strip along it. */
  readonly portMps: Float64Array;
  readonly starboardMps: Float64Array;
}

export function noRates(strips: number, lanes: number): GreatestRates {
  const least = (count: number): Float64Array => new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  return { anywhereMps: 0, onwardMps: least(strips), backMps: least(strips), portMps: least(lanes), starboardMps: least(lanes) };
}

export function noteRate(rates: GreatestRates, strip: number, lane: number, alongMps: number, portMps: number): void {
  const rate = Math.sqrt(alongMps * alongMps + portMps * portMps);
  if (rate > rates.anywhereMps) rates.anywhereMps = rate;
  raise(rates.onwardMps, strip, alongMps);
  raise(rates.backMps, strip, -alongMps);
  raise(rates.portMps, lane, portMps);
  raise(rates.starboardMps, lane, -portMps);
}

/** Raises `rates` to what is greater in `others`. */
export function joinRates(rates: GreatestRates, others: GreatestRates): void {
  rates.anywhereMps = Math.max(rates.anywhereMps, others.anywhereMps);
  for (let i = 0; i < rates.onwardMps.length; i++) {
    raise(rates.onwardMps, i, others.onwardMps[i] as number);
    raise(rates.backMps, i, others.backMps[i] as number);
  }
  for (let i = 0; i < rates.portMps.length; i++) {
    raise(rates.portMps, i, others.portMps[i] as number);
    raise(rates.starboardMps, i, others.starboardMps[i] as number);
  }
}

function raise(greatest: Float64Array, i: number, one: number): void {
  if (one > (greatest[i] as number)) greatest[i] = one;
}

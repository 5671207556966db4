import type { GreatestRates } from "./greatest-rates.ts";

/** The coarse lattice may overlook a peak: rates are lifted by this share and so many m/s. */
const PEAK_MARGIN = 1.15;
const PEAK_MARGIN_MPS = 0.1;
/** No strip is reckoned slower to cross than at this share of the boat's speed. */
const SLOWEST_SHARE = 0.2;

/** Where the strips of the rates lie: the middle of the first and the distance between them, metres. */
export interface Strips {
  readonly first: number;
  readonly spacing: number;
}

/**
 * The least time that any boat could need from a place to the destination: the distance at the boat's speed and the greatest current; or, where
 * it is more, the sum over the strips across the line that lie between, each crossed with the best that its water gives; or that over the
 * strips along it. None shortens by more than a step takes, so that a search by it finds what it would without it.
 */
export class TimeToGo {
  /** Seconds a metre with the greatest current anywhere. */
  readonly bound: number;
  private readonly speedMps: number;
  private readonly lengthMetres: number;

  constructor(speedMps: number, rates: GreatestRates, lengthMetres: number) {
    this.speedMps = speedMps;
    this.lengthMetres = lengthMetres;
    this.bound = 1 / (speedMps + rates.anywhereMps * PEAK_MARGIN + PEAK_MARGIN_MPS);
  }

  distanceSeconds(along: number, port: number): number {
    const dx = along - this.lengthMetres;
    return Math.sqrt(dx * dx + port * port) * this.bound;
  }

  /**
   * Seconds to go from each of evenly spaced places (`first`, `cell`) to the one at index `goal`, by the strips between; `upMps` serves
   * places below the goal, `downMps` those above.
   */
  fillByStrips(
    seconds: Float64Array,
    first: number,
    cell: number,
    goal: number,
    strips: Strips,
    upMps: Float64Array,
    downMps: Float64Array,
  ): void {
    seconds[goal] = 0;
    for (let i = goal - 1; i >= 0; i--)
      seconds[i] = (seconds[i + 1] as number) + cell / this.fastestIn(first + (i + 0.5) * cell, strips, upMps);
    for (let i = goal + 1; i < seconds.length; i++) {
      seconds[i] = (seconds[i - 1] as number) + cell / this.fastestIn(first + (i - 0.5) * cell, strips, downMps);
    }
  }

  private fastestIn(place: number, strips: Strips, ratesMps: Float64Array): number {
    const at = Math.floor((place - strips.first) / strips.spacing);
    const last = ratesMps.length - 1;
    const here = ratesMps[Math.min(last, Math.max(0, at))] as number;
    const next = ratesMps[Math.min(last, Math.max(0, at + 1))] as number;
    const rate = Math.max(here, next);
    if (here === Number.NEGATIVE_INFINITY || next === Number.NEGATIVE_INFINITY) return 1 / this.bound;
    const lifted = (rate > 0 ? rate * PEAK_MARGIN : rate / PEAK_MARGIN) + PEAK_MARGIN_MPS;
    return Math.max(this.speedMps + lifted, SLOWEST_SHARE * this.speedMps);
  }
}

/**
 * Which period a source of waves gives: the peak's; the energy period (Tm−1,0, what several centres call mean period); the mean period
 * (Tm0,1); the zero-crossing period (Tm0,2); or it doesn't say.
 */
export type GivenPeriod = "peak" | "energy" | "mean" | "zeroCrossing" | "notSaid";

/** What a source of waves says about itself. */
export interface WaveSource {
  readonly period: GivenPeriod;
  /** Whether its waves already feel the current; "notSaid" is taken as no, which is on the safe side against a current. */
  readonly includesCurrent: "yes" | "no" | "notSaid";
}

/** The shape of a sea's spectrum: one still growing, or one fully grown. */
export type SpectrumShape = "growing" | "full";

/**
 * Each period over the peak's. Source: moments of the JONSWAP spectrum (Hasselmann et al. 1973, peak enhancement 3.3, growing) and the
 * Pierson & Moskowitz one (1964, full); integrated
 * without cutting off the short waves. DNV-RP-C205, 3.5.5, has 0.8345 and 0.7777 for the last two (from memory).
 */
export const PERIOD_OVER_PEAK: Readonly<Record<SpectrumShape, Readonly<Record<Exclude<GivenPeriod, "notSaid">, number>>>> = {
  growing: { peak: 1, energy: 0.9033, mean: 0.8343, zeroCrossing: 0.7774 },
  full: { peak: 1, energy: 0.8572, mean: 0.7718, zeroCrossing: 0.7104 },
};

/** The peak period a source means, and what was assumed for it. */
export interface PeakPeriod {
  readonly periodSeconds: number;
  /** What the given period was multiplied by. */
  readonly factor: number;
  /** The source doesn't say which period it gives: taken as the peak's. Were it a mean, waves would be longer and less steep than told. */
  readonly assumedPeak: boolean;
}

/**
 * The peak period from that which a source gives, by the shape of the spectrum.
 *
 * @example
 * peakPeriodOf(7, "zeroCrossing", "growing").periodSeconds // => 9.004
 */
export function peakPeriodOf(givenSeconds: number, given: GivenPeriod, shape: SpectrumShape): PeakPeriod {
  const factor = given === "notSaid" ? 1 : 1 / PERIOD_OVER_PEAK[shape][given];
  return { periodSeconds: givenSeconds * factor, factor, assumedPeak: given === "notSaid" };
}

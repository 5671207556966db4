/**
 * How a sea grows under a steady wind, as a handbook's curves: with U the handbook's wind speed, heights are counted in U²/g, periods in
 * U/g, fetches in U²/g and durations in U/g.
 */
export interface GrowthLaw {
  readonly name: string;
  /** The handbook's wind speed, m/s, from that at 10 m. */
  windScaleMps(windMps: number): number;
  /** Height = this × √fetch. */
  readonly height: number;
  /** Peak period = this × ∛fetch. */
  readonly period: number;
  /** Of a sea that grows no more. */
  readonly greatestHeight: number;
  readonly greatestPeriod: number;
  /** Duration = this × fetch^⅔: the time a sea needs to have run a fetch. */
  readonly duration: number;
}

/**
 * The growth that is used: the Shore Protection Manual's form with the wind at 10 m, limits as printed. Source: a coastal-engineering
 * course's worked exercise (15 m/s over 200 km: 3.42 m, 9.0 s), which states 0.0016, 0.286, 0.243, 8.13; the duration's 68.8 is the Shore
 * Protection Manual's (1984), from memory. (The exercise's own key forgets the duration.)
 */
export const SHORE_MANUAL_GROWTH: GrowthLaw = {
  name: "Shore Protection Manual (1984)",
  windScaleMps: (windMps) => windMps,
  height: 0.0016,
  period: 0.286,
  greatestHeight: 0.243,
  greatestPeriod: 8.13,
  duration: 68.8,
};

/**
 * A second handbook, to show how far they part: it grows a young sea much more slowly and a full one higher. Source: US Army Corps of
 * Engineers, Coastal Engineering Manual, part II-2, pp. 36–46: limits and duration as printed; 0.0413, 0.651 and the drag from memory.
 */
export const COASTAL_MANUAL_GROWTH: GrowthLaw = {
  name: "Coastal Engineering Manual (2002)",
  windScaleMps: (windMps) => windMps * Math.sqrt(0.001 * (1.1 + 0.035 * windMps)),
  height: 0.0413,
  period: 0.651,
  greatestHeight: 211.5,
  greatestPeriod: 239.8,
  // Printed the other way about: fetch = 0.00523 duration^(3/2).
  duration: 0.00523 ** (-2 / 3),
};

/** Both, the one that is used first. */
export const growthLaws: readonly GrowthLaw[] = [SHORE_MANUAL_GROWTH, COASTAL_MANUAL_GROWTH];

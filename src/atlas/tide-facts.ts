/** What is to be known of the tide stations that ship, for the assumptions of an answer. */
export const TIDE_FACTS = {
  name: "a public database of tidal constants, 24 September 2026",
  /** With constants of their own, and told from another's. */
  harmonicCount: 3601,
  secondaryCount: 2241,
  /** In the set and not here: not free for every use, without constants, without a mean level above their datum. */
  leftOut: { notFree: 282, noConstants: 10, noMeanLevel: 1 },
  /** Amplitudes are kept to this, metres, phases to a hundredth of a degree. */
  amplitudeStepMetres: 0.0001,
  caution: "Heights are of the tide alone: wind, air pressure and rivers raise or lower the water by decimetres, more in a gale.",
} as const;

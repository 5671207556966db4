/** The words of the state of the sea, code 0 to 9. */
export const SEA_STATES = [
  "calm (glassy)",
  "calm (rippled)",
  "smooth",
  "slight",
  "moderate",
  "rough",
  "very rough",
  "high",
  "very high",
  "phenomenal",
] as const;

/** The greatest height of each state but the last, metres; the bounding height itself belongs to the lower state. */
const STATE_UP_TO_METRES = [0, 0.1, 0.5, 1.25, 2.5, 4, 6, 9, 14];

export interface SeaState {
  readonly code: number;
  readonly words: (typeof SEA_STATES)[number];
}

/**
 * The state of the sea by significant height. Source: WMO code table 3700.
 *
 * @example
 * seaStateOf(4).words // => "rough"
 */
export function seaStateOf(heightMetres: number): SeaState {
  if (!(heightMetres >= 0)) throw new Error(`height ${heightMetres} m: expected 0 or more`);
  const under = STATE_UP_TO_METRES.findIndex((upTo) => heightMetres <= upTo);
  const code = under < 0 ? SEA_STATES.length - 1 : under;
  return { code, words: SEA_STATES[code] as SeaState["words"] };
}

/** Words for a swell. Source: WMO, Manual on Codes and its forecasters' glossary: low to 2 m, moderate to 4 m; short to 100 m, average to 200 m. */
export interface SwellWords {
  readonly height: "low" | "moderate" | "heavy";
  readonly length: "short" | "average" | "long";
}

/** How a swell of this height and length is called; a bounding figure belongs to the lower word. */
export function swellWordsOf(heightMetres: number, lengthMetres: number): SwellWords {
  return {
    height: heightMetres <= 2 ? "low" : heightMetres <= 4 ? "moderate" : "heavy",
    length: lengthMetres <= 100 ? "short" : lengthMetres <= 200 ? "average" : "long",
  };
}

import type { Span } from "../fields/index.ts";
import type { RangedSource, SeaSource, WindSource } from "../weather/index.ts";
import type { Felt } from "./limit.ts";
import type { PassageFacts } from "./once/passage-facts.ts";

/** The weather that departures are felt in, and what else of a passage is felt. */
export interface WeatherToFeel {
  readonly wind: WindSource;
  readonly sea: SeaSource | null;
  /** Metres; left out or null where no source gives it. */
  readonly visibility?: RangedSource | null;
  /** The chance of thunderstorms, 0 to 1; left out or null where no source gives it. */
  readonly thunderstorms?: RangedSource | null;
  /** Left out: nothing of boat, crew and shallows is stated. */
  readonly facts?: PassageFacts;
  /** Which runs of the current serve for a passage of this time, as a text that is the same where the same do; left out for a current without a choice. */
  currentRunsFor?(passage: Span): string;
}

/** What the weather covers in time of what a limit is set on; null where no source gives it, and for what is not weather. */
export function coveredOf({ wind, sea, visibility, thunderstorms }: WeatherToFeel, felt: Felt): Span | null {
  switch (felt) {
    case "windMps":
    case "gustMps":
    case "windAgainstCurrentMps2":
      return wind.covers;
    case "seaHeightMetres":
    case "seaPeriodSeconds":
    case "seaSteepness":
    case "seaOnCurrentMetres":
    case "seaSecondsPerMetre":
      return sea?.covers ?? null;
    case "visibilityMetres":
      return visibility?.covers ?? null;
    case "thunderstormShare":
      return thunderstorms?.covers ?? null;
    default:
      return null;
  }
}

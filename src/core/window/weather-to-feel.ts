import type { Span } from "../fields/index.ts";
import type { SeaSource, WindSource } from "../weather/index.ts";

/** The weather that departures are felt in. */
export interface WeatherToFeel {
  readonly wind: WindSource;
  readonly sea: SeaSource | null;
  /** Which runs of the current serve for a passage of this time, as a text that is the same where the same do; left out for a current without a choice. */
  currentRunsFor?(passage: Span): string;
}

import { runsForAll, type Span } from "../fields/index.ts";
import type { SeaSampler, WindSampler } from "../weather/index.ts";
import type { DepartureRun } from "./departures.ts";
import type { FeltBeside } from "./exposure.ts";
import type { WindBefore } from "./once/once-value.ts";
import { windBeforeOn } from "./once/wind-before.ts";
import type { Trial } from "./trial.ts";
import type { WeatherToFeel } from "./weather-to-feel.ts";

/** What a passage over `passage` is run with under a member's wind. */
export type TrialOf = (member: number, passage: Span) => Trial;

/** What a departure is run and felt in, once it is settled which runs of the forecasts serve. */
export interface FeltSurroundings {
  /** One a member. */
  readonly trials: readonly Trial[];
  readonly winds: readonly WindSampler[];
  readonly sea: SeaSampler | null;
  readonly beside: FeltBeside;
  /** The wind before leaving, one a member. */
  readonly windsBefore: readonly WindBefore[];
  /** From when on the wind is covered. */
  readonly windFrom: number;
}

/**
 * Settles for each departure which runs of its forecasts serve. The newest that covers the passage whole can only be told once the
 * passage was run: it is run with the newest, looked at, and run again where that one ends too soon.
 */
export class SurroundingsOfRuns {
  private readonly known = new Map<string, FeltSurroundings>();
  private readonly trialOf: TrialOf;
  private readonly weather: WeatherToFeel;

  constructor(trialOf: TrialOf, weather: WeatherToFeel) {
    this.trialOf = trialOf;
    this.weather = weather;
  }

  /** Runs one departure in the surroundings that serve for it. */
  settle(
    departAt: number,
    run: (trial: Trial, departAt: number) => DepartureRun,
  ): { readonly run: DepartureRun; readonly around: FeltSurroundings } {
    let around = this.over({ from: departAt, until: departAt });
    let done = run(around.trials[0] as Trial, departAt);
    const tried = new Set([around]);
    for (;;) {
      if (done.planned.kind === "fails") return { run: done, around };
      const next = this.over({ from: departAt, until: done.planned.run.arrivalAt });
      if (tried.has(next)) return { run: done, around };
      tried.add(next);
      around = next;
      done = run(around.trials[0] as Trial, departAt);
    }
  }

  /** What serves for a passage of this time. */
  over(passage: Span): FeltSurroundings {
    const { wind, sea, currentRunsFor } = this.weather;
    const key = `${currentRunsFor?.(passage) ?? ""} ${runsForAll(sea === null ? [wind] : [wind, sea], passage)}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const trial = this.trialOf(0, passage);
    const { plane } = trial.crossing.line;
    const { dependsOnWind } = trial.crossing.boat;
    const winds = Array.from({ length: wind.memberCount }, (_, member) => wind.onPlane(plane, member, passage));
    const trials = winds.map((_, member) => (member === 0 || !dependsOnWind ? trial : this.trialOf(member, passage)));
    const { visibility = null, thunderstorms = null, facts = null } = this.weather;
    const beside = {
      visibility: visibility?.onPlane(plane) ?? null,
      thunderstorms: thunderstorms?.onPlane(plane) ?? null,
      facts,
      seaCovers: sea?.covers ?? null,
    };
    const windsBefore = winds.map((sampler) => windBeforeOn(trial.crossing.line, sampler, wind.covers));
    const made = { trials, winds, sea: sea?.onPlane(plane, passage) ?? null, beside, windsBefore, windFrom: wind.covers.from };
    this.known.set(key, made);
    return made;
  }
}

import type { WayArrives } from "../passage/index.ts";
import type { WindSampler } from "../weather/index.ts";
import { beforePlanned } from "./before-in.ts";
import { currentNotFit } from "./current-not-fit.ts";
import { berthToBerth } from "./departures.ts";
import { feel } from "./exposure.ts";
import { gateFaultOf, outOfHarbour } from "./gates/pass-gates.ts";
import type { Margin } from "./judged.ts";
import type { Limit } from "./limit.ts";
import { judge } from "./margin.ts";
import type { FeltSurroundings } from "./runs-settled.ts";
import type { Trial } from "./trial.ts";
import { decide, type Verdict } from "./verdict.ts";
import { coveredOf, type WeatherToFeel } from "./weather-to-feel.ts";

/** One way across judged along its own path, from berth to berth. */
export interface WayJudged {
  readonly verdict: Verdict;
  readonly margins: readonly Margin[];
  /** At the berth. */
  readonly berthAt: number;
}

/**
 * Judges one way of a departure by itself, as the board judges the advised one: in the first forecast, without its time in hand and
 * without a cure for a gate that it misses.
 */
export function judgeWay(
  way: WayArrives,
  departAt: number,
  around: FeltSurroundings,
  limits: readonly Limit[],
  weather: WeatherToFeel,
): WayJudged {
  const trial = around.trials[0] as Trial;
  const { passed, gates, arrivalAt } = berthToBerth(trial, outOfHarbour(trial, departAt), way.track);
  const exposure = feel(passed, around.winds[0] as WindSampler, around.sea, around.beside, () => beforePlanned(around, way, 0));
  const margins = limits.map((limit) => judge(exposure, limit, coveredOf(weather, limit.felt)));
  return { verdict: decide(margins, null, { fault: gateFaultOf(gates), cures: [] }, currentNotFit(exposure)), margins, berthAt: arrivalAt };
}

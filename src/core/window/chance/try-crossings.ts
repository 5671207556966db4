import { type Crossing, carryOut, crossingOf, mendedInTime, type WayArrives } from "../../passage/index.ts";
import type { CurrentSampler } from "../../water/index.ts";
import type { WindSampler } from "../../weather/index.ts";
import type { KeptDeparture } from "../board.ts";
import { berthToBerth } from "../departures.ts";
import { feel } from "../exposure.ts";
import { gateFaultOf, outOfHarbour } from "../gates/pass-gates.ts";
import type { Limit } from "../limit.ts";
import type { FeltSurroundings } from "../runs-settled.ts";
import type { Trial } from "../trial.ts";
import type { WeatherToFeel } from "../weather-to-feel.ts";
import { type ChanceErrors, CURRENT_ERROR_LASTS, WIND_ERROR_FADES_SECONDS } from "./chance-errors.ts";
import { FadingError, RunningMeanError } from "./error-series.ts";
import { GATE_MISSED, type KeptSamples, keepEnd, keepFelt, NO_PASSAGE, roomForSamples, UNKNOWN } from "./kept-samples.ts";
import { OtherStream, streamCrossed, WaterWithError } from "./other-water.ts";
import { OtherWind } from "./other-wind.ts";
import { SeededRandom } from "./seeded-random.ts";

/**
 * Steps of a crossing that is tried for a chance, seconds. Against steps of a minute the arrival is then off by 2 s at most on the demo's
 * grid, and by 2 min (root mean square) on a sketched stream with hard edges, where its spread is an hour.
 */
export const CHANCE_STEP_SECONDS = 900;

/** What each draw is for: every one has numbers of its own, so that one more or less changes none of the others. */
const ONCE_DRAWN = 0;
const CURRENT_EAST = 1;
const CURRENT_NORTH = 2;
const WIND_SPEED = 3;
const WIND_DIRECTION = 4;

/** A departure's advised order and all else that is to be carried out: plain data but for the track's plane. */
export interface OrderToTry {
  /** From the berth. */
  readonly departAt: number;
  /** At the berth, as planned. */
  readonly arrivalAt: number;
  readonly advised: WayArrives;
}

/** The crossings tried for one departure, and what was drawn for them. */
export interface CrossingsTried {
  readonly departAt: number;
  readonly samples: KeptSamples;
  /** Where the wind of the samples is from: a member each in turn, or the one forecast with its error. */
  readonly wind: "members" | "error";
  /** What was uncertain of the water: a stream's total and place, or the current along the path. */
  readonly current: "stream" | "alongPath";
}

/** The order of a departure; null where no way arrives as planned. */
export function orderToTry({ run }: KeptDeparture): OrderToTry | null {
  const { departAt, advised, planned } = run;
  if (advised === null || planned.kind === "fails") return null;
  return { departAt, arrivalAt: planned.run.arrivalAt, advised };
}

/**
 * Tries a departure many times, each time with errors drawn anew: she starts late, is faster or slower, steers to one side, meets other
 * water and other wind than foretold. Each time the advised order is carried out as it was given (`carryOut`), mended no later
 * than after `MEND_FROM_SHARE` of the line, from where on the straight track to the destination is held: no crew re-aims less than that.
 * `limits` only tell which tolerations to keep.
 */
export function tryCrossings(
  { departAt, advised }: OrderToTry,
  around: FeltSurroundings,
  weather: WeatherToFeel,
  errors: ChanceErrors,
  limits: readonly Limit[],
): CrossingsTried {
  const samples = roomForSamples(errors.samples, limits);
  const [first] = around.trials;
  if (first === undefined) throw new Error("nothing to run a departure with");
  const stream = streamCrossed(first.crossing, advised);
  const hasMembers = around.winds.length > 1;
  const issuedAt = weather.wind.issuedAt ?? weather.wind.covers.from;
  const order = mendedInTime(advised, first.crossing.line.lengthMetres);
  for (let sample = 0; sample < errors.samples; sample++) {
    const draw = (what: number): SeededRandom => SeededRandom.from(errors.seed, Math.round(departAt), sample, what);
    const once = draw(ONCE_DRAWN);
    const lateSeconds = errors.latestStartSeconds * once.even();
    const speedFactor = Math.exp(errors.speedShare * once.normal());
    const headingBiasDeg = errors.headingDeg * once.normal();
    const totalFactor = 1 + errors.streamTotalShare * once.normal();
    const movedMetres = errors.streamPlaceMetres * once.normal();
    const member = sample % around.winds.length;
    const trial = around.trials[member] as Trial;
    const foretold = trial.crossing.around.current;
    const current: CurrentSampler =
      stream !== null
        ? new OtherStream(foretold, totalFactor, movedMetres * stream.x, movedMetres * stream.y)
        : new WaterWithError(
            foretold,
            new RunningMeanError(draw(CURRENT_EAST), departAt, CURRENT_ERROR_LASTS),
            new RunningMeanError(draw(CURRENT_NORTH), departAt, CURRENT_ERROR_LASTS),
            errors.currentRmsMps / Math.SQRT2,
          );
    const plainWind = around.winds[member] as WindSampler;
    const wind = hasMembers
      ? plainWind
      : new OtherWind(
          plainWind,
          errors,
          issuedAt,
          new FadingError(draw(WIND_SPEED), departAt, WIND_ERROR_FADES_SECONDS),
          new FadingError(draw(WIND_DIRECTION), departAt, WIND_ERROR_FADES_SECONDS),
        );
    const left = outOfHarbour(trial, departAt + lateSeconds);
    const open = carryOut(
      otherCrossing(trial.crossing, current, wind),
      { ...order, departAt: left.openWaterFrom },
      { speedFactor, headingBiasDeg },
    ).run;
    if (open.kind === "fails") {
      keepEnd(samples, sample, "coveredUntil" in open.why ? UNKNOWN : NO_PASSAGE);
      continue;
    }
    const { passed, gates } = berthToBerth(trial, left, open.track);
    const fault = gateFaultOf(gates);
    if (fault !== null) {
      keepEnd(samples, sample, fault.kind === "notGiven" ? UNKNOWN : GATE_MISSED);
      continue;
    }
    keepFelt(samples, sample, feel(passed, wind, around.sea, around.beside));
  }
  return {
    departAt,
    samples,
    wind: hasMembers ? "members" : "error",
    current: stream === null ? "alongPath" : "stream",
  };
}

function otherCrossing(crossing: Crossing, current: CurrentSampler, wind: WindSampler): Crossing {
  const { line, around, boat, engineStopped } = crossing;
  const other = { ...around, current, wind: around.wind === null ? null : wind };
  return crossingOf(line, other, boat, Math.max(CHANCE_STEP_SECONDS, crossing.stepSeconds), engineStopped);
}

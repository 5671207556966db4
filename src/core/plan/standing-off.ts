import { type CannotLieTo, carryOut, type LiesTo, lieTo, type Surroundings, type WayArrives, zeroBetween } from "../passage/index.ts";
import type { WindSampler } from "../weather/index.ts";
import { harbourSeconds, intoHarbour, LATEST_TRIED_SECONDS, runPlanned, SurroundingsOfRuns, type Trial } from "../window/index.ts";
import type { Prepared } from "./prepare.ts";
import { LightAtEntrance } from "./refuges/light-at-entrance.ts";

/** No slower than this share of the planned speed: below it a boat hardly steers in a seaway (common practice). */
export const SLOWEST_SHARE = 0.5;
/** How far apart later departures are tried, and how closely the first good one is told, seconds. */
const LATER_EVERY_SECONDS = 3600;
const WITHIN_SECONDS = 60;
const SHARE_WITHIN = 1e-4;

/** What to do about an arrival out of the light. Times at the entrance; limits other than the light are not judged here. */
export interface StandingOff {
  /** At the entrance by the advised way. */
  readonly plannedAt: number;
  /** The sun's height that is wanted from the entrance to the berth, degrees: the light limit's *never*. */
  readonly sunAboveDeg: number;
  /** The first instant after `plannedAt` from which it is light enough all the way in; null where there is none within a day and a half. */
  readonly lightAt: number | null;
  /** The share of the planned speed at which she arrives then; null where that would be slower than `SLOWEST_SHARE`. */
  readonly slower: { readonly speedShare: number; readonly arrivalAt: number } | null;
  /** The first later departure within a day that arrives in the light; null where there is none. */
  readonly later: { readonly departAt: number; readonly arrivalAt: number } | null;
  /** Hove to (or stopped) on the tack that lets draw the latest, else why neither serves. */
  readonly lyingTo: LiesTo | CannotLieTo | null;
}

/** What to do where the advised way of a departure arrives in the dark; null where it doesn't, or no light is asked for. */
export function standingOff(
  prepared: Prepared,
  departAt: number,
  advised: WayArrives,
  trial: Trial,
  wind: WindSampler,
): StandingOff | null {
  const limit = prepared.passage.limits.find((one) => one.felt === "sunAltitudeDeg");
  if (limit === undefined) return null;
  const light = new LightAtEntrance(prepared.passage.to.position, limit.never);
  const berthSeconds = harbourSeconds(trial).into;
  const isLight = (at: number): boolean => light.isLight(at) && light.isLight(at + berthSeconds);
  const plannedAt = advised.arrivalAt;
  // A wait off the entrance, before a gate, may bring the light by itself.
  if (isLight(intoHarbour(trial, advised.track).openWaterUntil)) return null;
  const lightAt = lightAfter(light, plannedAt, berthSeconds);
  const base = { plannedAt, sunAboveDeg: limit.never, lightAt };
  const later = laterDeparture(prepared, departAt, isLight);
  if (lightAt === null) return { ...base, slower: null, later, lyingTo: null };
  const around: Surroundings = { ...trial.crossing.around, wind, windCovers: prepared.weather.wind.covers };
  const tacks = (["port", "starboard"] as const).map((tack) => lieTo(trial.crossing, around, advised, lightAt, tack));
  const lying = tacks.flatMap((one) => (one.kind === "liesTo" ? [one] : [])).sort((one, other) => other.drawAt - one.drawAt);
  return { ...base, slower: slowerTo(trial, advised, lightAt), later, lyingTo: lying[0] ?? tacks[0] ?? null };
}

function lightAfter(light: LightAtEntrance, at: number, berthSeconds: number): number | null {
  const dawn = light.isLight(at) ? light.firstLightAfter(at + berthSeconds) : light.firstLightAfter(at);
  if (dawn === null || light.isLight(dawn + berthSeconds)) return dawn;
  // A day too short to get in by: the next one is no longer.
  return null;
}

function slowerTo(trial: Trial, advised: WayArrives, lightAt: number): StandingOff["slower"] {
  let fails = false;
  const late = (speedShare: number): number => {
    const { run } = carryOut(trial.crossing, advised, { speedFactor: speedShare });
    if (run.kind === "fails") fails = true;
    return run.kind === "fails" ? 0 : run.end.at - lightAt;
  };
  const slowest = late(SLOWEST_SHARE);
  if (fails || slowest < 0) return null;
  const speedShare = zeroBetween(late, SLOWEST_SHARE, 1, slowest, advised.arrivalAt - lightAt, SHARE_WITHIN, 1);
  const arrivalAt = lightAt + late(speedShare);
  return fails ? null : { speedShare, arrivalAt };
}

function laterDeparture(prepared: Prepared, departAt: number, isLight: (at: number) => boolean): StandingOff["later"] {
  const surroundings = new SurroundingsOfRuns(prepared.trialOf, prepared.weather);
  const arrivalOf = (at: number): number | null => {
    const { planned } = surroundings.settle(at, runPlanned).run;
    return planned.kind === "arrives" ? planned.run.openWaterUntil : null;
  };
  const good = (at: number): boolean => {
    const arrivalAt = arrivalOf(at);
    return arrivalAt !== null && isLight(arrivalAt);
  };
  for (let after = LATER_EVERY_SECONDS; after <= LATEST_TRIED_SECONDS; after += LATER_EVERY_SECONDS) {
    let high = departAt + after;
    if (!good(high)) continue;
    let low = high - LATER_EVERY_SECONDS;
    while (high - low > WITHIN_SECONDS) {
      const middle = low + Math.ceil((high - low) / 2 / WITHIN_SECONDS) * WITHIN_SECONDS;
      if (middle >= high) break;
      if (good(middle)) high = middle;
      else low = middle;
    }
    return { departAt: high, arrivalAt: arrivalOf(high) as number };
  }
  return null;
}

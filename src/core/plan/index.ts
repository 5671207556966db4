/**
 * Plan: the crossing as a whole: the passage the skipper states, from berth to berth, put together with its sources, its departures
 * tried, one of them looked at closely. (Staging, watches, bail-outs, the float plan and reminders join here.) SI and UTC seconds;
 * zones are names.
 */
export * from "./after-arrival.ts";
export * from "./anchorage.ts";
export * from "./cross.ts";
export * from "./departure-times.ts";
export * from "./fuel-plan.ts";
export * from "./harbour-legs.ts";
export * from "./inlet.ts";
export * from "./land-sources.ts";
export * from "./leave.ts";
export * from "./leave-work.ts";
export * from "./lying-there.ts";
export * from "./nights.ts";
export * from "./normal-chance.ts";
export * from "./passage.ts";
export * from "./plane-of.ts";
export * from "./prepare.ts";
export * from "./refuge.ts";
export { hoursOf, REFUGES_EVERY_SECONDS } from "./refuges/hours-of.ts";
export { type Barred, EntranceJudge, type EntranceWeather } from "./refuges/judge-entrance.ts";
export { DAYLIGHT_ALTITUDE_DEG, LightAtEntrance } from "./refuges/light-at-entrance.ts";
export { FUEL_KEPT_SHARE, type RefugeRun, type StruckOut, type WaitOff } from "./refuges/refuge-run.ts";
export { type RefugeToTry, refugesOf } from "./refuges/refuges-of.ts";
export { type TurnBack, turnBack } from "./refuges/turn-back.ts";
export { LONGEST_WAIT_SECONDS, OPEN_TOGETHER_SECONDS } from "./refuges/where-to-wait.ts";
export * from "./refuges.ts";
export * from "./seams.ts";
export * from "./square-departures.ts";
export * from "./staging.ts";
export * from "./staging-point.ts";
export * from "./standing-off.ts";
export * from "./steering.ts";
export * from "./upstream-bias.ts";
export * from "./waters.ts";
export * from "./way-home.ts";

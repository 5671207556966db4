import type { NoAnswer } from "../answers/index.ts";
import { NO_PLACE, NO_TIME } from "../fields/index.ts";
import type { Surroundings } from "./helm.ts";
import { onSheet } from "./land-ahead.ts";

/** What stands in a boat's way besides a coverage; of the wind's coverage, `OF_THE_WIND` more than the code. */
export const CANNOT_HOLD = 4;
export const CARRIED_AWAY = 5;
export const NO_WAY = 6;
export const STALLED = -1;
export const OF_THE_WIND = 10;

/** Why a boat can't go on, as an answer. */
export function noWayOn(why: number, around: Surroundings, xMetres: number, yMetres: number, at: number): NoAnswer {
  const { plane } = around;
  const where = plane.toPosition(onSheet(xMetres, plane), onSheet(yMetres, plane));
  if (why === CARRIED_AWAY) return { kind: "noAnswer", code: "carried-away", at, where };
  if (why === NO_WAY) return { kind: "noAnswer", code: "no-way", at, where };
  if (why === CANNOT_HOLD) return { kind: "noAnswer", code: "cannot-hold", at, where };
  if (why < 0) return { kind: "noAnswer", code: "stalled", at, where };
  const ofWind = why >= OF_THE_WIND;
  const coverage = ofWind ? why - OF_THE_WIND : why;
  const covers = ofWind ? around.windCovers : around.currentCovers;
  return {
    kind: "noAnswer",
    code: coverage === NO_PLACE ? "not-covered-place" : coverage === NO_TIME ? "not-covered-time" : "not-covered-variable",
    quantity: ofWind ? "wind" : "current",
    at,
    where,
    coveredFrom: covers?.from ?? null,
    coveredUntil: covers?.until ?? null,
  };
}

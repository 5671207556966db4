import { normalChanceAbove } from "../../../../src/core/plan/index.ts";
import {
  CHANCE_DEFAULTS,
  type Chance,
  type ChanceErrors,
  chanceOf,
  DepartureKeeper,
  type KeptChance,
  keepChance,
  type Limit,
  orderToTry,
  type Trial,
  tryCrossings,
  type WeatherToFeel,
} from "../../../../src/core/window/index.ts";

/** Nothing turns out other than planned. */
export const NO_ERRORS: ChanceErrors = {
  ...CHANCE_DEFAULTS,
  speedShare: 0,
  headingDeg: 0,
  latestStartSeconds: 0,
  currentRmsMps: 0,
  streamTotalShare: 0,
  streamPlaceMetres: 0,
  windSpeedShare: 0,
  windSpeedSharePerDay: 0,
  windDirectionDeg: 0,
  windDirectionDegPerDay: 0,
};

/** Tries one departure's order; `limits` only for their tolerations. */
export function tryOne(
  trialOf: (member: number) => Trial,
  departAt: number,
  weather: WeatherToFeel,
  errors: Partial<ChanceErrors>,
  limits: readonly Limit[] = [],
): KeptChance {
  const keeper = new DepartureKeeper(trialOf, weather);
  const kept = keeper.keep(departAt);
  const order = orderToTry(kept);
  if (order === null) throw new Error("no way arrives");
  const around = keeper.surroundings.over({ from: order.departAt, until: order.arrivalAt });
  return keepChance(tryCrossings(order, around, weather, { ...NO_ERRORS, ...errors }, limits), kept, limits);
}

export function chanceWith(
  trialOf: (member: number) => Trial,
  departAt: number,
  weather: WeatherToFeel,
  errors: Partial<ChanceErrors>,
  limits: readonly Limit[],
): Chance {
  return chanceOf(tryOne(trialOf, departAt, weather, errors, limits), limits);
}

/** The chance that a standard normal comes out below z. */
export const below = (z: number): number => normalChanceAbove(-z);

/** z of which a standard normal lies below in this share of cases, by halving. */
export function normalAt(share: number): number {
  let [low, high] = [-8, 8];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (below(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Where a falling or rising function is nought between two bounds, by halving. */
export function rootOf(of: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  const sign = Math.sign(of(a));
  for (let k = 0; k < 80; k++) {
    const middle = (a + b) / 2;
    if (Math.sign(of(middle)) === sign) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

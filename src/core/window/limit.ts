/**
 * What the boat feels from place to place along a passage. Units in the names; `thunderstormShare` is a chance, 0 to 1; `seaSteepness`
 * significant height over length, on the stream, as `seaOnCurrentMetres` is the height on it and `seaSecondsPerMetre` the period that is met
 * drifting with it over the height.
 */
export const FELT_ALONG = [
  "windMps",
  "gustMps",
  "windAgainstCurrentMps2",
  "seaHeightMetres",
  "seaPeriodSeconds",
  "seaSteepness",
  "seaOnCurrentMetres",
  "seaSecondsPerMetre",
  "visibilityMetres",
  "thunderstormShare",
  "sunAltitudeDeg",
  "eyeballSunAltitudeDeg",
  "sunOffBowDeg",
] as const;

/** What a passage has one figure of, taken whole. Units in the names; a clock is in seconds past local midnight, and runs on past 24 h. */
export const FELT_ONCE = [
  "sinceAgainstSeconds",
  "calmBeforeSeconds",
  "underKeelMetres",
  "fuelLeftLitres",
  "awakeSeconds",
  "arrivalClockSeconds",
] as const;

/** What the current makes: unknown wherever the current is. */
export const FELT_BY_CURRENT: ReadonlySet<Felt> = new Set([
  "windAgainstCurrentMps2",
  "seaSteepness",
  "seaOnCurrentMetres",
  "seaSecondsPerMetre",
]);

/** What the sea is: not known whole where a swell may run that nobody tells of. */
export const FELT_OF_SEA: ReadonlySet<Felt> = new Set([
  "seaHeightMetres",
  "seaPeriodSeconds",
  "seaSteepness",
  "seaOnCurrentMetres",
  "seaSecondsPerMetre",
]);

export type FeltAlong = (typeof FELT_ALONG)[number];
export type FeltOnce = (typeof FELT_ONCE)[number];

/** What a limit may be set on. */
export type Felt = FeltAlong | FeltOnce;

/**
 * Two numbers: at `happy` and beyond untroubled, at `never` and beyond closed. margin = (never − value) / (never − happy); the same form
 * serves minima (never below happy), the signs turn by themselves.
 */
interface TwoFigures {
  readonly happy: number;
  readonly never: number;
}

/** A limit judged at every place of a part of the passage. */
export interface LimitAlong extends TwoFigures {
  readonly felt: FeltAlong;
  /** Where it is judged: along the whole passage, in open water only, or from the arrival point to the berth. */
  readonly during: "wholePassage" | "openWater" | "arrival";
  /** How long an exceedance may last before it counts, seconds. */
  readonly toleratedSeconds: number;
}

/** A limit on one figure of the whole passage. */
export interface LimitOnce extends TwoFigures {
  readonly felt: FeltOnce;
  readonly during: "once";
  /** Nothing that stands once can last. */
  readonly toleratedSeconds: 0;
  /** Of `calmBeforeSeconds`: wind up to this counts as calm, m/s. */
  readonly calmMps?: number;
}

/** A limit the skipper sets. */
export type Limit = LimitAlong | LimitOnce;

const ONCE: ReadonlySet<Felt> = new Set(FELT_ONCE);

/** Whether a limit is on one figure of the whole passage. */
export function isOnce(limit: Limit): limit is LimitOnce {
  return ONCE.has(limit.felt);
}

/** A limit whose *never* lies above its *happy* is bad when the value is high: the worse end is the high one. */
export function isMaximum(limit: Limit): boolean {
  return limit.never > limit.happy;
}

/** The margin of one value under a limit. Throws when *happy* and *never* are one figure: there is no margin between them then. */
export function marginOf(limit: Limit, value: number): number {
  if (limit.never === limit.happy) throw new Error(`a limit on ${limit.felt} without room: happy and never are both ${limit.never}`);
  return (limit.never - value) / (limit.never - limit.happy);
}

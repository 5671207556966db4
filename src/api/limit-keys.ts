import { knotsFromMps, MPS_PER_KNOT, nmFromMetres, SECONDS_PER_HOUR } from "../core/units/index.ts";
import type { Felt, Limit } from "../core/window/index.ts";
import { rounded } from "./instant.ts";

/** The names limits go by outside the core, with their units. */
export const LIMIT_KEYS = {
  windMps: "windKn",
  gustMps: "gustKn",
  windAgainstCurrentMps2: "windAgainstCurrentKn2",
  seaHeightMetres: "seaHeightMetres",
  seaPeriodSeconds: "seaPeriodSeconds",
  seaSteepness: "seaSteepness",
  seaOnCurrentMetres: "seaOnCurrentMetres",
  seaSecondsPerMetre: "seaSecondsPerMetre",
  visibilityMetres: "visibilityNm",
  thunderstormShare: "thunderstormPercent",
  sunAltitudeDeg: "sunAltitudeDeg",
  eyeballSunAltitudeDeg: "eyeballSunAltitudeDeg",
  sunOffBowDeg: "sunOffBowDeg",
  sinceAgainstSeconds: "sinceAgainstHours",
  calmBeforeSeconds: "calmBeforeHours",
  underKeelMetres: "underKeelMetres",
  fuelLeftLitres: "fuelLeftLitres",
  awakeSeconds: "awakeHours",
  arrivalClockSeconds: "arrivalClockHours",
} as const satisfies Readonly<Record<Felt, string>>;

export type LimitKey = (typeof LIMIT_KEYS)[keyof typeof LIMIT_KEYS];

/** A limit's key with its unit: `gustKn`. */
export function limitKey(limit: Limit): LimitKey {
  return LIMIT_KEYS[limit.felt];
}

/** A limit's value in the unit of its key. */
export function limitValue(limit: Limit, value: number): number {
  switch (limit.felt) {
    case "windMps":
    case "gustMps":
      return rounded(knotsFromMps(value), 2);
    case "windAgainstCurrentMps2":
      return rounded(value / (MPS_PER_KNOT * MPS_PER_KNOT), 2);
    case "visibilityMetres":
      return rounded(nmFromMetres(value), 2);
    case "seaSteepness":
      return rounded(value, 4);
    case "thunderstormShare":
      return rounded(100 * value, 2);
    case "sinceAgainstSeconds":
    case "calmBeforeSeconds":
    case "awakeSeconds":
    case "arrivalClockSeconds":
      return rounded(value / SECONDS_PER_HOUR, 3);
    default:
      return rounded(value, 2);
  }
}

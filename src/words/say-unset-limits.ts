import { FELT_ALONG, FELT_ONCE, type Felt, type Limit } from "../core/window/index.ts";
import { feltName } from "./say-felt.ts";

/** What the passage file calls a limit. */
export const LIMIT_NAMES: Readonly<Record<Felt, string>> = {
  windMps: "wind",
  gustMps: "gust",
  windAgainstCurrentMps2: "windAgainstCurrent",
  seaHeightMetres: "seaHeight",
  seaPeriodSeconds: "seaPeriod",
  seaSteepness: "seaSteepness",
  seaOnCurrentMetres: "seaOnCurrent",
  seaSecondsPerMetre: "seaPeriodToHeight",
  visibilityMetres: "visibility",
  thunderstormShare: "thunderstorms",
  sunAltitudeDeg: "lightAtArrival",
  eyeballSunAltitudeDeg: "eyeball",
  sunOffBowDeg: "eyeball",
  sinceAgainstSeconds: "sinceAgainst",
  calmBeforeSeconds: "calmBefore",
  underKeelMetres: "underKeel",
  fuelLeftLitres: "fuelLeft",
  awakeSeconds: "hoursAwake",
  arrivalClockSeconds: "bedtime",
};

/** The limits that the skipper has not set, by their keys in the passage file; empty where all are. */
export function unsetLimitsInWords(limits: readonly Limit[]): string {
  const set = new Set(limits.map(({ felt }) => LIMIT_NAMES[felt]));
  const unset = [...FELT_ALONG, ...FELT_ONCE].filter((felt) => !set.has(LIMIT_NAMES[felt]));
  // Two limits of one key are told once.
  const told = unset.filter((felt, i) => unset.findIndex((one) => LIMIT_NAMES[one] === LIMIT_NAMES[felt]) === i);
  return told.length === 0
    ? ""
    : `No limit is set on ${told.map((felt) => `${feltName(felt)} (${LIMIT_NAMES[felt]})`).join(", ")}: not judged. docs/passage.md has figures to start from, and says where they come from.`;
}

import { METRES_PER_FOOT, MPS_PER_KNOT, MPS_PER_MPH, SECONDS_PER_HOUR } from "../../core/units/index.ts";

const speeds: Readonly<Record<string, number>> = {
  "m/s": 1,
  mps: 1,
  "cm/s": 0.01,
  "mm/s": 0.001,
  "km/h": 1000 / SECONDS_PER_HOUR,
  kmh: 1000 / SECONDS_PER_HOUR,
  kph: 1000 / SECONDS_PER_HOUR,
  kn: MPS_PER_KNOT,
  kt: MPS_PER_KNOT,
  kts: MPS_PER_KNOT,
  knot: MPS_PER_KNOT,
  knots: MPS_PER_KNOT,
  "nmile/h": MPS_PER_KNOT,
  mph: MPS_PER_MPH,
  "ft/s": METRES_PER_FOOT,
};
const lengths: Readonly<Record<string, number>> = { m: 1, cm: 0.01, km: 1000, ft: METRES_PER_FOOT };
const durations: Readonly<Record<string, number>> = { s: 1, min: 60, h: SECONDS_PER_HOUR };

/** What a quantity is measured in, and the factor to SI from a unit as a file spells it; null for a unit that isn't one of the kind. */
export function factorToSi(units: string, kind: "speed" | "length" | "duration"): number | null {
  const table = kind === "speed" ? speeds : kind === "length" ? lengths : durations;
  const word = plain(units);
  return Object.hasOwn(table, word) ? table[word]! : null;
}

/** The factor to degrees from a unit of direction as a file spells it; null for any other unit. */
export function factorToDegrees(units: string): number | null {
  const word = units.toLowerCase().trim();
  if (/^(?:°|deg|degs|degree|degrees)(?:[ _-]*(?:t|true|from[ _]n(?:orth)?|true[ _]north|clockwise from (?:true )?north))?\.?$/.test(word))
    return 1;
  return /^rad(?:ian)?s?$/.test(word) ? 180 / Math.PI : null;
}

/** "meters second**-1", "m.s-1", "Metres per second" and the like become "m/s". */
function plain(units: string): string {
  const words = units
    .toLowerCase()
    .trim()
    .replace(/\*\*|\^/g, "")
    .replace(/\s*(?:\bper\b|\/)\s*/g, "/")
    .replace(/\bcenti(?:metre|meter)s?\b/g, "cm")
    .replace(/\b(?:metre|meter)s?\b/g, "m")
    .replace(/\bkilo(?:metre|meter)s?\b/g, "km")
    .replace(/\b(?:foot|feet)\b/g, "ft")
    .replace(/\b(?:seconds?|secs?)(?=\b|-)/g, "s")
    .replace(/\b(?:hours?|hrs?)(?=\b|-)/g, "h")
    .replace(/\b(?:minutes?|mins)\b/g, "min");
  return words.replace(/^(\w+?)[\s.*·]*\b(s|h)-1$/, "$1/$2");
}

/** A unit written only in the long name: "eastward_sea_water_velocity (m/s)". Empty where there is none. */
export function unitsInLongName(longName: string): string {
  return /[([]([^()[\]]+)[)\]]\s*$/.exec(longName)?.[1]?.trim() ?? "";
}

import { calculateMagneticField } from "magvar";
import { type EpochSeconds, epochSeconds, type Interval } from "../units/index.ts";
import { type Position, positionOf } from "./position.ts";

/** The magnetic model in use. Variation from a chart, or typed, overrules it. */
export const VARIATION_MODEL = "WMM2025";

/** First seconds of the years 2025 to 2030, UTC. */
const YEAR_STARTS = [1735689600, 1767225600, 1798761600, 1830297600, 1861920000, 1893456000] as const;
const FIRST_YEAR = 2025;

/** When the model holds: 2025.0 to 2030.0 (NCEI and BGS, World Magnetic Model 2025). */
export const VARIATION_MODEL_HOLDS: Interval = { from: epochSeconds(YEAR_STARTS[0]), until: epochSeconds(YEAR_STARTS[5]) };

/**
 * Horizontal field below which a compass is not to be relied on at all, and below which only with caution: the model's blackout and
 * caution zones about the magnetic poles (NCEI and BGS, World Magnetic Model technical report).
 */
export const BLACKOUT_NANOTESLA = 2000;
export const CAUTION_NANOTESLA = 6000;

/** The main field at a place: angles in degrees (variation east positive, dip down positive), intensities in nanotesla. */
export interface MagneticField {
  readonly variationDeg: number;
  readonly dipDeg: number;
  readonly northNanotesla: number;
  readonly eastNanotesla: number;
  readonly downNanotesla: number;
  readonly horizontalNanotesla: number;
  readonly totalNanotesla: number;
}

/** The variation, east positive, or why there is none: then headings are true, and whoever prints them says so. */
export type Variation =
  | { readonly ok: true; readonly variationDeg: number; readonly caution: boolean }
  | { readonly ok: false; readonly code: "variation-model-years"; readonly holds: Interval }
  | { readonly ok: false; readonly code: "variation-field-weak"; readonly horizontalNanotesla: number };

/** The year with its fraction, as the model counts time, or null outside its years. */
function modelYear(at: EpochSeconds): number | null {
  for (let i = 0; i + 1 < YEAR_STARTS.length; i++) {
    const start = YEAR_STARTS[i]!;
    const next = YEAR_STARTS[i + 1]!;
    if (at >= start && at < next) return FIRST_YEAR + i + (at - start) / (next - start);
  }
  return null;
}

/**
 * The main field of WMM2025 at a decimal year in [2025, 2030), at `heightMetres` above the ellipsoid. Angles come rounded to 0.01°,
 * intensities to 0.1 nT. Throws outside the model's years: `variationAt` is the door that answers.
 */
export function magneticField(decimalYear: number, position: Position, heightMetres = 0): MagneticField {
  const at = positionOf(position.latitudeDeg, position.longitudeDeg);
  if (!(decimalYear >= FIRST_YEAR && decimalYear < FIRST_YEAR + YEAR_STARTS.length - 1)) {
    throw new Error(`${VARIATION_MODEL} does not hold in ${decimalYear}`);
  }
  const field = calculateMagneticField(decimalYear, at.latitudeDeg, at.longitudeDeg, heightMetres / 1000);
  return {
    variationDeg: field.declination,
    dipDeg: field.inclination,
    northNanotesla: field.x,
    eastNanotesla: field.y,
    downNanotesla: field.z,
    horizontalNanotesla: field.h,
    totalNanotesla: field.f,
  };
}

/**
 * The magnetic variation at an instant and place, degrees, east positive, at sea level; `caution` where the horizontal field is weak.
 * Outside the model's years, and where the field is too weak to steer by, there is none.
 */
export function variationAt(at: EpochSeconds, position: Position): Variation {
  const year = modelYear(at);
  if (year === null) return { ok: false, code: "variation-model-years", holds: VARIATION_MODEL_HOLDS };
  const field = magneticField(year, position);
  if (field.horizontalNanotesla < BLACKOUT_NANOTESLA) {
    return { ok: false, code: "variation-field-weak", horizontalNanotesla: field.horizontalNanotesla };
  }
  return { ok: true, variationDeg: field.variationDeg, caution: field.horizontalNanotesla < CAUTION_NANOTESLA };
}

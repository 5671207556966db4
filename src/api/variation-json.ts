import { meaningOf } from "../core/answers/index.ts";
import type { Variation } from "../core/earth/index.ts";
import { VARIATION_MODEL, VARIATION_MODEL_HOLDS } from "../core/earth/index.ts";
import { iso, rounded } from "./instant.ts";

/** The variation at a place and instant (UTC epoch seconds), east positive. */
export interface VariationAnswer {
  readonly at: number;
  readonly place: { readonly latitudeDeg: number; readonly longitudeDeg: number };
  readonly variation: Variation;
  /** How it changes in a year, east positive; null where the model has none to compare. */
  readonly changePerYearDeg: number | null;
}

/** The magnetic variation as JSON, `athwart.variation/1`. */
export function variationJson({ at, place, variation, changePerYearDeg }: VariationAnswer) {
  return {
    schema: "athwart.variation/1" as const,
    at: iso(at),
    place: { latitudeDeg: rounded(place.latitudeDeg, 6), longitudeDeg: rounded(place.longitudeDeg, 6) },
    model: VARIATION_MODEL,
    modelHolds: { from: iso(VARIATION_MODEL_HOLDS.from), until: iso(VARIATION_MODEL_HOLDS.until) },
    variationDeg: variation.ok ? rounded(variation.variationDeg, 2) : null,
    changePerYearDeg: changePerYearDeg === null ? null : rounded(changePerYearDeg, 2),
    caution: variation.ok ? variation.caution : null,
    why: variation.ok ? null : { code: variation.code, meaning: meaningOf(variation.code).meaning },
  };
}

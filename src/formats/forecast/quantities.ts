import type { GridQuantity } from "../../core/fields/index.ts";

/** Fields that belong together in one grid. */
export interface QuantityGroup {
  readonly name: "current" | "wind" | "gust" | "sea height" | "sea period";
  readonly quantities: readonly GridQuantity[];
  readonly unit: "speed" | "length" | "duration";
  /** Values outside can't be and are taken as missing. */
  readonly least: number;
  readonly greatest: number;
}

/**
 * What no sea or wind has: bounds that only catch unmarked fills and wrong units, well beyond the records. The swiftest tidal stream
 * known runs near 11 m/s and the strongest gust measured was 113 m/s (World Meteorological Organization, Barrow Island, 1996); the highest
 * significant wave height measured 19 m (the same, North Atlantic, 2013). The room above is common practice.
 */
export const quantityGroups: readonly QuantityGroup[] = [
  { name: "current", quantities: ["currentEastMps", "currentNorthMps"], unit: "speed", least: -12, greatest: 12 },
  { name: "wind", quantities: ["windEastMps", "windNorthMps"], unit: "speed", least: -120, greatest: 120 },
  { name: "gust", quantities: ["gustMps"], unit: "speed", least: 0, greatest: 150 },
  { name: "sea height", quantities: ["seaHeightMetres"], unit: "length", least: 0, greatest: 40 },
  { name: "sea period", quantities: ["seaPeriodSeconds"], unit: "duration", least: 0, greatest: 60 },
];

/** The group of a quantity. */
export function groupOf(quantity: GridQuantity): QuantityGroup {
  const group = quantityGroups.find((one) => one.quantities.includes(quantity));
  if (!group) throw new Error(`no group holds ${quantity}`);
  return group;
}

/** The quantity in words. */
export const wordsOf: Readonly<Record<GridQuantity, string>> = {
  currentEastMps: "current toward the east",
  currentNorthMps: "current toward the north",
  windEastMps: "wind toward the east",
  windNorthMps: "wind toward the north",
  gustMps: "gust",
  seaHeightMetres: "significant height of the sea",
  seaPeriodSeconds: "period of the sea",
};

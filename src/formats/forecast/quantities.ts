import type { GridQuantity, SeaSystem } from "../../core/fields/index.ts";

/** Fields that belong together in one grid. */
export interface QuantityGroup {
  /** In words, for people; each group has its own. */
  readonly name: string;
  readonly quantities: readonly GridQuantity[];
  /** `none`: a direction's vector, which has no unit. */
  readonly unit: "speed" | "length" | "duration" | "none";
  /** Values outside can't be and are taken as missing. */
  readonly least: number;
  readonly greatest: number;
  /** Values beyond this have hardly been met with: they are used, and told. */
  readonly doubtfulBeyond: number;
}

/** The sea and its parts in words. */
export const seaWords: Readonly<Record<SeaSystem, string>> = {
  sea: "sea",
  windSea: "wind sea",
  swell: "swell",
  secondSwell: "second swell",
  thirdSwell: "third swell",
};

const seaSystems: readonly SeaSystem[] = ["sea", "windSea", "swell", "secondSwell", "thirdSwell"];

/**
 * What no sea or wind has: bounds that only catch unmarked fills and wrong units, well beyond the records. The swiftest tidal stream
 * known runs near 11 m/s and the strongest gust measured was 113 m/s (World Meteorological Organization, Barrow Island, 1996); the highest
 * significant wave height measured 19 m (the same, North Atlantic, 2013). The room above is common practice, and so is what is doubted:
 * no current forecast that skippers get has 6 m/s in it.
 */
export const quantityGroups: readonly QuantityGroup[] = [
  { name: "current", quantities: ["currentEastMps", "currentNorthMps"], unit: "speed", least: -12, greatest: 12, doubtfulBeyond: 6 },
  { name: "wind", quantities: ["windEastMps", "windNorthMps"], unit: "speed", least: -120, greatest: 120, doubtfulBeyond: 90 },
  { name: "gust", quantities: ["gustMps"], unit: "speed", least: 0, greatest: 120, doubtfulBeyond: 100 },
  ...seaSystems.flatMap((system): QuantityGroup[] => [
    {
      name: `${seaWords[system]} height`,
      quantities: [`${system}HeightMetres`],
      unit: "length",
      least: 0,
      greatest: 40,
      doubtfulBeyond: 20,
    },
    {
      name: `${seaWords[system]} period`,
      quantities: [`${system}PeriodSeconds`],
      unit: "duration",
      least: 0,
      greatest: 60,
      doubtfulBeyond: 40,
    },
    {
      name: `${seaWords[system]} direction`,
      quantities: [`${system}TowardEast`, `${system}TowardNorth`],
      unit: "none",
      least: -1.001,
      greatest: 1.001,
      doubtfulBeyond: 1.001,
    },
  ]),
];

const groups: ReadonlyMap<GridQuantity, QuantityGroup> = new Map(
  quantityGroups.flatMap((group) => group.quantities.map((quantity) => [quantity, group] as const)),
);

/** The group of a quantity. */
export function groupOf(quantity: GridQuantity): QuantityGroup {
  const group = groups.get(quantity);
  if (!group) throw new Error(`no group holds ${quantity}`);
  return group;
}

const vectorWords: ReadonlyMap<GridQuantity, string> = new Map([
  ["currentEastMps", "current toward the east"],
  ["currentNorthMps", "current toward the north"],
  ["windEastMps", "wind toward the east"],
  ["windNorthMps", "wind toward the north"],
  ["seaHeightMetres", "significant height of the sea"],
]);

/** The quantity in words. */
export function wordsOf(quantity: GridQuantity): string {
  return vectorWords.get(quantity) ?? groupOf(quantity).name;
}

import type { Nature, SeaSystem } from "../../core/fields/index.ts";
import type { GribProduct, GribSurface } from "../grib/index.ts";
import type { FieldRole } from "./roles.ts";

/** A product that serves: as what, and the less the rank the better it does so among several. */
interface Parameter {
  readonly discipline: number;
  readonly category: number;
  readonly number: number;
  readonly on: (level: GribSurface) => boolean;
  readonly natures: readonly Nature[];
  readonly role: FieldRole;
  readonly rank: number;
}

/** Fixed surfaces, WMO code table 4.5. */
const GROUND_OR_WATER_SURFACE = 1;
const MEAN_SEA_LEVEL = 101;
const HEIGHT_ABOVE_GROUND = 103;
const DEPTH_BELOW_SEA_LEVEL = 160;
const DEPTH_BELOW_WATER_SURFACE = 161;
const ORDERED_SEQUENCE = 241;

const atTenMetres = (level: GribSurface): boolean => level.type === HEIGHT_ABOVE_GROUND && level.value === 10;
const atSurface = (level: GribSurface): boolean => level.type === GROUND_OR_WATER_SURFACE;
const atDepthNought = (level: GribSurface): boolean =>
  (level.type === DEPTH_BELOW_SEA_LEVEL || level.type === DEPTH_BELOW_WATER_SURFACE) && level.value === 0;
const onWater = (level: GribSurface): boolean => atSurface(level) || atDepthNought(level);
const onSea = (level: GribSurface): boolean => onWater(level) || level.type === MEAN_SEA_LEVEL;
/** The n-th of several swells: wave models number them as an ordered sequence (common practice of the US centre). */
const nth =
  (n: number) =>
  (level: GribSurface): boolean =>
    level.type === ORDERED_SEQUENCE && level.value === n;

/** The greatest east component and the greatest north component of an hour make no wind: components serve as they are or as a mean. */
const VECTOR: readonly Nature[] = ["instant", "meanSincePrevious"];
const SCALAR: readonly Nature[] = ["instant", "meanSincePrevious", "maximumSincePrevious"];
/** A gust averaged over hours is no gust. */
const GUST: readonly Nature[] = ["instant", "maximumSincePrevious"];

type Row = readonly [number: number, role: FieldRole, rank: number];

const parametersOf = (
  discipline: number,
  category: number,
  on: (level: GribSurface) => boolean,
  natures: readonly Nature[],
  rows: readonly Row[],
): Parameter[] => rows.map(([number, role, rank]) => ({ discipline, category, number, on, natures, role, rank }));

const WIND: readonly (readonly [number, FieldRole])[] = [
  [0, "windFromDeg"],
  [1, "windSpeedMps"],
  [2, "windEastMps"],
  [3, "windNorthMps"],
];

/** The swells' rows: height, mean period, peak period, direction. */
const swell = (system: SeaSystem): Row[] => [
  [8, `${system}HeightMetres`, 0],
  [9, `${system}PeriodSeconds`, 0],
  [36, `${system}PeriodSeconds`, 1],
  [7, `${system}FromDeg`, 0],
];

/**
 * WMO code table 4.2: discipline 0 meteorology (category 2 momentum), discipline 10 oceanography (0 waves, 1 currents). Wave models give
 * their 10 m wind at the surface, and some centres the gust (common practice): both serve where there is none at 10 m. A period is the
 * mean of the whole sea before that of its primary part and that of the spectrum's peak; these are the table's words, and some centres
 * send the peak's period as the primary mean (common practice). Swells one by one are numbered as a sequence, or have numbers of their
 * own (47 to 55). The direction of a current is taken as that toward which it sets
 * (common practice of oceanography; the table doesn't say).
 */
const PARAMETERS: readonly Parameter[] = [
  ...parametersOf(
    0,
    2,
    atTenMetres,
    VECTOR,
    WIND.map(([number, role]) => [number, role, 0]),
  ),
  ...parametersOf(
    0,
    2,
    atSurface,
    VECTOR,
    WIND.map(([number, role]) => [number, role, 1]),
  ),
  ...parametersOf(0, 2, atTenMetres, GUST, [[22, "gustMps", 0]]),
  ...parametersOf(0, 2, atSurface, GUST, [[22, "gustMps", 1]]),
  ...parametersOf(10, 1, onWater, VECTOR, [
    [0, "currentTowardDeg", 0],
    [1, "currentSpeedMps", 0],
    [2, "currentEastMps", 0],
    [3, "currentNorthMps", 0],
  ]),
  ...parametersOf(10, 0, onSea, SCALAR, [
    [3, "seaHeightMetres", 0],
    [15, "seaPeriodSeconds", 0],
    [28, "seaPeriodSeconds", 1],
    [11, "seaPeriodSeconds", 2],
    [34, "seaPeriodSeconds", 3],
    [5, "windSeaHeightMetres", 0],
    [6, "windSeaPeriodSeconds", 0],
    [35, "windSeaPeriodSeconds", 1],
  ]),
  ...parametersOf(10, 0, onSea, VECTOR, [
    [14, "seaFromDeg", 0],
    [10, "seaFromDeg", 1],
    [4, "windSeaFromDeg", 0],
  ]),
  ...parametersOf(10, 0, onSea, ["instant", "meanSincePrevious"], swell("swell")),
  ...parametersOf(
    10,
    0,
    nth(1),
    ["instant"],
    swell("swell").map(([number, role, rank]) => [number, role, rank + 2]),
  ),
  ...parametersOf(10, 0, nth(2), ["instant"], swell("secondSwell")),
  ...parametersOf(10, 0, nth(3), ["instant"], swell("thirdSwell")),
  ...parametersOf(
    10,
    0,
    onSea,
    ["instant"],
    [
      [47, "swellHeightMetres", 4],
      [48, "secondSwellHeightMetres", 1],
      [49, "thirdSwellHeightMetres", 1],
      [50, "swellPeriodSeconds", 4],
      [51, "secondSwellPeriodSeconds", 1],
      [52, "thirdSwellPeriodSeconds", 1],
      [53, "swellFromDeg", 4],
      [54, "secondSwellFromDeg", 1],
      [55, "thirdSwellFromDeg", 1],
    ],
  ),
];

/** What a product serves as, and how well among several (0 best). */
export interface GribRole {
  readonly role: FieldRole;
  readonly rank: number;
}

/**
 * What the product is to us, by its numbers and its level; null where it is nothing that is used, on another level, in a layer, or a
 * statistic that can't stand for it (a least, a sum, the greatest of a component).
 */
export function roleOf(product: GribProduct): GribRole | null {
  const nature = natureOf(product);
  if (product.secondLevel !== null || nature === null) return null;
  const found = PARAMETERS.find((one) => isNumbered(one, product) && one.on(product.level) && one.natures.includes(nature));
  return found === undefined ? null : { role: found.role, rank: found.rank };
}

/** Whether the product would serve if it stood on the right level, at an instant. */
export const servesSomehow = (product: GribProduct): boolean => PARAMETERS.some((one) => isNumbered(one, product));

/** What the values mean over time; null for statistics that stand for no state of the sea or air. */
export function natureOf(product: GribProduct): Nature | null {
  if (product.statistic === null) return "instant";
  if (product.statistic.process === "maximum") return "maximumSincePrevious";
  return product.statistic.process === "mean" ? "meanSincePrevious" : null;
}

const isNumbered = (one: Parameter, product: GribProduct): boolean =>
  one.discipline === product.discipline && one.category === product.category && one.number === product.number;

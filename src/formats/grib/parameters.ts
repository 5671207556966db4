import type { GridQuantity, Nature } from "../../core/fields/index.ts";
import type { GribProduct, GribSurface } from "./grib-field.ts";

/**
 * Which period a sea period is: of the spectrum's peak, the mean of the whole sea, or the mean of its primary part. These are the WMO
 * table's words; some centres send the peak's period as the primary mean (common practice).
 */
export type SeaPeriodKind = "peak" | "mean" | "primaryMean";

interface Parameter {
  readonly discipline: number;
  readonly category: number;
  readonly number: number;
  readonly on: (level: GribSurface) => boolean;
  readonly natures: readonly Nature[];
  readonly quantity: GridQuantity;
  readonly period?: SeaPeriodKind;
}

/** Fixed surfaces, WMO code table 4.5. */
const GROUND_OR_WATER_SURFACE = 1;
const MEAN_SEA_LEVEL = 101;
const HEIGHT_ABOVE_GROUND = 103;
const DEPTH_BELOW_SEA_LEVEL = 160;
const DEPTH_BELOW_WATER_SURFACE = 161;

const atTenMetres = (level: GribSurface): boolean => level.type === HEIGHT_ABOVE_GROUND && level.value === 10;
const atSurface = (level: GribSurface): boolean => level.type === GROUND_OR_WATER_SURFACE;
/** Some centres give the gust at the surface, others at 10 m; both mean the gust a mast's anemometer feels (common practice). */
const forGust = (level: GribSurface): boolean => atTenMetres(level) || atSurface(level);
const atDepthNought = (level: GribSurface): boolean =>
  (level.type === DEPTH_BELOW_SEA_LEVEL || level.type === DEPTH_BELOW_WATER_SURFACE) && level.value === 0;
const forCurrent = (level: GribSurface): boolean => atSurface(level) || atDepthNought(level);
const forSea = (level: GribSurface): boolean => atSurface(level) || level.type === MEAN_SEA_LEVEL || atDepthNought(level);

/** The greatest east component and the greatest north component of an hour make no wind: components serve as they are or as a mean. */
const COMPONENT: readonly Nature[] = ["instant", "meanSincePrevious"];
const SCALAR: readonly Nature[] = ["instant", "meanSincePrevious", "maximumSincePrevious"];
/** A gust averaged over hours is no gust. */
const GUST: readonly Nature[] = ["instant", "maximumSincePrevious"];

/** WMO code table 4.2: discipline 0 meteorology (2 momentum), discipline 10 oceanography (0 waves, 1 currents). */
const PARAMETERS: readonly Parameter[] = [
  { discipline: 0, category: 2, number: 2, on: atTenMetres, natures: COMPONENT, quantity: "windEastMps" },
  { discipline: 0, category: 2, number: 3, on: atTenMetres, natures: COMPONENT, quantity: "windNorthMps" },
  { discipline: 0, category: 2, number: 22, on: forGust, natures: GUST, quantity: "gustMps" },
  { discipline: 10, category: 1, number: 2, on: forCurrent, natures: COMPONENT, quantity: "currentEastMps" },
  { discipline: 10, category: 1, number: 3, on: forCurrent, natures: COMPONENT, quantity: "currentNorthMps" },
  { discipline: 10, category: 0, number: 3, on: forSea, natures: SCALAR, quantity: "seaHeightMetres" },
  { discipline: 10, category: 0, number: 11, on: forSea, natures: SCALAR, quantity: "seaPeriodSeconds", period: "primaryMean" },
  { discipline: 10, category: 0, number: 15, on: forSea, natures: SCALAR, quantity: "seaPeriodSeconds", period: "mean" },
  { discipline: 10, category: 0, number: 34, on: forSea, natures: SCALAR, quantity: "seaPeriodSeconds", period: "peak" },
];

/**
 * What the product is to us, by its numbers and its level; null where it is none of the quantities, on another level, in a layer, or a
 * statistic that can't stand for it (a least, a sum, the greatest of a component). East and north hold only once `grid.componentsAlongGrid` has been dealt with; on
 * a latitude and longitude grid they always do.
 */
export function gridQuantityOf(product: GribProduct): GridQuantity | null {
  return parameterOf(product)?.quantity ?? null;
}

/** Which period a sea period is; null where the product is none. */
export function seaPeriodKindOf(product: GribProduct): SeaPeriodKind | null {
  return parameterOf(product)?.period ?? null;
}

/** What the values mean over time; null for statistics that stand for no state of the sea or air. */
export function natureOf(product: GribProduct): Nature | null {
  if (product.statistic === null) return "instant";
  if (product.statistic.process === "maximum") return "maximumSincePrevious";
  return product.statistic.process === "mean" ? "meanSincePrevious" : null;
}

function parameterOf(product: GribProduct): Parameter | undefined {
  const nature = natureOf(product);
  if (product.secondLevel !== null || nature === null) return undefined;
  return PARAMETERS.find(
    (one) =>
      one.discipline === product.discipline &&
      one.category === product.category &&
      one.number === product.number &&
      one.on(product.level) &&
      one.natures.includes(nature),
  );
}

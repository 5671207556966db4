/**
 * Tide heights: harmonic constants summed with Schureman's node factors of each instant, highs and lows, crossings of a level, secondary
 * ports, springs and neaps. Heights in metres above a named datum, up positive; phases in degrees behind Greenwich; rates in m/s,
 * rising positive. Datums are never taken for each other.
 */
export {
  cosineShare,
  heightByCosine,
  heightByTwelfths,
  TWELFTHS_GREATEST_ERROR_SHARE,
  timeByCosine,
  twelfthsShare,
} from "./between-turns.ts";
export { type Constituent, constituents, equilibriumDeg, factorOf, findConstituent } from "./constituents.ts";
export { aboveDatum, DATUM_NAMES, type DatumOffset, NOT_CHART_DATUMS, type TideHeight } from "./datum.ts";
export { highsAndLows, type LevelCrossing, levelCrossings, type TideTurn, withoutRipples } from "./highs-and-lows.ts";
export { type LunarOrbit, lunarOrbit } from "./lunar-orbit.ts";
export { type MeanLongitudes, meanLongitudes } from "./mean-longitudes.ts";
export { buildTides, type NamedTide, type StatedStation, type StatedTide, tideNamed } from "./named-tide.ts";
export { type NodeFactor, type NodeKind, nodeFactors } from "./node-factors.ts";
export {
  type AtLevels,
  differed,
  type Level,
  type SecondaryPort,
  type SecondaryStation,
  secondaryPort,
  type TurnDifferences,
} from "./secondary-port.ts";
export { type MoonPhase, moonPhases, type SpringsOrNeaps, springsAndNeaps, type TideForm, tideForm } from "./springs-and-neaps.ts";
export { harmonicTide, secondaryTide, type Tide } from "./tide.ts";
export { type TideCurve, tideCurve } from "./tide-curve.ts";
export { knownConstants, type StationFacts, type TideConstant, type TideStation } from "./tide-station.ts";

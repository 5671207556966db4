import { type NetcdfVariable, textOf } from "../netcdf/index.ts";
import type { NetcdfFieldPlace } from "./netcdf-field.ts";
import { factorToSi } from "./units-in-file.ts";

/** A current this deep or less stands for the surface: the uppermost cells of ocean models are centred 0.5 to 5 m down (common practice). */
export const SURFACE_DEPTH_METRES = 5;
/** Winds are given at 10 m by international convention (WMO-No. 8, Guide to Instruments and Methods of Observation, part I, chapter 5). */
export const WIND_HEIGHT_METRES = 10;
/** Of a terrain-following coordinate, 0 at the surface and −1 at the bottom, what counts as the surface; or its topmost of few layers (common practice). */
const SURFACE_SIGMA = 0.05;

/** Which level to read, in words too. `oddity` is for the skipper where it isn't the usual one. */
export interface LevelChoice {
  readonly index: number;
  readonly words: string;
  readonly oddity: string | null;
}

/** Chooses the surface of a current, the 10 m level of a wind; `null` index with the reason where none can be. */
export function chooseLevel(
  name: string,
  group: string,
  place: NetcdfFieldPlace,
): LevelChoice | { readonly refused: string; readonly words: string } {
  const { levels, levelVariable, axisIndex } = place;
  if (!levels || !levelVariable) {
    if (axisIndex.vertical < 0) return { index: 0, words: "", oddity: null };
    return { refused: "its heights or depths have no values", words: "" };
  }
  const units = textOf(levelVariable.attributes, "units");
  const words = (value: number): string => `${levelVariable.name} ${Number(value.toPrecision(6))} ${units}`.trim();
  const range =
    levels.length === 1 ? words(levels[0]!) : `${levels.length} levels, ${words(levels[0]!)} to ${words(levels[levels.length - 1]!)}`;
  if (group !== "current" && group !== "wind" && group !== "gust") {
    return levels.length === 1 ? { index: 0, words: range, oddity: null } : { refused: "it is given at several levels", words: range };
  }
  const off = offOf(levelVariable, levels, group);
  let best = -1;
  let bestOff = Number.POSITIVE_INFINITY;
  off?.forEach((distance, index) => {
    if (distance < bestOff) [best, bestOff] = [index, distance];
  });
  const usual = group === "current" ? "the surface" : `${WIND_HEIGHT_METRES} m`;
  if (best >= 0 && bestOff <= 1) {
    const oddity = levels.length > 1 ? `Of the ${levels.length} levels of "${name}", ${words(levels[best]!)} is used for ${usual}.` : null;
    return { index: best, words: range, oddity };
  }
  if (levels.length > 1) return { refused: `none of its levels is known to be ${usual}`, words: range };
  return { index: 0, words: range, oddity: `"${name}" is given at ${range}, which is not known to be ${usual}; it is used as it is.` };
}

/** How far each level is from the usual one, 1 and below being near enough; null where the unit doesn't tell. */
function offOf(levelVariable: NetcdfVariable, levels: Float64Array, group: string): Float64Array | null {
  const standard = textOf(levelVariable.attributes, "standard_name");
  const isSigma = /^ocean_(sigma|s)_|^ocean_sigma\//.test(standard) || /^(s_rho|siglay|sigma)$/i.test(levelVariable.name);
  if (group === "current" && isSigma && levels.every((level) => level <= 0.001 && level >= -1.001)) {
    const near = Math.max(SURFACE_SIGMA, 1 / levels.length);
    return levels.map((level) => Math.abs(level) / near);
  }
  const toMetres = factorToSi(textOf(levelVariable.attributes, "units"), "length");
  if (toMetres === null) return null;
  return levels.map((level) => {
    const metres = level * toMetres;
    return group === "current" ? Math.abs(metres) / SURFACE_DEPTH_METRES : Math.abs(metres - WIND_HEIGHT_METRES) / 0.5;
  });
}

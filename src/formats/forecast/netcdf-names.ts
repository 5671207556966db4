import type { Nature } from "../../core/fields/index.ts";
import { type NetcdfHeader, type NetcdfVariable, numbersOf, textOf } from "../netcdf/index.ts";
import { type FlowNaming, type Frame, flowCustomaryNames, flowStandardNames } from "./netcdf-flow-names.ts";
import { waveCustomaryNames, waveStandardNames } from "./netcdf-wave-names.ts";
import type { FieldRole } from "./roles.ts";

/** What a variable is by its names. */
export interface NamedField {
  readonly role: FieldRole;
  /** How well it serves, the less the better: thousands for a part of the current only, hundreds for a standard (0), a customary (1) or a bare name (2). */
  readonly rank: number;
  readonly frame: Frame;
  /** A direction given the other way than its role has it. */
  readonly isOpposite: boolean;
  readonly tide: "whole" | "without" | "only";
}

/** Things that bear such names but are not the whole current, wind or sea. */
const SOMETHING_ELSE =
  /stokes|barotropic|geostrophic|ekman|stress|flux|tendency|error|uncertainty|anomal|deviation|variance\b(?! spectral)|sea.?ice|\bice\b|vertical(?!ly averaged)|precipitation|quality|flag|vertically (?:integrated|averaged)|depth.?(?:averaged|mean)|covariance/i;
const OF_THE_WATER = /water|ocean|\bsea\b|current|tidal|\bs rho\b|\b(?:xi|eta) (?:rho|u|v)\b/i;
const OF_THE_AIR = /wind|\bair\b|atmospher/i;
const ALONG_EAST = /\b(?:east|north)(?:ward)?\b|\bzonal\b|\bmeridional\b/i;
const ALONG_GRID =
  /\b[xy][ -](?:component|direction|velocity|wind)|\b[uv]-momentum|along.?(?:the.?)?grid|grid.?(?:relative|direction)|\b(?:xi|eta)\b/i;

/**
 * What a variable is by its names, never by its place in the file: by its standard name, else by a customary name, else, for a bare `u` or
 * `v`, by what is said around it. `doubtful` where a bare name may be wind or current; null for anything else.
 */
export function fieldByName(header: NetcdfHeader, variable: NetcdfVariable): NamedField | "doubtful" | null {
  const standard = standardNameOf(variable);
  const known = byStandardName(standard);
  if (known) return madeOf(known, 0, variable, "");
  const about = aboutOf(variable);
  if (SOMETHING_ELSE.test(about)) return null;
  const name = variable.name.toLowerCase();
  // A variable named by a standard name, without the attribute, is as good as a customary one.
  const customary = flowCustomaryNames.get(name) ?? waveCustomaryNames.get(name) ?? byStandardName(name);
  if (customary) return standard === "" || !isForeign(standard, customary.role) ? madeOf(customary, 100, variable, about) : null;
  const isEast = name === "u";
  if (!isEast && name !== "v") return null;
  const said = `${about} ${variable.dimensions.join(" ").replace(/_/g, " ")}`;
  const isWater = side(said) ?? side(["title", "source", "summary", "description"].map((key) => textOf(header.attributes, key)).join(" "));
  if (isWater === null) return "doubtful";
  const role: FieldRole = isWater ? (isEast ? "currentEastMps" : "currentNorthMps") : isEast ? "windEastMps" : "windNorthMps";
  return madeOf({ role, order: 0, frame: "unsaid" }, 200, variable, said);
}

function standardNameOf(variable: NetcdfVariable): string {
  return textOf(variable.attributes, "standard_name").toLowerCase().replace(/\s+/g, "_");
}

const aboutOf = (variable: NetcdfVariable): string =>
  [standardNameOf(variable), textOf(variable.attributes, "long_name")].join(" ").replace(/_/g, " ").trim();

const byStandardName = (name: string): FlowNaming | { role: FieldRole; order: number; isOpposite?: boolean } | undefined =>
  flowStandardNames.get(name) ?? waveStandardNames.get(name);

/** Whether a standard name that isn't in our tables speaks of something other than the customary name does: water for a wind, a depth for a height. */
function isForeign(standard: string, role: FieldRole): boolean {
  const words = standard.replace(/_/g, " ");
  if (role.startsWith("current")) return !OF_THE_WATER.test(words);
  if (role.startsWith("wind") && !role.startsWith("windSea")) return !OF_THE_AIR.test(words);
  return role === "gustMps" ? !/gust/.test(words) : !/wave|swell/.test(words);
}

function madeOf(
  naming: { role: FieldRole; order: number; isOpposite?: boolean; frame?: Frame; tide?: "without" | "only" },
  surety: 0 | 100 | 200,
  variable: NetcdfVariable,
  about: string,
): NamedField {
  return {
    role: naming.role,
    rank: surety + naming.order + (naming.tide === undefined ? 0 : naming.tide === "without" ? 1000 : 2000),
    frame: frameOf(naming.frame ?? "true", variable, about),
    isOpposite: naming.isOpposite ?? false,
    tide: naming.tide ?? "whole",
  };
}

/** The frame that the name says; where it says none, what the words around it or a GRIB flag handed on say. */
function frameOf(frame: Frame, variable: NetcdfVariable, about: string): Frame {
  if (frame !== "unsaid") return frame;
  const flag = numbersOf(variable.attributes, "GRIB_uvRelativeToGrid")?.[0];
  if (flag !== undefined) return flag === 1 ? "grid" : "true";
  if (ALONG_GRID.test(about)) return "grid";
  return ALONG_EAST.test(about) ? "true" : "unsaid";
}

/** True for water, false for air, null where words name neither or both. */
function side(words: string): boolean | null {
  const water = OF_THE_WATER.test(words);
  return water === OF_THE_AIR.test(words) ? null : water;
}

/** What the values mean over time, by `cell_methods` (CF 1.11, 7.3); null for a statistic that stands for no state of sea or air. */
export function natureByCellMethods(variable: NetcdfVariable): Nature | null {
  const method = /\b\w*time\w*\s*:\s*(?:\w+\s*:\s*)*(\w+)/i.exec(textOf(variable.attributes, "cell_methods"))?.[1]?.toLowerCase();
  if (method === undefined || method === "point") return "instant";
  if (method === "maximum") return "maximumSincePrevious";
  return method === "mean" ? "meanSincePrevious" : null;
}

/** A variable that holds data rather than describes the axes: numbers along at least two dimensions, or one with a scale or a standard name of ours. */
export function isField(variable: NetcdfVariable, coordinateNames: ReadonlySet<string>): boolean {
  if (variable.type === "char" || coordinateNames.has(variable.name)) return false;
  return (
    variable.shape.length >= 2 ||
    byStandardName(standardNameOf(variable)) !== undefined ||
    numbersOf(variable.attributes, "scale_factor") !== null
  );
}

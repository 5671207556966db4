import type { GridQuantity, Nature } from "../../core/fields/index.ts";
import { type NetcdfHeader, type NetcdfVariable, numbersOf, textOf } from "../netcdf/index.ts";

/** What a variable is, and how surely: by its standard name (0), its customary name (1), or a bare name made clear by what is said around it (2). */
export interface NamedQuantity {
  readonly quantity: GridQuantity;
  readonly rank: 0 | 1 | 2;
  readonly withoutTide: boolean;
}

/** CF standard names (CF Standard Name Table; the older spellings are its aliases). `x` and `y` are east and north on a latitude and longitude grid. */
const standardNames: ReadonlyMap<string, GridQuantity> = new Map<string, GridQuantity>([
  ["eastward_sea_water_velocity", "currentEastMps"],
  ["northward_sea_water_velocity", "currentNorthMps"],
  ["surface_eastward_sea_water_velocity", "currentEastMps"],
  ["surface_northward_sea_water_velocity", "currentNorthMps"],
  ["eastward_sea_water_velocity_assuming_no_tide", "currentEastMps"],
  ["northward_sea_water_velocity_assuming_no_tide", "currentNorthMps"],
  ["sea_water_x_velocity", "currentEastMps"],
  ["sea_water_y_velocity", "currentNorthMps"],
  ["x_sea_water_velocity", "currentEastMps"],
  ["y_sea_water_velocity", "currentNorthMps"],
  ["eastward_wind", "windEastMps"],
  ["northward_wind", "windNorthMps"],
  ["x_wind", "windEastMps"],
  ["y_wind", "windNorthMps"],
  ["wind_speed_of_gust", "gustMps"],
  ["sea_surface_wave_significant_height", "seaHeightMetres"],
  ["significant_height_of_wind_and_swell_waves", "seaHeightMetres"],
  ["sea_surface_wave_mean_period", "seaPeriodSeconds"],
  ["sea_surface_wave_period_at_variance_spectral_density_maximum", "seaPeriodSeconds"],
  ["sea_surface_wave_mean_period_from_variance_spectral_density_first_frequency_moment", "seaPeriodSeconds"],
  ["sea_surface_wave_mean_period_from_variance_spectral_density_second_frequency_moment", "seaPeriodSeconds"],
  ["sea_surface_wave_mean_period_from_variance_spectral_density_inverse_frequency_moment", "seaPeriodSeconds"],
]);

/** Names in common use for fields without a standard name, in lower case. */
const customaryNames: ReadonlyMap<string, GridQuantity> = new Map<string, GridQuantity>([
  ...["water_u", "uo", "u_current", "current_u", "ucurr", "uocn", "ssu", "u_sur", "surf_u", "water_vel_u", "eastward_current"].map(
    (name) => [name, "currentEastMps"] as const,
  ),
  ...["water_v", "vo", "v_current", "current_v", "vcurr", "vocn", "ssv", "v_sur", "surf_v", "water_vel_v", "northward_current"].map(
    (name) => [name, "currentNorthMps"] as const,
  ),
  ...["u10", "10u", "u10m", "u_10m", "air_u", "uwnd", "wind_u", "u_wind", "uwind", "ugrd10m", "ugrd_10maboveground", "u10n"].map(
    (name) => [name, "windEastMps"] as const,
  ),
  ...["v10", "10v", "v10m", "v_10m", "air_v", "vwnd", "wind_v", "v_wind", "vwind", "vgrd10m", "vgrd_10maboveground", "v10n"].map(
    (name) => [name, "windNorthMps"] as const,
  ),
  ...["gust", "fg10", "10fg", "i10fg", "wind_gust", "windgust", "gust_surface", "gustsfc"].map((name) => [name, "gustMps"] as const),
  ...["hs", "swh", "hsig", "htsgw", "htsgw_surface", "vhm0", "wvht"].map((name) => [name, "seaHeightMetres"] as const),
  ...["tp", "tm", "tm02", "tm01", "mwp", "pp1d", "vtpk", "vtm02", "perpw", "perpw_surface"].map(
    (name) => [name, "seaPeriodSeconds"] as const,
  ),
]);

/** Things that bear such names but are not the whole current, wind or sea. */
const SOMETHING_ELSE =
  /stokes|barotropic|geostrophic|stress|flux|tendency|error|uncertainty|anomal|deviation|variance\b|sea.?ice|vertical|precipitation/i;
const OF_THE_WATER = /water|ocean|\bsea\b|current|tidal/i;
const OF_THE_AIR = /wind|\bair\b|atmospher/i;

/**
 * What a variable is by its names, never by its place in the file. `doubtful` where a bare `u` or `v` may be wind or current; null for
 * anything else.
 */
export function quantityByName(header: NetcdfHeader, variable: NetcdfVariable): NamedQuantity | "doubtful" | null {
  const standard = textOf(variable.attributes, "standard_name").toLowerCase();
  const known = standardNames.get(standard);
  if (known) return { quantity: known, rank: 0, withoutTide: standard.endsWith("assuming_no_tide") };
  const about = `${standard.replace(/_/g, " ")} ${textOf(variable.attributes, "long_name").replace(/_/g, " ")}`;
  if (SOMETHING_ELSE.test(about)) return null;
  const name = variable.name.toLowerCase();
  const customary = customaryNames.get(name);
  if (customary) return { quantity: customary, rank: 1, withoutTide: false };
  const isEast = name === "u";
  if (!isEast && name !== "v") return null;
  const isWater = side(about) ?? side(["title", "source", "summary", "description"].map((key) => textOf(header.attributes, key)).join(" "));
  if (isWater === null) return "doubtful";
  const quantity = isWater ? (isEast ? "currentEastMps" : "currentNorthMps") : isEast ? "windEastMps" : "windNorthMps";
  return { quantity, rank: 2, withoutTide: false };
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
    standardNames.has(textOf(variable.attributes, "standard_name").toLowerCase()) ||
    numbersOf(variable.attributes, "scale_factor") !== null
  );
}

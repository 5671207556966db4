import type { NetcdfAttributes, NetcdfHeader, NetcdfVariable } from "./netcdf-types.ts";
import { textOf } from "./netcdf-types.ts";
import { looksLikeTimeUnits } from "./time-units.ts";

/**
 * What a dimension runs along. `lead`: time since the run; `projected`: metres on a map or degrees of a turned pole; `unknown`: nothing
 * says.
 */
export type AxisKind = "time" | "lead" | "latitude" | "longitude" | "vertical" | "member" | "projected" | "unknown";

/** One dimension of a variable. */
export interface NetcdfAxis {
  readonly dimension: string;
  readonly length: number;
  readonly kind: AxisKind;
  /** The one-dimensional variable that holds its values; null where there is none. */
  readonly coordinate: string | null;
}

const NORTH_UNITS = /^degrees?_?n(orth)?$/i;
const EAST_UNITS = /^degrees?_?e(ast)?$/i;

const kindByStandardName: ReadonlyMap<string, AxisKind> = new Map<string, AxisKind>([
  ["time", "time"],
  ["forecast_period", "lead"],
  ["latitude", "latitude"],
  ["longitude", "longitude"],
  ["depth", "vertical"],
  ["height", "vertical"],
  ["altitude", "vertical"],
  ["air_pressure", "vertical"],
  ["model_level_number", "vertical"],
  ["realization", "member"],
  ["grid_latitude", "projected"],
  ["grid_longitude", "projected"],
  ["projection_x_coordinate", "projected"],
  ["projection_y_coordinate", "projected"],
]);

const kindByAxisType: ReadonlyMap<string, AxisKind> = new Map<string, AxisKind>([
  ["time", "time"],
  ["lat", "latitude"],
  ["lon", "longitude"],
  ["height", "vertical"],
  ["pressure", "vertical"],
  ["geoz", "vertical"],
  ["ensemble", "member"],
  ["geox", "projected"],
  ["geoy", "projected"],
]);

/** Customary names, digits and underscores at their end taken off. */
const kindByName: ReadonlyMap<string, AxisKind> = new Map<string, AxisKind>([
  ...["time", "t", "valid_time", "validtime", "time_counter", "ocean_time", "mt"].map((name) => [name, "time"] as const),
  ...["lat", "lats", "latitude", "nav_lat", "y_lat", "ylat"].map((name) => [name, "latitude"] as const),
  ...["lon", "lons", "long", "longitude", "nav_lon", "x_lon", "xlon"].map((name) => [name, "longitude"] as const),
  ...["depth", "deptht", "depthu", "depthv", "lev", "level", "height", "altitude", "z", "sigma"].map((name) => [name, "vertical"] as const),
  ...["height_above_ground", "s_rho", "siglay", "siglev", "nav_lev", "isobaric", "plev", "hybrid"].map(
    (name) => [name, "vertical"] as const,
  ),
  ...["ens", "ensemble", "member", "members", "number", "realization", "realisation"].map((name) => [name, "member"] as const),
]);

/**
 * What each dimension of a variable runs along: by the units, standard name or axis attributes of its coordinate variable (CF 1.11,
 * chapter 4), and where those are missing by customary names.
 */
export function axesOf(header: NetcdfHeader, variable: NetcdfVariable): NetcdfAxis[] {
  return variable.dimensions.map((dimension, index) => {
    const coordinate = coordinateOf(header, variable, dimension);
    const kind = coordinate ? (kindOfCoordinate(coordinate) ?? kindOfName(dimension)) : kindOfName(dimension);
    return { dimension, length: variable.shape[index]!, kind: kind ?? "unknown", coordinate: coordinate?.name ?? null };
  });
}

/** The kind of a coordinate variable; null where nothing says. */
export function kindOfCoordinate(coordinate: NetcdfVariable): AxisKind | null {
  const { attributes, name } = coordinate;
  const standard = textOf(attributes, "standard_name").toLowerCase();
  const byStandardName = kindByStandardName.get(standard) ?? (/^(ocean|atmosphere)_.*coordinate/.test(standard) ? "vertical" : null);
  if (byStandardName) return byStandardName;
  const units = textOf(attributes, "units");
  if (NORTH_UNITS.test(units)) return "latitude";
  if (EAST_UNITS.test(units)) return "longitude";
  if (looksLikeTimeUnits(units)) return "time";
  return (
    kindByAxisType.get(textOf(attributes, "_CoordinateAxisType").toLowerCase()) ??
    kindByOwnName(name, units) ??
    kindByAxisLetter(attributes, units)
  );
}

function kindByAxisLetter(attributes: NetcdfAttributes, units: string): AxisKind | null {
  const letter = textOf(attributes, "axis").toUpperCase();
  if (letter === "T") return "time";
  if (letter === "Z" || /^(up|down)$/i.test(textOf(attributes, "positive"))) return "vertical";
  if (letter === "E") return "member";
  const isDegrees = /^deg(ree)?s?$/i.test(units);
  if (letter === "Y") return isDegrees ? "latitude" : "projected";
  if (letter === "X") return isDegrees ? "longitude" : "projected";
  return null;
}

function kindOfName(name: string): AxisKind | null {
  return kindByName.get(name.toLowerCase().replace(/[_\d]+$/, "")) ?? null;
}

/** What a variable with another unit measures is no time: `t` may be a temperature, `t02` a period. */
function kindByOwnName(name: string, units: string): AxisKind | null {
  const kind = kindOfName(name);
  return kind === "time" && units !== "" ? null : kind;
}

/** The coordinate variable of a dimension: of its own name, or a one-dimensional one named in `coordinates`, or one that says its kind. */
function coordinateOf(header: NetcdfHeader, variable: NetcdfVariable, dimension: string): NetcdfVariable | null {
  const isAlong = (one: NetcdfVariable | undefined): one is NetcdfVariable =>
    one?.dimensions.length === 1 && one.dimensions[0] === dimension && one.type !== "char";
  const own = header.variables.get(dimension);
  if (isAlong(own) && kindOfCoordinate(own)) return own;
  for (const name of textOf(variable.attributes, "coordinates").split(/\s+/)) {
    const named = header.variables.get(name);
    if (isAlong(named) && kindOfCoordinate(named)) return named;
  }
  for (const one of header.variables.values()) {
    const kind = isAlong(one) ? kindOfCoordinate(one) : null;
    if (kind === "latitude" || kind === "longitude" || kind === "time") return one;
  }
  return isAlong(own) ? own : null;
}

/**
 * A variable of a single value that says one thing for the whole field: the time, the height, the run. Looked for among those named in
 * the field's `coordinates` first, then in the whole file.
 */
export function scalarCoordinate(
  header: NetcdfHeader,
  variable: NetcdfVariable,
  isIt: (one: NetcdfVariable) => boolean,
): NetcdfVariable | null {
  const named = textOf(variable.attributes, "coordinates")
    .split(/\s+/)
    .map((name) => header.variables.get(name));
  for (const one of [...named, ...header.variables.values()]) {
    if (one && one.type !== "char" && one.shape.every((length) => length === 1) && isIt(one)) return one;
  }
  return null;
}

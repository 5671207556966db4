import { kindOfCoordinate, type NetcdfHeader, type NetcdfVariable, textOf } from "../netcdf/index.ts";

/** A latitude and a longitude for every node of a grid. */
export interface WrittenPair {
  readonly latitude: NetcdfVariable;
  readonly longitude: NetcdfVariable;
}

/** From a latitude's name to its longitude's: lat_rho and lon_rho, nav_lat and nav_lon, gphit and glamt, XLAT and XLONG (common practice). */
const PARTNERS: readonly (readonly [RegExp, string])[] = [
  [/latitude/i, "longitude"],
  [/lat/i, "lon"],
  [/lat/i, "long"],
  [/gphi/i, "glam"],
  [/^(y)/i, "x"],
];

/**
 * The latitudes and longitudes along two of a variable's own dimensions: those named in its `coordinates` first, then any of the file.
 * Null where there are none, or where several could be meant.
 */
export function findPlaces(header: NetcdfHeader, variable: NetcdfVariable): WrittenPair | null {
  const named = textOf(variable.attributes, "coordinates")
    .split(/\s+/)
    .flatMap((name) => header.variables.get(name) ?? []);
  return pairAmong(named, variable.dimensions) ?? pairAmong([...header.variables.values()], variable.dimensions);
}

/** The pair of latitudes and longitudes among some variables whose last two dimensions are among those given. */
export function pairAmong(variables: readonly NetcdfVariable[], dimensions: readonly string[]): WrittenPair | null {
  const of = (kind: "latitude" | "longitude"): NetcdfVariable[] =>
    variables.filter((one) => liesAlong(one, dimensions) && kindOf(one) === kind);
  const [latitudes, longitudes] = [of("latitude"), of("longitude")];
  const pairs = latitudes.flatMap((latitude) => {
    const alike = longitudes.filter((one) => one.dimensions.join() === latitude.dimensions.join());
    const partner =
      alike.find((one) => isPartner(latitude.name, one.name)) ?? (alike.length === 1 && latitudes.length === 1 ? alike[0] : undefined);
    return partner ? [{ latitude, longitude: partner }] : [];
  });
  return pairs.length === 1 ? pairs[0]! : null;
}

/** Two or more dimensions, the last two of the given ones, those before of length 1 or of time. */
function liesAlong(one: NetcdfVariable, dimensions: readonly string[]): boolean {
  if (one.type === "char" || one.dimensions.length < 2 || one.dimensions.length > 3) return false;
  const isAlong = one.dimensions.slice(-2).every((dimension) => dimensions.includes(dimension));
  return isAlong && (one.dimensions.length === 2 || one.shape[0] === 1 || /^time$/i.test(one.dimensions[0]!));
}

function kindOf(one: NetcdfVariable): "latitude" | "longitude" | null {
  const kind = kindOfCoordinate(one);
  if (kind === "latitude" || kind === "longitude") return kind;
  if (/^(xlat|gphi[tuvf]?)/i.test(one.name)) return "latitude";
  return /^(xlong|glam[tuvf]?)/i.test(one.name) ? "longitude" : null;
}

function isPartner(latitude: string, longitude: string): boolean {
  return PARTNERS.some(([from, to]) => from.test(latitude) && latitude.replace(from, to).toLowerCase() === longitude.toLowerCase());
}

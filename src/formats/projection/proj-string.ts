import { wrap180Deg } from "../../core/units/index.ts";
import type { EarthFigure, MapProjection } from "./map-projection.ts";
import { type MapBase, mercatorOf, polarOf } from "./scaled-maps.ts";

/** PROJ's parameters, "+name=value" or "+name", which many files carry (PROJ's documentation, "Cartographic projection"). */
type Parameters = ReadonlyMap<string, string>;

function parametersOf(text: string): Parameters {
  const words = text.split(/\s+/).filter((word) => word.startsWith("+"));
  return new Map(words.map((word) => [word.slice(1).split("=", 1)[0]!, word.includes("=") ? word.slice(word.indexOf("=") + 1) : ""]));
}

/** A parameter's number; null where it isn't there, NaN where it is no number. */
function numberIn(parameters: Parameters, ...names: readonly string[]): number | null {
  for (const name of names) {
    const text = parameters.get(name);
    if (text !== undefined) return text === "" ? Number.NaN : Number(text);
  }
  return null;
}

/** The projection; "plain" where latitudes and longitudes are the axes; other text for why it isn't read. */
export function projectionOfProjString(text: string): MapProjection | string {
  const parameters = parametersOf(text);
  const kind = parameters.get("proj") ?? "";
  if (kind === "longlat" || kind === "latlong") return "plain";
  if ((numberIn(parameters, "pm") ?? 0) !== 0) return "The map counts longitudes from another meridian than Greenwich.";
  if (kind === "ob_tran") return rotatedPole(parameters);
  const reader = maps.get(kind);
  if (reader === undefined) return `The map projection "${kind}" is not read.`;
  const earth = earthOf(parameters);
  if (earth === null) return "The map projection doesn't say what figure of the earth it is made on.";
  return reader(parameters, {
    earth,
    falseEastingMetres: numberIn(parameters, "x_0") ?? 0,
    falseNorthingMetres: numberIn(parameters, "y_0") ?? 0,
  });
}

const maps: ReadonlyMap<string, (parameters: Parameters, base: MapBase) => MapProjection | string> = new Map([
  ["merc", mercator],
  ["stere", stereographic],
  ["lcc", lambertConformal],
]);

/** The figure of the earth alone; null where it isn't told. */
export function earthOfProjString(text: string): EarthFigure | null {
  return earthOf(parametersOf(text));
}

function rotatedPole(parameters: Parameters): MapProjection | string {
  const inner = parameters.get("o_proj");
  if (inner !== "longlat" && inner !== "latlong") return `A turned map projection ("${inner ?? ""}") is not read.`;
  const poleLatitudeDeg = numberIn(parameters, "o_lat_p");
  if (poleLatitudeDeg === null) return "The map projection doesn't say where its turned pole lies.";
  return {
    kind: "rotatedPole",
    southPoleLatitudeDeg: -poleLatitudeDeg || 0,
    southPoleLongitudeDeg: wrap180Deg(numberIn(parameters, "lon_0") ?? 0),
    rotationDeg: -(numberIn(parameters, "o_lon_p") ?? 0) || 0,
  };
}

function mercator(parameters: Parameters, base: MapBase): MapProjection | string {
  const trueScaleLatitudeDeg = numberIn(parameters, "lat_ts");
  const scale = numberIn(parameters, "k_0", "k") ?? 1;
  return mercatorOf({ trueScaleLatitudeDeg, scale, originLongitudeDeg: numberIn(parameters, "lon_0") ?? 0 }, base);
}

function stereographic(parameters: Parameters, base: MapBase): MapProjection | string {
  return polarOf(
    {
      poleLatitudeDeg: numberIn(parameters, "lat_0"),
      trueScaleLatitudeDeg: numberIn(parameters, "lat_ts"),
      scale: numberIn(parameters, "k_0", "k") ?? 1,
      originLongitudeDeg: numberIn(parameters, "lon_0") ?? 0,
    },
    base,
  );
}

function lambertConformal(parameters: Parameters, base: MapBase): MapProjection | string {
  const first = numberIn(parameters, "lat_1");
  if (first === null) return "The Lambert map gives no standard parallel.";
  if ((numberIn(parameters, "k_0", "k") ?? 1) !== 1) return "A Lambert map with a scale of its own beside its parallels is not read.";
  const second = numberIn(parameters, "lat_2");
  return {
    kind: "lambertConformal",
    standardLatitude1Deg: first,
    standardLatitude2Deg: second ?? first,
    originLatitudeDeg: numberIn(parameters, "lat_0") ?? (second === null ? first : 0),
    originLongitudeDeg: numberIn(parameters, "lon_0") ?? 0,
    ...base,
  };
}

/** Semi-major axis and inverse flattening of the ellipsoids that grids are laid out on (PROJ's documentation, "Ellipsoids"). */
const ellipsoids: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["WGS84", [6_378_137, 298.257223563]],
  ["GRS80", [6_378_137, 298.257222101]],
  ["intl", [6_378_388, 297]],
  ["bessel", [6_377_397.155, 299.1528128]],
  ["sphere", [6_370_997, Infinity]],
]);

function earthOf(parameters: Parameters): EarthFigure | null {
  const radius = numberIn(parameters, "R");
  if (radius !== null) return { semiMajorMetres: radius, semiMinorMetres: radius };
  const named = ellipsoids.get(parameters.get("ellps") ?? parameters.get("datum") ?? "");
  const major = numberIn(parameters, "a") ?? named?.[0] ?? null;
  if (major === null) return null;
  const minor = numberIn(parameters, "b") ?? minorBy(parameters, major) ?? (named === undefined ? null : major * (1 - 1 / named[1]));
  return minor === null ? null : { semiMajorMetres: major, semiMinorMetres: minor };
}

/** The semi-minor axis by what else may stand for it: inverse flattening, flattening, eccentricity or its square. */
function minorBy(parameters: Parameters, major: number): number | null {
  const inverse = numberIn(parameters, "rf");
  if (inverse !== null) return major * (1 - 1 / inverse);
  const flattening = numberIn(parameters, "f");
  if (flattening !== null) return major * (1 - flattening);
  const eccentricity = numberIn(parameters, "e");
  const squared = eccentricity === null ? numberIn(parameters, "es") : eccentricity ** 2;
  return squared === null ? null : major * Math.sqrt(1 - squared);
}

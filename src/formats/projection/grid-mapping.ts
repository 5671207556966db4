import { wrap180Deg } from "../../core/units/index.ts";
import { faultOfProjection } from "./check-projection.ts";
import type { EarthFigure, MapProjection } from "./map-projection.ts";
import { type MappingAttributes, numberOf, numbersOf, textOf } from "./mapping-attributes.ts";
import { earthOfProjString, projectionOfProjString } from "./proj-string.ts";
import { mercatorOf, polarOf } from "./scaled-maps.ts";

/** What a grid mapping says: that latitudes and longitudes are the grid's own axes, a projection, or why it isn't read, in words. */
export type GridMapping =
  | { readonly kind: "plain" }
  | { readonly kind: "projected"; readonly projection: MapProjection }
  | { readonly kind: "notRead"; readonly reason: string };

/** Attributes in which files keep PROJ's parameters (common practice); `spatial_ref` often holds other text, which is left alone. */
const PROJ_ATTRIBUTES = ["proj4", "proj4_string", "proj4_params", "proj4text", "spatial_ref"];

/**
 * The attributes of a grid mapping variable (CF conventions 1.11, appendix F, Grid Mappings), or PROJ's parameters where they stand
 * instead. `metresPerUnit` is the unit of the grid's x and y, in which CF has false eastings; a turned pole has none. Never throws for
 * what is in the attributes.
 */
export function readGridMapping(attributes: MappingAttributes, metresPerUnit = 1): GridMapping {
  const projString = projStringIn(attributes);
  const name = textOf(attributes, "grid_mapping_name");
  const read = name === null ? null : byName(name, attributes, metresPerUnit, projString);
  const found = read ?? (projString === null ? null : projectionOfProjString(projString));
  if (found === null) return notRead(name === null ? "The grid mapping has no name." : `The grid mapping "${name}" is not read.`);
  if (found === "plain") return { kind: "plain" };
  if (typeof found === "string") return notRead(found);
  const fault = faultOfProjection(found);
  return fault === null ? { kind: "projected", projection: found } : notRead(fault);
}

const notRead = (reason: string): GridMapping => ({ kind: "notRead", reason });

function projStringIn(attributes: MappingAttributes): string | null {
  for (const name of PROJ_ATTRIBUTES) {
    const text = textOf(attributes, name);
    if (text?.startsWith("+")) return text;
  }
  return null;
}

/** Null for a name that isn't known, "plain" for no projection, other text for what is wrong. */
function byName(
  name: string,
  attributes: MappingAttributes,
  metresPerUnit: number,
  projString: string | null,
): MapProjection | string | null {
  if (name === "latitude_longitude") return "plain";
  if (name === "rotated_latitude_longitude") return rotatedPole(attributes);
  const reader = maps.get(name);
  if (reader === undefined) return null;
  const earth = earthIn(attributes) ?? (projString === null ? null : earthOfProjString(projString));
  if (earth === null) return "The grid mapping doesn't say what figure of the earth it is made on.";
  return reader(attributes, {
    earth,
    falseEastingMetres: (numberOf(attributes, "false_easting") ?? 0) * metresPerUnit,
    falseNorthingMetres: (numberOf(attributes, "false_northing") ?? 0) * metresPerUnit,
  });
}

interface Common {
  readonly earth: EarthFigure;
  readonly falseEastingMetres: number;
  readonly falseNorthingMetres: number;
}

const maps: ReadonlyMap<string, (attributes: MappingAttributes, common: Common) => MapProjection | string> = new Map([
  ["mercator", mercator],
  ["polar_stereographic", polarStereographic],
  ["stereographic", polarStereographic],
  ["lambert_conformal_conic", lambertConformal],
]);

function rotatedPole(attributes: MappingAttributes): MapProjection | string {
  const latitudeDeg = numberOf(attributes, "grid_north_pole_latitude");
  const longitudeDeg = numberOf(attributes, "grid_north_pole_longitude");
  if (latitudeDeg === null || longitudeDeg === null) return "The grid mapping doesn't say where its turned pole lies.";
  return {
    kind: "rotatedPole",
    southPoleLatitudeDeg: -latitudeDeg || 0,
    southPoleLongitudeDeg: wrap180Deg(longitudeDeg + 180),
    // The true pole's turned longitude: 0 where the turned Greenwich runs through it, as it does without a turn about the new pole.
    rotationDeg: -(numberOf(attributes, "north_pole_grid_longitude") ?? 0) || 0,
  };
}

function mercator(attributes: MappingAttributes, common: Common): MapProjection | string {
  return mercatorOf(
    {
      trueScaleLatitudeDeg: numberOf(attributes, "standard_parallel"),
      scale: numberOf(attributes, "scale_factor_at_projection_origin"),
      originLongitudeDeg: numberOf(attributes, "longitude_of_projection_origin") ?? 0,
    },
    common,
  );
}

function polarStereographic(attributes: MappingAttributes, common: Common): MapProjection | string {
  // A file may give an origin's longitude too, and be wrong in it: the upright meridian is what CF asks for.
  const longitude = numberOf(attributes, "straight_vertical_longitude_from_pole", "longitude_of_projection_origin");
  if (longitude === null) return "The grid mapping doesn't say which meridian stands upright.";
  return polarOf(
    {
      poleLatitudeDeg: numberOf(attributes, "latitude_of_projection_origin"),
      trueScaleLatitudeDeg: numberOf(attributes, "standard_parallel"),
      scale: numberOf(attributes, "scale_factor_at_projection_origin"),
      originLongitudeDeg: longitude,
    },
    common,
  );
}

function lambertConformal(attributes: MappingAttributes, common: Common): MapProjection | string {
  const [first, second] = numbersOf(attributes, "standard_parallel");
  const longitude = numberOf(attributes, "longitude_of_central_meridian");
  if (first === undefined) return "The grid mapping gives no standard parallel.";
  if (longitude === null) return "The grid mapping doesn't say which meridian stands upright.";
  const origin = numberOf(attributes, "latitude_of_projection_origin");
  if (origin === null) return "The grid mapping doesn't say at which latitude its y begins.";
  return {
    kind: "lambertConformal",
    standardLatitude1Deg: first,
    standardLatitude2Deg: second ?? first,
    originLatitudeDeg: origin,
    originLongitudeDeg: longitude,
    ...common,
  };
}

function earthIn(attributes: MappingAttributes): EarthFigure | null {
  const radius = numberOf(attributes, "earth_radius");
  if (radius !== null) return { semiMajorMetres: radius, semiMinorMetres: radius };
  const major = numberOf(attributes, "semi_major_axis");
  if (major === null) return null;
  const minor = numberOf(attributes, "semi_minor_axis");
  if (minor !== null) return { semiMajorMetres: major, semiMinorMetres: minor };
  const inverse = numberOf(attributes, "inverse_flattening");
  if (inverse === null) return null;
  // CF has nought there for a sphere.
  return { semiMajorMetres: major, semiMinorMetres: inverse === 0 ? major : major * (1 - 1 / inverse) };
}

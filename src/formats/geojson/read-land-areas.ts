import { bad, good, type Issue, issue, type Parsed } from "../../core/answers/index.ts";
import type { LandArea, LandKind } from "../../core/coast/index.ts";
import { nearestWord } from "../../core/units/index.ts";
import { joinAtAntimeridian } from "./antimeridian.ts";
import { isList, isObject, type Json, type JsonObject, shown } from "./json-value.ts";
import { readPolygon } from "./read-polygon.ts";

const KINDS: readonly LandKind[] = ["land", "keptOut"];
/** Names by which older files state WGS84 with longitude first. */
const WGS84_NAMES = /(?:CRS84|EPSG:{1,2}4326)$/i;

/** An area's name and kind, from its feature. */
interface About {
  readonly name: string | null;
  readonly kind: LandKind;
}

const NAMELESS: About = { name: null, kind: "land" };

/**
 * Reads land and kept-out areas from GeoJSON text: a FeatureCollection, a Feature or a bare geometry; Polygons, MultiPolygons and
 * collections of them. Of a feature's properties `name` and `kind` (`land`, if left out, or `keptOut`) are read. Rings may turn either
 * way and may be closed or not; pieces of one MultiPolygon that were cut apart at 180° are joined again. `name` names the file in issues.
 */
export function readLandAreas(text: string, name: string): Parsed<readonly LandArea[]> {
  let document: Json;
  try {
    document = JSON.parse(text.replace(/^\uFEFF/, "")) as Json;
  } catch (error) {
    return bad(issue(name, "land-syntax", `${name} is no JSON: ${error instanceof Error ? error.message : String(error)}`));
  }
  const reading = new Reading(name);
  reading.read(document);
  const { areas, issues } = reading;
  if (issues.length > 0) return bad(...issues);
  return areas.length > 0 ? good(areas) : bad(issue(name, "land-empty", `${name} holds no area`));
}

class Reading {
  readonly areas: LandArea[] = [];
  readonly issues: Issue[] = [];
  private readonly file: string;

  constructor(file: string) {
    this.file = file;
  }

  read(document: Json): void {
    if (!isObject(document)) {
      this.complain("", "land-shape", `${this.file} holds ${shown(document)} where a FeatureCollection belongs`);
      return;
    }
    this.checkDatum(document);
    if (document["type"] === "FeatureCollection") {
      const { features } = document;
      if (!isList(features)) this.complain("features", "land-shape", `\`features\` is ${shown(features)}, not a list`);
      else for (const [i, one] of features.entries()) this.readFeature(one, `features[${i}]`);
    } else if (document["type"] === "Feature") this.readFeature(document, "");
    else this.readGeometry(document, "", NAMELESS);
  }

  private readFeature(feature: Json, path: string): void {
    if (!isObject(feature) || feature["type"] !== "Feature") {
      this.complain(path, "land-shape", `a Feature belongs here, not ${shown(feature)}`);
      return;
    }
    const about = this.aboutOf(feature["properties"] ?? null, inside(path, "properties"));
    const { geometry } = feature;
    if (isObject(geometry)) this.readGeometry(geometry, inside(path, "geometry"), about);
    else this.complain(inside(path, "geometry"), "land-shape", `the feature has no geometry: ${shown(geometry)}`);
  }

  private aboutOf(properties: Json, path: string): About {
    if (properties === null) return NAMELESS;
    if (!isObject(properties)) {
      this.complain(path, "land-shape", `\`properties\` is ${shown(properties)}, not an object`);
      return NAMELESS;
    }
    const { name: given, kind } = properties;
    const isName = typeof given === "string" || typeof given === "number" || given === null || given === undefined;
    if (!isName) this.complain(inside(path, "name"), "land-shape", `a name is a text, not ${shown(given)}`);
    const name = typeof given === "string" && given.trim() !== "" ? given.trim() : typeof given === "number" ? String(given) : null;
    if (kind === undefined || kind === null) return { name, kind: "land" };
    const known = KINDS.find((one) => one === kind);
    if (known === undefined) {
      const near = typeof kind === "string" ? nearestWord(kind, KINDS) : null;
      const hint = near === null ? "" : `; did you mean ${near}?`;
      this.complain(inside(path, "kind"), "land-kind", `kind is ${shown(kind)}, not land or keptOut${hint}`);
    }
    return { name, kind: known ?? "land" };
  }

  private readGeometry(geometry: JsonObject, path: string, about: About, nested = false): void {
    const { type, coordinates } = geometry;
    const at = inside(path, "coordinates");
    switch (type) {
      case "Polygon":
        this.take([this.polygon(coordinates, at)], about);
        return;
      case "MultiPolygon":
        if (!isList(coordinates))
          this.complain(at, "land-shape", `a MultiPolygon's coordinates are a list of polygons, not ${shown(coordinates)}`);
        else
          this.take(
            coordinates.map((polygon, i) => this.polygon(polygon, `${at}[${i}]`)),
            about,
          );
        return;
      case "Point":
      case "MultiPoint":
      case "LineString":
      case "MultiLineString":
        this.complain(path, "land-not-an-area", `this is a ${type}${about.name === null ? "" : ` (${about.name})`}`);
        return;
      case "GeometryCollection": {
        const { geometries } = geometry;
        if (!isList(geometries) || nested)
          this.complain(path, "land-shape", "a GeometryCollection holds a list of geometries and no other collection");
        else
          geometries.forEach((one, i) => {
            const where = inside(path, `geometries[${i}]`);
            if (isObject(one)) this.readGeometry(one, where, about, true);
            else this.complain(where, "land-shape", `a geometry belongs here, not ${shown(one)}`);
          });
        return;
      }
      default:
        this.complain(path, "land-shape", `${shown(type)} is no type that GeoJSON has here`);
    }
  }

  private polygon(coordinates: Json | undefined, path: string): readonly Float64Array[] | null {
    const { rings, issues } = readPolygon(coordinates);
    for (const { place, code, message } of issues) this.complain(`${path}${place}`, code, message);
    return rings;
  }

  private take(polygons: readonly (readonly Float64Array[] | null)[], { name, kind }: About): void {
    const whole = polygons.filter((rings) => rings !== null);
    for (const rings of joinAtAntimeridian(whole)) this.areas.push({ kind, name, rings });
  }

  /** The standard knows no other datum; files of the older GeoJSON state one under `crs`. */
  private checkDatum({ crs }: JsonObject): void {
    if (crs === undefined || crs === null) return;
    const properties = isObject(crs) ? crs["properties"] : undefined;
    const name = isObject(properties) ? properties["name"] : undefined;
    if (typeof name === "string" && WGS84_NAMES.test(name)) return;
    this.complain("crs", "land-datum", `\`crs\` is ${shown(name ?? crs)}`);
  }

  private complain(path: string, code: Parameters<typeof issue>[1], message: string): void {
    this.issues.push(issue(path === "" ? this.file : `${this.file} ${path}`, code, message));
  }
}

function inside(path: string, key: string): string {
  return path === "" ? key : `${path}.${key}`;
}

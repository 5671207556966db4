import { bad, good, type Issue, issue, type Parsed } from "../answers/index.ts";
import { boxAround, type CoastFacts, type GeoBox, type Land, type LandArea, landOn } from "../coast/index.ts";
import type { Plane, Position } from "../earth/index.ts";

/** Where a passage takes its land from. */
export interface LandSources {
  /** The world's coastline that ships, or none. */
  readonly coast: "atlas" | "none";
  /** The skipper's own areas, GeoJSON files relative to the passage file. */
  readonly files: readonly string[];
}

/** What those gave. */
export interface GatheredLand {
  /** The world's coastline, to be cut to the passage's waters; null where it is not used. */
  readonly coast: { readonly facts: CoastFacts; within(box: GeoBox): readonly LandArea[] } | null;
  readonly files: readonly { readonly file: string; readonly areas: readonly LandArea[] }[];
}

/** The land that a passage is run with, and where it comes from. */
export interface PreparedLand {
  /** Null where none lies in these waters. */
  readonly onPlane: Land | null;
  /** The land alone: what is only kept out of is water, shelters from nothing and lets the wind's sea grow. */
  readonly coastOnPlane: Land | null;
  /** What it was laid from, to be drawn: the skipper's own areas, then the coastline within the plane. */
  readonly areas: readonly LandArea[];
  readonly coast: CoastFacts | null;
  readonly files: readonly string[];
}

/** Where the open water begins and ends, for telling one that lies ashore. */
export interface OpenEnds {
  readonly from: { readonly name: string; readonly position: Position };
  readonly to: { readonly name: string; readonly position: Position };
}

/** Lays what was gathered on the plane. Issues: a file with nothing in these waters, an end of the route on land. Null in, null out. */
export function prepareLand(plane: Plane, gathered: GatheredLand | null, ends: OpenEnds): Parsed<PreparedLand | null> {
  if (gathered === null) return good(null);
  const issues: Issue[] = [];
  const areas: LandArea[] = [];
  gathered.files.forEach(({ file, areas: own }, i) => {
    areas.push(...own);
    if (landOn(plane, own) === null) {
      issues.push(issue(`land.files[${i}]`, "land-far-off", `none of the ${own.length} areas in ${file} lies in the passage's waters`));
    }
  });
  const coast = gathered.coast;
  // The skipper's own areas come first: they have names.
  const all = coast === null ? areas : [...areas, ...coast.within(boxAround(plane))];
  const onPlane = landOn(plane, all);
  for (const end of ["from", "to"] as const) {
    const { name, position } = ends[end];
    const { xMetres: x, yMetres: y } = plane.toPlane(position);
    const touched = onPlane?.firstTouched(x, y, x, y);
    if (touched === undefined) continue;
    const what = touched.name ?? (touched.kind === "keptOut" ? "an area that is kept out of" : "land");
    const whose = coast !== null && touched.name === null ? `, by the world's coastline (${coast.facts.name})` : "";
    issues.push(issue(`route.${end}.position`, "place-on-land", `${name} lies on ${what}${whose}`));
  }
  if (issues.length > 0) return bad(...issues);
  const coastAreas = all.filter(({ kind }) => kind === "land");
  const coastOnPlane = coastAreas.length === all.length ? onPlane : landOn(plane, coastAreas);
  return good({ onPlane, coastOnPlane, areas: all, coast: coast?.facts ?? null, files: gathered.files.map(({ file }) => file) });
}

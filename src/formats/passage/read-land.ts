import type { LandSources } from "../../core/plan/index.ts";
import type { Cursor } from "./cursor.ts";
import { parseFileName } from "./quantities.ts";
import type { PassageData } from "./schema.ts";

/** Where the land comes from; the world's coastline is left out by itself only where the waters are invented. */
export function readLand(land: Cursor<NonNullable<PassageData["land"]>>, invented: boolean): LandSources {
  const files = land
    .at("files")
    .items()
    .map((item) => item.read(parseFileName))
    .filter((name) => name !== undefined);
  return { coast: land.at("coast").value ?? (invented ? "none" : "atlas"), files };
}

import { COAST_FACTS, readWorldCoast } from "../atlas/index.ts";
import type { Issue } from "../core/answers/index.ts";
import type { LandArea } from "../core/coast/index.ts";
import type { GatheredLand, Passage } from "../core/plan/index.ts";
import { readLandAreas } from "../formats/geojson/index.ts";
import type { NamedFiles } from "./named-files.ts";
import { readNamedText } from "./text-file.ts";

/** A land file may be longer than what a person writes: drawn or cut from a chart. Bytes. */
export const LONGEST_LAND_BYTES = 50_000_000;

/** Reads the land files that a passage names and the world's coastline if it is used; null where a passage reckons with no land at all. */
export async function gatherLand({ land }: Passage, named: NamedFiles, issues: Issue[]): Promise<GatheredLand | null> {
  if (land === undefined || (land.coast === "none" && land.files.length === 0)) return null;
  const files: { file: string; areas: readonly LandArea[] }[] = [];
  for (const [i, file] of land.files.entries()) {
    const text = await readNamedText(named, file, `land.files[${i}]`, "land file", LONGEST_LAND_BYTES);
    const areas = text.ok ? readLandAreas(text.value, file) : text;
    if (areas.ok) files.push({ file, areas: areas.value });
    else issues.push(...areas.issues);
  }
  if (land.coast === "none") return { coast: null, files };
  const coast = readWorldCoast();
  return { coast: { facts: COAST_FACTS, within: (box) => coast.within(box) }, files };
}

import { readFileSync } from "node:fs";
import { openTideStations, type TideAtlas } from "./tide-stations.ts";

let opened: TideAtlas | null = null;

/** The tide stations that ship, read from the disk when first asked for and kept. */
export function readWorldTides(): TideAtlas {
  opened ??= openTideStations(readFileSync(new URL("./data/tides.bin", import.meta.url)));
  return opened;
}

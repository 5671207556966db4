/**
 * Atlas: data that ships with the program, read here and handed to the core as values. The world's coastline: land polygons in
 * degrees, longitude first, cut to a box; and tide stations: the nearest to a position, their constants, their tides. Facts of resolution
 * and date go with them. `data/NOTICE.md` says where the data comes from and
 * under which licence it stands.
 */
export { type Coast, openCoast } from "./coast.ts";
export { COAST_FACTS } from "./coast-facts.ts";
export { TIDE_FACTS } from "./tide-facts.ts";
export {
  type AtlasStation,
  type AtlasTold,
  type NearStation,
  openTideStations,
  type StationDoubt,
  type TideAtlas,
} from "./tide-stations.ts";
export { readWorldTides } from "./tide-world.ts";
export { readWorldCoast } from "./world-coast.ts";

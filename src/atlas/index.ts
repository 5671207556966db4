/**
 * Atlas: data that ships with the program, read here and handed to the core as values. Now the world's coastline: land polygons in
 * degrees, longitude first, cut to a box. Facts of resolution and date go with it. `data/NOTICE.md` says where the data comes from and
 * under which licence it stands.
 */
export { type Coast, openCoast } from "./coast.ts";
export { COAST_FACTS } from "./coast-facts.ts";
export { readWorldCoast } from "./world-coast.ts";

/**
 * GeoJSON (RFC 7946): the skipper's own land and hazards, areas with a name and a kind, into the core's land areas. Positions are
 * longitude, then latitude, in degrees on WGS84, as the standard has it; heights are passed over. Everything that is wrong with a file
 * is told at once.
 */
export { readLandAreas } from "./read-land-areas.ts";

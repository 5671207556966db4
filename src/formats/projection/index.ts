/**
 * Map projections of grids: between a forecast grid's own x and y and places on the earth. x and y in metres on the map, or degrees for a
 * turned pole; places in degrees, north and east. Where true north lies on the map is told too, so that winds along the grid can be turned.
 */
export { faultOfProjection } from "./check-projection.ts";
export { chooseWindow, type GridWindow, type NodeRange, type PlaceBox } from "./choose-window.ts";
export { type GridMapping, readGridMapping } from "./grid-mapping.ts";
export * from "./map-projection.ts";
export type { MappingAttributes } from "./mapping-attributes.ts";
export { type NodePlaces, placesOfNodes } from "./places-of-nodes.ts";
export type { Projector } from "./projector.ts";
export { projectorOf } from "./projector-of.ts";
export { trueFromGridInto } from "./turn-vector.ts";

/**
 * GRIB: the World Meteorological Organization's form for gridded fields (Manual on Codes, volume I.2, FM 92 GRIB, editions 1 and 2). A file is
 * read message by message through a `ByteSource`; every length is held against the file before it is used. Values come out in the
 * units of the WMO's tables (SI), rows from the south, columns from the west, longitudes unwrapped. What is not read is said, never
 * guessed.
 *
 * Usage: `for await (const item of readGribFields(source)) …`, then `await decodeGribField(source, field)`.
 */
export { decodeGribField } from "./decode-field.ts";
export { FieldRoom } from "./field-room.ts";
export * from "./grib-field.ts";
export { axesOf, type GridAxes } from "./grids/axes.ts";
export { type MapAxes, mapAxesOf, nodesOf } from "./grids/nodes.ts";
export { MAX_FIELDS_IN_MESSAGE, MAX_GRIB_POINTS, MAX_UNREADABLE_MESSAGES } from "./limits.ts";
export { looksLikeGrib, readGribFields } from "./read-fields.ts";
export { type Grib2Grid, type Grib2Message, type Grib2Scan, writeGrib2Message } from "./write-grib2.ts";

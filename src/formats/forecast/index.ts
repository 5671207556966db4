/**
 * Forecast and current files, whatever their form, as `GridData`: recognised by their bytes, fields found by their standard numbers or
 * names, times joined, components paired, cropped to the passage. Values are SI, motions toward, east and north true; times seconds of the
 * UTC epoch. Everything a file holds is told in its contents, used or not, and everything odd in words.
 */

export { MOST_VALUES } from "./allowance.ts";
export * from "./forecast-reading.ts";
export { type JoinedReadings, joinReadings } from "./join-readings.ts";
export { SURFACE_DEPTH_METRES, WIND_HEIGHT_METRES } from "./netcdf-levels.ts";
export { groupOf, type QuantityGroup, quantityGroups } from "./quantities.ts";
export { type ForecastRequest, readForecast } from "./read-forecast.ts";
export { type FileKind, recogniseFile } from "./recognise.ts";

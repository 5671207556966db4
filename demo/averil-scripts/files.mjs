// @ts-check
/** The files of Averil Sound that are made, each from the models and the project's own writers. */
import { landText } from "./land-file.mjs";
import { seaFile } from "./sea-file.mjs";
import { windFile } from "./wind-file.mjs";

/**
 * Name and bytes of each file of `demo/averil/` that is made rather than written by hand.
 * @param {{ writeGrib2Message: (message: import("../shared/grib-grid.mjs").Grib2Message) => Uint8Array }} writers
 * @returns {[string, Uint8Array][]}
 */
export function averilFiles({ writeGrib2Message }) {
  return [
    ["wind.grib2", windFile(writeGrib2Message)],
    ["sea.grib2", seaFile(writeGrib2Message)],
    ["land.geojson", new TextEncoder().encode(landText())],
  ];
}

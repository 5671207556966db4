// @ts-check
/** The files that are made, each from the models and the project's own writers. */
import { currentFile } from "./current-file.mjs";
import { landText } from "./land-file.mjs";
import { letterText } from "./letter.mjs";
import { windFile } from "./wind-file.mjs";

/** @typedef {import("./current-file.mjs").Writer & { writeGrib2Message: (message: import("./wind-file.mjs").Grib2Message) => Uint8Array }} Writers */

/**
 * Name and bytes of each file of `demo/morrel/` that is made rather than written by hand.
 * @param {Writers} writers
 * @returns {[string, Uint8Array][]}
 */
export function demoFiles({ writeGrib2Message, writeNetcdfClassic, packShorts }) {
  return [
    ["current.nc", currentFile({ writeNetcdfClassic, packShorts })],
    ["wind.grib2", windFile(writeGrib2Message)],
    ["land.geojson", new TextEncoder().encode(landText())],
    ["letter.txt", new TextEncoder().encode(letterText())],
  ];
}

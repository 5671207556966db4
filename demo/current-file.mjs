// @ts-check
/** `current.nc`: the surface current every three hours on a grid of a twelfth of a degree, after the CF conventions; land is missing. */
import { isLand } from "./land.mjs";
import { leadHours, placeOf } from "./strait.mjs";
import { currentAt } from "./stream.mjs";

/** @typedef {import("../src/formats/netcdf/index.ts").NetcdfToWrite} NetcdfToWrite */
/** @typedef {{ writeNetcdfClassic: (file: NetcdfToWrite) => Uint8Array, packShorts: typeof import("../src/formats/netcdf/index.ts").packShorts }} Writer */

const PER_DEGREE = 12;
export const CURRENT_GRID = { southTwelfths: -419, northTwelfths: -388, westTwelfths: -1438, eastTwelfths: -1406 };
const SCALE = 0.001;
const FILL = -32768;
const SINCE_RUN = "hours since 2027-04-06 12:00:00";

/**
 * The whole file.
 * @param {Writer} writer
 * @returns {Uint8Array}
 */
export function currentFile({ writeNetcdfClassic, packShorts }) {
  const leads = leadHours();
  const latitudes = twelfths(CURRENT_GRID.southTwelfths, CURRENT_GRID.northTwelfths);
  const longitudes = twelfths(CURRENT_GRID.westTwelfths, CURRENT_GRID.eastTwelfths);
  const east = [];
  const north = [];
  /** @type {number[]} */
  const missing = [];
  for (const lead of leads) {
    for (const latitudeDeg of latitudes) {
      for (const longitudeDeg of longitudes) {
        const dry = isLand(placeOf({ latitudeDeg, longitudeDeg }));
        const { eastMps, northMps } = dry ? { eastMps: 0, northMps: 0 } : currentAt({ latitudeDeg, longitudeDeg }, lead);
        east.push(eastMps);
        north.push(northMps);
        missing.push(dry ? 1 : 0);
      }
    }
  }
  /** @param {number[]} values */
  const packed = (values) => packShorts(values, { scale: SCALE, offset: 0, fill: FILL, missing });
  return writeNetcdfClassic({
    version: 1,
    dimensions: [
      { name: "time", length: "records" },
      { name: "latitude", length: latitudes.length },
      { name: "longitude", length: longitudes.length },
    ],
    attributes: {
      Conventions: "CF-1.11",
      title: "The Morrel Stream, invented, for demonstration",
      comment: "No such water exists. Not for navigation.",
      source: "demo/stream.mjs",
    },
    variables: [
      {
        name: "forecast_reference_time",
        dimensions: [],
        attributes: { standard_name: "forecast_reference_time", units: SINCE_RUN, calendar: "standard" },
        values: Int32Array.of(0),
      },
      coordinate("latitude", "degrees_north", "Y", latitudes),
      coordinate("longitude", "degrees_east", "X", longitudes),
      {
        name: "time",
        dimensions: ["time"],
        attributes: { standard_name: "time", units: SINCE_RUN, calendar: "standard", axis: "T" },
        values: Int32Array.from(leads),
      },
      component("uo", "eastward_sea_water_velocity", packed(east)),
      component("vo", "northward_sea_water_velocity", packed(north)),
    ],
  });
}

/**
 * @param {string} name
 * @param {string} units
 * @param {string} axis
 * @param {Float64Array} values
 */
function coordinate(name, units, axis, values) {
  return { name, dimensions: [name], attributes: { standard_name: name, units, axis }, values };
}

/**
 * @param {string} name
 * @param {string} standardName
 * @param {Int16Array} values
 */
function component(name, standardName, values) {
  return {
    name,
    dimensions: ["time", "latitude", "longitude"],
    attributes: {
      standard_name: standardName,
      long_name: standardName.replaceAll("_", " "),
      units: "m s-1",
      _FillValue: Int16Array.of(FILL),
      scale_factor: SCALE,
      coordinates: "forecast_reference_time",
    },
    values,
  };
}

/**
 * Degrees from one twelfth to another.
 * @param {number} first
 * @param {number} last
 */
function twelfths(first, last) {
  return Float64Array.from({ length: last - first + 1 }, (_, i) => (first + i) / PER_DEGREE);
}

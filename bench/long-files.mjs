// @ts-check
// Forecast files of any length, written piece by piece: one message or record over and over, each with its own time. All lie over the demo's waters.
import { closeSync, openSync, writeSync } from "node:fs";
import { deflateSync } from "node:zlib";
import { writeGrib2Message } from "../dist/formats/grib/index.js";
import { writeNetcdfClassic } from "../dist/formats/netcdf/index.js";
import { madeField } from "./made-field.mjs";

/** @typedef {import("../dist/core/units/index.js").EpochSeconds} EpochSeconds */

const RUN_AT = /** @type {EpochSeconds} */ (Date.UTC(2027, 3, 6, 12) / 1000);
const SINCE_RUN = "hours since 2027-04-06 12:00:00";
const HOUR = 3600;
const HOURS_APART = 3;
/** Edges of the WMO's templates 4.0 and 4.1, counted from 0. */
const PARAMETER_AT = 10;
const FORECAST_TIME_AT = 18;
const LEVEL_AT = 22;
const MEMBER_AT = 35;
/** u and v, code table 4.2. */
const WIND = [2, 3];
/** 10 m above ground, then pressures (code table 4.5), Pa. */
const LEVELS = [[103, 10], ...[1000, 925, 850, 700, 600, 500, 400, 300, 250, 200, 150, 100, 50, 10].map((hPa) => [100, hPa * 100])];

/** @typedef {{ readonly rows: number, readonly columns: number, readonly southDeg: number, readonly westDeg: number, readonly stepDeg: number }} Grid */

/**
 * GRIB edition 2, simple packing, 16 bits: east and north wind every three hours, for each of the members, at 10 m and so many pressures
 * above. Gives how many messages there are.
 * @param {string} path
 * @param {number} leastBytes
 * @param {Grid} grid
 * @param {{ members: number, pressures: number }} settings
 */
export function writeLongGrib(path, leastBytes, { rows, columns, southDeg, westDeg, stepDeg }, { members, pressures }) {
  const message = writeGrib2Message({
    centre: 255,
    referenceAt: RUN_AT,
    discipline: 0,
    category: 2,
    number: WIND[0] ?? 0,
    level: { type: 103, value: 10 },
    validFrom: /** @type {EpochSeconds} */ (RUN_AT + HOUR),
    ensemble: members > 1 ? { kindCode: 3, perturbationNumber: 1, forecastsInEnsemble: members } : null,
    grid: { rows, columns, southDeg, westDeg, latitudeStepDeg: stepDeg, longitudeStepDeg: stepDeg },
    values: madeField(rows, columns),
    decimalScale: 0,
    binaryScale: -10,
  });
  const view = new DataView(message.buffer, message.byteOffset, message.byteLength);
  const product = sectionAt(view, 4);
  const file = openSync(path, "w");
  let messages = 0;
  for (let time = 0; messages * message.length < leastBytes; time++) {
    view.setUint32(product + FORECAST_TIME_AT, time * HOURS_APART);
    for (let member = 1; member <= members; member++) {
      if (members > 1) view.setUint8(product + MEMBER_AT, member);
      for (const [type, value] of LEVELS.slice(0, 1 + pressures)) {
        view.setUint8(product + LEVEL_AT, type ?? 0);
        view.setUint32(product + LEVEL_AT + 2, value ?? 0);
        for (const parameter of WIND) {
          view.setUint8(product + PARAMETER_AT, parameter);
          writeSync(file, message);
          messages++;
        }
      }
    }
  }
  closeSync(file);
  return messages;
}

/** @param {DataView} message @param {number} number */
function sectionAt(message, number) {
  let at = 16;
  while (message.getUint8(at + 4) !== number) at += message.getUint32(at);
  return at;
}

/**
 * NetCDF classic with offsets of 64 bits: a current in shorts, a record an hour. Gives how many records there are.
 * @param {string} path
 * @param {number} leastBytes
 * @param {Grid} grid
 */
export function writeLongClassic(path, leastBytes, grid) {
  const short = classicOf(grid, 1);
  const longer = classicOf(grid, 2);
  const recordBytes = longer.length - short.length;
  const head = short.subarray(0, short.length - recordBytes);
  const record = short.slice(head.length);
  const hours = new DataView(record.buffer);
  const records = Math.ceil(leastBytes / recordBytes);
  // The number of records stands behind the signature and the version.
  new DataView(head.buffer, head.byteOffset).setUint32(4, records);
  const file = openSync(path, "w");
  writeSync(file, head);
  for (let hour = 0; hour < records; hour++) {
    // `time` is the first variable of a record.
    hours.setInt32(0, hour);
    writeSync(file, record);
  }
  closeSync(file);
  return records;
}

/** @param {Grid} grid @param {number} records */
function classicOf(grid, records) {
  const field = packed(grid);
  const whole = new Int16Array(records * field.length);
  for (let record = 0; record < records; record++) whole.set(field, record * field.length);
  /** @param {string} name @param {string} standardName */
  const component = (name, standardName) => ({
    name,
    dimensions: ["time", "latitude", "longitude"],
    attributes: { standard_name: standardName, units: "m s-1", scale_factor: SCALE, _FillValue: Int16Array.of(-32768) },
    values: whole,
  });
  return writeNetcdfClassic({
    version: 2,
    dimensions: [
      { name: "time", length: "records" },
      { name: "latitude", length: grid.rows },
      { name: "longitude", length: grid.columns },
    ],
    attributes: { Conventions: "CF-1.11", title: "made for measuring" },
    variables: [
      { name: "latitude", dimensions: ["latitude"], attributes: { units: "degrees_north" }, values: latitudes(grid) },
      { name: "longitude", dimensions: ["longitude"], attributes: { units: "degrees_east" }, values: longitudes(grid) },
      { name: "time", dimensions: ["time"], attributes: { units: SINCE_RUN }, values: Int32Array.from({ length: records }, (_, i) => i) },
      component("uo", "eastward_sea_water_velocity"),
      component("vo", "northward_sea_water_velocity"),
    ],
  });
}

const SCALE = 0.001;

/** A current of up to 2 m/s in whole mm/s. @param {Grid} grid */
const packed = ({ rows, columns }) => Int16Array.from(madeField(rows, columns), (value) => Math.round((value / 10) * (1 / SCALE)));
/** @param {Grid} grid */
const latitudes = ({ rows, southDeg, stepDeg }) => Float64Array.from({ length: rows }, (_, i) => southDeg + i * stepDeg);
/** @param {Grid} grid */
const longitudes = ({ columns, westDeg, stepDeg }) => Float64Array.from({ length: columns }, (_, i) => westDeg + i * stepDeg);

/**
 * NetCDF-4: a current in shorts, a chunk a component and hour, packed by deflate or not at all. Gives how many hours there are.
 * @param {string} path
 * @param {number} leastBytes
 * @param {Grid} grid
 * @param {{ deflate: boolean }} packing
 */
export async function writeLongNetcdf4(path, leastBytes, grid, { deflate }) {
  const h5wasm = await import("h5wasm/node");
  await h5wasm.ready;
  const field = packed(grid);
  const { rows, columns } = grid;
  const chunkBytes = deflate ? deflateSync(field, { level: 1 }).length : field.byteLength;
  const hours = Math.ceil(leastBytes / (2 * chunkBytes));
  const file = new h5wasm.File(path, "w", { track_order: true });
  try {
    const axes = /** @type {const} */ ([
      ["time", Float64Array.from({ length: hours }, (_, i) => i), SINCE_RUN],
      ["latitude", latitudes(grid), "degrees_north"],
      ["longitude", longitudes(grid), "degrees_east"],
    ]);
    axes.forEach(([name, data, units], id) => {
      const axis = file.create_dataset({ name, data });
      axis.create_attribute("units", units);
      axis.make_scale(name);
      axis.create_attribute("_Netcdf4Dimid", id, [], "<i");
    });
    for (const [name, standardName] of [
      ["uo", "eastward_sea_water_velocity"],
      ["vo", "northward_sea_water_velocity"],
    ]) {
      const component = file.create_dataset({
        name: name ?? "",
        data: field,
        dtype: "<h",
        shape: [1, rows, columns],
        maxshape: [null, rows, columns],
        chunks: [1, rows, columns],
        ...(deflate ? { compression: "gzip", compression_opts: 1 } : {}),
      });
      component.resize([hours, rows, columns]);
      for (let hour = 1; hour < hours; hour++) component.write_slice([[hour, hour + 1], [], []], field);
      axes.forEach(([axis], index) => void component.attach_scale(index, axis));
      component.create_attribute("standard_name", standardName ?? "");
      component.create_attribute("units", "m s-1");
      component.create_attribute("scale_factor", SCALE, [1], "<d");
      component.create_attribute("_FillValue", -32768, [1], "<h");
    }
  } finally {
    file.close();
  }
  return hours;
}

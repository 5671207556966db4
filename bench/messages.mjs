// @ts-check
// One message of a million points for each packing.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { writeGrib2Message } from "../dist/formats/grib/index.js";
import { madeField, madeLand, SIDE } from "./made-field.mjs";
import { packComplex, section } from "./pack-complex.mjs";

/**
 * @typedef {object} Sample
 * @property {string} name
 * @property {string} path
 * @property {number | null} goal speed as part of ecCodes'; null where there is no goal
 */

const REFERENCE_AT = Date.UTC(2027, 3, 6, 12) / 1000;
/** Of values in whole centimetres a second, as complex packing has them here. */
const CENTI = 2;

/**
 * Writes the messages into a folder. Those that only ecCodes can write are left out where it is not there.
 * @param {string} folder
 * @param {import("./eccodes.mjs").Eccodes | null} eccodes
 * @returns {Promise<readonly Sample[]>}
 */
export async function writeSamples(folder, eccodes) {
  const values = madeField(SIDE, SIDE);
  /** @type {Sample[]} */
  const samples = [];
  /** @param {string} name @param {number | null} goal @param {Uint8Array} message */
  const write = (name, goal, message) => {
    const path = join(folder, `${samples.length}.grib`);
    writeFileSync(path, message);
    samples.push({ name, path, goal });
    return path;
  };
  const from = write("simple, 16 bits", 0.7, simple(values, 16));
  for (const bits of [8, 12, 24]) write(`simple, ${bits} bits`, 0.7, simple(values, bits));
  write("simple, 16 bits, bitmap", 0.7, simple(values, 16, madeLand(SIDE, SIDE)));
  const orders = /** @type {const} */ ([
    [0, "complex"],
    [1, "complex, first differences"],
    [2, "complex, second differences"],
  ]);
  for (const [order, name] of orders) write(name, 0.9, complex(values, order));
  write("IEEE, 32 bits", null, ieee(values));
  if (eccodes === null) return samples;
  const packed = /** @type {const} */ ([
    ["CCSDS, 12 bits", 0.4, { packingType: "grid_ccsds", bitsPerValue: 12 }],
    ["CCSDS, 16 bits", 0.4, { packingType: "grid_ccsds", bitsPerValue: 16 }],
    ["PNG, 16 bits", null, { packingType: "grid_png", bitsPerValue: 16 }],
    ["JPEG 2000, 12 bits", 0.4, { packingType: "grid_jpeg", bitsPerValue: 12 }],
    ["edition 1, simple, 16 bits", 0.7, { edition: 1 }],
  ]);
  for (const [name, goal, settings] of packed) {
    const path = join(folder, `${samples.length}.grib`);
    await eccodes.repack(from, path, settings);
    samples.push({ name, path, goal });
  }
  return samples;
}

/**
 * @param {Float64Array} values
 * @param {number} bits
 * @param {Uint8Array | null} missing
 */
function simple(values, bits, missing = null) {
  const span = values.reduce((a, b) => Math.max(a, b)) - values.reduce((a, b) => Math.min(a, b));
  const grid = { rows: SIDE, columns: SIDE, southDeg: -39, westDeg: -124, latitudeStepDeg: 0.01, longitudeStepDeg: 0.01 };
  const message = writeGrib2Message({
    // As edition 1 has room for: none.
    centre: 255,
    referenceAt: /** @type {import("../dist/core/units/index.js").EpochSeconds} */ (REFERENCE_AT),
    discipline: 0,
    category: 2,
    number: 2,
    level: { type: 103, value: 10 },
    validFrom: /** @type {import("../dist/core/units/index.js").EpochSeconds} */ (REFERENCE_AT + 3600),
    grid,
    values,
    missing,
    decimalScale: 0,
    binaryScale: Math.ceil(Math.log2(span / (2 ** bits - 2))),
  });
  const took = sectionsOf(message).get(5)?.[19];
  if (took !== bits) throw new Error(`a message of ${bits} bits a value has ${took}`);
  return message;
}

/** @param {Float64Array} values @param {0 | 1 | 2} order */
function complex(values, order) {
  const least = Math.floor(values.reduce((a, b) => Math.min(a, b)));
  const numbers = Int32Array.from(values, (value) => Math.round((value - least) * 10 ** CENTI));
  const { section5, section7 } = packComplex(southLast(numbers), { order, reference: least * 10 ** CENTI, decimalScale: CENTI });
  return withSections(simple(values, 16), section5, section7);
}

/** Packing 5.4, precision 1. @param {Float64Array} values */
function ieee(values) {
  const head = new DataView(new ArrayBuffer(7));
  head.setUint32(0, values.length);
  head.setUint16(4, 4);
  head.setUint8(6, 1);
  const data = new DataView(new ArrayBuffer(4 * values.length));
  southLast(values).forEach((value, i) => void data.setFloat32(4 * i, value));
  return withSections(simple(values, 16), section(5, new Uint8Array(head.buffer)), section(7, new Uint8Array(data.buffer)));
}

/**
 * The rows as the messages here have them, from the north.
 * @template {Float64Array | Int32Array} T
 * @param {T} rows
 * @returns {T}
 */
function southLast(rows) {
  const turned = rows.slice();
  for (let row = 0; row < SIDE; row++) turned.set(rows.subarray(row * SIDE, (row + 1) * SIDE), (SIDE - 1 - row) * SIDE);
  return /** @type {T} */ (turned);
}

/** @param {Uint8Array} message @returns {Map<number, Uint8Array>} */
function sectionsOf(message) {
  const view = new DataView(message.buffer, message.byteOffset, message.byteLength);
  const sections = new Map();
  for (let at = 16; at < message.length - 4; at += view.getUint32(at)) {
    sections.set(message[at + 4], message.subarray(at, at + view.getUint32(at)));
  }
  return sections;
}

/**
 * The message with other sections 5 and 7.
 * @param {Uint8Array} message
 * @param {Uint8Array} section5
 * @param {Uint8Array} section7
 */
function withSections(message, section5, section7) {
  const sections = sectionsOf(message).set(5, section5).set(7, section7);
  const parts = [message.slice(0, 16), ...sections.values(), message.slice(-4)];
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  new DataView(whole.buffer).setBigUint64(8, BigInt(whole.length));
  return whole;
}
